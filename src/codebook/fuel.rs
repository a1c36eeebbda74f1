//! What is published of each fuel gas.

use super::{Marked, Source};
use crate::job::Fuel;
use crate::units::HeatingValue;

/// The usual figures of a fuel, taken where the supplier's are not known.
#[derive(Clone, Debug, PartialEq)]
pub struct FuelFacts {
    /// The fuel.
    pub fuel: Fuel,
    /// Specific gravity to air, dimensionless.
    pub specific_gravity: Marked<f64>,
    /// Gross heating value.
    pub heating_value: Marked<HeatingValue>,
    /// The factor Cr of the published equations, which gathers gravity, temperature and viscosity; dimensionless.
    pub cr: Marked<f64>,
    /// The factor Y of the high-pressure equation, for compressibility; dimensionless.
    pub y: Marked<f64>,
    /// Dynamic viscosity in centipoise.
    pub viscosity_cp: Marked<f64>,
    /// Where the figures come from.
    pub source: Source,
}

//! What burns.

use crate::units::HeatingValue;

/// A kind of fuel gas.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fuel {
    /// Natural gas.
    #[default]
    Natural,
    /// Undiluted propane.
    Propane,
}

impl Fuel {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Fuel::Natural => "natural gas",
            Fuel::Propane => "propane",
        }
    }

    /// The valve by which all gas of a building is shut off (common practice, no source).
    pub const fn main_valve(self) -> &'static str {
        match self {
            Fuel::Natural => "shutoff valve",
            Fuel::Propane => "tank or cylinder valve",
        }
    }
}

/// The fuel, and what the supplier says of it. What is not said is the codebook's usual figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gas {
    /// The kind.
    pub fuel: Fuel,
    /// Specific gravity to air, where the supplier gives one.
    pub specific_gravity: Option<f64>,
    /// Gross heating value, where the supplier gives one.
    pub heating_value: Option<HeatingValue>,
}

//! What is published of each fuel gas.

use super::asset::Asset;
use super::sheet::Sheet;
use super::{CodebookError, Marked, Source};
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

impl FuelFacts {
    pub(super) fn read(asset: Asset) -> Result<Vec<FuelFacts>, CodebookError> {
        let sheet = Sheet::read(asset)?;
        let source = sheet.source()?;
        let fuels = sheet.records().map(|record| {
            Ok(FuelFacts {
                fuel: match record.text("fuel")? {
                    "natural" => Fuel::Natural,
                    "propane" => Fuel::Propane,
                    other => return Err(record.fault(format!("`{other}` is not a fuel"))),
                },
                specific_gravity: record.known("specific_gravity")?,
                heating_value: record.known("btu_per_ft3")?.map(HeatingValue::from_btu_per_ft3),
                cr: record.known("cr")?,
                y: record.known("y")?,
                viscosity_cp: record.known("viscosity_cp")?,
                source,
            })
        });
        fuels.collect()
    }
}

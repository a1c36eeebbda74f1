//! Classes of appliances: usual inputs for when no rating plate is known, and what each class needs.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Mark};
use crate::units::HeatRate;

/// A class of appliances. The rating plate rules wherever it is known.
#[derive(Clone, Debug, PartialEq)]
pub struct ApplianceClass {
    /// Its name: "built-in grill".
    pub name: &'static str,
    /// What else it is called: "tankless water heater".
    pub also: Vec<&'static str>,
    /// The low end of usual inputs.
    pub low: HeatRate,
    /// The high end of usual inputs.
    pub high: HeatRate,
    /// The input to take when nothing is known.
    pub usual: HeatRate,
    /// How sure the inputs are.
    pub mark: Mark,
    /// Where the inputs come from.
    pub source: &'static str,
    /// Whether a sediment trap belongs before it.
    pub trap: Trap,
    /// Where it usually stands.
    pub place: UsualPlace,
}

/// Whether a sediment trap belongs before an appliance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Trap {
    /// It is not among those that need none.
    Needed,
    /// The published list names it as needing none.
    Exempt,
}

/// Where an appliance usually stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum UsualPlace {
    /// In the house.
    Indoors,
    /// In the open.
    Outdoors,
    /// In either.
    Either,
}

impl ApplianceClass {
    pub(super) fn read_all(asset: Asset) -> Result<Vec<ApplianceClass>, CodebookError> {
        Sheet::read(asset)?.records().map(ApplianceClass::read).collect()
    }

    fn read(record: Record<'_>) -> Result<ApplianceClass, CodebookError> {
        Ok(ApplianceClass {
            name: record.text("class")?,
            also: record.text("also")?.split(", ").filter(|name| *name != "-").collect(),
            low: HeatRate::from_btuh(record.number("low_btuh")?),
            high: HeatRate::from_btuh(record.number("high_btuh")?),
            usual: HeatRate::from_btuh(record.number("usual_btuh")?),
            mark: record.mark()?,
            source: record.text("source")?,
            trap: match record.text("trap")? {
                "needed" => Trap::Needed,
                "exempt" => Trap::Exempt,
                other => return Err(record.fault(format!("`{other}` is neither needed nor exempt"))),
            },
            place: match record.text("place")? {
                "indoors" => UsualPlace::Indoors,
                "outdoors" => UsualPlace::Outdoors,
                "either" => UsualPlace::Either,
                other => return Err(record.fault(format!("`{other}` is not a place"))),
            },
        })
    }
}

impl Codebook {
    /// All classes, in the order of the list.
    pub fn appliance_classes(&self) -> &[ApplianceClass] {
        &self.appliances
    }

    /// A class by its name, or by what else it is called.
    pub fn appliance_class(&self, name: &str) -> Option<&ApplianceClass> {
        let is_it = |known: &str| known.eq_ignore_ascii_case(name.trim());
        let mut classes = self.appliances.iter();
        classes.find(|class| is_it(class.name) || class.also.iter().any(|other| is_it(other)))
    }
}

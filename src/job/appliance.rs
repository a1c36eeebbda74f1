//! What burns the gas.

use super::StartUp;
use crate::units::{GaugePressure, HeatRate};

/// A gas appliance, by its rating plate.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Appliance {
    /// What the person calls it: "Built-in grill".
    pub name: String,
    /// A class of the codebook's appliance list ("barbecue", "side burner"), from which exemptions follow.
    pub class: Option<String>,
    /// Input on the rating plate; `None` when not known.
    pub input: Option<HeatRate>,
    /// Least inlet pressure on the rating plate.
    pub least_inlet: Option<GaugePressure>,
    /// Greatest inlet pressure on the rating plate.
    pub greatest_inlet: Option<GaugePressure>,
    /// When it burns.
    pub season: Season,
    /// What was measured when it was first lit.
    pub start_up: StartUp,
}

/// When an appliance burns: of those that heat and those that cool, only the larger group counts in a load.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Season {
    /// At any time.
    #[default]
    AllYear,
    /// Only while heating.
    Heating,
    /// Only while cooling.
    Cooling,
}

impl Season {
    /// When it is, in words.
    pub const fn name(self) -> &'static str {
        match self {
            Season::AllYear => "year-round",
            Season::Heating => "heating season",
            Season::Cooling => "cooling season",
        }
    }
}

//! Gas that a meter passed while somebody held a watch: how the input of an appliance is clocked.

use super::Flow;

/// A volume by the dial of a meter, and how long it took.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clocked {
    cubic_feet: f64,
    seconds: f64,
}

impl Clocked {
    /// From cubic feet and seconds, both greater than nothing.
    pub const fn from_ft3_and_seconds(cubic_feet: f64, seconds: f64) -> Clocked {
        Clocked { cubic_feet, seconds }
    }

    /// What the dial passed, in cubic feet.
    pub const fn cubic_feet(self) -> f64 {
        self.cubic_feet
    }

    /// How long it took, in seconds.
    pub const fn seconds(self) -> f64 {
        self.seconds
    }

    /// The flow: 3,600 × volume ÷ seconds, by the volume as the meter counts it.
    pub fn flow(self) -> Flow {
        Flow::from_cfh(3_600.0 * self.cubic_feet / self.seconds)
    }
}

//! How a profile wants pipe tested.

use super::read;
use crate::codebook::Marked;
use crate::units::GaugePressure;
use serde::Deserialize;

/// How pipe is tested for tightness.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TestRule {
    /// Test pressure as a multiple of the greatest working pressure.
    #[serde(deserialize_with = "read::marked_factor")]
    pub multiple: Marked<f64>,
    /// The least test pressure.
    pub least: Marked<GaugePressure>,
    /// The most that a gauge may read at its top, as a multiple of the test pressure.
    #[serde(deserialize_with = "read::marked_factor")]
    pub gauge_top: Marked<f64>,
    /// How long the pressure is held.
    pub hold: TestTime,
    /// What holds instead over a working pressure; `None` where one rule serves.
    #[serde(default)]
    pub above: Option<TestAbove>,
}

/// How pipe of more pressure is tested.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TestAbove {
    /// Over this working pressure.
    pub over: Marked<GaugePressure>,
    /// The least test pressure there.
    pub least: Marked<GaugePressure>,
    /// How long the pressure is held there.
    pub hold: TestTime,
}

impl TestRule {
    /// The least test pressure and the time for pipe of a working pressure.
    pub fn at(&self, working: GaugePressure) -> (Marked<GaugePressure>, &TestTime) {
        match &self.above {
            Some(above) if working.pa() > above.over.value.pa() => (above.least, &above.hold),
            _ => (self.least, &self.hold),
        }
    }
}

/// How long a test pressure is held.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum TestTime {
    /// So many minutes, whatever the pipe.
    Minutes(Marked<f64>),
    /// By the volume of the pipe.
    ByVolume {
        /// Minutes for each full or broken volume.
        minutes: Marked<f64>,
        /// That volume, in cubic feet.
        per_cubic_feet: Marked<f64>,
        /// Minutes for small systems, and for a dwelling of one family.
        small_minutes: Marked<f64>,
        /// A system is small below this volume, in cubic feet.
        small_below_cubic_feet: Marked<f64>,
    },
}

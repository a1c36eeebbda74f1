//! Angles: `45°`, `44.97°`; in files `45 deg`.

use super::{Show, UnitSystem, rounded};
use crate::units::Angle;

impl Show for Angle {
    /// To a hundredth of a degree, so that an angle that is not quite a stock one is not written like it.
    fn show(&self, _units: UnitSystem) -> String {
        format!("{}°", rounded(self.degrees(), 2))
    }

    fn exact(&self) -> String {
        format!("{} deg", self.degrees())
    }
}

//! What a meter passed in a time, as a fitter writes it.

use super::exact::written;
use super::{Show, UnitSystem, rounded};
use crate::units::Clocked;

/// Cubic meters in one cubic foot.
const M3_PER_FT3: f64 = 0.3048 * 0.3048 * 0.3048;

impl Show for Clocked {
    /// Cubic feet to two decimals, cubic meters to four; seconds to one.
    fn show(&self, units: UnitSystem) -> String {
        let seconds = rounded(self.seconds(), 1);
        match units {
            UnitSystem::Us => format!("{} ft³ in {seconds} s", rounded(self.cubic_feet(), 2)),
            UnitSystem::Metric | UnitSystem::MetricKpa => {
                format!("{} m³ in {seconds} s", rounded(self.cubic_feet() * M3_PER_FT3, 4))
            }
        }
    }

    fn exact(&self) -> String {
        format!("{} ft3 in {} s", written(self.cubic_feet()), written(self.seconds()))
    }
}

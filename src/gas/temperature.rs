//! Absolute temperature.

use crate::units::UnitSystem;

/// A temperature, held as kelvin.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

/// Degrees Rankine in one kelvin.
const RANKINE_PER_KELVIN: f64 = 1.8;
/// Degrees between absolute zero and zero Fahrenheit (NIST SP 811, App. B.8).
const FAHRENHEIT_ZERO: f64 = 459.67;

impl Temperature {
    /// 60 °F, at which the gas trade states volumes and at which pipe is taken to be.
    pub const STANDARD: Temperature = Temperature::from_fahrenheit(60.0);

    /// From kelvin.
    pub const fn from_kelvin(kelvin: f64) -> Temperature {
        Temperature(kelvin)
    }

    /// From degrees Fahrenheit, with absolute zero at −459.67 °F.
    pub const fn from_fahrenheit(degrees: f64) -> Temperature {
        Temperature::from_rankine(degrees + FAHRENHEIT_ZERO)
    }

    /// From degrees Rankine, the Fahrenheit scale counted from absolute zero.
    pub const fn from_rankine(degrees: f64) -> Temperature {
        Temperature(degrees / RANKINE_PER_KELVIN)
    }

    /// From degrees Celsius.
    pub const fn from_celsius(degrees: f64) -> Temperature {
        Temperature(degrees + 273.15)
    }

    /// Kelvin.
    pub const fn kelvin(self) -> f64 {
        self.0
    }

    /// Degrees Rankine.
    pub const fn rankine(self) -> f64 {
        self.0 * RANKINE_PER_KELVIN
    }

    /// In the degrees of a drawing: "70 °F", "21.1 °C".
    pub fn words(self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us => format!("{:.0} °F", self.rankine() - Temperature::from_fahrenheit(0.0).rankine()),
            UnitSystem::Metric | UnitSystem::MetricKpa => {
                format!("{:.1} °C", self.kelvin() - Temperature::from_celsius(0.0).kelvin())
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scales_meet_at_the_freezing_point() {
        let frost = Temperature::from_fahrenheit(32.0);
        assert!((frost.kelvin() - Temperature::from_celsius(0.0).kelvin()).abs() < 1e-9);
        assert!((frost.rankine() - 491.67).abs() < 1e-9);
    }
}

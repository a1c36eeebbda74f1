//! The air around the pipe: its density and, by altitude, its pressure.

use super::{Density, Temperature};
use crate::units::{AbsolutePressure, Length};

/// Molar gas constant, J/(mol·K) (CODATA 2018, exact).
const GAS_CONSTANT: f64 = 8.314_462_618;
/// Molar mass of dry air, kg/mol (US Standard Atmosphere 1976).
const AIR_MOLAR_MASS: f64 = 0.028_964_4;

/// Density of dry air.
///
/// `rho = p M / (R T)`, the ideal gas law: rho kg/m³, p Pa, M 0.0289644 kg/mol, R J/(mol·K), T K. Within 0.05 % of the
/// real gas at ambient pressure and temperature (1.2255 kg/m³ at 15 °C by CoolProp 8.0.0 against 1.2250 here).
/// Valid for T above zero.
pub fn air_density(temperature: Temperature, pressure: AbsolutePressure) -> Density {
    Density::from_kg_per_m3(pressure.pa() * AIR_MOLAR_MASS / (GAS_CONSTANT * temperature.kelvin()))
}

/// Mean pressure of the air at a height above sea level.
///
/// `p = 101325 (1 − 0.0065 h / 288.15)^5.25588`: p Pa, h m, the lowest layer of the International Standard Atmosphere
/// (ISO 2533). Valid from −2,000 m to 11,000 m; a height beyond is taken as that bound. Weather moves the real pressure
/// by some 3 %.
pub fn air_pressure(altitude: Length) -> AbsolutePressure {
    let h = altitude.metres().clamp(-2_000.0, 11_000.0);
    AbsolutePressure::from_pa(101_325.0 * libm::pow(1.0 - 0.0065 * h / 288.15, 5.255_88))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_at_fifteen_degrees_weighs_what_the_standard_atmosphere_says() {
        // ISO 2533: 1.225 kg/m³ at sea level.
        let rho = air_density(Temperature::from_celsius(15.0), AbsolutePressure::ATMOSPHERE);
        assert!((rho.kg_per_m3() - 1.225).abs() < 1e-4, "{rho:?}");
    }

    #[test]
    fn pressure_falls_with_altitude_as_tabulated() {
        // ISO 2533: 89,874.6 Pa at 1,000 m and 79,495.2 Pa at 2,000 m (geopotential).
        for (metres, pa) in [(0.0, 101_325.0), (1_000.0, 89_874.6), (2_000.0, 79_495.2)] {
            let p = air_pressure(Length::from_metres(metres)).pa();
            assert!((p - pa).abs() < 2.0, "{metres} m: {p}");
        }
        assert!(air_pressure(Length::from_metres(1e9)).pa() > 0.0);
    }
}

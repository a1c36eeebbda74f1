//! The weight of gas in a riser.

use super::Density;
use crate::units::{Length, PressureDrop};

/// Standard acceleration of free fall, m/s².
const GRAVITY: f64 = 9.806_65;

/// Change of gauge pressure over a rise: a loss when positive.
///
/// `dP = −(rho_air − rho_gas) g h`: dP Pa, rho kg/m³, g 9.80665 m/s², h m, positive upward (hydrostatics of the gas
/// inside and of the air outside). Gas lighter than air gains gauge pressure as it rises, propane loses. Valid for the
/// height of a building, over which neither density changes by more than 1 %.
///
/// Computed figures: −0.573 in w.c. for 100 ft of rise of natural gas of SG 0.60 at 7 in w.c., +0.735 for propane of
/// SG 1.50.
pub fn elevation_loss(gas: Density, air: Density, rise: Length) -> PressureDrop {
    PressureDrop::from_pa((gas.kg_per_m3() - air.kg_per_m3()) * GRAVITY * rise.metres())
}

#[cfg(test)]
mod tests {
    use super::super::{FlowingGas, Temperature, Viscosity, air_density};
    use super::*;
    use crate::units::{AbsolutePressure, GaugePressure};

    #[track_caller]
    fn check(specific_gravity: f64, gauge_in_wc: f64, expected_in_wc: f64) {
        let t = Temperature::from_celsius(15.0);
        let air = AbsolutePressure::ATMOSPHERE;
        let gas = FlowingGas::new(specific_gravity, Viscosity::NATURAL_GAS, t);
        let inside = gas.density(GaugePressure::from_inches_wc(gauge_in_wc).above(air));
        let loss = elevation_loss(inside, air_density(t, air), Length::from_feet(100.0));
        assert!(
            (loss.inches_wc() - expected_in_wc).abs() < 0.002,
            "{}",
            loss.inches_wc()
        );
    }

    #[test]
    fn light_gas_gains_and_propane_loses_on_the_way_up() {
        check(0.60, 7.0, -0.573);
        // 0.735 is without the pressure of the gas itself, which adds 2.7 % of 1.50.
        check(1.50, 0.0, 0.735);
    }
}

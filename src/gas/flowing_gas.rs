//! Gas as the flow equations see it.

use super::{Density, Temperature, Viscosity, air_density};
use crate::units::{AbsolutePressure, Flow};

/// A gas in pipe: how heavy, how viscous and how warm it is. An ideal gas: below 10 psig its compressibility factor
/// differs from 1 by less than 0.3 % (natural gas) and 3 % (propane).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlowingGas {
    /// Density at one atmosphere and 60 °F, kg/m³.
    standard: f64,
    viscosity: Viscosity,
    temperature: Temperature,
}

/// Mass of gas per time.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct MassFlow(f64);

impl MassFlow {
    /// From kilograms per second.
    pub const fn from_kg_per_s(kg: f64) -> MassFlow {
        MassFlow(kg)
    }

    /// Kilograms per second.
    pub const fn kg_per_s(self) -> f64 {
        self.0
    }
}

impl FlowingGas {
    /// A gas by its specific gravity to air, greater than zero.
    pub fn new(specific_gravity: f64, viscosity: Viscosity, temperature: Temperature) -> FlowingGas {
        let air = air_density(Temperature::STANDARD, AbsolutePressure::ATMOSPHERE);
        FlowingGas {
            standard: specific_gravity * air.kg_per_m3(),
            viscosity,
            temperature,
        }
    }

    /// A gas by its density at one atmosphere and its own temperature.
    pub fn from_density(density: Density, viscosity: Viscosity, temperature: Temperature) -> FlowingGas {
        let warmer = temperature.kelvin() / Temperature::STANDARD.kelvin();
        FlowingGas {
            standard: density.kg_per_m3() * warmer,
            viscosity,
            temperature,
        }
    }

    /// Its density at a pressure and its own temperature.
    ///
    /// `rho = rho_s (p / 101325) (288.71 / T)`: rho kg/m³, rho_s at one atmosphere and 60 °F, p Pa, T K.
    pub fn density(&self, pressure: AbsolutePressure) -> Density {
        let colder = Temperature::STANDARD.kelvin() / self.temperature.kelvin();
        Density::from_kg_per_m3(self.standard * colder * pressure.pa() / AbsolutePressure::ATMOSPHERE.pa())
    }

    /// Its viscosity.
    pub const fn viscosity(&self) -> Viscosity {
        self.viscosity
    }

    /// The mass in a flow stated at standard conditions.
    ///
    /// `m = rho_s Q`: m kg/s, Q m³/s at 60 °F and 30 inHg. 30 inches of mercury read at 60 °F are 101,306 Pa (NIST
    /// SP 811, App. B.8: 3,376.85 Pa each), 0.02 % less than the one atmosphere taken here.
    pub fn mass_flow(&self, flow: Flow) -> MassFlow {
        MassFlow(self.standard * flow.m3s())
    }

    /// The flow at standard conditions that holds a mass; see [`FlowingGas::mass_flow`].
    pub fn flow(&self, mass: MassFlow) -> Flow {
        Flow::from_m3h(mass.0 / self.standard * 3600.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_gas_either_way() {
        let cold = Temperature::from_celsius(0.0);
        let by_gravity = FlowingGas::new(0.6, Viscosity::NATURAL_GAS, cold);
        let density = by_gravity.density(AbsolutePressure::ATMOSPHERE);
        let by_density = FlowingGas::from_density(density, Viscosity::NATURAL_GAS, cold);
        let flow = Flow::from_cfh(100.0);
        let [a, b] = [by_gravity, by_density].map(|gas| gas.mass_flow(flow).kg_per_s());
        assert!((a / b - 1.0).abs() < 1e-12);
        // 100 cfh of gas of SG 0.60 is 0.577 g/s (0.5773 in the reference network).
        assert!((a - 5.773e-4).abs() < 1e-6, "{a}");
    }

    #[test]
    fn cold_gas_is_denser() {
        let [cold, warm] =
            [0.0, 30.0].map(|t| FlowingGas::new(0.6, Viscosity::NATURAL_GAS, Temperature::from_celsius(t)));
        let ratio = cold.density(AbsolutePressure::ATMOSPHERE).kg_per_m3()
            / warm.density(AbsolutePressure::ATMOSPHERE).kg_per_m3();
        assert!((ratio - 303.15 / 273.15).abs() < 1e-12);
    }
}

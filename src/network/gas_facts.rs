//! The gas as the study takes it.

use crate::codebook::{Codebook, Mark, Marked};
use crate::gas::{FlowingGas, Temperature, Viscosity};
use crate::job::{Fuel, Gas};
use crate::units::HeatingValue;
use std::ops::RangeInclusive;

/// The fuel as the study takes it.
#[derive(Clone, Debug)]
pub struct GasFacts {
    /// Its kind.
    pub fuel: Fuel,
    /// Specific gravity to air.
    pub specific_gravity: f64,
    /// Gross heating value.
    pub heating_value: HeatingValue,
    /// Mark of the codebook's usual specific gravity; `None` when the person gave one.
    pub gravity_mark: Option<Mark>,
    /// Mark of the codebook's usual heating value; `None` when the person gave one.
    pub heating_mark: Option<Mark>,
}

impl GasFacts {
    pub(crate) fn of(gas: &Gas, book: &Codebook) -> GasFacts {
        let facts = book.fuel(gas.fuel);
        let (gravity, heat) = last_resort(gas.fuel);
        let gravity = facts.map_or(Marked::new(gravity, Mark::Memory), |facts| facts.specific_gravity);
        let heating = facts.map_or(Marked::new(heat, Mark::Memory), |facts| facts.heating_value);
        let own_gravity = gas.specific_gravity.filter(|gravity| GRAVITIES.contains(gravity));
        let own_heating = gas.heating_value.filter(|value| HEATS.contains(&value.btu_per_ft3()));
        GasFacts {
            fuel: gas.fuel,
            specific_gravity: own_gravity.unwrap_or(gravity.value),
            heating_value: own_heating.unwrap_or(heating.value),
            gravity_mark: own_gravity.is_none().then_some(gravity.mark),
            heating_mark: own_heating.is_none().then_some(heating.mark),
        }
    }

    /// The gas in the flow equations, at 60 °F.
    pub(crate) fn flowing(&self) -> FlowingGas {
        let viscosity = match self.fuel {
            Fuel::Natural => Viscosity::NATURAL_GAS,
            Fuel::Propane => Viscosity::PROPANE,
        };
        FlowingGas::new(self.specific_gravity, viscosity, Temperature::STANDARD)
    }
}

/// Specific gravities that a fuel gas can have: hydrogen to heavier than butane. Another one typed is not used.
const GRAVITIES: RangeInclusive<f64> = 0.05..=3.0;
/// Heating values that a fuel gas can have, Btu/ft³. Another one typed is not used.
const HEATS: RangeInclusive<f64> = 100.0..=5000.0;

/// For a codebook without fuels, which a test rules out.
const fn last_resort(fuel: Fuel) -> (f64, HeatingValue) {
    match fuel {
        Fuel::Natural => (0.60, HeatingValue::from_btu_per_ft3(1000.0)),
        Fuel::Propane => (1.50, HeatingValue::from_btu_per_ft3(2490.0)),
    }
}

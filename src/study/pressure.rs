//! Pressure along the pipe at full load: physics, beside the code answer.

use crate::codebook::Mark;
use crate::job::{Fuel, Gas};
use crate::units::{Flow, HeatingValue, Length, PressureDrop};

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
    pub(super) fn of(gas: &Gas) -> GasFacts {
        GasFacts {
            fuel: gas.fuel,
            specific_gravity: 0.6,
            heating_value: HeatingValue::from_btu_per_ft3(1000.0),
            gravity_mark: Some(Mark::Found),
            heating_mark: Some(Mark::Found),
        }
    }
}

/// What flows in a run.
#[derive(Clone, Copy, Debug)]
pub struct Flowing {
    /// Flow at full load.
    pub flow: Flow,
    /// Equivalent length of the fittings and devices counted to this run.
    pub equivalent: Length,
    /// Loss by friction along pipe and fittings.
    pub friction: PressureDrop,
    /// Loss in rated devices at the downstream joint.
    pub devices: PressureDrop,
    /// Loss (positive) or gain (negative) from the difference of height.
    pub elevation: PressureDrop,
    /// Velocity of the gas at the pressure at which it enters, m/s; `None` where no bore is known.
    pub velocity: Option<f64>,
    /// Reynolds number; `None` where no bore is known.
    pub reynolds: Option<f64>,
    /// Whether the figure is derived from a capacity table instead of a bore (corrugated tubing).
    pub from_table: bool,
}

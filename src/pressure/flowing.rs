//! How gas flows in a run at full load.

use crate::units::{Flow, Length, PressureDrop};

/// What flows in a run at full load: physics, beside the code answer.
#[derive(Clone, Copy, Debug)]
pub struct Flowing {
    /// Flow at full load.
    pub flow: Flow,
    /// Equivalent length of the fittings and devices counted to this run.
    pub equivalent: Length,
    /// Loss by friction along pipe and fittings.
    pub friction: PressureDrop,
    /// Loss in a rated device at the downstream joint; one whose loss is not known counts as none.
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

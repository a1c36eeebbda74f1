//! Ends where an appliance connects, now or later.

use crate::units::{Flow, GaugePressure, HeatRate, Length, PressureDrop};

/// An appliance, or a capped end left for one.
#[derive(Clone, Debug)]
pub struct Outlet {
    /// Its letter on drawing and schedules: A, B … Z, AA …, in flow order.
    pub tag: String,
    /// Its joint.
    pub joint: usize,
    /// What it is.
    pub kind: OutletKind,
    /// The person's name for it.
    pub name: String,
    /// Input, or the future input of a capped end.
    pub heat: Option<HeatRate>,
    /// Flow at that input.
    pub flow: Flow,
    /// Measured length from the point of delivery.
    pub distance: Length,
    /// Pressure at full load, when every size on the way is known.
    pub pressure: Option<GaugePressure>,
    /// Loss from the start of its zone at full load.
    pub zone_drop: Option<PressureDrop>,
    /// Least inlet pressure on the rating plate.
    pub least: Option<GaugePressure>,
    /// Pressure above that least; below it when negative.
    pub margin: Option<PressureDrop>,
    /// Devices on the way from the point of delivery whose loss is not known, so that it counts as none.
    pub unrated: usize,
}

/// What stands at an outlet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OutletKind {
    /// An appliance.
    Appliance,
    /// A capped end with a stated future input.
    Future,
}

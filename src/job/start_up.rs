//! What was measured at an appliance when it was first lit.

use crate::units::{Clocked, GaugePressure};

/// Readings at one appliance; each is `None` until a person enters it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StartUp {
    /// Inlet pressure with nothing burning anywhere.
    pub static_pressure: Option<GaugePressure>,
    /// Inlet pressure with every appliance burning at full input.
    pub working: Option<GaugePressure>,
    /// Inlet pressure after all burners were shut off again.
    pub lock_up: Option<GaugePressure>,
    /// What the meter passed in a time while only this appliance burned, at full input.
    pub clocked: Option<Clocked>,
}

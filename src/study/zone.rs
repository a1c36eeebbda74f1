//! Stretches of one pressure.

use crate::job::Method;
use crate::units::{GaugePressure, Length, PressureDrop};

/// The piping from the point of delivery, or from a line regulator, to its outlets and to the next regulators.
#[derive(Clone, Debug)]
pub struct Zone {
    /// The joint at which it starts.
    pub start: usize,
    /// The zone upstream, for a zone behind a line regulator.
    pub fed_by: Option<usize>,
    /// Pressure that the code method starts from: the delivery pressure or the regulator's setting.
    pub inlet: GaugePressure,
    /// Allowed drop within the zone; `None` when neither job nor profile sets one.
    pub allowed_drop: Option<PressureDrop>,
    /// Where the allowed drop comes from, in words for a drawing.
    pub drop_from: String,
    /// Sizing method.
    pub method: Method,
    /// Joint of the outlet (or regulator) that is most remote from the start.
    pub farthest: Option<usize>,
    /// Measured length to it.
    pub longest: Length,
}

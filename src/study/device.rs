//! Rated devices against their ratings.

use crate::units::{Flow, GaugePressure, PressureDrop};

/// What a rated device carries.
#[derive(Clone, Debug)]
pub struct DeviceStudy {
    /// Its joint.
    pub joint: usize,
    /// The trade's name of it: "meter", "service regulator", "line regulator".
    pub name: &'static str,
    /// Flow through it at full load.
    pub flow: Flow,
    /// Pressure at which gas enters it at full load, when every size on the way is known.
    pub inlet: Option<GaugePressure>,
    /// Rated flow, where known.
    pub capacity: Option<Flow>,
    /// Pressure lost at this flow, where the rating tells it: the rated drop times the square of flow over rated flow.
    pub drop: Option<PressureDrop>,
    /// The judgement.
    pub verdict: RatingVerdict,
}

/// A rating against a flow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RatingVerdict {
    /// The rated flow is not less than the flow.
    Within,
    /// The rated flow is less than the flow.
    Exceeded,
    /// The rating is not known.
    Unknown,
}

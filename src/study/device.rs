//! Rated devices against their ratings.

use crate::units::{Flow, PressureDrop};

/// What a rated device carries.
#[derive(Clone, Debug)]
pub struct DeviceStudy {
    /// Its joint.
    pub joint: usize,
    /// The trade's name of it: "meter", "service regulator", "line regulator".
    pub name: &'static str,
    /// Flow through it at full load.
    pub flow: Flow,
    /// Rated flow, where known.
    pub capacity: Option<Flow>,
    /// Pressure lost at this flow, where the rating tells it.
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

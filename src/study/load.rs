//! What burns at once.

use crate::units::{Flow, HeatRate};

/// A load: heat, and the flow of gas that carries it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// Heat of the appliances counted.
    pub heat: HeatRate,
    /// Flow that carries it.
    pub flow: Flow,
    /// Heat left out because heating and cooling do not run together.
    pub left_out: HeatRate,
    /// Number of appliances whose input is not known, so that they count nothing.
    pub unknown: usize,
}

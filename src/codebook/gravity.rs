//! Capacity of pipe for a gas heavier than the one of the tables.
//!
//! A heavier gas loses more pressure at the same flow, so at the same loss less of it flows: in the published equations
//! the flow goes as the root of one over the specific gravity. The list of IFGC table A.2.4 is just that,
//! `m = sqrt(0.60 / s)`: it falls as `s` grows, and a capacity is *multiplied* by it. (Dividing a capacity by a figure
//! below 1 would give more capacity to a heavier gas: never done here, whatever a text seems to say.)

use super::asset::Asset;
use super::sheet::Sheet;
use super::{Codebook, CodebookError, Mark, Marked};
use crate::job::Fuel;

/// The heaviest gas for which the natural-gas tables serve directly (IFGC appendix A, A.2.4).
const DIRECT: f64 = 0.70;
/// The specific gravity behind the propane tables (IFGC appendix A).
const PROPANE: f64 = 1.50;

/// The listed multipliers, by ascending specific gravity.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct GravityTable {
    rows: Vec<(f64, Marked<f64>)>,
}

impl GravityTable {
    pub(super) fn read(asset: Asset) -> Result<GravityTable, CodebookError> {
        let sheet = Sheet::of_figures(asset)?;
        let rows = sheet
            .records()
            .map(|record| Ok((record.number("specific_gravity")?, record.known("multiplier")?)));
        Ok(GravityTable {
            rows: rows.collect::<Result<_, CodebookError>>()?,
        })
    }

    /// The first listed gravity that is not less, with its multiplier.
    fn next(&self, gravity: f64) -> Option<(f64, Marked<f64>)> {
        self.rows.iter().copied().find(|row| row.0 >= gravity)
    }
}

/// By what a table's capacity is multiplied for a gas of another specific gravity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GravityFactor {
    /// The factor, never over 1: a gas lighter than the table's gets no bonus.
    pub factor: Marked<f64>,
    /// The listed specific gravity from which it was taken; `None` when the tables serve directly.
    pub listed_gravity: Option<f64>,
}

impl Codebook {
    /// The factor on capacity for a gas of this specific gravity; `None` when it is heavier than any listed, or no
    /// number above zero.
    ///
    /// Natural gas up to 0.70 uses its tables directly (IFGC A.2.4: up to 7 % less flows at 0.70 than at 0.60, which the
    /// code accepts). Above, the multiplier of the next higher listed gravity. Propane up to 1.50 uses its tables
    /// directly; above, the multiplier of the next higher gravity over that of 1.50, which is derived.
    pub fn gravity_factor(&self, fuel: Fuel, gravity: f64) -> Option<GravityFactor> {
        let direct = match fuel {
            Fuel::Natural => DIRECT,
            Fuel::Propane => PROPANE,
        };
        if gravity.is_nan() || gravity <= 0.0 {
            return None;
        }
        if gravity <= direct {
            return Some(GravityFactor {
                factor: Marked::new(1.0, Mark::Found),
                listed_gravity: None,
            });
        }
        let (listed, multiplier) = self.gravity.next(gravity)?;
        let factor = match fuel {
            Fuel::Natural => multiplier,
            Fuel::Propane => {
                let (_, of_table) = self.gravity.next(PROPANE)?;
                Marked::new(multiplier.value / of_table.value, Mark::Derived)
            }
        };
        Some(GravityFactor {
            factor,
            listed_gravity: Some(listed),
        })
    }

    /// The listed specific gravities with their multipliers, ascending.
    pub fn gravity_multipliers(&self) -> &[(f64, Marked<f64>)] {
        &self.gravity.rows
    }
}

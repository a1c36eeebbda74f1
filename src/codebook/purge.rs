//! When pipe is purged to the outdoors.

use super::asset::Asset;
use super::sheet::Sheet;
use super::{Codebook, CodebookError, Marked, Source};
use crate::units::{Length, NominalSize};

/// The published lengths by size.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PurgeTable {
    /// From this size up, more than this length is purged outdoors; ascending.
    rows: Vec<(NominalSize, Marked<Length>)>,
    source: Source,
}

impl PurgeTable {
    pub(super) fn read(asset: Asset) -> Result<PurgeTable, CodebookError> {
        let sheet = Sheet::read(asset)?;
        let rows = sheet
            .records()
            .map(|record| Ok((record.typed("from")?, record.known("feet_over")?.map(Length::from_feet))));
        Ok(PurgeTable {
            rows: rows.collect::<Result<_, CodebookError>>()?,
            source: sheet.source()?,
        })
    }
}

impl Codebook {
    /// The length of pipe over which purging goes outdoors; `None` for sizes that the table does not name.
    ///
    /// Whatever the size and length, pipe over 2 psig is purged outdoors (NFPA 54-2012, table 8.3.1).
    pub fn purge_outdoors_over(&self, size: NominalSize) -> Option<Marked<Length>> {
        let mut rows = self.purge.rows.iter().rev().filter(|_| size.is_inch());
        let row = rows.find(|row| row.0 <= size)?;
        Some(row.1)
    }

    /// All of those lengths, each with the size from which up it counts, small to large.
    pub fn purge_limits(&self) -> &[(NominalSize, Marked<Length>)] {
        &self.purge.rows
    }

    /// Where those lengths come from.
    pub fn purge_source(&self) -> Source {
        self.purge.source
    }
}

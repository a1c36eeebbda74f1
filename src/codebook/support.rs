//! How far apart pipe is held.

use super::{Codebook, Marked, PipeKind};
use crate::units::{Length, NominalSize};

/// Which way pipe goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Way {
    /// Level, or nearly.
    Horizontal,
    /// Plumb.
    Vertical,
}

/// How far apart supports are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spacing {
    /// At most this far apart.
    AtMost(Length),
    /// At every floor.
    EveryFloor,
    /// As the maker says.
    AsMakerSays,
}

/// The published spacings.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SupportTable {
    pub(super) rows: Vec<SupportRow>,
}

/// One line of the published spacings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SupportRow {
    pub(super) pipe: PipeKind,
    pub(super) from: NominalSize,
    pub(super) to: NominalSize,
    pub(super) way: Way,
    pub(super) spacing: Marked<Spacing>,
}

impl Codebook {
    /// How far apart supports of pipe above ground are; `None` when nothing is published.
    pub fn support_spacing(&self, pipe: PipeKind, size: NominalSize, way: Way) -> Option<Marked<Spacing>> {
        let rows = self.supports.rows.iter();
        rows.filter(|row| row.pipe == pipe && row.way == way)
            .find(|row| row.from <= size && size <= row.to)
            .map(|row| row.spacing)
    }
}

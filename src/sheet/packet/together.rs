//! What the sheets of a drawing in parts have together.

use super::notice::left_out;
use crate::drawing::{Isometric, SymbolSet};

/// What the sheets of a drawing in parts have together.
#[derive(Clone, PartialEq)]
pub struct Together {
    /// The kinds of lines, symbols and marks.
    pub used: SymbolSet,
    /// How many words stand on none of them.
    pub left_out: usize,
    /// For each change since the issue the numbers of the sheets that show it.
    pub changes: Vec<Vec<usize>>,
    /// Whether the first sheet only says that a job is not ready, and another one why.
    pub is_brief: bool,
}

impl Together {
    /// That of the drawings of its sheets.
    pub fn of<'a>(drawings: impl Iterator<Item = &'a Isometric> + Clone) -> Together {
        let changes = drawings.clone().map(|drawing| drawing.clouded.len()).max().unwrap_or(0);
        let shows = |drawing: &Isometric, change: usize| {
            let clouds = drawing.clouded.get(change);
            clouds.is_some_and(|clouds| !clouds.is_empty())
        };
        let on = |change: usize| {
            let shown = drawings.clone().zip(1..).filter(|(drawing, _)| shows(drawing, change));
            shown.map(|(_, sheet)| sheet).collect()
        };
        Together {
            used: drawings
                .clone()
                .fold(SymbolSet::default(), |used, drawing| used.with(drawing.used)),
            left_out: drawings.clone().map(left_out).sum(),
            changes: (0..changes).map(on).collect(),
            is_brief: false,
        }
    }
}

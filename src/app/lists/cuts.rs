//! How pipe is cut, piece by piece.

use super::list::List;
use super::row::{Column, Leads, Lines, Row, Table};
use crate::desk::{Desk, Face, Shown, Takes};
use crate::editor::Part;
use crate::job::Joining;
use crate::rules::Severity;
use crate::study::words::NONE;
use crate::units::{Show, UnitSystem};
use crate::work::{Making, Piece};

/// The list of pieces.
#[derive(Default)]
pub struct Cuts;

impl List for Cuts {
    fn name(&self) -> &'static str {
        "Cut list"
    }

    fn tip(&self) -> &'static str {
        "Every piece of new pipe with its cut length: center-to-center less the take-out at both ends; the paper shows the marks. Measure your \
         fittings before you cut"
    }

    fn face(&self) -> Face {
        Face::Pieces
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let takes = desk.takes()?;
        Some(table(desk.shown(), &takes))
    }
}

/// Every piece of new pipe.
fn table(shown: &Shown, takes: &Takes) -> Table {
    let units = shown.job.settings.units;
    let rows = takes.cuts.pieces.iter().flat_map(|piece: &Piece| {
        let leads = || {
            let runs = piece.runs.iter().map(|&run| Part::Run(shown.job.runs.at(run).id));
            Leads::Together(runs.collect())
        };
        let [from, to] = piece.end_words(units);
        let row = |mark: &str, length: String| {
            let cells = vec![
                mark.to_owned(),
                piece
                    .size
                    .map_or_else(|| NONE.to_owned(), |size| takes.cuts.names.show(piece.material, size)),
                piece.material.short().to_owned(),
                piece.centre_to_centre.show(units),
                from.clone(),
                to.clone(),
                length,
            ];
            Row {
                mark: match piece.making {
                    Making::TooShort(_) | Making::TooLong => Some(Severity::MustFix),
                    _ if !piece.is_known() || piece.is_on_a_male_end() => Some(Severity::Check),
                    _ => None,
                },
                aside: aside(piece, units),
                ..Row::new(cells, leads())
            }
        };
        let marked = piece.marked(units).into_iter();
        marked.map(|(mark, length)| row(mark, length)).collect::<Vec<_>>()
    });
    let nipples = takes.cuts.nipples.iter().map(|nipple| {
        let [from, to] = nipple.between.clone();
        let cells = vec![
            nipple.mark.clone(),
            nipple.size.map_or_else(|| NONE.to_owned(), |size| size.show(units)),
            Joining::Threaded.material().short().to_owned(),
            String::new(),
            from,
            to,
            nipple.made(units),
        ];
        let at = shown.job.joints.at(nipple.joint).id;
        Row::new(cells, Leads::Together(vec![Part::Joint(at)]))
    });
    Table {
        rows: rows.chain(nipples).collect(),
        columns: vec![
            Column::words("piece"),
            Column::figures("size"),
            Column::words("material"),
            Column::figures("center to center"),
            Column::wide("from", 1.0),
            Column::wide("to", 1.0),
            Column::figures("cut"),
        ],
        lines: Lines::One,
        empty: "No new pipe is drawn yet.".to_owned(),
    }
}

/// What is told beside a piece: its offset, and what must be known of its ends.
fn aside(piece: &Piece, units: UnitSystem) -> String {
    let offset = piece.offset.iter().map(|offset| offset.words(units));
    offset.chain(piece.remarks(units)).collect::<Vec<_>>().join("\n")
}

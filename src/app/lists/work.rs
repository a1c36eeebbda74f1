//! What is bought and how pipe is cut, as rows.

use super::row::{Column, Leads, Lines, Row, Table};
use crate::app::desk::{Shown, Takes};
use crate::drawing::sheet::figures::NONE;
use crate::drawing::sheet::state_name;
use crate::editor::Part;
use crate::study::{Line, Making, Piece, Place, Severity};
use crate::units::Show;

/// Everything that is bought, kept or taken out.
pub fn take_off(shown: &Shown, takes: &Takes) -> Table {
    let units = shown.job.settings.units;
    let row = |line: &Line| {
        let cells = vec![
            line.quantity.show(units),
            line.what.clone(),
            line.size.clone(),
            line.material.to_owned(),
            state_name(line.state).to_owned(),
            line.mark.map_or_else(String::new, |mark| mark.letter().to_string()),
            line.remark.clone(),
        ];
        let places = line.places.iter().filter_map(|place| part(shown, *place));
        Row {
            aside: "Leads to all of them".to_owned(),
            ..Row::new(cells, Leads::Together(places.collect()))
        }
    };
    Table {
        rows: takes.take_off.lines.iter().map(row).collect(),
        columns: vec![
            Column::figures("how much"),
            Column::wide("what", 1.0),
            Column::words("size"),
            Column::words("material"),
            Column::words("state"),
            Column::words("mark"),
            Column::wide("remark", 1.5),
        ],
        lines: Lines::One,
        empty: "Nothing is drawn yet.".to_owned(),
    }
}

fn part(shown: &Shown, place: Place) -> Option<Part> {
    match place {
        Place::Joint(id) => Some(Part::Joint(id)),
        Place::Run(id) => Some(Part::Run(id)),
        Place::Section(number) => {
            let section = shown.study.sections.get(number.checked_sub(1)?)?;
            Some(Part::Run(shown.job.runs.at(*section.runs.first()?).id))
        }
        Place::Job => None,
    }
}

/// Every piece of new pipe.
pub fn cuts(shown: &Shown, takes: &Takes) -> Table {
    let units = shown.job.settings.units;
    let rows = takes.cuts.pieces.iter().flat_map(|piece: &Piece| {
        let leads = || {
            let runs = piece.runs.iter().map(|&run| Part::Run(shown.job.runs.at(run).id));
            Leads::Together(runs.collect())
        };
        let sure = if piece.is_known() { "" } else { " ?" };
        let row = |mark: &str, length: String| {
            let cells = vec![
                mark.to_owned(),
                piece.size.map_or_else(|| NONE.to_owned(), |size| size.show(units)),
                piece.material.short().to_owned(),
                piece.centre_to_centre.show(units),
                piece.ends[0].words(units),
                piece.ends[1].words(units),
                format!("{length}{sure}"),
            ];
            Row {
                mark: match piece.making {
                    Making::TooShort(_) | Making::TooLong => Some(Severity::Blocking),
                    _ if !piece.is_known() => Some(Severity::Caution),
                    _ => None,
                },
                aside: piece.remarks().join("\n"),
                ..Row::new(cells, leads())
            }
        };
        match piece.parts.as_slice() {
            [] => vec![row(&piece.mark, piece.made(units))],
            parts => parts
                .iter()
                .map(|part| row(&part.mark, part.length.show(units)))
                .collect(),
        }
    });
    Table {
        rows: rows.collect(),
        columns: vec![
            Column::words("piece"),
            Column::figures("size"),
            Column::words("material"),
            Column::figures("centre to centre"),
            Column::wide("from", 1.0),
            Column::wide("to", 1.0),
            Column::figures("cut"),
        ],
        lines: Lines::One,
        empty: "No new pipe is drawn yet.".to_owned(),
    }
}

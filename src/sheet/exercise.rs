//! What stands on a worksheet and its key alone: fittings and pieces to be counted, and the working.

use super::block::{Block, Part};
use super::figures::Figures;
use super::pieces;
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::Schedule;
use super::text::Paragraph;
use crate::codebook::{Codebook, Mark};
use crate::drawing::{Asked, Blank};
use crate::job::{Job, State};
use crate::lesson::Working;
use crate::study::{Places, Study};
use crate::units::Show;
use crate::work::CutList;

/// The new fittings, each with its count to be told; `None` where there are none.
pub fn fittings(study: &Study, asked: Asked) -> Option<Block> {
    let counts = study.fitting_counts();
    let new = counts.iter().filter(|count| count.state == State::New);
    let rows = new.map(|count| Row {
        cells: vec![
            count.name(),
            asked.put(Blank::Sizes, count.sizes_named(study.names)),
            asked.put(Blank::FittingCounts, count.count.to_string()),
        ],
        ..Row::default()
    });
    let table = Table {
        columns: vec![
            Column::new("fitting", Set::Words),
            Column::new("size", Set::Word),
            Column::new("count", Set::Number),
        ],
        rows: rows.collect(),
    };
    (!table.rows.is_empty()).then(|| Block::new(Schedule::Fittings, "Fittings", vec![Part::Table(table)]))
}

/// The pieces of new pipe, each with its cut length to be told; `None` where there are none.
pub fn cuts(job: &Job, study: &Study, book: &Codebook, places: &Places<'_>, asked: Asked) -> Option<Block> {
    let units = study.names.units();
    let cuts = CutList::of(job, study, book);
    let rows = cuts.pieces.iter().map(|piece| {
        let size = piece
            .size
            .map_or("size ?".to_owned(), |size| study.names.show(piece.material, size));
        let words = match piece.must_be_measured() {
            true => piece.to_measure().to_owned(),
            false => pieces::length(piece, units),
        };
        let ends = piece.ends.each_ref().map(|end| places.joint(end.joint));
        Row {
            cells: vec![
                piece.mark.clone(),
                ends.join(" to "),
                asked.put(Blank::Sizes, size),
                piece.centre_to_centre.show(units),
                asked.put(Blank::CutLengths, words),
            ],
            ..Row::default()
        }
    });
    let table = Table {
        columns: vec![
            Column::new("piece", Set::Word),
            Column::new("between", Set::Words),
            Column::new("size", Set::Word),
            Column::new("center to center", Set::Word),
            Column::new("cut length", Set::Word),
        ],
        rows: rows.collect(),
    };
    (!table.rows.is_empty()).then(|| Block::new(Schedule::Cuts, "Pieces to cut", vec![Part::Table(table)]))
}

/// The working of every section, step by step.
pub fn working(job: &Job, study: &Study) -> Block {
    let figures = Figures::of(study.names.units());
    let (flow, length) = (figures.flow_head(), figures.length_head());
    let columns = vec![
        Column::new("no.", Set::Number),
        Column::new(format!("1: load, {flow}\noutlets served"), Set::Words),
        Column::new(format!("2: sizing length, {length}"), Set::Words),
        Column::new("3: table and row", Set::Words),
        Column::new(format!("4: columns of that row, {flow}"), Set::Words),
        Column::new("5: size", Set::Words),
    ];
    let all = Working::all(job, study);
    let rows = all.iter().map(|working| Row {
        cells: vec![
            working.number.to_string(),
            working.load.clone(),
            working.length.clone(),
            working.table.clone(),
            working.columns.clone(),
            working.size.clone(),
        ],
        weight: if working.is_short {
            Weight::Strong
        } else {
            Weight::Plain
        },
        tag: None,
    });
    let table = Table {
        columns,
        rows: rows.collect(),
    };
    let mut said = vec![Paragraph::new(format!(
        "The size is the first column of the row that carries the load. {}",
        Mark::EXPLAINED
    ))];
    let remarks = all.iter().flat_map(|working| {
        let remarks = working.remarks.iter();
        remarks.map(|remark| Paragraph::new(format!("Section {}: {remark}", working.number)))
    });
    said.extend(remarks);
    Block::new(Schedule::Working, "Working", vec![Part::Table(table), Part::Text(said)])
}

//! The revision block: the last issues of the drawing, with lines left to fill in by hand.

use super::block::{Block, Part};
use super::lettering::shortened;
use super::places::LONGEST_NAME;
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use crate::job::{Job, Revision};

/// The revision block of a width in mm with the last so many issues, and no fewer lines, each row of one line.
pub fn block(job: &Job, lines: usize, width: f64) -> Block {
    let all = &job.title.revisions;
    let first = all.len().saturating_sub(lines);
    let mut rows: Vec<Row> = all
        .iter()
        .enumerate()
        .skip(first)
        .map(|it| row(it, most(width), 8))
        .collect();
    rows.resize(rows.len().max(lines), Row::default());
    Block::new(Schedule::Revisions, "", vec![Part::Table(table(rows))])
}

/// All issues, where the revision block cannot show them all in full.
pub fn all(job: &Job, lines: usize, width: f64) -> Option<Block> {
    let all = &job.title.revisions;
    let cut = all.len() > lines
        || all
            .iter()
            .any(|it| it.what.chars().nth(most(width)).is_some() || it.by.chars().nth(8).is_some());
    let rows = all.iter().enumerate().map(|it| row(it, LONGEST_NAME, 32)).collect();
    cut.then(|| Block::new(Schedule::Revisions, "Revisions", vec![Part::Table(table(rows))]))
}

/// The most characters of what changed, in a revision block of a width in mm.
fn most(width: f64) -> usize {
    ((width - 48.0) / 1.9) as usize
}

fn table(rows: Vec<Row>) -> Table {
    Table {
        columns: vec![
            Column::new("Rev.", Set::Word),
            Column::new("Date", Set::Word),
            Column::new("What changed", Set::Words),
            Column::new("By", Set::Word),
        ],
        rows,
    }
}

fn row((number, revision): (usize, &Revision), most: usize, most_by: usize) -> Row {
    let Revision { mark, date, what, by } = revision;
    Row {
        cells: [(mark, 4), (date, 10), (what, most), (by, most_by)]
            .map(|(words, most)| shortened(words, most))
            .to_vec(),
        tag: Some(tags::row(Schedule::Revisions, number)),
        ..Row::default()
    }
}

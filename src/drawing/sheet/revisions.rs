//! The revision block: the last issues of the drawing, with lines left to fill in by hand.

use super::block::{Block, Part};
use super::lettering::shortened;
use super::places::LONGEST_NAME;
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use crate::job::{Job, Revision};

/// The revision block with the last so many issues, and no fewer lines.
pub fn block(job: &Job, lines: usize) -> Block {
    let all = &job.title.revisions;
    let first = all.len().saturating_sub(lines);
    let mut rows: Vec<Row> = all.iter().enumerate().skip(first).map(row).collect();
    rows.resize(rows.len().max(lines), Row::default());
    Block::new(Schedule::Revisions, "", vec![Part::Table(table(rows))])
}

/// All issues, where there are more than the revision block shows.
pub fn all(job: &Job, lines: usize) -> Option<Block> {
    let all = &job.title.revisions;
    let rows = all.iter().enumerate().map(row).collect();
    (all.len() > lines).then(|| Block::new(Schedule::Revisions, "Revisions", vec![Part::Table(table(rows))]))
}

fn table(rows: Vec<Row>) -> Table {
    Table {
        columns: vec![
            Column::new("Rev.", Set::Words),
            Column::new("Date", Set::Words),
            Column::new("What changed", Set::Words),
            Column::new("By", Set::Words),
        ],
        rows,
    }
}

fn row((number, revision): (usize, &Revision)) -> Row {
    let Revision { mark, date, what, by } = revision;
    Row {
        cells: [(mark, 8), (date, 16), (what, LONGEST_NAME), (by, 24)]
            .map(|(words, most)| shortened(words, most))
            .to_vec(),
        tag: Some(tags::row(Schedule::Revisions, number)),
        ..Row::default()
    }
}

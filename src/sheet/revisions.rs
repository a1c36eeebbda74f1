//! The schedule of the issues of the drawing.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use crate::job::{Job, Revision};
use crate::study::places::LONGEST_NAME;
use crate::study::words::shortened;

const HEADS: [&str; 4] = ["Rev.", "Date", "Description", "By"];
/// The most characters of mark, date, what changed and name.
const MOST: [usize; 4] = [8, 16, LONGEST_NAME, 32];

/// All issues; `None` where there is none.
pub fn block(job: &Job) -> Option<Block> {
    let rows: Vec<Row> = job.title.revisions.iter().enumerate().map(row).collect();
    let sets = [Set::Word, Set::Word, Set::Words, Set::Word];
    let columns = HEADS.iter().zip(sets).map(|(head, set)| Column::new(*head, set));
    let columns = columns.collect();
    (!rows.is_empty()).then(|| Block::new(Schedule::Revisions, "", vec![Part::Table(Table { columns, rows })]))
}

fn row((number, revision): (usize, &Revision)) -> Row {
    let Revision { mark, date, what, by } = revision;
    let words = [mark, date, what, by].into_iter().zip(MOST);
    Row {
        cells: words.map(|(words, most)| shortened(words, most)).collect(),
        tag: Some(tags::row(Schedule::Revisions, number)),
        ..Row::default()
    }
}

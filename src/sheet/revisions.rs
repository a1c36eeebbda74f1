//! The revision block: the last issues of the drawing, with lines left to fill in by hand.

use super::block::{Block, PAD, Part};
use super::lettering::Hand;
use super::table::{Column, GAP, Row, Set, Table};
use super::tags::{self, Schedule};
use crate::job::{Job, Revision};
use crate::study::places::LONGEST_NAME;
use crate::study::words::shortened;

const HEADS: [&str; 4] = ["Rev.", "Date", "What changed", "By"];
/// Where what changed stands among the cells.
const WHAT: usize = 2;
/// The most characters of mark, date and name in the revision block.
const SHORT: [usize; 4] = [4, 10, usize::MAX, 8];
/// The same, and of what changed, in the schedule of all issues.
const LONG: [usize; 4] = [8, 16, LONGEST_NAME, 32];

/// The revision block of a width in mm with the last so many issues, and no fewer lines, each row of one line.
pub fn block(job: &Job, lines: usize, width: f64) -> Block {
    let mut rows = shown(job, lines, width);
    rows.resize(rows.len().max(lines), Row::default());
    Block::new(Schedule::Revisions, "", vec![Part::Table(table(rows))])
}

/// All issues, where the revision block cannot show them all in full.
pub fn all(job: &Job, lines: usize, width: f64) -> Option<Block> {
    let issues = &job.title.revisions;
    let whole = |(row, revision): (&Row, &Revision)| {
        row.cells
            .iter()
            .zip(cells(revision))
            .all(|(cell, it)| cell == it.trim())
    };
    let is_whole = issues.len() <= lines && shown(job, lines, width).iter().zip(issues).all(whole);
    let rows = issues.iter().enumerate().map(|it| row(it, LONG)).collect();
    (!is_whole).then(|| Block::new(Schedule::Revisions, "Revisions", vec![Part::Table(table(rows))]))
}

/// The last issues, each on one line.
fn shown(job: &Job, lines: usize, width: f64) -> Vec<Row> {
    let all = &job.title.revisions;
    let last = all.iter().enumerate().skip(all.len().saturating_sub(lines));
    let mut rows: Vec<Row> = last.map(|it| row(it, SHORT)).collect();
    let others = [0, 1, 3].map(|column| {
        let cells = rows.iter().map(|row| Hand::BODY.measure(&row.cells[column]));
        cells.fold(Hand::CAPTION.measure(HEADS[column]), f64::max) + GAP
    });
    let room = width - 2.0 * PAD - others.iter().sum::<f64>();
    for row in &mut rows {
        let what = Hand::BODY.wrap(&row.cells[WHAT], room, 1);
        row.cells[WHAT] = what.lines.concat();
    }
    rows
}

fn table(rows: Vec<Row>) -> Table {
    let sets = [Set::Word, Set::Word, Set::Words, Set::Word];
    let columns = HEADS.iter().zip(sets).map(|(head, set)| Column::new(*head, set));
    Table {
        columns: columns.collect(),
        rows,
    }
}

fn cells(revision: &Revision) -> [&String; 4] {
    let Revision { mark, date, what, by } = revision;
    [mark, date, what, by]
}

fn row((number, revision): (usize, &Revision), most: [usize; 4]) -> Row {
    let words = cells(revision).into_iter().zip(most);
    Row {
        cells: words.map(|(words, most)| shortened(words, most)).collect(),
        tag: Some(tags::row(Schedule::Revisions, number)),
        ..Row::default()
    }
}

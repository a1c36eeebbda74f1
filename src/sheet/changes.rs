//! What changed since the issue that the job is compared with, each with the number of its cloud.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::changes::{Change, Changes};
use crate::study::words::NONE;

/// Where what changed is shown, for each change.
#[derive(Clone, Copy)]
pub enum Placed<'a> {
    /// In clouds of this sheet, by their numbers.
    InClouds(&'a [Vec<usize>]),
    /// In clouds without numbers, on sheets with parts of the drawing, by the numbers of the sheets.
    OnSheets(&'a [Vec<usize>]),
}

/// The schedule of what changed.
pub fn block(changes: &Changes, placed: Placed<'_>) -> Block {
    let parts = if changes.list.is_empty() {
        vec![Part::Text(vec![Paragraph::new(
            "Nothing drawn or entered has changed.",
        )])]
    } else {
        vec![Part::Table(table(changes, placed))]
    };
    Block::new(Schedule::Changes, changes.heading(), parts)
}

fn table(changes: &Changes, placed: Placed<'_>) -> Table {
    let (head, numbers) = match placed {
        Placed::InClouds(numbers) => ("cloud", numbers),
        Placed::OnSheets(numbers) => ("sheet", numbers),
    };
    let row = |(at, change): (usize, &Change)| {
        let clouds: Vec<String> = numbers
            .get(at)
            .map_or(&[][..], Vec::as_slice)
            .iter()
            .map(usize::to_string)
            .collect();
        let clouds = if clouds.is_empty() {
            NONE.to_owned()
        } else {
            clouds.join(", ")
        };
        Row {
            cells: vec![clouds, change.name.clone(), change.said()],
            tag: Some(tags::row(Schedule::Changes, at)),
            ..Row::default()
        }
    };
    Table {
        columns: vec![
            Column::new(head, Set::Word),
            Column::new("where", Set::Words),
            Column::new("change", Set::Words),
        ],
        rows: changes.list.iter().enumerate().map(row).collect(),
    }
}

/// What should be said to the person who asked.
pub fn remark(changes: &Changes) -> Option<String> {
    (!changes.list.is_empty() && changes.mark.is_none()).then(|| {
        "what changed has no revision of its own yet: add a line to the revisions in the title block, and its mark \
         is drawn beside the clouds"
            .to_owned()
    })
}

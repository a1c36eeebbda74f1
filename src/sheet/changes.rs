//! What changed since the issue that the job is compared with, each with the number of its cloud.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::changes::{Change, Changes};
use crate::study::words::NONE;

/// The schedule of what changed; `clouded` gives for each change the numbers of its clouds.
pub fn block(changes: &Changes, clouded: &[Vec<usize>]) -> Block {
    let parts = if changes.list.is_empty() {
        vec![Part::Text(vec![Paragraph::new(
            "Nothing drawn or entered is different.",
        )])]
    } else {
        vec![Part::Table(table(changes, clouded))]
    };
    Block::new(Schedule::Changes, changes.heading(), parts)
}

fn table(changes: &Changes, clouded: &[Vec<usize>]) -> Table {
    let row = |(at, change): (usize, &Change)| {
        let clouds: Vec<String> = clouded
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
            Column::new("cloud", Set::Word),
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

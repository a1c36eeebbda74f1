//! The table of numbered points: labels that found no room on the drawing.

use super::block::{Block, Part};
use super::lettering::shortened;
use super::places::Places;
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use crate::drawing::NumberedPoint;

/// The most characters of what a numbered point says.
const LONGEST: usize = 160;

/// The table of numbered points; `None` when there are none.
pub fn block(points: &[NumberedPoint], places: &Places<'_>) -> Option<Block> {
    let rows: Vec<Row> = points
        .iter()
        .map(|point| Row {
            cells: vec![
                point.number.to_string(),
                places.subject(point.subject),
                shortened(&point.text, LONGEST),
            ],
            tag: Some(tags::row(Schedule::Points, point.number.saturating_sub(1))),
            ..Row::default()
        })
        .collect();
    let columns = vec![
        Column::new("no.", Set::Number),
        Column::new("where", Set::Words),
        Column::new("what the drawing would say there", Set::Words),
    ];
    (!rows.is_empty()).then(|| {
        let table = Table { columns, rows }.without_empty_columns();
        Block::new(Schedule::Points, "Numbered points", vec![Part::Table(table)])
    })
}

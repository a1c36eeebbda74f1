//! The table of numbered points: labels that found no room on the drawing.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table};
use super::tags::{self, Schedule};
use crate::drawing::NumberedPoint;
use crate::drawing::tags::{Subject, passage};
use crate::study::Places;
use crate::study::words::{capital, shortened};

/// The most characters of what a numbered point says.
const LONGEST: usize = 160;

/// The table of numbered points, each with the sheet on which it stands where that is another; `None` when there are
/// none.
pub fn block(points: &[(Option<usize>, NumberedPoint)], places: &Places<'_>) -> Option<Block> {
    let rows: Vec<Row> = points
        .iter()
        .map(|(sheet, point)| {
            let (place, label) = (of(places, point.subject), shortened(&point.text, LONGEST));
            // A place that goes by its label is not told twice.
            let is_told = label.to_lowercase().contains(&place.to_lowercase());
            Row {
                cells: vec![
                    point.number.to_string(),
                    sheet.map_or_else(String::new, |sheet| sheet.to_string()),
                    if is_told { String::new() } else { place },
                    label,
                ],
                tag: Some(tags::row(Schedule::Points, point.number.saturating_sub(1))),
                ..Row::default()
            }
        })
        .collect();
    let columns = vec![
        Column::new("no.", Set::Number),
        Column::new("sheet", Set::Number),
        Column::new("where", Set::Words),
        Column::new("label", Set::Words),
    ];
    (!rows.is_empty()).then(|| {
        let table = Table { columns, rows }.without_empty_columns();
        Block::new(Schedule::Points, "Numbered points", vec![Part::Table(table)])
    })
}

/// Those of a drawing whose table stands on its own sheet, or leads from there.
pub fn here(points: &[NumberedPoint]) -> Vec<(Option<usize>, NumberedPoint)> {
    points.iter().map(|point| (None, point.clone())).collect()
}

/// What a label of the drawing speaks of.
fn of(places: &Places<'_>, subject: Subject) -> String {
    let job = places.job();
    match subject {
        Subject::Run(position) if position < job.runs.len() => places.pipe(job.runs.at(position).id),
        // An id stands nowhere on the drawing.
        Subject::Joint(position) | Subject::Level(position) => {
            let (name, id) = (places.joint(position), job.joints.at(position).id.to_string());
            capital(name.strip_suffix(&id).unwrap_or(&name).trim_end())
        }
        Subject::Note(_) => "Note".to_owned(),
        Subject::Passage(position) => match passage(job, position) {
            Some((run, _)) => places.pipe(job.runs.at(run).id),
            None => String::new(),
        },
        Subject::Run(_) | Subject::Section(_) | Subject::Change(_) | Subject::Sheet => String::new(),
    }
}

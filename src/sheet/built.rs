//! What an as-built drawing says beside the piping: what was taken out, and the lines to be signed.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::Schedule;
use super::text::Paragraph;
use crate::job::{Job, State, Status};
use crate::study::words;
use crate::units::{Length, Show};
use crate::work::BLANKS;

/// Whether a job is issued as built.
pub fn is_built(job: &Job) -> bool {
    job.title.status == Status::AsBuilt
}

/// The lines to be signed; none but on an as-built drawing.
pub fn block(job: &Job) -> Option<Block> {
    if !is_built(job) {
        return None;
    }
    let title = &job.title;
    let names = [&title.licence_holder, &title.licence].map(|words| words.trim());
    let holder = names
        .into_iter()
        .filter(|words| !words.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    let table = form(&[
        ("Name, license no.", &holder),
        ("Date installed", ""),
        ("Signature", ""),
    ]);
    let said =
        "Signed by the installer: the piping is installed as drawn on these sheets, with lengths measured in place.";
    Some(Block::new(
        Schedule::Signature,
        "As-built statement",
        vec![
            Part::Text(vec![Paragraph::new(said)]),
            Part::Table(table),
            Part::Text(vec![Paragraph::new("Record of the pressure test:")]),
            Part::Table(record()),
        ],
    ))
}

/// The record of a pressure test, to be filled in by hand.
pub fn record() -> Table {
    form(&BLANKS.map(|words| (words, "")))
}

/// Lines to be filled in by hand, each behind what it is for, some of it filled in already.
pub fn form(lines: &[(&str, &str)]) -> Table {
    let row = |(head, value): &(&str, &str)| Row {
        cells: vec![(*head).to_owned(), (*value).to_owned()],
        weight: Weight::Blank,
        tag: None,
    };
    Table {
        columns: vec![Column::new("", Set::Word), Column::new("", Set::Words)],
        rows: lines.iter().map(row).collect(),
    }
}

/// What was taken out and is drawn no more.
pub fn notes(job: &Job) -> Vec<String> {
    let units = job.settings.units;
    let mut said = vec![
        "AS BUILT: pipe and devices marked new were installed under this work. Lengths as measured; where no length \
         was entered, as drawn."
            .to_owned(),
    ];
    let gone: Vec<_> = job.runs.iter().filter(|run| run.state == State::Removed).collect();
    let length: Length = gone.iter().map(|run| job.true_length(run)).sum();
    let placed = job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    let devices: Vec<&str> = placed
        .filter(|placed| placed.state == State::Removed)
        .map(|placed| placed.device.name())
        .collect();
    let mut parts = Vec::new();
    if !gone.is_empty() {
        parts.push(format!("{} of pipe", length.show(units)));
    }
    parts.extend(words::counted(&devices));
    if !parts.is_empty() {
        said.push(format!("Removed under this work, and not drawn: {}.", parts.join(", ")));
    }
    said
}

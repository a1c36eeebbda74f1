//! The schedule of what stands, before the work and after it.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::advice::{Audit, AuditPart, AuditRow, Standing};
use crate::codebook::Codebook;
use crate::job::{Job, State};
use crate::study::{Places, Study};

/// The schedule, where old pipe stands and there is work that may change what it carries.
///
/// Inlets of new appliances stand in the appliance schedule alone.
pub fn block(job: &Job, study: &Study, book: &Codebook, places: &Places<'_>) -> Option<Block> {
    let stands = job
        .runs
        .iter()
        .any(|run| run.state != State::New || run.replaced().is_some());
    let changes = |state: State| state != State::Existing;
    let work = job.runs.iter().any(|run| changes(run.state))
        || job
            .joints
            .iter()
            .filter_map(|joint| joint.placed.as_ref())
            .any(|placed| changes(placed.state));
    if !stands || !work {
        return None;
    }
    let audit = Audit::beside(job, book, study);
    let told = |row: &&AuditRow| row.before.is_some() || !matches!(row.part, AuditPart::Inlet { .. });
    let rows: Vec<Row> = audit
        .rows
        .iter()
        .filter(told)
        .enumerate()
        .map(|(at, row)| line(at, row, job, study, places))
        .collect();
    if rows.is_empty() {
        return None;
    }
    let columns = vec![
        Column::new("existing", Set::Words),
        Column::new("size", Set::Word),
        Column::new("before", Set::Words),
        Column::new("after", Set::Words),
        Column::new("result", Set::Words),
    ];
    let said = "At full load, by the same method and tables on both sides. Pipe and devices: demand of capacity or rating; \
                inlets and settings: pressure found by the flow equation. A capacity is no pressure test.";
    Some(Block::new(
        Schedule::Existing,
        "Existing, before and after the work",
        vec![
            Part::Table(Table { columns, rows }),
            Part::Text(vec![Paragraph::new(said)]),
        ],
    ))
}

fn line(at: usize, row: &AuditRow, job: &Job, study: &Study, places: &Places<'_>) -> Row {
    let units = job.settings.units;
    let (name, size) = match &row.part {
        AuditPart::Pipe {
            runs,
            material,
            size,
            by,
            ..
        } => {
            let named = |size| study.names.show(*material, size);
            let size = size.map_or_else(|| "not said".to_owned(), named);
            let size = match by {
                Some(by) => format!("{size} → {}", named(*by)),
                None => size,
            };
            (ends(runs, study, places), size)
        }
        AuditPart::Device { joint, name } => match places.joint(*joint) {
            place if place == *name => (place, String::new()),
            place => (format!("{name}, {place}"), String::new()),
        },
        AuditPart::Inlet { joint, .. } => (format!("inlet of {}", places.joint(*joint)), String::new()),
        AuditPart::Setting { joint } => (format!("setting of {}", places.joint(*joint)), String::new()),
    };
    let [before, after] = row.sides(units);
    let fails = row.after.is_none_or(|held| held.standing() == Standing::Fails);
    Row {
        cells: vec![name, size, before, after, row.verdict().to_owned()],
        weight: if fails { Weight::Strong } else { Weight::Plain },
        tag: Some(tags::row(Schedule::Existing, at)),
    }
}

/// Where pipe starts and ends along the flow.
fn ends(runs: &[usize], study: &Study, places: &Places<'_>) -> String {
    let end = |run: Option<&usize>| run.and_then(|&run| study.network.ends[run]);
    match (end(runs.first()), end(runs.last())) {
        (Some((from, _)), Some((_, to))) => format!("{} – {}", places.joint(from), places.joint(to)),
        _ => "pipe that no gas reaches".to_owned(),
    }
}

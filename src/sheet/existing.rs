//! The schedule of what stands, before the work and after it.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::advice::{Audit, AuditPart, AuditRow, Held, Standing};
use crate::codebook::Codebook;
use crate::job::{Job, State};
use crate::study::{Places, Study};
use crate::units::{Flow, GaugePressure};

/// What stood before the work, and how it is told: in the schedules beside what is after it where a part holds after the
/// work as before, in rows of its own where something changes or fails.
pub struct Before {
    audit: Audit,
    /// For each row of the audit whether another schedule tells it.
    told: Vec<bool>,
}

impl Before {
    /// What stood, where old pipe stands and there is work that may change what it carries.
    pub fn of(job: &Job, study: &Study, book: &Codebook) -> Option<Before> {
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
        let told = audit.rows.iter().map(|row| is_told(row, &audit, study)).collect();
        Some(Before { audit, told })
    }

    fn told(&self) -> impl Iterator<Item = &AuditRow> {
        let rows = self.audit.rows.iter().zip(&self.told);
        rows.filter(|(_, told)| **told).map(|(row, _)| row)
    }

    /// What a section carried.
    pub fn section(&self, number: usize) -> Option<Flow> {
        let mut rows = self.audit.rows.iter().filter(|row| is_of(row, number));
        let first = carried(rows.next()?);
        first.filter(|flow| rows.all(|row| carried(row) == Some(*flow)))
    }

    /// Whether the section schedule tells all there is of it: it was and is within capacity.
    pub fn tells(&self, number: usize) -> bool {
        self.told().any(|row| is_of(row, number))
    }

    /// What the inlet at a joint had, where the appliance schedule tells it.
    pub fn inlet(&self, at: usize) -> Option<GaugePressure> {
        let is_its = |row: &&AuditRow| matches!(row.part, AuditPart::Inlet { joint, .. } if joint == at);
        match self.told().find(is_its)?.before {
            Some(Held::Pressure { found, .. }) => found,
            Some(Held::Flow { .. }) | None => None,
        }
    }

    /// What the device at a joint carried, where the supply data tell it.
    pub fn device(&self, at: usize, called: &str) -> Option<Flow> {
        let is_its = |row: &&AuditRow| matches!(row.part, AuditPart::Device { joint, part } if joint == at && part.name() == called);
        carried(self.told().find(is_its)?)
    }
}

/// What a part carried before the work.
fn carried(row: &AuditRow) -> Option<Flow> {
    match row.before {
        Some(Held::Flow { carried, .. }) => Some(carried),
        Some(Held::Pressure { .. }) | None => None,
    }
}

/// Whether a row is of pipe of a section.
fn is_of(row: &AuditRow, number: usize) -> bool {
    matches!(row.part, AuditPart::Pipe { section, .. } if section == Some(number))
}

/// Whether the schedules tell a part before the work beside what it has after it: it holds both times, and is the same.
fn is_told(row: &AuditRow, audit: &Audit, study: &Study) -> bool {
    let holds = |held: &Option<Held>| held.is_some_and(|held| held.standing() == Standing::Holds);
    let both = holds(&row.before) && holds(&row.after);
    both && match &row.part {
        AuditPart::Pipe {
            section: Some(number),
            by: None,
            runs,
            ..
        } => {
            let is_whole = study
                .sections
                .get(*number)
                .is_some_and(|section| section.runs.len() == runs.len());
            is_whole && audit.rows.iter().filter(|other| is_of(other, *number)).count() == 1
        }
        AuditPart::Device { part, .. } => {
            let alike = study.devices.iter().filter(|device| device.name() == part.name());
            alike.count() == 1
        }
        AuditPart::Inlet { .. } => true,
        AuditPart::Pipe { .. } | AuditPart::Setting { .. } => false,
    }
}

/// What no other schedule tells of it.
///
/// Inlets of new appliances stand in the appliance schedule alone.
pub fn block(before: &Before, study: &Study, places: &Places<'_>) -> Option<Block> {
    let told = |row: &AuditRow| row.before.is_some() || !matches!(row.part, AuditPart::Inlet { .. });
    let own = before.audit.rows.iter().zip(&before.told);
    let own = own.filter(|(row, elsewhere)| !**elsewhere && told(row));
    let rows: Vec<Row> = own
        .enumerate()
        .map(|(at, (row, _))| line(at, row, study, places))
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
    let said = "Before and after are both computed at full load, by the same method and tables. Of two figures, the first is the load, the second \
                the capacity or rating. Pressures are computed by the flow equation. Being within capacity does not mean that pipe was pressure-tested.";
    Some(Block::new(
        Schedule::Existing,
        "Existing, before and after this work",
        vec![
            Part::Table(Table { columns, rows }.without_empty_columns()),
            Part::Text(vec![Paragraph::new(said)]),
        ],
    ))
}

/// The same as a schedule of its own, all of it.
pub fn whole(job: &Job, study: &Study, book: &Codebook, places: &Places<'_>) -> Option<Block> {
    let before = Before::of(job, study, book)?;
    let told = vec![false; before.told.len()];
    block(&Before { told, ..before }, study, places)
}

fn line(at: usize, row: &AuditRow, study: &Study, places: &Places<'_>) -> Row {
    let units = study.names.units();
    let (name, size) = match &row.part {
        AuditPart::Pipe {
            runs,
            material,
            size,
            by,
            ..
        } => {
            let named = |size| study.names.show(*material, size);
            let size = size.map_or_else(|| "not entered".to_owned(), named);
            let size = match by {
                Some(by) => format!("{size} → {}", named(*by)),
                None => size,
            };
            (ends(runs, study, places), size)
        }
        AuditPart::Device { joint, part } => match places.joint(*joint) {
            place if place == part.name() => (place, String::new()),
            place => (format!("{} at {place}", part.name()), String::new()),
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
        _ => "pipe not connected to a supply".to_owned(),
    }
}

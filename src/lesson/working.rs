//! The working behind the size of a section, step by step, as a student writes it down.

use super::slip::feet;
use crate::job::{Job, State};
use crate::network::Outlet;
use crate::sizing::{Basis, LengthRule, Origin, Section, SizeCapacity, Verdict};
use crate::study::words::NONE;
use crate::study::{Places, Study};
use crate::units::{Flow, Length, Show, UnitSystem};

/// The working of one section.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// The number of the section on the drawing.
    pub number: usize,
    /// Its load as a sum of the outlets that it serves: `A 120 + B 65 = 185`.
    pub load: String,
    /// The length that sizes it, and to which outlet: `to A Boiler 52.7 + 10.1 for fittings = 62.8`.
    pub length: String,
    /// Table and row.
    pub table: String,
    /// The columns of that row as far as the one that carries the load, each with its mark.
    pub columns: String,
    /// The size, and whether one that is given is enough.
    pub size: String,
    /// What must be said beside it.
    pub remarks: Vec<String>,
    /// Whether a given size is less than the load needs.
    pub is_short: bool,
}

impl Working {
    /// The working of every section of pipe, in flow order.
    pub fn all(job: &Job, study: &Study) -> Vec<Working> {
        let places = Places::of(job, study);
        let pipe = study.sections.iter().filter(|section| section.is_pipe());
        pipe.map(|section| Working::of(study, &places, section)).collect()
    }

    fn of(study: &Study, places: &Places<'_>, section: &Section) -> Working {
        let units = study.names.units();
        let sizing = &section.sizing;
        let (table, lacking) = match &sizing.basis {
            Basis::Table { table, row } => (format!("table {table}, row {}", feet(*row, units)), None),
            Basis::Equation { name, length: entered } => (format!("{name}, {}", feet(*entered, units)), None),
            Basis::Nothing(lacking) => (NONE.to_owned(), Some(lacking.clone())),
        };
        Working {
            number: section.number,
            load: load(study, section, units),
            length: sizing_length(study, places, section, units),
            table,
            columns: columns(study, section, units),
            size: size(study, section),
            remarks: sizing.remarks.iter().cloned().chain(lacking).collect(),
            is_short: sizing.verdict == Verdict::TooSmall,
        }
    }
}

/// The outlets that a section serves and their sum.
fn load(study: &Study, section: &Section, units: UnitSystem) -> String {
    let served = study.outlets.get(section.serves.clone()).unwrap_or_default();
    let each = served
        .iter()
        .map(|outlet| format!("{} {}", outlet.tag, flow(outlet.flow, units)));
    let sum: f64 = served.iter().map(|outlet| outlet.flow.cfh()).sum();
    let total = flow(section.load.flow, units);
    let is_sum = flow(Flow::from_cfh(sum), units) == total;
    let apart = if is_sum {
        ""
    } else {
        ", heating and cooling not together"
    };
    format!("{} = {total}{apart}", each.collect::<Vec<_>>().join(" + "))
}

/// Where the length that sizes a section leads.
pub(super) fn end(study: &Study, places: &Places<'_>, section: &Section) -> String {
    let to = section.design.to;
    let outlet = study.outlets.iter().find(|outlet| outlet.joint == to);
    outlet.map_or_else(|| places.joint(to), Outlet::lettered)
}

fn sizing_length(study: &Study, places: &Places<'_>, section: &Section, units: UnitSystem) -> String {
    let design = &section.design;
    let rule = match design.rule {
        LengthRule::Longest => "longest",
        LengthRule::Branch => "its own farthest",
    };
    let to = end(study, places, section);
    let mut said = format!("{rule}, to {to}: {}", feet(design.measured, units));
    let added = [(design.rounding, "up to the row"), (design.fittings, "for fittings")];
    let added: Vec<_> = added.iter().filter(|(length, _)| *length != Length::ZERO).collect();
    for (more, why) in &added {
        said += &format!(" + {} {why}", feet(*more, units));
    }
    if !added.is_empty() {
        said += &format!(" = {}", feet(design.total(), units));
    }
    said
}

/// The columns that were compared, small to large, up to the least that carries the load and the size on the drawing.
fn columns(study: &Study, section: &Section, units: UnitSystem) -> String {
    let sizing = &section.sizing;
    let last = sizing.needed.max(sizing.size);
    let shown = sizing
        .capacities
        .iter()
        .filter(|column| last.is_none_or(|last| column.size <= last));
    let said = shown.map(|column: &SizeCapacity| {
        let sign = if column.flow < section.load.flow { "<" } else { "≥" };
        format!(
            "{} {} {} {sign} {}",
            study.names.show(section.material, column.size),
            flow(column.flow, units),
            column.mark.letter(),
            flow(section.load.flow, units)
        )
    });
    let said: Vec<String> = said.collect();
    match said.is_empty() {
        true => NONE.to_owned(),
        false => said.join("; "),
    }
}

fn size(study: &Study, section: &Section) -> String {
    let sizing = &section.sizing;
    let named = |size| study.names.show(section.material, size);
    let Some(size) = sizing.size else {
        return NONE.to_owned();
    };
    let given = match (section.state, sizing.origin) {
        (State::Existing, _) => "existing ",
        (_, Origin::Fixed) => "set by hand ",
        (State::New | State::Removed, _) => "",
    };
    match (sizing.verdict, sizing.needed) {
        (Verdict::TooSmall, Some(needed)) => format!("{given}{}: undersized, min. {}", named(size), named(needed)),
        (Verdict::TooSmall, None) => format!("{given}{}: undersized", named(size)),
        (Verdict::Carries | Verdict::Unknown, _) => format!("{given}{}", named(size)),
    }
}

/// A flow as a bare figure.
fn flow(flow: Flow, units: UnitSystem) -> String {
    bare(&flow.show(units))
}

fn bare(written: &str) -> String {
    written.split(' ').next().unwrap_or_default().to_owned()
}

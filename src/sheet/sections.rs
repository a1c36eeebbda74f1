//! The section schedule.

use super::alike;
use super::block::{Block, Part};
use super::existing::Before;
use super::figures::{Figures, Loads, plain};
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::codebook::{CapacityUnit, Codebook, Mark};
use crate::drawing::{Asked, Blank};
use crate::job::{Material, State};
use crate::scene::answered_only;
use crate::sizing::{Basis, Origin, Section, Sizing, Verdict};
use crate::study::words::NONE;
use crate::study::{Study, served};
use crate::units::{Flow, HeatingValue, Length, UnitSystem};

/// The columns in which sections of a row together differ.
const NUMBER: usize = 0;
const SERVES: usize = 1;
const LOAD: usize = 4;
/// A schedule whose rows stand together is no wider than every paper allows, mm.
const WIDEST: f64 = 180.0;

/// The section schedule of a job.
pub fn block((study, book): (&Study, &Codebook), before: Option<&Before>, asked: Asked) -> Block {
    let mut parts = Vec::new();
    let same = Same::of(&study.sections);
    let same = Same {
        carries: same.carries && asked.is_nothing(),
        ..same
    };
    if let Some(words) = same.words() {
        parts.push(Part::Text(vec![Paragraph::new(words)]));
    }
    let printed = Printed::of(study, book);
    parts.push(Part::Table(table(study, &printed, (&same, before), asked)));
    parts.push(Part::Text(sentences((study, &printed), before, asked)));
    Block::new(Schedule::Sections, "Section schedule (number in hexagon)", parts)
}

/// What is the same in every section, or in every one of a material, is said once above the table.
struct Same<'a> {
    material: Option<Material>,
    /// For each material, in the order of the sections, what its capacities are from, where that is one.
    basis: Option<Vec<(Material, &'a str, bool)>>,
    /// Whether all sizes carry their loads.
    carries: bool,
    /// The state of all, hoses with them.
    state: Option<State>,
}

impl<'a> Same<'a> {
    fn of(all: &'a [Section]) -> Same<'a> {
        // A hose or connector is no pipe and goes by no table.
        let sections = || all.iter().filter(|section| section.is_pipe());
        let material = sections().next().map(|section| section.material);
        let mut basis: Option<Vec<(Material, &str, bool)>> = Some(Vec::new());
        for section in sections() {
            let name = basis_name(&section.sizing.basis);
            let is_table = matches!(section.sizing.basis, Basis::Table { .. });
            basis = match (basis, name) {
                (Some(mut known), Some(name)) => match known.iter().find(|known| known.0 == section.material) {
                    None => {
                        known.push((section.material, name, is_table));
                        Some(known)
                    }
                    Some(same) if same.1 == name => Some(known),
                    Some(_) => None,
                },
                (_, None) | (None, _) => None,
            };
        }
        Same {
            material: material.filter(|material| sections().all(|section| section.material == *material)),
            basis: basis.filter(|known| !known.is_empty()),
            carries: !all.is_empty() && sections().all(|section| section.sizing.verdict == Verdict::Carries),
            state: (all.first().map(|section| section.state))
                .filter(|state| all.iter().all(|section| section.state == *state)),
        }
    }

    /// Whole sentences, each where it holds.
    fn words(&self) -> Option<String> {
        let by = |name: &str, is_table: bool| match is_table {
            true => format!("table {name}"),
            false => format!("the {name}"),
        };
        let pipe = match (self.state, self.material) {
            (Some(state), Some(material)) => Some(format!("All pipe is {} {}.", state.name(), material.name())),
            (None, Some(material)) => Some(format!("All pipe is {}.", material.name())),
            (Some(state), None) => Some(format!("All pipe is {}.", state.name())),
            (None, None) => None,
        };
        let basis = self.basis.as_ref().map(|known| match known.as_slice() {
            [(_, name, is_table)] => format!("All capacities are from {}.", by(name, *is_table)),
            many => {
                let each = many
                    .iter()
                    .map(|(material, name, is_table)| format!("{} for {}", by(name, *is_table), material.name()));
                format!("Capacities are from {}.", each.collect::<Vec<_>>().join("; "))
            }
        });
        let carries = self
            .carries
            .then(|| "Every size is within the capacity listed.".to_owned());
        let said: Vec<String> = pipe.into_iter().chain(basis).chain(carries).collect();
        (!said.is_empty()).then(|| said.join(" "))
    }
}

fn basis_name(basis: &Basis) -> Option<&str> {
    match basis {
        Basis::Table { table, .. } => Some(table),
        Basis::Equation { name, .. } => Some(name),
        Basis::Nothing(_) => None,
    }
}

fn table(study: &Study, printed: &Printed, (same, before): (&Same<'_>, Option<&Before>), asked: Asked) -> Table {
    let figures = Figures::of(study.names.units());
    let length = figures.length_head();
    let flow = printed.head();
    let columns = vec![
        Column::new("no.", Set::Number),
        Column::new("serves", Set::Words),
        Column::new("state", Set::Word),
        Column::new(format!("before\n{flow}"), Set::Number),
        Column::new(format!("load\n{flow}"), Set::Number),
        Column::new(format!("measured\n{length}"), Set::Number),
        Column::new(format!("up to\n{length}"), Set::Number),
        Column::new(format!("sizing\n{length}"), Set::Number),
        Column::new(format!("row\n{length}"), Set::Number),
        Column::new("size", Set::Word),
        Column::new(format!("capacity\n{flow}"), Set::Number),
        Column::new("", Set::Mark),
        Column::new("table", Set::Word),
        Column::new("result", Set::Word),
        Column::new("min. size", Set::Word),
    ];
    let pipe = study
        .sections
        .iter()
        .enumerate()
        .filter(|(_, section)| section.is_pipe());
    let line = |number: usize, section: &Section| {
        let sizing = &section.sizing;
        let capacity = sizing.capacity();
        let plain = matches!(sizing.verdict, Verdict::Carries) || !asked.is_nothing();
        let is_existing = matches!(sizing.origin, Origin::Known | Origin::Unknown);
        let length = |length: Option<Length>| {
            asked.put(
                Blank::SizingLengths,
                length.map_or(NONE.to_owned(), |length| figures.length(length)),
            )
        };
        let needed = (sizing.needed).map_or(String::new(), |needed| study.names.show(section.material, needed));
        Row {
            cells: vec![
                section.number.to_string(),
                served(study, section),
                same.state.map_or(section.state.name(), |_| "").to_owned(),
                before
                    .and_then(|before| before.section(number))
                    .map_or(String::new(), |flow| printed.flow(flow)),
                asked.put(Blank::Loads, printed.flow(section.load.flow)),
                up_to(section).map_or(String::new(), |_| length(Some(section.design.measured))),
                up_to(section).map_or(String::new(), |row| length(Some(row))),
                length(section.sizing_length()),
                match (&sizing.basis, up_to(section)) {
                    (Basis::Table { row, .. }, _) => length(Some(*row)),
                    // An equation has no rows: it takes the sizing length itself.
                    (Basis::Equation { .. }, Some(_)) => String::new(),
                    (Basis::Equation { .. } | Basis::Nothing(_), _) => length(None),
                },
                {
                    let size = match is_existing {
                        true => size(section, study),
                        false => asked.put(Blank::Sizes, size(section, study)),
                    };
                    let material = same.material.map_or(section.made_of(), |_| "");
                    format!("{size} {material}").trim_end().to_owned()
                },
                asked.put(
                    Blank::Capacities,
                    capacity.map_or(NONE.to_owned(), |capacity| printed.flow(capacity.flow)),
                ),
                match capacity {
                    Some(capacity) if asked.asks(Blank::Capacities) => answered_only(&capacity.mark.to_string()),
                    Some(capacity) => capacity.mark.to_string(),
                    None => String::new(),
                },
                match same.basis {
                    Some(_) => String::new(),
                    None => table_name(&sizing.basis).to_owned(),
                },
                match (same.carries, asked.is_nothing()) {
                    (true, _) => String::new(),
                    (false, true) => verdict(sizing).to_owned(),
                    (false, false) if asked.asks(Blank::Findings) => asked.put(Blank::Findings, verdict(sizing)),
                    (false, false) => String::new(),
                },
                match asked.is_nothing() {
                    true if plain => String::new(),
                    true => needed,
                    // What would be enough is asked of pipe whose size is given.
                    false if asked.asks(Blank::Findings) && is_existing => asked_needed(needed),
                    false => String::new(),
                },
            ],
            weight: if plain { Weight::Plain } else { Weight::Strong },
            tag: Some(tags::row(Schedule::Sections, number)),
        }
    };
    let every = columns.clone();
    let rows: Vec<alike::Line> = pipe
        .map(|(at, section)| alike::Line {
            number: section.number,
            load: section.load.flow,
            row: line(at, section),
        })
        .collect();
    let apart: Vec<Row> = rows.iter().map(|line| line.row.clone()).collect();
    let apart = Table { columns, rows: apart };
    if apart.rows.is_empty() {
        return apart;
    }
    let apart = apart.without_empty_columns();
    if !asked.is_nothing() {
        return apart;
    }
    let together = Table {
        columns: every,
        rows: alike::together(rows, [NUMBER, SERVES, LOAD]),
    };
    let together = together.without_empty_columns();
    // What several sections say together is never cut for want of width.
    if together.least_width() > WIDEST {
        apart
    } else {
        together
    }
}

/// The least size as an answer, whether sizes are asked or not.
fn asked_needed(needed: String) -> String {
    Asked::of(&[Blank::Sizes]).put(Blank::Sizes, needed)
}

/// The row of the code's tables up to which the measured length goes before fittings are added to it.
fn up_to(section: &Section) -> Option<Length> {
    section.design.row.map(|row| row.value)
}

/// In what loads and capacities are printed: as the tables are, so that a figure can be found in them.
enum Printed {
    /// Thousands of Btu/h: this much of them is in a cubic foot an hour.
    Heat(HeatingValue),
    /// A flow.
    Flow(Figures, Loads),
}

impl Printed {
    fn of(study: &Study, book: &Codebook) -> Printed {
        let sections = || study.sections.iter().filter(|section| section.is_pipe());
        let mut tables = sections().map(|section| &section.sizing.basis);
        let is_us = study.names.units() == UnitSystem::Us;
        let is_heat = |basis: &Basis| match basis {
            Basis::Table { table, .. } => book.table(table).is_some_and(|table| table.unit == CapacityUnit::Mbh),
            Basis::Equation { .. } | Basis::Nothing(_) => false,
        };
        if is_us && sections().next().is_some() && tables.all(is_heat) {
            return Printed::Heat(study.gas.heating_value);
        }
        let figures = Figures::of(study.names.units());
        Printed::Flow(figures, figures.loads(&study.outlets, study.total.flow))
    }

    fn head(&self) -> &'static str {
        match self {
            Printed::Heat(_) => "MBH",
            Printed::Flow(figures, _) => figures.flow_head(),
        }
    }

    /// A load or a capacity.
    fn flow(&self, flow: Flow) -> String {
        match self {
            Printed::Heat(value) => plain((flow.heat(*value).mbh() * 10.0).round() / 10.0),
            Printed::Flow(_, loads) => loads.flow(flow),
        }
    }
}

/// The size of a section in a column.
pub fn size(section: &Section, study: &Study) -> String {
    let named = |size| study.names.show(section.material, size);
    match (section.sizing.size, section.sizing.origin) {
        (_, Origin::Connector) => "connector".to_owned(),
        (Some(size), Origin::Known | Origin::Fixed | Origin::Found | Origin::Unknown) => named(size),
        (None, Origin::Unknown) => "not entered".to_owned(),
        (None, Origin::Known | Origin::Fixed | Origin::Found) => NONE.to_owned(),
    }
}

fn table_name(basis: &Basis) -> &str {
    match basis {
        Basis::Table { table, .. } => table,
        Basis::Equation { .. } => "equation",
        Basis::Nothing(_) => NONE,
    }
}

/// Whether the size carries the load, in a column.
pub const fn verdict(sizing: &Sizing) -> &'static str {
    match sizing.verdict {
        Verdict::Carries => "within capacity",
        Verdict::TooSmall => "UNDERSIZED",
        Verdict::Unknown if matches!(sizing.origin, Origin::Connector) => "by rating",
        Verdict::Unknown => "not judged",
    }
}

fn sentences((study, printed): (&Study, &Printed), before: Option<&Before>, asked: Asked) -> Vec<Paragraph> {
    if study.sections.is_empty() {
        return vec![Paragraph::new(
            "Nothing is sized: no pipe is connected to a point of delivery yet.",
        )];
    }
    let mut said = Vec::new();
    if matches!(printed, Printed::Heat(_)) {
        said.push("Loads and capacities are in thousands of Btu/h (MBH), as the tables are printed.");
    }
    let has_fittings = (study.sections.iter()).any(|section| section.design.fittings > Length::ZERO);
    let has_hoses = study.outlets.iter().any(|outlet| outlet.hose.is_some());
    said.extend(match (has_fittings, has_hoses) {
        (true, true) => Some("Sizing lengths include fittings, not hoses and connectors: these go by their rating."),
        (true, false) => Some("Sizing lengths include fittings."),
        (false, true) => Some("Sizing lengths leave out hoses and connectors: these go by their rating."),
        (false, false) => None,
    });
    let old = (0..study.sections.len()).filter(|at| before.is_some_and(|before| before.section(*at).is_some()));
    if old.clone().next().is_some() && old.clone().all(|at| before.is_some_and(|before| before.tells(at))) {
        said.push("Existing sections were within capacity before this work. That is a check of capacity, not a pressure test.");
    }
    let mut rows = study.sections.iter().filter_map(|section| section.design.row);
    if let Some(first) = rows.next() {
        let assumed = rows.any(|row| row.mark != first.mark) || first.mark != Mark::Found;
        said.push(match assumed {
            true => {
                "Measured lengths go up to the next row of the code's tables before fittings are added; marks show where \
                 a row was not read in print."
            }
            false => "Measured lengths go up to the next row of the code's tables before fittings are added.",
        });
    }
    let any = |is: &dyn Fn(&Section) -> bool| study.sections.iter().any(is);
    if asked.is_nothing() && any(&|section| section.sizing.origin == Origin::Fixed) {
        said.push("Some new sizes were entered by hand; each was checked against its load.");
    }
    let is_told = match asked.is_nothing() {
        true => any(&|section| section.sizing.verdict == Verdict::TooSmall),
        false => asked.asks(Blank::Findings) && any(&|section| section.sizing.origin == Origin::Known),
    };
    if is_told {
        said.push("Min. size is the smallest size by this method.");
    }
    match said.is_empty() {
        true => Vec::new(),
        false => vec![Paragraph::new(said.join(" "))],
    }
}

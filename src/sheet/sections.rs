//! The section schedule.

use super::block::{Block, Part};
use super::figures::Figures;
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::codebook::{CapacityTable, Codebook, Mark};
use crate::job::{Job, Material};
use crate::sizing::{Basis, Origin, Section, Sizing, Verdict};
use crate::study::words::{NONE, capital};
use crate::study::{Places, Study};
use crate::units::Length;

/// The section schedule of a job.
pub fn block(job: &Job, study: &Study, book: &Codebook, places: &Places<'_>) -> Block {
    let mut parts = Vec::new();
    let same = Same::of(&study.sections);
    if let Some(words) = same.words() {
        parts.push(Part::Text(vec![Paragraph::new(words)]));
    }
    parts.push(Part::Table(table(job, study, places, &same)));
    parts.push(Part::Text(sentences(study, book)));
    Block::new(Schedule::Sections, "Sections", parts)
}

/// What is the same in every section is said once above the table.
struct Same<'a> {
    material: Option<Material>,
    basis: Option<&'a str>,
    is_table: bool,
}

impl<'a> Same<'a> {
    fn of(sections: &'a [Section]) -> Same<'a> {
        // A hose or connector is no pipe and goes by no table.
        let sections = || {
            sections
                .iter()
                .filter(|section| section.sizing.origin != Origin::Connector)
        };
        let first = sections().next();
        let material = first.map(|section| section.material);
        let basis = first.and_then(|section| basis_name(&section.sizing.basis));
        let is_table = first.is_some_and(|section| matches!(section.sizing.basis, Basis::Table { .. }));
        Same {
            material: material.filter(|material| sections().all(|section| section.material == *material)),
            basis: basis.filter(|_| sections().all(|section| basis_name(&section.sizing.basis) == basis)),
            is_table,
        }
    }

    fn words(&self) -> Option<String> {
        let material = self.material.map(|material| format!("all pipe {}", material.name()));
        let basis = self.basis.map(|basis| match self.is_table {
            true => format!("all capacities from table {basis}"),
            false => format!("all capacities by the {basis}"),
        });
        let said: Vec<String> = material.into_iter().chain(basis).collect();
        (!said.is_empty()).then(|| format!("{}.", capital(&said.join("; "))))
    }
}

fn basis_name(basis: &Basis) -> Option<&str> {
    match basis {
        Basis::Table { table, .. } => Some(table),
        Basis::Equation { name, .. } => Some(name),
        Basis::Nothing(_) => None,
    }
}

fn table(job: &Job, study: &Study, places: &Places<'_>, same: &Same<'_>) -> Table {
    let figures = Figures::of(&job.settings);
    let (flow, length) = (figures.flow_head(), figures.length_head());
    let columns = vec![
        Column::new("no.", Set::Number),
        Column::new("from – to", Set::Words),
        Column::new("material", Set::Word),
        Column::new("state", Set::Word),
        Column::new(format!("load\n{flow}"), Set::Number),
        Column::new(format!("design\n{length}"), Set::Number),
        Column::new(format!("row\n{length}"), Set::Number),
        Column::new("size", Set::Word),
        Column::new(format!("capacity\n{flow}"), Set::Number),
        Column::new("", Set::Mark),
        Column::new("table", Set::Word),
        Column::new("verdict", Set::Word),
        Column::new("least", Set::Word),
    ];
    let rows = study.sections.iter().enumerate().map(|(number, section)| {
        let sizing = &section.sizing;
        let capacity = sizing.capacity();
        let plain = matches!(sizing.verdict, Verdict::Carries);
        Row {
            cells: vec![
                section.number.to_string(),
                format!("{} – {}", places.joint(section.from), places.joint(section.to)),
                same.material.map_or(section.made_of(), |_| "").to_owned(),
                section.state.name().to_owned(),
                figures.flow(section.load.flow),
                section
                    .sizing_length()
                    .map_or(NONE.to_owned(), |length| figures.length(length)),
                row_length(section).map_or(NONE.to_owned(), |row| figures.length(row)),
                size(section, study),
                capacity.map_or(NONE.to_owned(), |capacity| figures.flow(capacity.flow)),
                capacity.map_or(String::new(), |capacity| capacity.mark.letter().to_string()),
                match same.basis {
                    Some(_) => String::new(),
                    None => table_name(&sizing.basis).to_owned(),
                },
                verdict(sizing).to_owned(),
                sizing
                    .needed
                    .filter(|_| !plain)
                    .map_or(String::new(), |needed| study.names.show(section.material, needed)),
            ],
            weight: if plain { Weight::Plain } else { Weight::Strong },
            tag: Some(tags::row(Schedule::Sections, number)),
        }
    });
    let table = Table {
        rows: rows.collect(),
        columns,
    };
    if table.rows.is_empty() {
        table
    } else {
        table.without_empty_columns()
    }
}

/// The row that was read: of the table, or of the code's tables for which an equation stands.
fn row_length(section: &Section) -> Option<Length> {
    match &section.sizing.basis {
        Basis::Table { row, .. } => Some(*row),
        Basis::Equation { .. } => section.design.row.map(|row| row.value),
        Basis::Nothing(_) => None,
    }
}

/// The size of a section in a column.
pub fn size(section: &Section, study: &Study) -> String {
    let named = |size| study.names.show(section.material, size);
    match (section.sizing.size, section.sizing.origin) {
        (_, Origin::Connector) => "connector".to_owned(),
        (Some(size), Origin::Known | Origin::Fixed | Origin::Found | Origin::Unknown) => named(size),
        (None, Origin::Unknown) => "not said".to_owned(),
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
        Verdict::Carries => "carries",
        Verdict::TooSmall => "TOO SMALL",
        Verdict::Unknown if matches!(sizing.origin, Origin::Connector) => "by rating",
        Verdict::Unknown => "not known",
    }
}

fn sentences(study: &Study, book: &Codebook) -> Vec<Paragraph> {
    if study.sections.is_empty() {
        return vec![Paragraph::new("No pipe carries gas from a point of delivery yet.")];
    }
    let mut said = Vec::new();
    let by_ehd = |section: &Section| match &section.sizing.basis {
        Basis::Table { table, .. } => book.table(table).is_some_and(CapacityTable::yields_to_maker),
        Basis::Equation { .. } | Basis::Nothing(_) => false,
    };
    if study.sections.iter().any(by_ehd) {
        said.push("CSST is sized by the code's table by EHD: the tubing maker's own table governs and may give less.");
    }
    if study
        .sections
        .iter()
        .any(|section| section.design.fittings > Length::ZERO)
    {
        said.push("Design lengths include the equivalent length of fittings that the profile adds.");
    }
    if study.outlets.iter().any(|outlet| outlet.hose.is_some()) {
        said.push("Piping is sized to its outlets: hoses and connectors are in no length and go by their own rating.");
    }
    let mut rows = study.sections.iter().filter_map(|section| section.design.row);
    if let Some(first) = rows.next() {
        let assumed = rows.any(|row| row.mark != first.mark) || first.mark != Mark::Found;
        said.push(match assumed {
            true => "Lengths go up to the next row of the code's tables; not all of these rows were read, and the marks say so.",
            false => "Lengths go up to the next row of the code's tables.",
        });
    }
    if study
        .sections
        .iter()
        .any(|section| section.sizing.origin == Origin::Fixed)
    {
        said.push("Some sizes of new pipe were fixed by hand and are judged here like the others.");
    }
    if study
        .sections
        .iter()
        .any(|section| section.sizing.verdict == Verdict::TooSmall)
    {
        said.push("Least is the smallest size that the method finds.");
    }
    match said.is_empty() {
        true => Vec::new(),
        false => vec![Paragraph::new(said.join(" "))],
    }
}

//! The sizing of a job as a lecture: step by step, each with the pipe it speaks of and the part of the printed table that
//! it reads.

use super::reading::Reading;
use super::slip::feet;
use super::working::{Working, end};
use crate::codebook::{CapacityTable, Codebook, Row};
use crate::job::{Job, Method};
use crate::network::{Outlet, by_letter};
use crate::sizing::{Basis, DesignLength, Section};
use crate::study::{Places, Study, served};
use crate::units::{Flow, Length, NominalSize, Show, UnitSystem, grouped, in_units};
use std::collections::HashSet;

/// Rows of a table that are shown above and below the one that is read.
const ROWS: usize = 2;
/// Columns of a table that are shown at most.
const COLUMNS: usize = 7;

/// A step of the lecture.
#[derive(Clone, Debug, PartialEq)]
pub struct SizingStep {
    /// What it is about.
    pub heading: String,
    /// What is said, a paragraph each.
    pub said: Vec<String>,
    /// The runs of the way that is measured, positions in `job.runs`.
    pub way: Vec<usize>,
    /// The runs of the section that is sized.
    pub section: Vec<usize>,
    /// What is read in the table.
    pub excerpt: Option<Excerpt>,
}

/// A part of a printed table, with the row and the column that are read.
#[derive(Clone, Debug, PartialEq)]
pub struct Excerpt {
    /// Which table it is, and where it was read.
    pub title: String,
    /// The unit of its figures.
    pub unit: &'static str,
    /// The sizes over its columns.
    pub sizes: Vec<String>,
    /// The length of each row and its cells, a dash where the table prints none.
    pub rows: Vec<(String, Vec<String>)>,
    /// The row that is read.
    pub row: usize,
    /// The column whose figure is the first that carries the load.
    pub column: Option<usize>,
}

/// The steps of the sizing of a job: what the appliances take, then each length that sizes pipe, followed by the sections
/// that it sizes, in flow order.
pub fn lecture(job: &Job, book: &Codebook, study: &Study) -> Vec<SizingStep> {
    let places = Places::of(job, study);
    let mut steps = vec![inputs(study)];
    let working = Working::all(job, study);
    let sections = study.sections.iter().filter(|section| section.is_pipe());
    let mut told = HashSet::new();
    for (section, working) in sections.zip(working) {
        if told.insert((section.zone, section.design.to)) {
            steps.push(length(job, study, &places, section));
        }
        steps.push(sized(job, book, (study, &places), section, working));
    }
    steps
}

fn inputs(study: &Study) -> SizingStep {
    let units = study.names.units();
    let one = |outlet: &Outlet| {
        let input = outlet
            .heat
            .map_or("input not entered".to_owned(), |heat| heat.show(units));
        format!("{}: {input} takes {}.", outlet.lettered(), outlet.flow.show(units))
    };
    let mut said: Vec<String> = by_letter(&study.outlets).into_iter().map(one).collect();
    said.push(format!(
        "Flow is the input from the rating plate, divided by the heating value: {}.",
        study.gas.heating_value.show(units)
    ));
    SizingStep {
        heading: "What each appliance takes".to_owned(),
        said,
        way: Vec::new(),
        section: Vec::new(),
        excerpt: None,
    }
}

/// The pipe from the start of a section's zone to where its sizing length leads, in flow order; no hose, which is in no
/// sizing length.
fn way(study: &Study, section: &Section) -> Vec<usize> {
    let network = &study.network;
    let start = study.zones.get(section.zone).map(|zone| zone.start);
    let up = network
        .way_up(section.design.to)
        .take_while(|joint| Some(*joint) != start);
    let is_pipe = |run: &usize| {
        study.runs[*run]
            .section
            .is_some_and(|section| study.sections[section].is_pipe())
    };
    let runs = up.filter_map(|joint| network.feed[joint]).filter(is_pipe);
    let mut runs: Vec<usize> = runs.collect();
    runs.reverse();
    runs
}

fn length(job: &Job, study: &Study, places: &Places<'_>, section: &Section) -> SizingStep {
    let units = study.names.units();
    let design = &section.design;
    let way = way(study, section);
    let to = end(study, places, section);
    let method = study.zones.get(section.zone).map(|zone| zone.method);
    let rule = match method {
        Some(Method::LongestLength) => format!(
            "The longest way from the start of this pressure is the one to {to}. By the longest length method every \
             section of this pressure is sized by it, whatever its own length."
        ),
        Some(Method::BranchLength) | None => format!(
            "By the branch length method this pipe is sized by the way to the farthest that it serves itself: {to}."
        ),
    };
    let mut said = vec![rule];
    let own = |section: &&Section| section.runs.iter().any(|run| way.contains(run));
    let parts = study.sections.iter().filter(own).map(|section| {
        let runs = section.runs.iter().filter(|run| way.contains(run));
        let long = runs.map(|run| job.true_length(job.runs.at(*run))).sum::<Length>();
        format!("{} (section {})", feet(long, units), section.number)
    });
    let parts: Vec<String> = parts.collect();
    said.push(format!("{} = {}.", parts.join(" + "), feet(design.measured, units)));
    said.extend(added(design, units));
    SizingStep {
        heading: format!("The sizing length: to {to}"),
        said,
        way,
        section: Vec::new(),
        excerpt: None,
    }
}

fn added(design: &DesignLength, units: UnitSystem) -> Option<String> {
    let more = [(design.rounding, "up to the row"), (design.fittings, "for fittings")];
    let more: Vec<String> = more
        .iter()
        .filter(|(length, _)| *length != Length::ZERO)
        .map(|(length, why)| format!(" + {} {why}", feet(*length, units)))
        .collect();
    let total = feet(design.total(), units);
    (!more.is_empty()).then(|| format!("{}{} = {total}.", feet(design.measured, units), more.concat()))
}

fn sized(
    job: &Job,
    book: &Codebook,
    (study, places): (&Study, &Places<'_>),
    section: &Section,
    working: Working,
) -> SizingStep {
    let units = study.names.units();
    let (to, total) = (end(study, places, section), feet(section.design.total(), units));
    let mut said = vec![format!("Load, {}: {}.", flow_unit(units), working.load)];
    said.push(match &section.sizing.basis {
        Basis::Table { row, .. } => format!(
            "Sizing length, to {to}: {total}. The first row that is not shorter is {}.",
            feet(*row, units)
        ),
        Basis::Equation { .. } | Basis::Nothing(_) => format!("Sizing length, to {to}: {total}. By {}.", working.table),
    });
    said.push(format!("Columns: {}.", working.columns));
    said.push(format!("Size: {}.", working.size));
    said.extend(working.remarks);
    SizingStep {
        heading: format!("Section {}, serves {}", working.number, served(study, section)),
        said,
        way: way(study, section),
        section: section.runs.clone(),
        excerpt: excerpt(job, book, study, section),
    }
}

fn excerpt(job: &Job, book: &Codebook, study: &Study, section: &Section) -> Option<Excerpt> {
    let units = study.names.units();
    let table = Reading::of(job, book, study, section)?.table;
    let Basis::Table { row: read, .. } = &section.sizing.basis else {
        return None;
    };
    let rows: Vec<Row> = table.rows().collect();
    let at = rows.iter().position(|row| table.length(*row) == *read)?;
    let first = at.saturating_sub(ROWS);
    let shown = &rows[first..rows.len().min(at + ROWS + 1)];
    let sizes = columns(table, section.sizing.needed.or(section.sizing.size));
    let cell = |row: Row, size: NominalSize| {
        let cell = table.column(size).and_then(|column| table.cell(row, column));
        cell.map_or("-".to_owned(), |cell| {
            format!("{} {}", printed(cell.capacity.amount()), cell.mark.letter())
        })
    };
    Some(Excerpt {
        title: in_units(
            &format!("Table {}: {} ({})", table.id, table.title, table.where_read_in_short()),
            units,
        ),
        unit: table.unit.name(),
        sizes: sizes
            .iter()
            .map(|size| study.names.show(section.material, *size))
            .collect(),
        rows: shown
            .iter()
            .map(|row| {
                let cells = sizes.iter().map(|size| cell(*row, *size)).collect();
                (feet(table.length(*row), units), cells)
            })
            .collect(),
        row: at - first,
        column: sizes.iter().position(|size| Some(*size) == section.sizing.needed),
    })
}

/// The columns around a size, or the first ones.
fn columns(table: &CapacityTable, around: Option<NominalSize>) -> Vec<NominalSize> {
    let sizes = table.sizes();
    let at = around
        .and_then(|size| sizes.iter().position(|other| *other == size))
        .unwrap_or(0);
    let first = at.saturating_sub(COLUMNS / 2).min(sizes.len().saturating_sub(COLUMNS));
    sizes.iter().skip(first).take(COLUMNS).copied().collect()
}

/// The unit of flows.
fn flow_unit(units: UnitSystem) -> String {
    let shown = Flow::from_cfh(1.0).show(units);
    shown.split_once(' ').map_or(String::new(), |(_, unit)| unit.to_owned())
}

/// A figure as a table prints it.
fn printed(amount: f64) -> String {
    let digits = usize::from(amount.fract() != 0.0);
    grouped(&format!("{amount:.digits$}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file;

    fn steps(text: &str) -> (Job, Study, Vec<SizingStep>) {
        let job = file::read(text).unwrap();
        let book = Codebook::published();
        let study = Study::of(&job, book);
        let steps = lecture(&job, book, &study);
        (job, study, steps)
    }

    /// What is lit and added up is what the section is sized by, and what is framed is what the study found.
    #[test]
    fn each_step_shows_the_length_and_the_figure_that_sized_its_section() {
        for text in [
            include_str!("../../examples/patio-kitchen.ron"),
            include_str!("../../examples/two-pressure-house.ron"),
        ] {
            let (job, study, steps) = steps(text);
            let pipe: Vec<&Section> = study.sections.iter().filter(|section| section.is_pipe()).collect();
            let sized: Vec<&SizingStep> = steps.iter().filter(|step| !step.section.is_empty()).collect();
            assert_eq!(sized.len(), pipe.len());
            for (step, section) in sized.into_iter().zip(pipe) {
                assert_eq!(step.section, section.runs);
                let long: f64 = step
                    .way
                    .iter()
                    .map(|run| job.true_length(job.runs.at(*run)).feet())
                    .sum();
                assert!(
                    (long - section.design.measured.feet()).abs() < 1e-9,
                    "{}: {long}",
                    step.heading
                );
                let Some(excerpt) = &step.excerpt else { continue };
                let (length, cells) = &excerpt.rows[excerpt.row];
                let Basis::Table { row, .. } = &section.sizing.basis else {
                    panic!()
                };
                assert_eq!(*length, feet(*row, study.names.units()));
                let needed = section.sizing.needed.unwrap();
                let found = section
                    .sizing
                    .capacities
                    .iter()
                    .find(|column| column.size == needed)
                    .unwrap();
                let column = excerpt.column.unwrap();
                assert_eq!(excerpt.sizes[column], study.names.show(section.material, needed));
                if study.gas.specific_gravity == 0.6 && excerpt.unit == "cfh" {
                    let said = format!("{} {}", printed(found.flow.cfh()), found.mark.letter());
                    assert_eq!(cells[column], said);
                }
            }
        }
    }

    #[test]
    fn a_job_without_pipe_has_its_first_step_alone() {
        let study = Study::of(&Job::default(), Codebook::published());
        assert_eq!(lecture(&Job::default(), Codebook::published(), &study).len(), 1);
    }
}

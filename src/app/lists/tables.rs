//! What was found, the sections, the fittings and the outlets, as rows; figures are written as on the sheet.

use super::list::{List, Then};
use super::row::{Column, Leads, Lines, Row, Table};
use crate::advice::{AuditPart, Standing};
use crate::desk::request::Request;
use crate::desk::{Carried, Desk, Shown, VIEW};
use crate::drawing::strokes;
use crate::editor::Part;
use crate::network::by_letter;
use crate::rules::{Finding, Severity};
use crate::sheet::figures::Figures;
use crate::sheet::{appliance_name, section_size, section_verdict};
use crate::sizing::{Basis, Verdict};
use crate::study::Places;
use crate::study::words::{NONE, capital};
use crate::units::GaugePressure;
use crate::view::canvas::Over;

/// The list of what the rules found.
#[derive(Default)]
pub struct Found;

impl List for Found {
    fn name(&self) -> &'static str {
        "Findings"
    }

    fn tip(&self) -> &'static str {
        "Findings of the rules, worst first"
    }

    fn count(&self, shown: &Shown) -> Option<usize> {
        Some(shown.checked.findings.len())
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        Some(found(desk.shown()))
    }

    fn choose(&mut self, at: usize, desk: &mut Desk) -> Then {
        let finding = desk.shown().checked.findings.get(at);
        if let Some(field) = finding.and_then(|finding| finding.field) {
            desk.ask(Request::GoToDetail(field));
        }
        Then::Lead
    }
}

/// The list of sections.
#[derive(Default)]
pub struct Sections;

impl List for Sections {
    fn name(&self) -> &'static str {
        "Sections"
    }

    fn tip(&self) -> &'static str {
        "Pipe of one load between two tees: its load, length, size and capacity"
    }

    fn count(&self, shown: &Shown) -> Option<usize> {
        Some(
            shown
                .checked
                .study
                .sections
                .iter()
                .filter(|section| section.is_pipe())
                .count(),
        )
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        Some(sections(desk.shown()))
    }
}

/// The list of outlets.
#[derive(Default)]
pub struct Appliances;

impl List for Appliances {
    fn name(&self) -> &'static str {
        "Appliances"
    }

    fn tip(&self) -> &'static str {
        "Appliances with their pressure at full load"
    }

    fn count(&self, shown: &Shown) -> Option<usize> {
        Some(shown.checked.study.outlets.len())
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        Some(outlets(desk.shown()))
    }
}

/// The list of what stands.
#[derive(Default)]
pub struct Existing;

impl List for Existing {
    fn name(&self) -> &'static str {
        "Existing"
    }

    fn tip(&self) -> &'static str {
        "Existing parts before and after this work. On the paper: long, heavy, dense strokes, over capacity; shorter, thin, few strokes, within \
         capacity; the shortest, not judged; a cross, a device over its rating or an inlet below its minimum"
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let carried = desk.carried()?;
        Some(existing(desk.shown(), &carried))
    }

    fn over(&self, desk: &mut Desk) -> Over {
        let carried = desk.carried();
        Over {
            strokes: carried.map_or_else(Vec::new, |carried| {
                strokes::carried(&desk.shown().job, &carried.audit, &VIEW)
            }),
            way: Vec::new(),
        }
    }
}

/// The list of what can be added.
#[derive(Default)]
pub struct Room;

impl List for Room {
    fn name(&self) -> &'static str {
        "Spare capacity"
    }

    fn tip(&self) -> &'static str {
        "How much can be added at each joint before something goes over its limit"
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let carried = desk.carried()?;
        Some(room(desk.shown(), &carried))
    }
}

/// What was found, worst first.
fn found(shown: &Shown) -> Table {
    let places = Places::of(&shown.job, &shown.checked.study);
    let row = |finding: &Finding| {
        let more = match finding.also.len() {
            0 => String::new(),
            1 => ", 1 more place".to_owned(),
            more => format!(", {more} more places"),
        };
        let cells = vec![
            finding.severity.name().to_owned(),
            places.finding(finding.place) + &more,
            finding.what.clone(),
            capital(&finding.remedy),
        ];
        let others = finding.also.iter().filter_map(|place| shown.part_at(*place));
        let parts: Vec<Part> = shown.part_of(finding).into_iter().chain(others).collect();
        let leads = if parts.is_empty() {
            Leads::Job
        } else {
            Leads::Each(parts)
        };
        Row {
            mark: Some(finding.severity),
            aside: format!("Basis: {}", finding.basis),
            ..Row::new(cells, leads)
        }
    };
    Table {
        columns: vec![
            Column::words("severity"),
            Column::words("where"),
            Column::wide("what", 3.0),
            Column::wide("what to do", 2.0),
        ],
        rows: shown.checked.findings.iter().map(row).collect(),
        lines: Lines::Two,
        empty: "No findings from the rules. What the rules do not look at is not checked.".to_owned(),
    }
}

/// The sections, in flow order.
fn sections(shown: &Shown) -> Table {
    let (job, study) = (&shown.job, &shown.checked.study);
    let places = Places::of(job, study);
    let figures = Figures::of(shown.checked.study.names.units());
    let (flow, length) = (figures.flow_head(), figures.length_head());
    let pipe = study.sections.iter().filter(|section| section.is_pipe());
    let rows = pipe.map(|section| {
        let sizing = &section.sizing;
        let capacity = sizing.capacity();
        let (table, row) = match &sizing.basis {
            Basis::Table { table, row } => (table.to_string(), figures.length(*row)),
            Basis::Equation { .. } => {
                let row = section.design.row;
                let row = row.map_or(NONE.to_owned(), |row| figures.length(row.value));
                ("equation".to_owned(), row)
            }
            Basis::Nothing(_) => (NONE.to_owned(), NONE.to_owned()),
        };
        let cells = vec![
            section.number.to_string(),
            format!("{} – {}", places.joint(section.from), places.joint(section.to)),
            section.made_of().to_owned(),
            section.state.name().to_owned(),
            figures.flow(section.load.flow),
            figures.length(section.measured),
            section
                .sizing_length()
                .map_or(NONE.to_owned(), |length| figures.length(length)),
            row,
            section_size(section, study),
            capacity.map_or(NONE.to_owned(), |capacity| {
                format!("{} {}", figures.flow(capacity.flow), capacity.mark)
            }),
            table,
            section_verdict(sizing).to_owned(),
            sizing
                .needed
                .map_or(NONE.to_owned(), |needed| study.names.show(section.material, needed)),
        ];
        let runs = section.runs.iter().map(|run| Part::Run(job.runs.at(*run).id));
        Row {
            mark: (sizing.verdict == Verdict::TooSmall).then_some(Severity::MustFix),
            ..Row::new(cells, Leads::Together(runs.collect()))
        }
    });
    Table {
        rows: rows.collect(),
        columns: vec![
            Column::figures("no."),
            Column::wide("from – to", 1.0),
            Column::words("material"),
            Column::words("state"),
            Column::figures(format!("load, {flow}")),
            Column::figures(format!("length, {length}")),
            Column::figures(format!("sizing length, {length}")),
            Column::figures(format!("table row, {length}")),
            Column::figures("size"),
            Column::figures(format!("capacity, {flow}")),
            Column::words("table"),
            Column::words("result"),
            Column::figures("min. size"),
        ],
        lines: Lines::One,
        empty: "No pipe carries gas from a point of delivery yet.".to_owned(),
    }
}

/// Appliances and ends left for them, by letter.
fn outlets(shown: &Shown) -> Table {
    let (job, study) = (&shown.job, &shown.checked.study);
    let figures = Figures::of(shown.checked.study.names.units());
    let pressures = study.outlets.iter().flat_map(|outlet| [outlet.pressure, outlet.least]);
    let largest = pressures.flatten().map(GaugePressure::pa).fold(0.0, f64::max);
    let unit = figures.pressure(GaugePressure::from_pa(largest));
    let none = || NONE.to_owned();
    let rows = by_letter(&study.outlets).into_iter().map(|outlet| {
        let state = job.joints.at(outlet.joint).placed.as_ref();
        let cells = vec![
            outlet.tag.clone(),
            appliance_name(job, outlet),
            state.map_or(NONE, |placed| placed.state.name()).to_owned(),
            outlet.heat.map_or_else(none, |heat| figures.heat(heat)),
            outlet.heat.map_or_else(none, |_| figures.flow(outlet.flow)),
            figures.length(outlet.distance),
            outlet.pressure.map_or_else(none, |pressure| unit.gauge(pressure)),
            outlet.least.map_or_else(none, |least| unit.gauge(least)),
            outlet.margin.map_or_else(none, |margin| unit.figure(margin)),
        ];
        let is_short = outlet.margin.is_some_and(|margin| margin.pa() < 0.0);
        Row {
            mark: is_short.then_some(Severity::MustFix),
            ..Row::new(cells, Leads::Each(vec![Part::Joint(job.joints.at(outlet.joint).id)]))
        }
    });
    let pressed = |what: &str| format!("{what}, {}", unit.head());
    Table {
        rows: rows.collect(),
        columns: vec![
            Column::words("letter"),
            Column::wide("appliance", 1.0),
            Column::words("state"),
            Column::figures(format!("input, {}", figures.heat_head())),
            Column::figures(format!("flow, {}", figures.flow_head())),
            Column::figures(format!("from delivery, {}", figures.length_head())),
            Column::figures(pressed("inlet")),
            Column::figures(pressed("min. req'd")),
            Column::figures(pressed("margin")),
        ],
        lines: Lines::One,
        empty: "No appliance is connected to a point of delivery yet.".to_owned(),
    }
}

/// What stands, before and after the work.
fn existing(shown: &Shown, carried: &Carried) -> Table {
    let (job, units) = (&shown.job, shown.checked.study.names.units());
    let rows = carried.audit.rows.iter().map(|row| {
        let [before, after] = row.sides(units);
        let cells = vec![
            row.part.words(job, shown.checked.study.names),
            before,
            after,
            row.verdict().to_owned(),
        ];
        let leads = match &row.part {
            AuditPart::Pipe { runs, .. } => {
                Leads::Together(runs.iter().map(|&run| Part::Run(job.runs.at(run).id)).collect())
            }
            AuditPart::Device { joint, .. } | AuditPart::Inlet { joint, .. } | AuditPart::Setting { joint } => {
                Leads::Each(vec![Part::Joint(job.joints.at(*joint).id)])
            }
        };
        Row {
            mark: match row.after.map(|held| held.standing()) {
                Some(Standing::Fails) | None => Some(Severity::MustFix),
                Some(Standing::Unknown) => Some(Severity::Check),
                Some(Standing::Holds) => None,
            },
            ..Row::new(cells, leads)
        }
    });
    Table {
        rows: rows.collect(),
        columns: vec![
            Column::wide("part", 1.5),
            Column::wide("before", 1.0),
            Column::wide("after", 1.0),
            Column::words("result"),
        ],
        lines: Lines::One,
        empty: "No existing part is drawn: mark pipe and devices as existing.".to_owned(),
    }
}

/// What can be added at each joint.
fn room(shown: &Shown, carried: &Carried) -> Table {
    let (job, study) = (&shown.job, &shown.checked.study);
    let places = Places::of(job, study);
    let spares = carried.headroom.joints.iter().enumerate();
    let rows = spares.filter_map(|(joint, spare)| {
        let [heat, by] = spare.as_ref()?.words(job, study);
        let cells = vec![job.joints.at(joint).id.to_string(), places.joint(joint), heat, by];
        Some(Row::new(cells, Leads::Each(vec![Part::Joint(job.joints.at(joint).id)])))
    });
    Table {
        rows: rows.collect(),
        columns: vec![
            Column::words("joint"),
            Column::wide("place", 1.0),
            Column::figures("spare capacity"),
            Column::wide("first over its limit", 2.0),
        ],
        lines: Lines::One,
        empty: "No joint is connected to the gas supply yet, or pipe closes a loop, for which spare capacity is not worked out.".to_owned(),
    }
}

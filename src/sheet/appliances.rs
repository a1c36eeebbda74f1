//! The appliance schedule.

use super::block::{Block, Part};
use super::existing::Before;
use super::figures::Figures;
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::drawing::{Asked, Blank};
use crate::job::{Device, Job, Season};
use crate::network::{Outlet, OutletKind, by_letter};
use crate::study::Study;
use crate::study::places::{self, LONGEST_NAME};
use crate::study::words::{NONE, shortened};
use crate::units::{GaugePressure, Show};

/// The appliance schedule of a job.
pub fn block(job: &Job, study: &Study, before: Option<&Before>, asked: Asked) -> Block {
    if study.outlets.is_empty() {
        let said = vec![Paragraph::new("No appliance is connected to a point of delivery yet.")];
        return Block::new(Schedule::Appliances, "Appliances", vec![Part::Text(said)]);
    }
    let mut parts = vec![Part::Table(table(job, study, before, asked))];
    let sentences = sentences(job, study, asked);
    if !sentences.is_empty() {
        parts.push(Part::Text(sentences));
    }
    Block::new(Schedule::Appliances, "Appliances", parts)
}

fn table(job: &Job, study: &Study, before: Option<&Before>, asked: Asked) -> Table {
    let figures = Figures::of(study.names.units());
    let loads = figures.loads(&study.outlets, study.total.flow);
    let pressures = study.outlets.iter().flat_map(|outlet| [outlet.pressure, outlet.least]);
    let largest = pressures.flatten().map(GaugePressure::pa).fold(0.0, f64::max);
    let unit = figures.pressure(GaugePressure::from_pa(largest));
    let pressed = |what: &str| format!("{what}\n{}", unit.head());
    let columns = vec![
        Column::new("", Set::Word),
        Column::new("appliance", Set::Words),
        Column::new("state", Set::Word),
        Column::new(format!("input\n{}", figures.heat_head()), Set::Number),
        Column::new(format!("flow\n{}", figures.flow_head()), Set::Number),
        Column::new(pressed("before"), Set::Number),
        Column::new(pressed("inlet"), Set::Number),
        Column::new(pressed("min."), Set::Number),
        Column::new(pressed("margin"), Set::Number),
    ];
    let had = |outlet: &Outlet| before.and_then(|before| before.inlet(outlet.joint));
    let mut rows: Vec<Row> = by_letter(&study.outlets)
        .into_iter()
        .enumerate()
        .map(|(number, outlet)| {
            let short = outlet.margin.is_some_and(|margin| margin.pa() < 0.0);
            Row {
                cells: vec![
                    outlet.tag.clone(),
                    name(job, outlet),
                    state(job, outlet.joint).to_owned(),
                    outlet.heat.map_or(NONE.to_owned(), |heat| figures.heat(heat)),
                    outlet
                        .heat
                        .map_or(NONE.to_owned(), |_| asked.put(Blank::Loads, loads.flow(outlet.flow))),
                    had(outlet).map_or(String::new(), |pressure| unit.gauge(pressure)),
                    asked.put(
                        Blank::Pressures,
                        outlet.pressure.map_or(NONE.to_owned(), |pressure| unit.gauge(pressure)),
                    ),
                    outlet.least.map_or(NONE.to_owned(), |least| unit.gauge(least)),
                    asked.put(
                        Blank::Pressures,
                        outlet.margin.map_or(NONE.to_owned(), |margin| unit.figure(margin)),
                    ),
                ],
                weight: if short && asked.is_nothing() {
                    Weight::Strong
                } else {
                    Weight::Plain
                },
                tag: Some(tags::row(Schedule::Appliances, number)),
            }
        })
        .collect();
    let total = ["", "Total", ""].map(str::to_owned).into_iter();
    rows.push(Row {
        cells: total
            .chain(
                [figures.heat(study.total.heat), loads.flow(study.total.flow)]
                    .map(|total| asked.put(Blank::Loads, total)),
            )
            .collect(),
        weight: Weight::Strong,
        tag: None,
    });
    Table { columns, rows }.without_empty_columns()
}

/// An outlet in a column: its name, whether it is to come, and when it burns.
pub fn name(job: &Job, outlet: &Outlet) -> String {
    // Its letter stands beside it.
    let name = outlet.own_name().unwrap_or(match outlet.kind {
        OutletKind::Appliance => "appliance",
        OutletKind::Future => "capped outlet",
    });
    let name = shortened(name, LONGEST_NAME);
    let season = match places::device(job, outlet.joint) {
        Some(Device::Appliance(appliance)) => appliance.season,
        _ => Season::AllYear,
    };
    match (outlet.kind, season) {
        (OutletKind::Future, _) => format!("{name}, future"),
        (OutletKind::Appliance, Season::AllYear) => name,
        (OutletKind::Appliance, Season::Heating) => format!("{name} (heating season)"),
        (OutletKind::Appliance, Season::Cooling) => format!("{name} (cooling season)"),
    }
}

fn state(job: &Job, joint: usize) -> &'static str {
    let placed = (joint < job.joints.len()).then(|| job.joints.at(joint).placed.as_ref());
    placed.flatten().map_or(NONE, |placed| placed.state.name())
}

fn sentences(job: &Job, study: &Study, asked: Asked) -> Vec<Paragraph> {
    let mut said = Vec::new();
    let tags = |keep: &dyn Fn(&Outlet) -> bool| {
        let kept: Vec<&str> = by_letter(&study.outlets)
            .into_iter()
            .filter(|outlet| keep(outlet))
            .map(|outlet| outlet.tag.as_str())
            .collect();
        some_of(&kept)
    };
    let unknown = tags(&|outlet| outlet.heat.is_none());
    if !unknown.is_empty() {
        said.push(format!(
            "No input entered for {unknown}: counted as zero, so the total is too low."
        ));
    }
    if study.total.left_out.btuh() > 0.0 {
        let left_out = asked.put(Blank::Loads, study.total.left_out.show(job.settings.units));
        said.push(format!(
            "Heating and cooling do not run together: the total leaves out {left_out}, the smaller of the two."
        ));
    }
    let unrated = tags(&|outlet| outlet.pressure.is_some() && outlet.unrated > 0);
    if !unrated.is_empty() {
        said.push(format!(
            "Inlet pressures of {unrated} leave out devices and hoses whose pressure loss is not known."
        ));
    }
    if study.outlets.iter().any(|outlet| outlet.pressure.is_some()) {
        said.push("Inlet pressures are computed at full load, not measured.".to_owned());
    }
    if said.is_empty() {
        return Vec::new();
    }
    vec![Paragraph::new(said.join(" "))]
}

/// A list of which the end is only counted when it is long.
pub fn some_of(names: &[&str]) -> String {
    const MOST: usize = 12;
    match names.len() {
        0..=MOST => names.join(", "),
        all => format!("{} and {} more", names[..MOST].join(", "), all - MOST),
    }
}

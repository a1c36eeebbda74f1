//! The reason for a size: load, length, table, neighbouring sizes, and the physics beside it.

use super::form::{Form, Open};
use crate::codebook::{Mark, SizeNames};
use crate::desk::Shown;
use crate::job::RunId;
use crate::sizing::{Section, Verdict};
use crate::study;
use crate::study::{Reason, RunStudy};
use crate::units::{Show, UnitSystem};
use egui::{Grid, Label};

/// The reason for the size of a section (a position in what is shown), and what flows in its chosen runs.
pub fn show(form: &mut Form<'_>, section: usize, chosen: &[RunId]) {
    let shown = form.desk.shown();
    let Some(reason) = study::reason(&shown.job, &form.desk.book(), &shown.checked.study, section) else {
        return;
    };
    let Some(section) = shown.checked.study.sections.get(section).cloned() else {
        return;
    };
    let units = form.units();
    let flow = match chosen {
        [run] => facts(shown, *run, units),
        _ => Vec::new(),
    };
    let names = shown.checked.study.names;
    let heading = match section.sizing.size {
        Some(size) => format!("Why {}", names.show(section.material, size)),
        None => "Why no size".to_owned(),
    };
    form.fold(&heading, Open::Yes, |form| why(form, &section, &reason, names));
    form.fold("Flow direction", Open::Yes, |form| {
        for (name, value) in flow {
            form.fact(name, value);
        }
        form.say(reason.physics);
        form.whisper(study::FRICTION);
    });
}

fn why(form: &mut Form<'_>, section: &Section, reason: &Reason, names: SizeNames) {
    form.say(&reason.what);
    form.say(reason.verdict.join(" "));
    if let Some(words) = larger(section, names) {
        form.say(words);
    }
    capacities(form, section, names);
    form.heading("Load");
    form.say(reason.load.join(" "));
    form.heading("Sizing length and allowable drop");
    for line in &reason.length {
        form.say(line);
    }
    form.heading("Table");
    for line in &reason.basis {
        form.say(line);
    }
    for note in &reason.notes {
        form.whisper(note);
    }
}

/// What the size and its neighbours carry.
fn capacities(form: &mut Form<'_>, section: &Section, names: SizeNames) {
    let (sizing, units) = (&section.sizing, form.units());
    if sizing.capacities.is_empty() {
        return;
    }
    Grid::new("capacities")
        .num_columns(4)
        .striped(true)
        .show(form.ui, |ui| {
            for head in ["Size", "Capacity", "Mark", ""] {
                ui.label(crate::look::strong(head));
            }
            ui.end_row();
            for capacity in &sizing.capacities {
                ui.label(names.show(section.material, capacity.size));
                ui.label(capacity.flow.show(units));
                let mark = ui.label(capacity.mark.letter().to_string());
                mark.on_hover_text(capacity.mark.words());
                let role = role(section, capacity.size);
                ui.add(Label::new(role).wrap());
                ui.end_row();
            }
        });
    let mut marks: Vec<Mark> = sizing.capacities.iter().map(|capacity| capacity.mark).collect();
    marks.sort_unstable();
    marks.dedup();
    let marks: Vec<String> = marks
        .iter()
        .map(|mark| format!("{}: {}", mark.letter(), mark.words()))
        .collect();
    form.whisper(format!("{}.", marks.join("; ")));
}

/// What a size is to a section, in a word or two.
fn role(section: &Section, size: crate::units::NominalSize) -> &'static str {
    let sizing = &section.sizing;
    match (sizing.size == Some(size), sizing.needed == Some(size)) {
        (true, true) => "drawn, min. size",
        (true, false) => "drawn",
        (false, true) => "min. size",
        (false, false) => "",
    }
}

/// Says when pipe is larger than the method asks for.
fn larger(section: &Section, names: SizeNames) -> Option<String> {
    let sizing = &section.sizing;
    let (size, needed) = (sizing.size?, sizing.needed?);
    (sizing.verdict == Verdict::Carries && needed < size).then(|| {
        format!(
            "Larger than needed: the minimum size is {}.",
            names.show(section.material, needed)
        )
    })
}

/// What flows in a run and what it loses.
fn facts(shown: &Shown, id: RunId, units: UnitSystem) -> Vec<(&'static str, String)> {
    let Some(position) = shown.job.runs.position(id) else {
        return Vec::new();
    };
    let Some(RunStudy {
        flowing: Some(flowing),
        way,
        ..
    }) = shown.checked.study.runs.get(position)
    else {
        return Vec::new();
    };
    let mut facts = vec![("Flow", flowing.flow.show(units))];
    if let Some(velocity) = flowing.velocity {
        facts.push(("Velocity", speed(velocity, units)));
    }
    let pressure = |joint: usize| shown.checked.study.joints.get(joint)?.pressure;
    let ends = way.and_then(|(from, to)| pressure(from).zip(pressure(to)));
    if let Some((first, last)) = ends {
        facts.push(("Pressure", format!("{} to {}", first.show(units), last.show(units))));
    }
    facts.push(("Friction", flowing.friction.show(units)));
    facts.push(("Devices", flowing.devices.show(units)));
    facts.push(("Elevation", flowing.elevation.show(units)));
    facts.push(("Fittings add", format!("{} of pipe", flowing.equivalent.show(units))));
    facts
}

fn speed(meters: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{:.1} ft/s", meters / 0.3048),
        UnitSystem::Metric | UnitSystem::MetricKpa => format!("{meters:.1} m/s"),
    }
}

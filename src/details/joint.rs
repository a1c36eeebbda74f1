//! A joint: its name, how a turn is made there, the device that stands there, and what is known of the place.

use super::form::Form;
use super::names::TURNS;
use super::shared::Shared;
use super::{device, found, more, put};
use crate::editor::edit::JointField;
use crate::editor::{CommandId, Part};
use crate::job::{Detail, Joint, JointId, State, Turn};
use crate::units::Show;

/// A joint.
pub fn show(form: &mut Form<'_>, id: JointId) {
    let Some(joint) = form.desk.job().joints.get(id).cloned() else {
        return;
    };
    if joint.placed.is_none() {
        name(form, &joint);
    }
    if let Some(placed) = &joint.placed {
        device::show(form, id, placed);
        // Only what goes is kept for use again.
        if placed.state == State::Removed || placed.salvaged {
            form.check(Detail::Salvage, Shared::Same(placed.salvaged), |desk, salvaged| {
                put::placed(desk, id, |placed| placed.salvaged = salvaged)
            });
        }
    }
    if joint.placed.is_none() || joint.turn != Turn::Elbow {
        form.choice(Detail::Turn, &Shared::Same(joint.turn), TURNS, |desk, turn| {
            put::joint(desk, id, JointField::Turn(turn))
        });
    }
    let more = match joint.placed {
        Some(_) => "More: name, ends, take-outs",
        None => "More: take-outs",
    };
    form.rare(more, &RARE, |form| rare(form, &joint));
    neighbours(form, id);
    if joint.placed.is_some() {
        form.button("Remove device", |desk| desk.run(CommandId::TakeOff));
    }
    found::show(form);
    known(form, id);
    more::show(form, id);
}

/// What a person calls the place.
fn name(form: &mut Form<'_>, joint: &Joint) {
    let id = joint.id;
    let label = joint.label.clone().unwrap_or_default();
    form.words(Detail::Name, &label, &id.to_string(), move |desk, label| {
        let label = (!label.is_empty()).then_some(label);
        put::joint(desk, id, JointField::Label(label))
    });
}

/// Fields that few places need.
const RARE: [Detail; 4] = [Detail::Name, Detail::EndSize, Detail::OwnLength, Detail::FittingTakes];

fn rare(form: &mut Form<'_>, joint: &Joint) {
    let id = joint.id;
    if joint.placed.is_some() {
        name(form, joint);
    }
    let in_line = joint
        .placed
        .as_ref()
        .is_none_or(|placed| placed.device.stands_in_line());
    if let Some(placed) = &joint.placed {
        form.quantity(
            Detail::EndSize,
            Shared::Same(placed.size),
            "as the pipe",
            move |desk, size| put::placed(desk, id, |placed| placed.size = size),
        );
        if in_line {
            form.quantity(
                Detail::OwnLength,
                Shared::Same(placed.takes),
                "not measured",
                move |desk, takes| put::placed(desk, id, |placed| placed.takes = takes),
            );
        }
    }
    if in_line || joint.fitting_takes.is_some() {
        form.quantity(
            Detail::FittingTakes,
            Shared::Same(joint.fitting_takes),
            "as published",
            move |desk, takes| put::joint(desk, id, JointField::FittingTakes(takes)),
        );
    }
}

/// The runs that meet there and the notes that point there.
fn neighbours(form: &mut Form<'_>, id: JointId) {
    let job = form.desk.job();
    let runs: Vec<(String, Part)> = job
        .runs
        .iter()
        .filter(|run| run.from == id || run.to == id)
        .map(|run| (run.id.to_string(), Part::Run(run.id)))
        .collect();
    let notes: Vec<(String, Part)> = (0..job.notes.len())
        .filter(|at| job.notes[*at].at == id)
        .map(|at| (format!("note {}", at + 1), Part::Note(at)))
        .collect();
    if !runs.is_empty() {
        form.links("Runs", &runs);
    }
    if !notes.is_empty() {
        form.links("Notes", &notes);
    }
}

/// What the study knows of the place.
fn known(form: &mut Form<'_>, id: JointId) {
    let (shown, units) = (form.desk.shown(), form.units());
    let Some(position) = shown.job.joints.position(id) else {
        return;
    };
    let Some(study) = shown.checked.study.joints.get(position) else {
        return;
    };
    let mut facts = vec![(
        "Elevation",
        format!(
            "{} above {}",
            study.elevation.show(units),
            shown.job.settings.datum_name
        ),
    )];
    match study.distance {
        Some(distance) => facts.push(("Distance from delivery", format!("{} of pipe", distance.show(units)))),
        None => facts.push(("Distance from delivery", "not connected to the gas supply".to_owned())),
    }
    if study.distance.is_some() {
        let pressure = study.pressure.map(|pressure| pressure.show(units));
        let words = "not known: a size upstream is missing".to_owned();
        facts.push(("Pressure at full load", pressure.unwrap_or(words)));
    }
    if let Some(fitting) = study
        .fitting
        .and_then(|fitting| shown.checked.study.fittings.get(fitting))
    {
        let sizes = fitting.sizes_named(shown.checked.study.names);
        let words = format!("{}, {sizes}, {}", fitting.kind.name(), fitting.material.short());
        facts.push(("Fitting", words));
    }
    if let Some(outlet) = shown
        .checked
        .study
        .outlets
        .iter()
        .find(|outlet| outlet.joint == position)
    {
        facts.push(("Letter", outlet.tag.clone()));
        if let Some(margin) = outlet.margin {
            let words = match margin.pa() < 0.0 {
                true => format!(
                    "{} below the minimum",
                    crate::units::PressureDrop::from_pa(-margin.pa()).show(units)
                ),
                false => format!("{} above the minimum", margin.show(units)),
            };
            facts.push(("Margin", words));
        }
    }
    form.heading("Calculated");
    for (name, value) in facts {
        form.fact(name, value);
    }
}

//! Runs, one or many: the fields that they share, set on all at once; and what a single run leads to.

use super::form::Form;
use super::names::{self, STATES, SURROUNDINGS};
use super::shared::Shared;
use super::{found, put, reason};
use crate::editor::Part;
use crate::editor::edit::RunField;
use crate::job::{Job, Run, RunId, Surroundings};
use crate::study::{Origin, Section, Study};
use crate::units::Show;
use std::rc::Rc;

/// A single run.
pub fn show(form: &mut Form<'_>, id: RunId) {
    let Some(run) = form.desk.job().runs.get(id).cloned() else {
        return;
    };
    let end = |joint| (joint_words(form.desk.job(), joint), Part::Joint(joint));
    let ends = [end(run.from), end(run.to)];
    form.links("Ends", &ends);
    fields(form, &[id]);
    let passages: Vec<(String, Part)> = (0..run.penetrations.len())
        .map(|at| {
            let barrier = names::of(names::BARRIERS, &run.penetrations[at].barrier);
            (format!("{} {barrier}", at + 1), Part::Penetration(id, at))
        })
        .collect();
    if !passages.is_empty() {
        form.links("Passes", &passages);
    }
    found::show(form, Some(Part::Run(id)));
    if let Some(section) = section_of(form, id) {
        reason::show(form, section, &[id]);
    }
}

/// A joint as a button: the person's own name for it, and what stands there.
pub fn joint_words(job: &Job, id: crate::job::JointId) -> String {
    let joint = job.joints.get(id);
    match joint.and_then(|joint| joint.placed.as_ref()) {
        Some(placed) => format!("{id} {}", placed.device.name()),
        None => id.to_string(),
    }
}

/// The position of a run's section in what is shown.
pub fn section_of(form: &Form<'_>, id: RunId) -> Option<usize> {
    let shown = form.desk.shown();
    shown.study.runs.get(shown.job.runs.position(id)?)?.section
}

/// The fields that runs have.
pub fn fields(form: &mut Form<'_>, ids: &[RunId]) {
    let job = form.desk.job();
    let runs: Vec<Run> = ids.iter().filter_map(|id| job.runs.get(*id)).cloned().collect();
    let ids: Rc<[RunId]> = ids.into();
    let shared = |of: fn(&Run) -> bool| Shared::of(runs.iter().map(of));
    let drawn = drawn_words(form, &runs);
    let found = size_words(form, &runs);
    let materials = names::materials(job.settings.material);

    let to = Rc::clone(&ids);
    let length = Shared::of(runs.iter().map(|run| run.length));
    form.quantity("True length", length, &drawn, move |desk, length| {
        put::runs(desk, &to, &RunField::Length(length))
    });
    let material = Shared::of(runs.iter().map(|run| run.material));
    form.choice("Material", &material, &names::borrowed(&materials), |desk, material| {
        put::runs(desk, &ids, &RunField::Material(material))
    });
    let to = Rc::clone(&ids);
    let size = Shared::of(runs.iter().map(|run| run.size));
    form.quantity("Size", size, &found, move |desk, size| {
        put::runs(desk, &to, &RunField::Size(size))
    });
    let state = Shared::of(runs.iter().map(|run| run.state));
    form.choice("State", &state, STATES, |desk, state| {
        put::runs(desk, &ids, &RunField::State(state))
    });
    let surroundings = Shared::of(runs.iter().map(|run| run.surroundings));
    form.choice("Lies", &surroundings, SURROUNDINGS, |desk, surroundings| {
        put::runs(desk, &ids, &RunField::Surroundings(surroundings))
    });
    let to = Rc::clone(&ids);
    let cover = Shared::of(runs.iter().map(|run| run.cover));
    let buried = runs.iter().any(|run| run.surroundings == Surroundings::Underground);
    let hint = if buried { "not said" } else { "only underground" };
    form.quantity("Cover", cover, hint, move |desk, cover| {
        put::runs(desk, &to, &RunField::Cover(cover))
    });
    form.check(
        "Painted, coated or wrapped",
        shared(|run| run.coated),
        |desk, coated| put::runs(desk, &ids, &RunField::Coated(coated)),
    );
    form.check("Tracer wire beside it", shared(|run| run.tracer), |desk, tracer| {
        put::runs(desk, &ids, &RunField::Tracer(tracer))
    });
    form.check("Tubing bonded", shared(|run| run.bonded), |desk, bonded| {
        put::runs(desk, &ids, &RunField::Bonded(bonded))
    });
}

/// What holds when no length is typed.
fn drawn_words(form: &Form<'_>, runs: &[Run]) -> String {
    let (job, units) = (form.desk.job(), form.units());
    match runs {
        [run] => {
            let drawn = Run {
                length: None,
                ..run.clone()
            };
            format!("as drawn: {}", job.true_length(&drawn).show(units))
        }
        _ => "as drawn".to_owned(),
    }
}

/// What holds when no size is typed.
fn size_words(form: &Form<'_>, runs: &[Run]) -> String {
    let [run] = runs else {
        return "as found by the study".to_owned();
    };
    let study = &form.desk.shown().study;
    let section = section_of(form, run.id).and_then(|section| study.sections.get(section));
    match section {
        Some(section) => found_words(study, section, form),
        None => "no gas reaches it".to_owned(),
    }
}

fn found_words(_study: &Study, section: &Section, form: &Form<'_>) -> String {
    match (section.sizing.origin, section.sizing.size) {
        (Origin::Unknown, _) => "not known: read it on the pipe".to_owned(),
        (Origin::Connector, _) => "part of the connector".to_owned(),
        (_, Some(size)) => format!("as found: {}", size.show(form.units())),
        (_, None) => "none found".to_owned(),
    }
}

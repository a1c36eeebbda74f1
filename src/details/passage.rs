//! A passage of a run through a part of the building, and a note: what is said of them.

use super::form::Form;
use super::names::{BARRIERS, SEALS};
use super::put;
use super::run::joint_words;
use super::shared::Shared;
use crate::editor::Part;
use crate::job::{Detail, RunId};
use crate::units::Show;

/// A passage.
pub fn passage(form: &mut Form<'_>, id: RunId, at: usize) {
    let Some(run) = form.desk.job().runs.get(id).cloned() else {
        return;
    };
    let Some(it) = run.penetrations.get(at).cloned() else {
        return;
    };
    let units = form.units();
    form.links("On run", &[(id.to_string(), Part::Run(id))]);
    form.choice(Detail::Passes, &Shared::Same(it.barrier), BARRIERS, |desk, barrier| {
        put::passage(desk, id, at, |it| it.barrier = barrier)
    });
    let whole = form.desk.job().true_length(&run);
    let from = joint_words(form.desk.job(), run.from);
    let half = format!("halfway along {}", whole.show(units));
    form.quantity(
        format!("From {from}").as_str(),
        Shared::Same(it.at),
        &half,
        move |desk, along| put::passage(desk, id, at, |it| it.at = along),
    );
    let built = it.construction.clone().unwrap_or_default();
    form.words(Detail::BuiltOf, &built, "not entered", move |desk, words| {
        put::passage(desk, id, at, |it| {
            it.construction = (!words.is_empty()).then_some(words)
        })
    });
    form.quantity(
        Detail::Thickness,
        Shared::Same(it.thickness),
        "not entered",
        move |desk, thickness| put::passage(desk, id, at, |it| it.thickness = thickness),
    );
    form.check(Detail::Sleeve, Shared::Same(it.sleeved), |desk, sleeved| {
        put::passage(desk, id, at, |it| it.sleeved = sleeved)
    });
    form.choice(Detail::Seal, &Shared::Same(it.seal), SEALS, |desk, seal| {
        put::passage(desk, id, at, |it| it.seal = seal)
    });
}

/// A note.
pub fn note(form: &mut Form<'_>, at: usize) {
    let Some(it) = form.desk.job().notes.get(at).cloned() else {
        return;
    };
    let joint = joint_words(form.desk.job(), it.at);
    form.links("Points at", &[(joint, Part::Joint(it.at))]);
    form.lines(Detail::Says, &it.text, "text of the note", move |desk, text| {
        put::note(desk, at, |it| it.text = text)
    });
}

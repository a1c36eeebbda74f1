//! What if more were burnt here: a slider, and what would come of it. It changes nothing in the job.

use super::form::{Form, Open};
use super::quantity::Quantity;
use crate::advice::WhatIf;
use crate::desk::AT_ONCE;
use crate::job::JointId;
use crate::units::{HeatRate, Show};
use egui::Slider;

/// Up to so many times what can be added the slider goes, so that one sees what fails.
const BEYOND: f64 = 2.0;
/// How far it goes at least, Btu/h.
const LEAST: f64 = 100_000.0;
/// The slider's step, Btu/h.
const STEP: f64 = 1_000.0;

/// The slider at a joint that gas reaches.
pub fn show(form: &mut Form<'_>, id: JointId) {
    let Some(joint) = form.desk.shown().job.joints.position(id) else {
        return;
    };
    let reached = form
        .desk
        .shown()
        .checked
        .study
        .joints
        .get(joint)
        .is_some_and(|joint| joint.distance.is_some());
    if !reached || form.desk.shown().job.runs.len() > AT_ONCE {
        return;
    }
    form.fold("Add load here", Open::Yes, |form| {
        let Some(spare) = form
            .desk
            .carried()
            .map(|carried| carried.headroom.joints.get(joint).copied().flatten())
        else {
            form.whisper("Updating…");
            return;
        };
        let shown = form.desk.shown();
        let Some(spare) = spare else {
            form.whisper("Pipe closes a loop: spare capacity is worked out for not for loops.");
            return;
        };
        let [heat, by] = spare.words(&shown.job, &shown.checked.study);
        form.fact("Spare capacity", heat);
        if !by.is_empty() {
            form.fact("First over its limit", by);
        }
        let most = spare
            .limit
            .map_or(LEAST, |limit| (limit.heat.btuh() * BEYOND).clamp(LEAST, 1e9));
        let kept = form.ui.scope_id().with(("more here", id));
        let mut more = form
            .ui
            .data(|data| data.get_temp::<f64>(kept))
            .unwrap_or(0.0)
            .clamp(0.0, most);
        let units = form.units();
        let slider = Slider::new(&mut more, 0.0..=most)
            .text("added input")
            .step_by(STEP)
            .custom_formatter(move |btuh, _| HeatRate::from_btuh(btuh).show(units))
            .custom_parser(move |text| HeatRate::read(text, units).ok().map(HeatRate::btuh));
        form.ui.label("Try this added input:");
        form.ui.spacing_mut().slider_width = (form.ui.available_width() - 170.0).clamp(60.0, 260.0);
        form.ui.add(slider);
        form.ui.data_mut(|data| data.insert_temp(kept, more));
        if more > 0.0 {
            let shown = form.desk.shown();
            let what_if = WhatIf::of(
                &shown.job,
                &form.desk.book(),
                &shown.checked.study,
                joint,
                HeatRate::from_btuh(more),
            );
            let words = what_if.words(&shown.job, &shown.checked.study);
            if what_if.fails.is_empty() && what_if.already.is_empty() {
                form.say(words.join(" "));
            } else {
                form.warn(words.join(" "));
            }
        }
        form.whisper("The job does not change; sizes stay as drawn.");
    });
}

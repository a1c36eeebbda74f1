//! What the next run is like: shown while the pencil is in the hand.

use super::form::Form;
use super::names::{self, STATES, SURROUNDINGS};
use super::shared::Shared;
use super::typing::Done;
use crate::app::desk::Desk;
use crate::editor::edit::Pen;
use crate::job::Detail;

/// The pen.
pub fn show(form: &mut Form<'_>) {
    let pen = form.desk.editor().pen().clone();
    let materials = names::materials(form.desk.job().settings.material);
    form.title("The next run");
    form.choice(Detail::State, &Shared::Same(pen.state), STATES, |desk, state| {
        set(desk, |pen| pen.state = state)
    });
    let surroundings = Shared::Same(pen.surroundings);
    form.choice(Detail::Location, &surroundings, SURROUNDINGS, |desk, surroundings| {
        set(desk, |pen| pen.surroundings = surroundings)
    });
    let material = Shared::Same(pen.material);
    form.choice(
        Detail::Material,
        &material,
        &names::borrowed(&materials),
        |desk, material| set(desk, |pen| pen.material = material),
    );
    form.quantity(Detail::Size, Shared::Same(pen.size), "to be sized", |desk, size| {
        set(desk, |pen| pen.size = size)
    });
    form.check(Detail::Coated, Shared::Same(pen.coated), |desk, coated| {
        set(desk, |pen| pen.coated = coated)
    });
    form.ui.separator();
}

fn set(desk: &mut Desk, change: impl FnOnce(&mut Pen)) -> Done {
    let mut pen = desk.editor().pen().clone();
    change(&mut pen);
    desk.editor_mut().set_pen(pen);
    Ok(())
}

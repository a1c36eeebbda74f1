//! Notes, title block, settings, gas, and lines of lists: what is said of the job rather than drawn.

use crate::editor::draft::Draft;
use crate::editor::{Part, Refusal, Step};
use crate::job::{ByHand, Extra, Gas, Job, JointId, Note, OwnStep, Settings, TitleBlock};
use crate::units::Length;

/// Adds a note that points at a joint.
///
/// # Errors
/// When the joint is gone.
pub fn add_note(job: &Job, at: JointId, text: impl Into<String>) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    draft.want_joint(at)?;
    draft.notes_mut().push(Note {
        at,
        text: text.into(),
        ..Note::default()
    });
    draft.finish(format!("Note at {at}"))
}

/// Changes what a note says or where it points.
///
/// # Errors
/// When the note or the joint is gone.
pub fn set_note(job: &Job, note: usize, to: Note) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    draft.want_joint(to.at)?;
    let slot = draft.notes_mut().get_mut(note);
    *slot.ok_or(Refusal::Gone(Part::Note(note)))? = to;
    draft.finish(format!("Change note {}", note + 1))
}

/// Changes the title block.
///
/// # Errors
/// None of its own.
pub fn set_title(job: &Job, title: TitleBlock) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    draft.set_title(title);
    draft.finish("Change title block")
}

/// Changes what holds for the whole job.
///
/// # Errors
/// When the step of the lattice would be nothing or less.
pub fn set_settings(job: &Job, settings: Settings) -> Result<Step, Refusal> {
    if settings.step <= Length::ZERO {
        return Err(Refusal::NoLength);
    }
    let mut draft = Draft::new(job);
    draft.set_settings(settings);
    draft.finish("Change settings")
}

/// Changes the gas.
///
/// # Errors
/// None of its own.
pub fn set_gas(job: &Job, gas: Gas) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    draft.set_gas(gas);
    draft.finish("Change gas")
}

/// Adds a line of one's own to the take-off.
///
/// # Errors
/// When its quantity is none.
pub fn add_extra(job: &Job, extra: Extra) -> Result<Step, Refusal> {
    by_hand(job, "Add a line to the take-off", |to| {
        to.extra.push(sound(extra)?);
        Ok(())
    })
}

/// Changes a line of one's own in the take-off, or takes it away.
///
/// # Errors
/// When the line is gone, or its quantity is none.
pub fn set_extra(job: &Job, at: usize, to: Option<Extra>) -> Result<Step, Refusal> {
    let name = match to {
        Some(_) => "Change a line of the take-off",
        None => "Remove a line from the take-off",
    };
    by_hand(job, name, |by_hand| {
        let line = by_hand.extra.get_mut(at).ok_or(Refusal::NoLine)?;
        match to {
            Some(extra) => *line = sound(extra)?,
            None => drop(by_hand.extra.remove(at)),
        }
        Ok(())
    })
}

/// Changes what a person says of a step in the order of work.
///
/// # Errors
/// None of its own.
pub fn set_step(job: &Job, step: &str, change: impl FnOnce(&mut OwnStep)) -> Result<Step, Refusal> {
    by_hand(job, "Change the work steps", |by_hand| {
        by_hand.change_step(step, change);
        Ok(())
    })
}

fn by_hand(job: &Job, name: &str, change: impl FnOnce(&mut ByHand) -> Result<(), Refusal>) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    let mut by_hand = job.by_hand.clone();
    change(&mut by_hand)?;
    draft.set_by_hand(by_hand);
    draft.finish(name)
}

/// A line whose quantity is one.
fn sound(extra: Extra) -> Result<Extra, Refusal> {
    match (0.0..=Extra::MOST).contains(&extra.quantity) {
        true => Ok(extra),
        false => Err(Refusal::NoQuantity),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{done, house, refused};
    use crate::job::Fuel;

    #[test]
    fn notes_point_at_joints_that_are_there() {
        let job = house();
        let after = done(&job, add_note(&job, JointId(2), "strap here"));
        let moved = Note {
            at: JointId(3),
            text: "strap there".into(),
            ..Note::default()
        };
        let after = done(&after, set_note(&after, 0, moved.clone()));
        assert_eq!(after.notes, vec![moved.clone()]);
        refused(&job, add_note(&job, JointId(99), "lost"), "J99 is no longer there");
        refused(&job, set_note(&job, 0, moved), "note 1 is no longer there");
    }

    #[test]
    fn lines_of_ones_own_come_change_and_go() {
        let job = house();
        let tape = |quantity| Extra {
            what: "tape".into(),
            quantity,
            ..Extra::default()
        };
        let with = done(&job, add_extra(&job, tape(3.0)));
        assert_eq!(with.by_hand.extra, [tape(3.0)]);
        let more = done(&with, set_extra(&with, 0, Some(tape(4.5))));
        assert_eq!(more.by_hand.extra, [tape(4.5)]);
        assert_eq!(done(&more, set_extra(&more, 0, None)), job);
        refused(&job, set_extra(&job, 0, None), "no longer there");
        for odd in [f64::NAN, -1.0, f64::INFINITY] {
            refused(&job, add_extra(&job, tape(odd)), "from 0 to");
        }
    }

    #[test]
    fn a_step_of_which_nothing_is_said_any_more_leaves_no_trace() {
        let job = house();
        let edited = done(&job, set_step(&job, "shut", |own| own.words = Some("Shut it.".into())));
        let both = done(&edited, set_step(&edited, "shut", |own| own.left_out = true));
        assert_eq!(both.by_hand.order.len(), 1);
        let one = done(&both, set_step(&both, "shut", |own| own.words = None));
        assert_eq!(done(&one, set_step(&one, "shut", |own| own.left_out = false)), job);
        assert!(set_step(&job, "shut", |_| {}).unwrap().is_empty());
    }

    #[test]
    fn what_is_said_of_the_whole_is_a_step_too() {
        let job = house();
        let gas = Gas {
            fuel: Fuel::Propane,
            ..Gas::default()
        };
        assert_eq!(done(&job, set_gas(&job, gas.clone())).gas, gas);
        let metric = Settings {
            step: Length::from_mm(250.0),
            ..Settings::default()
        };
        assert_eq!(done(&job, set_settings(&job, metric.clone())).settings, metric);
        let none = Settings {
            step: Length::ZERO,
            ..Settings::default()
        };
        refused(&job, set_settings(&job, none), "greater than zero");
        assert!(set_title(&job, job.title.clone()).unwrap().is_empty());
    }
}

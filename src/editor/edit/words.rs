//! Notes, title block, settings and gas: what is said of the job rather than drawn.

use crate::editor::draft::Draft;
use crate::editor::{Part, Refusal, Step};
use crate::job::{Gas, Job, JointId, Note, Settings, TitleBlock};
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
        refused(&job, set_settings(&job, none), "longer than nothing");
        assert!(set_title(&job, job.title.clone()).unwrap().is_empty());
    }
}

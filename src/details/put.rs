//! What the fields change, each as one step that can be undone. What is there is read when the change is made, so that a
//! field never undoes what another has set.

use super::typing::Done;
use crate::desk::Desk;
use crate::editor::edit::{
    JointField, RunField, set_gas, set_joint, set_note, set_penetration, set_runs, set_settings, set_title,
};
use crate::editor::{Part, Refusal, Step};
use crate::job::{Device, Gas, Job, JointId, Note, Penetration, Placed, RunId, Settings, TitleBlock};

/// Does an edit and brings what follows up to it.
///
/// # Errors
/// Why it is refused, in words.
pub fn edit(desk: &mut Desk, edit: impl FnOnce(&Job) -> Result<Step, Refusal>) -> Done {
    let done = desk.editor_mut().edit(edit).map_err(|refusal| refusal.to_string());
    desk.refresh();
    done
}

/// Sets a field of runs.
pub fn runs(desk: &mut Desk, runs: &[RunId], field: &RunField) -> Done {
    edit(desk, |job| set_runs(job, runs, field))
}

/// Sets a field of a joint.
pub fn joint(desk: &mut Desk, joint: JointId, field: JointField) -> Done {
    edit(desk, |job| set_joint(job, joint, field))
}

/// Changes what stands on a joint.
pub fn placed(desk: &mut Desk, joint: JointId, change: impl FnOnce(&mut Placed)) -> Done {
    edit(desk, |job| {
        let there = job.joints.get(joint).ok_or(Refusal::Gone(Part::Joint(joint)))?;
        let mut placed = there.placed.clone().ok_or(Refusal::Bare(joint))?;
        change(&mut placed);
        set_joint(job, joint, JointField::Placed(Some(placed)))
    })
}

/// Changes the device on a joint.
pub fn device(desk: &mut Desk, joint: JointId, change: impl FnOnce(&mut Device)) -> Done {
    placed(desk, joint, |placed| change(&mut placed.device))
}

/// Changes a passage.
pub fn passage(desk: &mut Desk, run: RunId, at: usize, change: impl FnOnce(&mut Penetration)) -> Done {
    edit(desk, |job| {
        let there = job.runs.get(run).and_then(|run| run.penetrations.get(at));
        let mut passage = there.cloned().ok_or(Refusal::Gone(Part::Penetration(run, at)))?;
        change(&mut passage);
        set_penetration(job, run, at, passage)
    })
}

/// Changes a note.
pub fn note(desk: &mut Desk, at: usize, change: impl FnOnce(&mut Note)) -> Done {
    edit(desk, |job| {
        let mut note = job.notes.get(at).cloned().ok_or(Refusal::Gone(Part::Note(at)))?;
        change(&mut note);
        set_note(job, at, note)
    })
}

/// Changes what holds for the whole job.
pub fn settings(desk: &mut Desk, change: impl FnOnce(&mut Settings)) -> Done {
    edit(desk, |job| {
        let mut settings = job.settings.clone();
        change(&mut settings);
        set_settings(job, settings)
    })
}

/// Changes the gas.
pub fn gas(desk: &mut Desk, change: impl FnOnce(&mut Gas)) -> Done {
    edit(desk, |job| {
        let mut gas = job.gas.clone();
        change(&mut gas);
        set_gas(job, gas)
    })
}

/// Changes the title block.
pub fn title(desk: &mut Desk, change: impl FnOnce(&mut TitleBlock)) -> Done {
    edit(desk, |job| {
        let mut title = job.title.clone();
        change(&mut title);
        set_title(job, title)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Joint, Valve};
    use crate::units::Length;

    #[test]
    fn a_change_keeps_what_another_field_has_set_and_can_be_undone() {
        let mut job = Job::default();
        job.joints.insert(Joint {
            id: JointId(1),
            placed: Some(Placed::new(Device::Valve(Valve::default()))),
            ..Joint::default()
        });
        let mut desk = Desk::new(job.clone(), || {});
        settings(&mut desk, |settings| settings.step = Length::from_feet(2.0)).unwrap();
        settings(&mut desk, |settings| settings.datum_name = "patio".into()).unwrap();
        assert_eq!(desk.job().settings.step, Length::from_feet(2.0));
        assert!(desk.is_current());
        let refused = settings(&mut desk, |settings| settings.step = Length::ZERO);
        assert!(refused.is_err_and(|why| why.contains("greater than zero")));
        let gone = placed(&mut desk, JointId(2), |_| {});
        assert_eq!(gone, Err("J2 is no longer there".to_owned()));
        placed(&mut desk, JointId(1), |placed| {
            placed.state = crate::job::State::Existing
        })
        .unwrap();
        for _ in 0..3 {
            desk.run(crate::editor::CommandId::Undo);
        }
        assert_eq!(*desk.job(), job);
    }
}

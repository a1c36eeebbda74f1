//! Deleting what is chosen, with or without a gap left behind.

use super::gap::{End, close};
use super::join::weld;
use super::named;
use crate::editor::draft::Draft;
use crate::editor::legs::Flow;
use crate::editor::{Part, Refusal, Selection, Step};
use crate::job::{Job, Joint, JointId, Placed, RunId};
use std::collections::{BTreeMap, BTreeSet};

/// What becomes of the place where a run was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gap {
    /// It stays open.
    Keep,
    /// What is downstream moves up and is joined.
    Close,
}

/// Deletes parts.
///
/// A device goes from its joint and the pipe stays, made one again where it can be; a bare joint between two runs in
/// line goes and they become one; any other bare joint goes with its runs. Joints on which nothing is left go too.
///
/// # Errors
/// When nothing is given, a part is gone, or a gap cannot be closed.
pub fn delete(job: &Job, parts: &Selection, gap: Gap) -> Result<Step, Refusal> {
    if parts.is_empty() {
        return Err(Refusal::Choose("what to delete"));
    }
    if let Some(gone) = parts.iter().find(|part| !part.is_in(job)) {
        return Err(Refusal::Gone(gone));
    }
    let mut draft = Draft::new(job);
    passages(&mut draft, parts)?;
    notes(&mut draft, parts);
    let mut bared = BTreeSet::new();
    match gap {
        Gap::Keep => {
            for run in parts.runs() {
                remove(&mut draft, run, &mut bared)?;
            }
        }
        Gap::Close => {
            let flow = Flow::of(job);
            for run in parts.runs() {
                let near = if flow.is_against(job, run) { End::To } else { End::From };
                bared.insert(close(&mut draft, run, near)?);
            }
        }
    }
    for joint in parts.joints() {
        take_away(&mut draft, joint, &mut bared)?;
    }
    for joint in bared {
        let empty = |joint: &Joint| joint.placed.is_none() && joint.label.is_none();
        let empty = draft.joint(joint).is_some_and(empty) && draft.notes().iter().all(|note| note.at != joint);
        if empty && draft.runs_at(joint).is_empty() {
            draft.remove_joint(joint);
        }
    }
    let what = named(parts.iter());
    draft.finish(match gap {
        Gap::Keep => format!("Delete {what}"),
        Gap::Close => format!("Delete {what}, close the gap"),
    })
}

fn passages(draft: &mut Draft, parts: &Selection) -> Result<(), Refusal> {
    let mut gone: BTreeMap<RunId, Vec<usize>> = BTreeMap::new();
    for part in parts.iter() {
        if let Part::Penetration(run, at) = part {
            gone.entry(run).or_default().push(at);
        }
    }
    for (run, places) in gone {
        draft.change_run(run, |run| {
            let mut place = 0..;
            run.penetrations
                .retain(|_| !place.next().is_some_and(|place| places.contains(&place)));
        })?;
    }
    Ok(())
}

fn notes(draft: &mut Draft, parts: &Selection) {
    if parts.iter().any(|part| matches!(part, Part::Note(_))) {
        let mut place = 0..;
        let kept = |place: usize| !parts.contains(Part::Note(place));
        draft.notes_mut().retain(|_| place.next().is_none_or(kept));
    }
}

fn remove(draft: &mut Draft, run: RunId, bared: &mut BTreeSet<JointId>) -> Result<(), Refusal> {
    let gone = draft.want_run(run)?;
    bared.extend([gone.from, gone.to]);
    draft.remove_run(run);
    Ok(())
}

/// Deletes what a joint is: its device, or itself.
fn take_away(draft: &mut Draft, id: JointId, bared: &mut BTreeSet<JointId>) -> Result<(), Refusal> {
    // It may have gone with the closing of a gap.
    let Some(joint) = draft.joint(id) else { return Ok(()) };
    let held = joint.placed.is_some();
    let runs = draft.runs_at(id);
    if held && !runs.is_empty() {
        let joint = draft.joint_mut(id)?;
        bare(joint);
    }
    if weld(draft, id).is_ok() || (held && !runs.is_empty()) {
        return Ok(());
    }
    for run in runs {
        remove(draft, run, bared)?;
    }
    draft.remove_joint(id);
    Ok(())
}

/// Takes the device off a joint; where no words of a name stay there, the place of the words goes too.
pub fn bare(joint: &mut Joint) -> Option<Placed> {
    if joint.label.is_none() {
        joint.words_at = None;
    }
    joint.placed.take()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::edit::{place, reverse};
    use crate::editor::fixture::{J, R, at, done, house, refused, run};
    use crate::editor::{Part, Spot};
    use crate::job::{Device, Note, Run};

    fn chosen<const N: usize>(parts: [Part; N]) -> Selection {
        parts.into_iter().collect()
    }

    #[test]
    fn a_run_goes_and_what_it_held_alone_goes_with_it() {
        let job = house();
        let after = done(&job, delete(&job, &chosen([R(4)]), Gap::Keep));
        assert_eq!(
            (after.runs.len(), after.joints.len()),
            (4, 6),
            "J5 holds a cap and stays"
        );
        let after = done(&job, delete(&job, &chosen([R(3), R(4)]), Gap::Keep));
        assert_eq!(after.joints.get(JointId(4)), None, "the elbow between them goes");
    }

    #[test]
    fn a_device_goes_and_the_pipe_stays_whole() {
        let job = house();
        let valve = Placed::new(Device::Union);
        let with = done(&job, place(&job, valve, Spot::on(RunId(2), at(2, 0, 4))));
        let joint = with.joints.iter().last().unwrap().id;
        assert_eq!(
            done(&with, delete(&with, &chosen([Part::Joint(joint)]), Gap::Keep)),
            job
        );
    }

    #[test]
    fn an_elbow_goes_with_its_runs() {
        let job = house();
        let after = done(&job, delete(&job, &chosen([J(4)]), Gap::Keep));
        let runs: Vec<RunId> = after.runs.iter().map(|run| run.id).collect();
        assert_eq!(runs, [1, 2, 5].map(RunId));
        assert!(after.joints.get(JointId(5)).is_some(), "its cap keeps it");
    }

    #[test]
    fn a_closed_gap_moves_up_what_is_downstream_whichever_way_the_run_lies() {
        let start = house();
        for job in [start.clone(), done(&start, reverse(&start, &[RunId(3)]))] {
            let after = done(&job, delete(&job, &chosen([R(3)]), Gap::Close));
            assert_eq!((after.joints.len(), after.runs.len()), (5, 4));
            assert_eq!(after.joints.get(JointId(3)), job.joints.get(JointId(3)));
            assert_eq!(
                after.joints.get(JointId(5)).unwrap().at,
                at(9, 0, 4),
                "four steps to the south"
            );
            assert_eq!(run(&after, 4).from, JointId(3), "the pipe is joined");
        }
    }

    #[test]
    fn what_goes_round_or_would_collide_is_not_closed() {
        let mut job = house();
        refused(&job, delete(&job, &chosen([R(2)]), Gap::Close), "through J6");
        job.joints.get_mut(JointId(2)).unwrap().placed = Some(Placed::new(Device::Union));
        refused(
            &job,
            delete(&job, &chosen([R(1)]), Gap::Close),
            "J1 and J2 both have a device",
        );
        job.runs.insert(Run {
            id: RunId(9),
            from: JointId(2),
            to: JointId(4),
            ..Run::default()
        });
        refused(&job, delete(&job, &chosen([R(2)]), Gap::Close), "R2 is in a loop");
    }

    #[test]
    fn notes_and_passages_go_by_themselves_and_with_their_joint() {
        let mut job = house();
        job.notes = [2, 4, 2]
            .map(|at| Note {
                at: JointId(at),
                text: at.to_string(),
                words_at: None,
            })
            .into();
        job.runs.get_mut(RunId(1)).unwrap().penetrations = vec![Default::default(); 3];
        let parts = chosen([
            Part::Note(0),
            Part::Penetration(RunId(1), 2),
            Part::Penetration(RunId(1), 0),
        ]);
        let after = done(&job, delete(&job, &parts, Gap::Keep));
        assert_eq!((after.notes.len(), run(&after, 1).penetrations.len()), (2, 1));
        let after = done(&job, delete(&job, &chosen([J(4)]), Gap::Keep));
        assert_eq!(after.notes.len(), 2, "the note at J4 goes with it");
        refused(
            &job,
            delete(&job, &chosen([Part::Note(5)]), Gap::Keep),
            "note 6 is no longer there",
        );
        refused(&job, delete(&job, &Selection::none(), Gap::Keep), "select");
    }
}

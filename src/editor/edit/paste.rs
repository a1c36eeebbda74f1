//! Copies of parts, put down elsewhere.

use super::{Spot, named, stand};
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Selection, Step};
use crate::job::{Direction, Job, Joint, JointId, LatticePoint, Note, Run};
use std::collections::{BTreeMap, BTreeSet};

/// Copied parts, apart from the job that they came from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Clipboard {
    joints: Vec<Joint>,
    runs: Vec<Run>,
    notes: Vec<Note>,
    /// The place by which the copy is held.
    anchor: LatticePoint,
}

impl Clipboard {
    /// Whether nothing was copied.
    pub fn is_empty(&self) -> bool {
        self.joints.is_empty()
    }

    /// The place by which the copy is held: where it hung on the rest, else its first joint.
    pub fn anchor(&self) -> LatticePoint {
        self.anchor
    }

    /// The runs, as the places of their ends.
    pub fn lines(&self) -> impl Iterator<Item = [LatticePoint; 2]> + '_ {
        // The joints stand in the order of their ids.
        let place = |id: JointId| {
            let at = self.joints.binary_search_by_key(&id, |joint| joint.id).ok()?;
            Some(self.joints[at].at)
        };
        self.runs
            .iter()
            .filter_map(move |run| Some([place(run.from)?, place(run.to)?]))
    }
}

/// Copies joints with their devices and notes, and runs with the bare joints at their ends. Names of joints stay behind.
pub fn copy(job: &Job, parts: &Selection) -> Clipboard {
    let chosen: BTreeSet<JointId> = parts.joints().into_iter().collect();
    let runs: Vec<Run> = parts
        .runs()
        .into_iter()
        .filter_map(|run| job.runs.get(run).cloned())
        .collect();
    let joints: Vec<Joint> = parts
        .places(job)
        .into_iter()
        .filter_map(|id| job.joints.get(id))
        .map(|joint| Joint {
            label: None,
            placed: joint.placed.clone().filter(|_| chosen.contains(&joint.id)),
            words_at: joint.words_at.filter(|_| chosen.contains(&joint.id)),
            ..joint.clone()
        })
        .collect();
    let inside: BTreeSet<_> = runs.iter().map(|run| run.id).collect();
    let outside: BTreeSet<JointId> = job
        .runs
        .iter()
        .filter(|run| !inside.contains(&run.id))
        .flat_map(|run| [run.from, run.to])
        .collect();
    let hold = joints
        .iter()
        .find(|joint| outside.contains(&joint.id))
        .or(joints.first());
    Clipboard {
        anchor: hold.map(|joint| joint.at).unwrap_or_default(),
        notes: job
            .notes
            .iter()
            .filter(|note| chosen.contains(&note.at))
            .cloned()
            .collect(),
        joints,
        runs,
    }
}

/// Puts a copy down with its anchor at a place. A joint of the copy that falls on a joint or a run becomes one with it.
///
/// # Errors
/// When nothing was copied, or the copy would collide with what is there.
pub fn paste(job: &Job, what: &Clipboard, at: LatticePoint) -> Result<Step, Refusal> {
    if what.is_empty() {
        return Err(Refusal::NothingCopied);
    }
    let mut draft = Draft::new(job);
    put_down(&mut draft, what, at - what.anchor)?;
    draft.finish(format!("Paste {}", named(parts(what))))
}

fn parts(what: &Clipboard) -> impl Iterator<Item = crate::editor::Part> + '_ {
    let runs = what.runs.iter().map(|run| crate::editor::Part::Run(run.id));
    let bare = what.runs.is_empty().then_some(&what.joints).into_iter().flatten();
    runs.chain(bare.map(|joint| crate::editor::Part::Joint(joint.id)))
}

/// Puts a copy into a draft, moved by a way.
pub fn put_down(draft: &mut Draft, what: &Clipboard, by: Direction) -> Result<(), Refusal> {
    let mut new = BTreeMap::new();
    for joint in &what.joints {
        let id = stand(draft, Spot::at(joint.at + by))?;
        new.insert(joint.id, id);
        if joint.placed.is_some() {
            let target = draft.joint_mut(id)?;
            if let Some(there) = &target.placed {
                let device = there.device.name();
                return Err(Refusal::Holds { joint: id, device });
            }
            target.placed.clone_from(&joint.placed);
            target.turn = joint.turn;
            target.words_at = joint.words_at;
        }
    }
    for run in &what.runs {
        if let (Some(from), Some(to)) = (new.get(&run.from), new.get(&run.to)) {
            draft.add_run(Run {
                from: *from,
                to: *to,
                ..run.clone()
            });
        }
    }
    for note in &what.notes {
        if let Some(at) = new.get(&note.at) {
            draft.notes_mut().push(Note {
                at: *at,
                ..note.clone()
            });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{J, R, at, done, house, refused};
    use crate::job::RunId;

    #[test]
    fn a_copy_hangs_on_the_pipe_where_it_is_put() {
        let job = house();
        let drop = copy(&job, &[R(5), J(6)].into_iter().collect());
        assert_eq!(drop.anchor(), at(6, 0, 4), "where it hung on the tee");
        let after = done(&job, paste(&job, &drop, at(2, 0, 4)));
        assert_eq!(
            after.runs.len(),
            job.runs.len() + 2,
            "the drop, and the run that was split for it"
        );
        let last = after.joints.iter().last().unwrap();
        assert_eq!(
            (last.at, &last.placed),
            (at(2, 0, 1), &job.joints.get(JointId(6)).unwrap().placed)
        );
    }

    #[test]
    fn a_copy_in_the_open_brings_all_its_joints() {
        let job = house();
        let all = copy(&job, &Selection::all(&job));
        let after = done(&job, paste(&job, &all, at(0, 0, 20)));
        assert_eq!((after.joints.len(), after.runs.len()), (12, 10));
        assert!(after.runs.get(RunId(6)).is_some());
    }

    #[test]
    fn a_copy_does_not_fall_on_what_is_there() {
        let job = house();
        let drop = copy(&job, &[R(5), J(6)].into_iter().collect());
        refused(&job, paste(&job, &drop, at(6, 0, 4)), "J6 has an appliance already");
        refused(
            &job,
            paste(&job, &Clipboard::default(), at(6, 0, 4)),
            "nothing to paste",
        );
        refused(&job, paste(&job, &drop, at(i32::MAX, 0, 4)), "too far out");
        assert_eq!(drop.lines().collect::<Vec<_>>(), [[at(6, 0, 4), at(6, 0, 1)]]);
    }
}

//! Moving joints; the runs between them and the rest stay attached.

use crate::editor::draft::Draft;
use crate::editor::legs::Legs;
use crate::editor::{Part, Refusal, Step};
use crate::job::{Direction, Job, JointId};
use crate::study::how_many;
use std::collections::BTreeSet;

/// What becomes of the runs that lead from what moves to what does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// Runs along the way grow or shrink; any other run takes its far end along, so that no run changes direction.
    Straight,
    /// Only the chosen joints move; runs to the rest change direction.
    Loose,
}

/// Moves joints by a way on the lattice.
///
/// A typed length stays as typed: it is the drawing that is stretched. Where a drawn one shrinks, a passage that would
/// come to lie beyond the end keeps its share of the way.
///
/// # Errors
/// When nothing is given, a joint is gone, or something would come to lie on something else.
pub fn shift(job: &Job, joints: &BTreeSet<JointId>, by: Direction, stretch: Stretch) -> Result<Step, Refusal> {
    if joints.is_empty() {
        return Err(Refusal::Choose("what to move"));
    }
    let moved = match stretch {
        Stretch::Straight => taken_along(job, joints, by),
        Stretch::Loose => joints.clone(),
    };
    let mut draft = Draft::new(job);
    for id in &moved {
        let joint = draft.joint_mut(*id)?;
        joint.at = joint.at + by;
    }
    for run in &job.runs {
        let stretched = moved.contains(&run.from) != moved.contains(&run.to);
        if stretched && run.given_length().is_none() && run.penetrations.iter().any(|passage| passage.at.is_some()) {
            keep_within(&mut draft, run)?;
        }
    }
    draft.finish(match joints.first() {
        Some(only) if joints.len() == 1 => format!("Move {}", Part::Joint(*only)),
        _ => format!("Move {}", how_many(joints.len(), "joint")),
    })
}

fn keep_within(draft: &mut Draft, run: &crate::job::Run) -> Result<(), Refusal> {
    let (before, after) = (draft.job.true_length(run), draft.true_length(run));
    let share = after.eighths_of_um() as f64 / before.eighths_of_um().max(1) as f64;
    draft.change_run(run.id, |run| {
        for passage in &mut run.penetrations {
            passage.at = passage.at.map(|at| if at < after { at } else { at.times(share) });
        }
    })
}

/// The joints and all that hang on them by runs across the way.
fn taken_along(job: &Job, joints: &BTreeSet<JointId>, by: Direction) -> BTreeSet<JointId> {
    let legs = Legs::of(job);
    let mut moved = joints.clone();
    let mut waiting: Vec<usize> = joints.iter().filter_map(|id| job.joints.position(*id)).collect();
    while let Some(position) = waiting.pop() {
        let joint = job.joints.at(position);
        for run in legs.at(position) {
            let run = job.runs.at(run);
            let end = if run.from == joint.id { run.to } else { run.from };
            let Some(next) = job.joints.position(end) else { continue };
            if !(job.joints.at(next).at - joint.at).is_parallel_to(by) && moved.insert(end) {
                waiting.push(next);
            }
        }
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{at, done, house, refused, run};
    use crate::job::{Penetration, RunId};
    use crate::units::Length;

    const EAST: Direction = Direction::new(2, 0, 0);

    fn only(joint: u32) -> BTreeSet<JointId> {
        [JointId(joint)].into()
    }

    #[test]
    fn runs_along_the_way_stretch_and_the_others_take_their_ends_along() {
        let job = house();
        let after = done(&job, shift(&job, &only(4), EAST, Stretch::Straight));
        let places: Vec<_> = after.joints.iter().map(|joint| joint.at).collect();
        let [supply, elbow] = [at(0, 0, 0), at(0, 0, 4)];
        // R2 grows; the tee, its drop and the branch come along; R4 shrinks.
        assert_eq!(
            places,
            [supply, elbow, at(8, 0, 4), at(8, 4, 4), at(9, 4, 4), at(8, 0, 1)]
        );
    }

    #[test]
    fn loose_joints_move_alone() {
        let job = house();
        let after = done(&job, shift(&job, &only(4), EAST, Stretch::Loose));
        let moved: Vec<u32> = job
            .joints
            .iter()
            .filter(|old| after.joints.get(old.id) != Some(old))
            .map(|old| old.id.0)
            .collect();
        assert_eq!(moved, [4]);
    }

    #[test]
    fn nothing_comes_to_lie_on_anything() {
        let job = house();
        let check = |joint, by, words: &str| refused(&job, shift(&job, &only(joint), by, Stretch::Loose), words);
        check(2, Direction::new(6, 0, 0), "J2 would land on J3");
        check(5, Direction::new(-3, -4, -2), "through J5");
        check(2, Direction::new(0, 0, 90_000), "too far out");
        check(77, EAST, "J77 is no longer there");
        refused(&job, shift(&job, &BTreeSet::new(), EAST, Stretch::Loose), "select");
    }

    #[test]
    fn typed_lengths_stay_and_passages_stay_on_their_run() {
        let mut job = house();
        job.runs.get_mut(RunId(1)).unwrap().length = Some(Length::from_feet(40.0));
        let long = job.runs.get_mut(RunId(2)).unwrap();
        long.penetrations = [1.0, 5.0]
            .map(|feet| Penetration {
                at: Some(Length::from_feet(feet)),
                ..Penetration::default()
            })
            .into();
        let after = done(&job, shift(&job, &only(3), Direction::new(-3, 0, 0), Stretch::Straight));
        assert_eq!(run(&after, 1).length, Some(Length::from_feet(40.0)));
        let at: Vec<_> = run(&after, 2)
            .penetrations
            .iter()
            .map(|passage| passage.at.unwrap().feet())
            .collect();
        assert_eq!(at, [1.0, 2.5], "five of six feet are two and a half of three");
    }
}

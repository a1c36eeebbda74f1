//! Moving joints; the runs between them and the rest stay attached.

use crate::editor::draft::Draft;
use crate::editor::legs::Legs;
use crate::editor::{Part, Refusal, Step};
use crate::job::{Direction, Job, JointId, LatticePoint, RunId};
use crate::study::how_many;
use crate::units::Length;
use std::collections::BTreeSet;

/// What becomes of the runs that lead from what moves to what does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// Runs along the way grow or shrink; any other run takes its far end along, so that no run changes direction.
    Straight,
    /// Only the chosen joints move; runs to the rest change direction.
    Loose,
}

/// What becomes of a length that was typed for a run that a move stretches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Typed {
    /// It stays: it was measured, and only the drawing changes.
    Kept,
    /// It is measured anew along its axis, by the steps that it is drawn longer or shorter.
    Measured,
}

/// A run with a typed length that a move draws longer or shorter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretched {
    /// The run.
    pub run: RunId,
    /// Its length as typed.
    pub was: Length,
    /// Its length if it is measured anew; `None` where it turns, or nothing would be left.
    pub measured: Option<Length>,
}

/// The runs with typed lengths that a move would draw longer or shorter.
pub fn stretched(job: &Job, joints: &BTreeSet<JointId>, by: Direction, stretch: Stretch) -> Vec<Stretched> {
    let moved = moved(job, joints, by, stretch);
    let place = |id: JointId| Some((job.joints.get(id)?.at, moved.contains(&id)));
    let after = |(at, moves): (LatticePoint, bool)| if moves { at + by } else { at };
    let runs = job.runs.iter().filter_map(|run| {
        let was = run.length.filter(|_| run.offset.is_none())?;
        let (from, to) = (place(run.from)?, place(run.to)?);
        if from.1 == to.1 {
            return None;
        }
        let (before, after) = (to.0 - from.0, after(to) - after(from));
        let steps = after.steps() - before.steps();
        let is_straight = before.axis().is_some() && after.is_parallel_to(before) && before.dot(after) > 0;
        let measured = is_straight.then(|| was + job.settings.step.times(steps));
        Some(Stretched {
            run: run.id,
            was,
            measured: measured.filter(|length| *length > Length::ZERO),
        })
    });
    runs.collect()
}

/// All that a move takes along.
fn moved(job: &Job, joints: &BTreeSet<JointId>, by: Direction, stretch: Stretch) -> BTreeSet<JointId> {
    match stretch {
        Stretch::Straight => taken_along(job, joints, by),
        Stretch::Loose => joints.clone(),
    }
}

/// Moves joints by a way on the lattice.
///
/// A typed length stays as typed, where it is not to be measured anew: then it is the drawing that is stretched. Where a
/// length shrinks, a passage that would come to lie beyond the end keeps its share of the way.
///
/// # Errors
/// When nothing is given, a joint is gone, or something would come to lie on something else.
pub fn shift(
    job: &Job,
    joints: &BTreeSet<JointId>,
    by: Direction,
    stretch: Stretch,
    typed: Typed,
) -> Result<Step, Refusal> {
    if joints.is_empty() {
        return Err(Refusal::Choose("what to move"));
    }
    let moved = moved(job, joints, by, stretch);
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
    if typed == Typed::Measured {
        for stretched in stretched(job, joints, by, stretch) {
            measure(&mut draft, stretched)?;
        }
    }
    draft.finish(match joints.first() {
        Some(only) if joints.len() == 1 => format!("Move {}", Part::Joint(*only)),
        _ => format!("Move {}", how_many(joints.len(), "joint")),
    })
}

/// Gives a run the length that is measured anew; its passages stay on it.
fn measure(draft: &mut Draft, stretched: Stretched) -> Result<(), Refusal> {
    let Some(now) = stretched.measured else { return Ok(()) };
    let share = now.eighths_of_um() as f64 / stretched.was.eighths_of_um().max(1) as f64;
    draft.change_run(stretched.run, |run| {
        run.length = Some(now);
        for passage in &mut run.penetrations {
            passage.at = passage.at.map(|at| if at < now { at } else { at.times(share) });
        }
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
        let after = done(&job, shift(&job, &only(4), EAST, Stretch::Straight, Typed::Kept));
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
        let after = done(&job, shift(&job, &only(4), EAST, Stretch::Loose, Typed::Kept));
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
        let check =
            |joint, by, words: &str| refused(&job, shift(&job, &only(joint), by, Stretch::Loose, Typed::Kept), words);
        check(2, Direction::new(6, 0, 0), "J2 would land on J3");
        check(5, Direction::new(-3, -4, -2), "through J5");
        check(2, Direction::new(0, 0, 90_000), "too far out");
        check(77, EAST, "J77 is no longer there");
        refused(
            &job,
            shift(&job, &BTreeSet::new(), EAST, Stretch::Loose, Typed::Kept),
            "select",
        );
    }

    #[test]
    fn a_length_that_is_measured_anew_goes_by_the_steps_and_a_straight_line_keeps_its_total() {
        let mut job = house();
        for (id, feet) in [(1, 40.0), (2, 18.0)] {
            job.runs.get_mut(RunId(id)).unwrap().length = Some(Length::from_feet(feet));
        }
        let back = Direction::new(-3, 0, 0);
        let found = stretched(&job, &only(3), back, Stretch::Straight);
        let feet = |length: f64| Some(Length::from_feet(length));
        assert_eq!(found.len(), 1, "R1 moves neither end: {found:?}");
        assert_eq!(
            (found[0].run, found[0].was, found[0].measured),
            (RunId(2), Length::from_feet(18.0), feet(15.0))
        );
        let kept = done(&job, shift(&job, &only(3), back, Stretch::Straight, Typed::Kept));
        assert_eq!(run(&kept, 2).length, feet(18.0));
        let anew = done(&job, shift(&job, &only(3), back, Stretch::Straight, Typed::Measured));
        assert_eq!((run(&anew, 2).length, run(&anew, 1).length), (feet(15.0), feet(40.0)));
        // A tee that slides along its line: what one half loses the other wins.
        let mut line = job.clone();
        let tee = crate::editor::edit::split(
            &line,
            crate::editor::Spot::on(RunId(2), at(2, 0, 4)),
            crate::editor::edit::Cut::InProportion,
        );
        tee.unwrap().apply(&mut line).unwrap();
        let joint = line.joints.iter().next_back().unwrap().id;
        let slid = done(
            &line,
            shift(
                &line,
                &[joint].into(),
                Direction::new(1, 0, 0),
                Stretch::Straight,
                Typed::Measured,
            ),
        );
        let lengths: f64 = slid
            .runs
            .iter()
            .filter(|run| run.from == joint || run.to == joint)
            .map(|run| run.length.unwrap().feet())
            .sum();
        assert!((lengths - 18.0).abs() < 1e-9, "{lengths}");
        // Where nothing would be left it is not measured: the drawing alone is stretched.
        let mut short = job.clone();
        short.runs.get_mut(RunId(2)).unwrap().length = feet(2.0);
        assert_eq!(stretched(&short, &only(3), back, Stretch::Straight)[0].measured, None);
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
        let after = done(
            &job,
            shift(&job, &only(3), Direction::new(-3, 0, 0), Stretch::Straight, Typed::Kept),
        );
        assert_eq!(run(&after, 1).length, Some(Length::from_feet(40.0)));
        let at: Vec<_> = run(&after, 2)
            .penetrations
            .iter()
            .map(|passage| passage.at.unwrap().feet())
            .collect();
        assert_eq!(at, [1.0, 2.5], "five of six feet are two and a half of three");
    }
}

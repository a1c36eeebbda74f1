//! Laying pipe from one place to another.

use super::stand;
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Spot, Step};
use crate::job::{Job, JointId, Material, MeasuredOffset, Run, State, Surroundings};
use crate::units::{Length, NominalSize};

/// What the next run is like: the pencil in the hand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pen {
    /// Material, when it is not the job's.
    pub material: Option<Material>,
    /// Size, when it is known or fixed.
    pub size: Option<NominalSize>,
    /// Existing, new or to be removed.
    pub state: State,
    /// Where it lies.
    pub surroundings: Surroundings,
    /// Whether it is painted, coated or wrapped.
    pub coated: bool,
}

impl Pen {
    /// Draws pipe of another state from now on. A size read on existing pipe is none of new pipe, nor the other way.
    pub fn turn(&mut self, state: State) {
        if self.state != state {
            (self.state, self.size) = (state, None);
        }
    }
}

/// A run to be laid.
#[derive(Clone, Debug, PartialEq)]
pub struct Lay {
    /// Where it starts: at a joint, in a run (which makes a tee), or in the open.
    pub from: Spot,
    /// Where it ends, in the same fashion.
    pub to: Spot,
    /// True length as typed; `None` for as drawn.
    pub length: Option<Length>,
    /// What was measured of it as an offset.
    pub offset: Option<MeasuredOffset>,
    /// What it is like.
    pub pen: Pen,
}

/// Lays a run. A cap at the end of pipe where it starts or ends is taken off.
///
/// # Errors
/// When the run has no length, or would double or cross what is there, or would meet a device without a free end.
pub fn lay(job: &Job, what: &Lay) -> Result<Step, Refusal> {
    if what.from.at == what.to.at {
        return Err(Refusal::NoWay);
    }
    if what.length.is_some_and(|length| length <= Length::ZERO) {
        return Err(Refusal::NoLength);
    }
    let mut draft = Draft::new(job);
    let from = stand(&mut draft, what.from)?;
    let to = stand(&mut draft, what.to)?;
    for joint in [from, to] {
        uncap(&mut draft, joint)?;
    }
    let Pen {
        material,
        size,
        state,
        surroundings,
        coated,
    } = what.pen;
    draft.add_run(Run {
        from,
        to,
        length: what.length,
        offset: what.offset,
        material,
        size,
        state,
        surroundings,
        coated,
        ..Run::default()
    });
    draft.finish("Draw run")
}

/// Takes the cap off the end of a pipe that is to go on, or the plug out of a tee.
pub(super) fn uncap(draft: &mut Draft, joint: JointId) -> Result<(), Refusal> {
    let runs = draft.runs_at(joint).len();
    if draft.joint(joint).is_some_and(|joint| joint.is_capped(runs)) {
        draft.joint_mut(joint)?.uncap(runs);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{at, done, house, refused};
    use crate::job::{Cap, Device, JointId, Placed, RunId};

    fn run(from: Spot, to: Spot) -> Lay {
        Lay {
            from,
            to,
            length: None,
            offset: None,
            pen: Pen::default(),
        }
    }

    #[test]
    fn a_run_from_the_middle_of_another_makes_a_tee() {
        let job = house();
        let after = done(&job, lay(&job, &run(Spot::at(at(2, 0, 4)), Spot::at(at(2, -3, 4)))));
        assert_eq!(
            (after.runs.len(), after.joints.len()),
            (job.runs.len() + 2, job.joints.len() + 2)
        );
        let tee = after.joints.iter().find(|joint| joint.at == at(2, 0, 4)).unwrap().id;
        assert_eq!(
            after.runs.iter().filter(|run| run.from == tee || run.to == tee).count(),
            3
        );
    }

    #[test]
    fn a_run_from_a_plug_opens_it_and_keeps_the_tee() {
        let mut job = house();
        let cap = Placed::new(Device::Cap(Cap::default()));
        let plug = |job: &mut Job, state| {
            let placed = Placed { state, ..cap.clone() };
            job.joints.get_mut(JointId(2)).unwrap().placed = Some(placed);
        };
        let left = |job: &Job| {
            let after = done(job, lay(job, &run(Spot::at(at(0, 0, 4)), Spot::at(at(0, -3, 4)))));
            after
                .joints
                .get(JointId(2))
                .unwrap()
                .placed
                .as_ref()
                .map(|placed| placed.state)
        };
        plug(&mut job, State::New);
        assert_eq!(left(&job), None);
        plug(&mut job, State::Existing);
        assert_eq!(left(&job), Some(State::Removed));
    }

    #[test]
    fn a_typed_length_is_kept_and_a_drawn_one_is_not_stored() {
        let job = house();
        let mut what = run(Spot::at(at(9, 0, 0)), Spot::at(at(9, 0, 3)));
        assert_eq!(done(&job, lay(&job, &what)).runs.iter().last().unwrap().length, None);
        what.length = Some(Length::from_feet(12.5));
        assert_eq!(
            done(&job, lay(&job, &what)).runs.iter().last().unwrap().length,
            what.length
        );
    }

    #[test]
    fn pipe_goes_on_from_a_capped_end_without_its_cap() {
        let job = house();
        let capped = job.joints.get(JointId(5)).unwrap();
        assert!(capped.placed.is_some());
        let after = done(&job, lay(&job, &run(Spot::at(capped.at), Spot::at(at(6, 5, 4)))));
        assert_eq!(after.joints.get(JointId(5)).unwrap().placed, None);
    }

    #[test]
    fn wrong_runs_are_refused() {
        let job = house();
        let spot = |e, n, u| Spot::at(at(e, n, u));
        let check = |from, to, words: &str| refused(&job, lay(&job, &run(from, to)), words);
        check(spot(1, 1, 1), spot(1, 1, 1), "end where it starts");
        check(spot(0, 0, 4), spot(6, 0, 4), "connected already, by R2");
        check(spot(-2, 0, 4), spot(3, 0, 4), "through J2");
        check(spot(0, 0, 2), spot(0, 0, 3), "connected already");
        check(spot(90_000, 0, 0), spot(90_001, 0, 0), "too far out");
        let mut none = run(spot(9, 0, 0), spot(9, 0, 3));
        none.length = Some(Length::ZERO);
        refused(&job, lay(&job, &none), "greater than zero");
        // An appliance has one end.
        check(spot(6, 0, 1), spot(8, 0, 1), "no end for another pipe");
    }

    #[test]
    fn a_valve_in_line_takes_no_third_pipe() {
        let mut job = house();
        job.joints.get_mut(JointId(2)).unwrap().placed = Some(Placed::new(Device::Union));
        refused(
            &job,
            lay(&job, &run(Spot::at(at(0, 0, 4)), Spot::at(at(0, 3, 4)))),
            "J2 has a union",
        );
        assert!(job.runs.get(RunId(2)).is_some());
    }
}

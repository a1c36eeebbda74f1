//! Turning a branch over, as in a mirror through a joint.

use crate::editor::draft::Draft;
use crate::editor::{Part, Refusal, Step};
use crate::job::{Axis, Job, JointId, LatticePoint};
use std::collections::BTreeSet;

/// Mirrors joints in the plane through the joint `about` that stands across `axis`: what lay to the east lies to the
/// west, by as much. The joint `about` stays, and runs stay attached.
///
/// # Errors
/// When nothing is given, a joint is gone, or something would come to lie on something else.
pub fn mirror(job: &Job, joints: &BTreeSet<JointId>, about: JointId, axis: Axis) -> Result<Step, Refusal> {
    let middle = job.joints.get(about).ok_or(Refusal::Gone(Part::Joint(about)))?.at;
    let mut draft = Draft::new(job);
    let mut turned = joints.iter().filter(|id| **id != about).peekable();
    if turned.peek().is_none() {
        return Err(Refusal::Choose("the branch to mirror, and the joint it connects to"));
    }
    for id in turned {
        let joint = draft.joint_mut(*id)?;
        joint.at = over(joint.at, middle, axis);
    }
    draft.finish("Mirror branch")
}

fn over(at: LatticePoint, middle: LatticePoint, axis: Axis) -> LatticePoint {
    let turn = |at: i32, middle: i32| middle.saturating_mul(2).saturating_sub(at);
    match axis {
        Axis::East => LatticePoint {
            east: turn(at.east, middle.east),
            ..at
        },
        Axis::North => LatticePoint {
            north: turn(at.north, middle.north),
            ..at
        },
        Axis::Up => LatticePoint {
            up: turn(at.up, middle.up),
            ..at
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::Spot;
    use crate::editor::edit::place;
    use crate::editor::fixture::{at, done, house, refused};
    use crate::job::{Appliance, Device, Placed};

    #[test]
    fn a_branch_turned_over_twice_is_as_it_was() {
        let job = house();
        let branch: BTreeSet<JointId> = [3, 4, 5].map(JointId).into();
        let after = done(&job, mirror(&job, &branch, JointId(3), Axis::North));
        assert_eq!(after.joints.get(JointId(4)).unwrap().at, at(6, -4, 4));
        assert_eq!(after.joints.get(JointId(5)).unwrap().at, at(9, -4, 4));
        assert_eq!(done(&after, mirror(&after, &branch, JointId(3), Axis::North)), job);
    }

    #[test]
    fn a_branch_does_not_turn_onto_pipe() {
        let job = house();
        let drop: BTreeSet<JointId> = [JointId(1)].into();
        refused(
            &job,
            mirror(&job, &drop, JointId(77), Axis::Up),
            "J77 is no longer there",
        );
        refused(
            &job,
            mirror(&job, &[JointId(2)].into(), JointId(2), Axis::Up),
            "select the branch",
        );
        let main: BTreeSet<JointId> = [1, 2].map(JointId).into();
        assert!(mirror(&job, &main, JointId(3), Axis::East).is_ok());
        let end: BTreeSet<JointId> = [JointId(5)].into();
        let grill = Placed::new(Device::Appliance(Appliance::default()));
        let with = done(&job, place(&job, grill, Spot::at(at(3, 4, 4))));
        refused(
            &with,
            mirror(&with, &end, JointId(4), Axis::East),
            "J5 would land on J7",
        );
    }
}

//! Putting a device on a joint or into a run, and taking it off.

use super::Spot;
use super::delete::bare;
use super::split::cut;
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step};
use crate::job::{Job, Joint, JointId, Placed};

/// Puts a device at a spot: on the joint there, or into the run there on a new joint. A supply and an appliance may also
/// stand in the open.
///
/// # Errors
/// When the joint holds a device, when more runs meet there than the device has ends, or when there is no pipe.
pub fn place(job: &Job, placed: Placed, spot: Spot) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    let name = placed.device.name();
    let joint = match draft.joint_at(spot.at) {
        Some(joint) => joint,
        None => match (draft.run_over(spot.at, spot.on), spot.on) {
            (Some(run), _) => cut(&mut draft, run, spot.at, spot.cut())?,
            (None, Some(run)) => return Err(Refusal::NoRoom(run.into())),
            (None, None) if placed.device.nature().stands_alone => draft.add_joint(Joint {
                at: spot.at,
                ..Joint::default()
            }),
            (None, None) => return Err(Refusal::NeedsPipe(name)),
        },
    };
    let target = draft.joint_mut(joint)?;
    if let Some(there) = &target.placed {
        let device = there.device.name();
        return Err(Refusal::Holds { joint, device });
    }
    target.placed = Some(placed);
    draft.finish(format!("Place {name}"))
}

/// Takes the device off a joint; the joint stays.
///
/// # Errors
/// When the joint is gone or nothing stands on it.
pub fn take_off(job: &Job, joint: JointId) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    let placed = bare(draft.joint_mut(joint)?);
    let name = placed.ok_or(Refusal::Bare(joint))?.device.name();
    draft.finish(format!("Remove {name}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{at, done, house, refused};
    use crate::job::{Appliance, Cap, Device, RunId, Valve};

    fn valve() -> Placed {
        Placed::new(Device::Valve(Valve::default()))
    }

    #[test]
    fn a_device_goes_on_a_joint_or_into_a_run() {
        let job = house();
        let after = done(&job, place(&job, valve(), Spot::at(at(0, 0, 4))));
        assert_eq!(after.joints.get(JointId(2)).unwrap().placed, Some(valve()));
        assert_eq!(done(&after, take_off(&after, JointId(2))), job);
        let after = done(&job, place(&job, valve(), Spot::on(RunId(2), at(5, 0, 4))));
        assert_eq!(after.runs.len(), job.runs.len() + 1);
        assert_eq!(after.joints.iter().last().unwrap().placed, Some(valve()));
    }

    #[test]
    fn only_supply_and_appliance_stand_in_the_open() {
        let job = Job::default();
        let grill = Placed::new(Device::Appliance(Appliance::default()));
        assert_eq!(done(&job, place(&job, grill, Spot::at(at(1, 2, 3)))).joints.len(), 1);
        refused(
            &job,
            place(&job, valve(), Spot::at(at(1, 2, 3))),
            "a shutoff valve goes in pipe or at its end",
        );
    }

    #[test]
    fn refused_places_say_why() {
        let job = house();
        refused(
            &job,
            place(&job, valve(), Spot::at(at(0, 0, 0))),
            "J1 has a point of delivery already",
        );
        refused(
            &job,
            place(&job, valve(), Spot::at(at(6, 0, 4))),
            "3 runs meet at J3: a shutoff valve has two ends",
        );
        refused(
            &job,
            place(&job, valve(), Spot::on(RunId(2), at(6, 9, 4))),
            "R2 has no room",
        );
        // In a line a cap is the plug in the outlet of a tee.
        let cap = Placed::new(Device::Cap(Cap::default()));
        let after = done(&job, place(&job, cap.clone(), Spot::at(at(0, 0, 4))));
        assert_eq!(after.joints.get(JointId(2)).unwrap().placed, Some(cap));
        refused(&job, take_off(&job, JointId(2)), "there is no device on J2");
    }
}

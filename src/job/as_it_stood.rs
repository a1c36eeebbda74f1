//! The job before the work.

use super::{Device, Job, JointId, RunId, State};

/// The job as it stood before the work: new parts left out, parts to be removed and the pipe that new pipe takes the place
/// of still there. Joints keep their ids and
/// positions, runs their ids.
///
/// Old pipe was fed from somewhere: where no point of delivery is marked as old, one marked new on which old pipe ends
/// counts as having been there.
pub fn as_it_stood(job: &Job) -> Job {
    let mut old = job.clone();
    old.runs
        .retain(|run| run.state != State::New || run.replaced().is_some());
    let runs: Vec<RunId> = old.runs.iter().map(|run| run.id).collect();
    for id in runs {
        if let Some(run) = old.runs.get_mut(id) {
            run.size = run.replaced().or(run.size);
            run.replaces = None;
            run.state = State::Existing;
        }
    }
    let is_supply = |device: &Device| matches!(device, Device::Supply(_));
    let placed = job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    let supply_is_old = placed
        .filter(|placed| is_supply(&placed.device))
        .any(|placed| placed.state != State::New);
    let mut met: Vec<JointId> = old.runs.iter().flat_map(|run| [run.from, run.to]).collect();
    met.sort_unstable();
    let joints: Vec<JointId> = old.joints.iter().map(|joint| joint.id).collect();
    for id in joints {
        let Some(joint) = old.joints.get_mut(id) else { continue };
        let Some(placed) = &mut joint.placed else { continue };
        let fed = is_supply(&placed.device) && !supply_is_old && met.binary_search(&id).is_ok();
        if let Device::Supply(supply) = &mut placed.device {
            *supply = supply.as_it_stood();
        }
        match placed.state {
            State::New if !fed => joint.placed = None,
            State::New | State::Existing | State::Removed => placed.state = State::Existing,
        }
    }
    old
}

//! Where a branch is cut into a line that stands: between two fixed ends a tee closes it again only with a union, or with
//! couplings that are fused or brazed on.

use crate::fittings::FittingKind;
use crate::job::{Device, Job, Joining, Material, State, Surroundings};
use crate::study::Study;
use crate::units::NominalSize;

/// A place where a standing line is cut for a branch, and nothing is near by which it could be closed again.
#[derive(Clone, Debug, PartialEq)]
pub struct CutIn {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// The larger size of the line, when it is known.
    pub size: Option<NominalSize>,
    /// Whether the line lies concealed there.
    pub concealed: bool,
    /// The material of the line.
    pub material: Material,
    /// How that is joined.
    pub joining: Joining,
}

/// All of them, in the order of the joints.
pub fn all(job: &Job, study: &Study) -> Vec<CutIn> {
    let joints = study.joints.iter().enumerate();
    joints.filter_map(|(joint, _)| at(job, study, joint)).collect()
}

fn at(job: &Job, study: &Study, joint: usize) -> Option<CutIn> {
    let fitting = study.fittings.get(study.joints[joint].fitting?)?;
    // The plug of a tee that is there already comes out, and nothing is cut.
    if fitting.state != State::New {
        return None;
    }
    let branches = match fitting.kind {
        FittingKind::Tee
        | FittingKind::Cross
        | FittingKind::SideOutletElbow
        | FittingKind::SideOutletTee
        | FittingKind::ManyWays(_) => true,
        FittingKind::Elbow90
        | FittingKind::StreetElbow90
        | FittingKind::Elbow45
        | FittingKind::OddElbow(_)
        | FittingKind::Bend
        | FittingKind::Coupling
        | FittingKind::ReducingCoupling
        | FittingKind::TubingFitting
        | FittingKind::Adapter
        | FittingKind::Transition
        | FittingKind::Riser
        | FittingKind::Nipple
        | FittingKind::TrapNipple
        | FittingKind::Cap
        | FittingKind::Plug => false,
    };
    let state = |run: &usize| job.runs.at(*run).state;
    let legs = || study.network.legs(joint);
    let standing: Vec<usize> = legs().filter(|run| state(run) == State::Existing).collect();
    let new = legs().any(|run| state(&run) == State::New);
    // Where three ways met already the fitting is there.
    let was = legs().filter(|run| state(run) != State::New).count();
    let material = |run: usize| job.material(job.runs.at(run));
    let &[one, other] = standing.as_slice() else {
        return None;
    };
    if !branches || !new || was != 2 || material(one) != material(other) {
        return None;
    }
    let joining = job.joining(job.runs.at(one));
    // A nut goes on wherever the tubing is cut.
    if joining.has_nut() {
        return None;
    }
    if standing.iter().any(|&run| comes_apart(job, study, joint, run)) {
        return None;
    }
    let concealed = |&run: &usize| job.runs.at(run).surroundings == Surroundings::Concealed;
    Some(CutIn {
        joint,
        size: standing.iter().filter_map(|&run| job.runs.at(run).size).max(),
        concealed: standing.iter().any(concealed),
        material: material(one),
        joining,
    })
}

/// Whether the standing line along a run comes apart before its next branching or end: at a union, or where new pipe
/// takes it up.
fn comes_apart(job: &Job, study: &Study, mut from: usize, mut run: usize) -> bool {
    let network = &study.network;
    // No line has more runs than there are.
    for _ in 0..job.runs.len() {
        let Some((a, b)) = network.joints_of[run] else {
            return false;
        };
        let next = if a == from { b } else { a };
        if matches!(job.joints.at(next).device(), Some(Device::Union)) {
            return true;
        }
        let mut on = network
            .legs(next)
            .filter(|&leg| leg != run && job.runs.at(leg).state != State::Removed);
        let (Some(leg), None) = (on.next(), on.next()) else {
            return false;
        };
        if job.runs.at(leg).state == State::New {
            return true;
        }
        (from, run) = (next, leg);
    }
    false
}

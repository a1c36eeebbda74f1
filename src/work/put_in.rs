//! What is put into a line that stands, where no new pipe leads: a valve, a union, a sediment trap.

use crate::job::{Fitted, Job, Material, State};
use crate::study::Study;
use crate::units::NominalSize;

/// A new device in a standing line.
#[derive(Clone, Debug, PartialEq)]
pub struct PutIn {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// The larger size of the line, when it is known.
    pub size: Option<NominalSize>,
    /// The material of the line.
    pub material: Material,
}

/// All of them, in the order of the joints. What ends a line, a cap or an appliance, is screwed on and not put in.
pub fn all(job: &Job, study: &Study) -> Vec<PutIn> {
    let put_in = |(joint, drawn): (usize, &crate::job::Joint)| {
        let placed = drawn.placed.as_ref()?;
        if placed.state != State::New || placed.device.nature().fitted == Fitted::Apart {
            return None;
        }
        let legs = || study.network.legs(joint);
        let standing = || legs().filter(|&run| job.runs.at(run).state == State::Existing && !study.runs[run].is_hose);
        let is_new = legs().any(|run| job.runs.at(run).state == State::New);
        if is_new || standing().count() < 2 {
            return None;
        }
        Some(PutIn {
            joint,
            size: standing().filter_map(|run| job.runs.at(run).size).max(),
            material: standing().map(|run| job.material(job.runs.at(run))).next()?,
        })
    };
    job.joints.iter().enumerate().filter_map(put_in).collect()
}

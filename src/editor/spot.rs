//! Where on the lattice something is meant to go.

use super::draft::Draft;
use crate::job::{Job, JointId, LatticePoint, RunId};

/// A place of the lattice, and the run that is meant when more than one passes there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    /// The place.
    pub at: LatticePoint,
    /// The run that is meant.
    pub on: Option<RunId>,
}

/// What is at a spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// A joint.
    Joint(JointId),
    /// A run passes there.
    Run(RunId),
    /// Nothing.
    Open,
}

impl Spot {
    /// A place with whatever is there.
    pub const fn at(at: LatticePoint) -> Spot {
        Spot { at, on: None }
    }

    /// A place on a certain run.
    pub const fn on(run: RunId, at: LatticePoint) -> Spot {
        Spot { at, on: Some(run) }
    }

    /// What is there: a joint before a run.
    pub fn standing(self, job: &Job) -> Standing {
        let draft = Draft::new(job);
        match (draft.joint_at(self.at), draft.run_over(self.at, self.on)) {
            (Some(joint), _) => Standing::Joint(joint),
            (None, Some(run)) => Standing::Run(run),
            (None, None) => Standing::Open,
        }
    }
}

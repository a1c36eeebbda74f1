//! Where on the lattice something is meant to go.

use super::draft::Draft;
use crate::job::{Job, JointId, LatticePoint, RunId};
use std::fmt;

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
        if let Some(joint) = draft.joint_at(self.at) {
            return Standing::Joint(joint);
        }
        draft.run_over(self.at, self.on).map_or(Standing::Open, Standing::Run)
    }
}

impl fmt::Display for Standing {
    /// What pipe will start or end at: "J4", "a tee in R3", "a new joint".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Standing::Joint(joint) => write!(f, "{joint}"),
            Standing::Run(run) => write!(f, "a tee in {run}"),
            Standing::Open => f.write_str("a new joint"),
        }
    }
}

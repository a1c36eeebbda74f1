//! Where on the lattice something is meant to go.

use super::cut::{Cut, in_proportion};
use super::draft::Draft;
use super::line;
use crate::job::{Job, JointId, LatticePoint, Run, RunId};
use crate::units::Length;
use std::fmt;

/// A place of the lattice, and the run that is meant when more than one passes there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    /// The place.
    pub at: LatticePoint,
    /// The run that is meant.
    pub on: Option<RunId>,
    /// How far it was measured to lie along that run, from the run's `from` end; `None` where it goes by the drawing.
    pub along: Option<Length>,
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
        Spot {
            at,
            on: None,
            along: None,
        }
    }

    /// A place on a certain run.
    pub const fn on(run: RunId, at: LatticePoint) -> Spot {
        Spot {
            at,
            on: Some(run),
            along: None,
        }
    }

    /// How a run is cut there.
    pub const fn cut(self) -> Cut {
        match self.along {
            Some(along) => Cut::First(along),
            None => Cut::InProportion,
        }
    }

    /// The true length of a run up to here, and its whole; `None` where it does not pass here.
    pub fn parts(self, run: &Run, job: &Job) -> Option<(Length, Length)> {
        let [from, to] = [job.joints.get(run.from)?.at, job.joints.get(run.to)?.at];
        line::passes(from, to, self.at).then(|| {
            let whole = job.true_length(run);
            let near = self
                .along
                .unwrap_or_else(|| in_proportion([from, to], self.at, whole, job.settings.units));
            (near, whole)
        })
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

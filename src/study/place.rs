//! Where something of a job is.

use crate::job::{JointId, RunId};
use std::fmt;

/// A place that a finding, a step or a line of a list points to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// The job as a whole.
    Job,
    /// A joint.
    Joint(JointId),
    /// A run.
    Run(RunId),
    /// A section, by its number.
    Section(usize),
}

/// In few words: "J4", "R2", "section 3".
impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Place::Job => f.write_str("the job"),
            Place::Joint(id) => id.fmt(f),
            Place::Run(id) => id.fmt(f),
            Place::Section(number) => write!(f, "section {number}"),
        }
    }
}

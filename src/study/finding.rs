//! What a rule says about a place.

use super::Study;
use crate::codebook::{Codebook, Profile};
use crate::job::{Job, JointId, RunId};

/// One thing found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Id of the rule: "undersized".
    pub rule: &'static str,
    /// How heavy.
    pub severity: Severity,
    /// Where.
    pub place: Place,
    /// What is wrong there, with figures.
    pub what: String,
    /// What to do.
    pub remedy: String,
    /// Clause, or "common practice, no source".
    pub basis: &'static str,
}

/// How heavy a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Must be mended before the drawing is used.
    Blocking,
    /// Wants a look and a decision.
    Caution,
    /// Good to know.
    Remark,
}

/// Where a finding is.
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

/// What a rule may look at. `study.findings` is empty then.
#[derive(Clone, Copy)]
pub struct Look<'a> {
    /// The job.
    pub job: &'a Job,
    /// What is published.
    pub book: &'a Codebook,
    /// The profile in force.
    pub profile: &'a Profile,
    /// What follows from the job, findings apart.
    pub study: &'a Study,
}

/// A rule: one per file under `findings/`.
pub struct Rule {
    /// Short name in kebab case, stable for ever: profiles switch rules by it.
    pub id: &'static str,
    /// One line of what it looks for.
    pub title: &'static str,
    /// How heavy its findings are, unless the profile says otherwise.
    pub severity: Severity,
    /// Clause, or "common practice, no source".
    pub basis: &'static str,
    /// Looks at the job and reports `(place, what, remedy)`.
    pub check: fn(Look<'_>, &mut dyn FnMut(Place, String, String)),
}

//! What a rule says about a place.

use crate::job::Detail;
use crate::study::Place;

/// One thing found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Id of the rule: "undersized-existing".
    pub rule: &'static str,
    /// How heavy.
    pub severity: Severity,
    /// Where; of several places the first.
    pub place: Place,
    /// Further places of the same cause, so that one cause is told once.
    pub also: Vec<Place>,
    /// The field in which it is put right, where it is a single one.
    pub field: Option<Detail>,
    /// What is wrong there, with figures.
    pub what: String,
    /// What to do.
    pub remedy: String,
    /// The clause of the code in force, or what else the rule stands on.
    pub basis: String,
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

impl Severity {
    /// The word on lists.
    pub const fn name(self) -> &'static str {
        match self {
            Severity::Blocking => "blocking",
            Severity::Caution => "caution",
            Severity::Remark => "remark",
        }
    }
}

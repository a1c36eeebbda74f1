//! What a rule says about a place.

use crate::job::Detail;
use crate::study::Place;

/// One thing found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Id of the rule: "undersized-existing".
    pub rule: &'static str,
    /// What it asks of the reader.
    pub severity: Severity,
    /// Where; of several places the first.
    pub place: Place,
    /// Further places of the same cause, so that one cause is told once.
    pub also: Vec<Place>,
    /// Which of the run's penetrations is meant, where it is one.
    pub penetration: Option<usize>,
    /// The field in which it is put right, where it is a single one.
    pub field: Option<Detail>,
    /// What is wrong there, with figures.
    pub what: String,
    /// What to do.
    pub remedy: String,
    /// The clause of the code in force, or what else the rule stands on.
    pub basis: String,
}

impl Finding {
    /// Whether its words name its place themselves, so that nobody puts the place before them.
    pub fn names_its_place(&self) -> bool {
        let said = |name: String| {
            self.what
                .split(|letter: char| !letter.is_alphanumeric())
                .any(|word| word == name)
        };
        match self.place {
            Place::Job => true,
            Place::Joint(id) => said(id.to_string()),
            Place::Run(id) => said(id.to_string()),
            Place::Section(number) => self.what.to_lowercase().contains("section") && said(number.to_string()),
        }
    }
}

/// What a finding asks of its reader: the one table of the words for it, on paper, in lists and for machines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Must be fixed before the drawing is used.
    MustFix,
    /// To be checked and decided.
    Check,
    /// Good to know.
    Note,
}

impl Severity {
    /// The words on lists and sheets.
    pub const fn name(self) -> &'static str {
        match self {
            Severity::MustFix => "must fix",
            Severity::Check => "check",
            Severity::Note => "note",
        }
    }

    /// The value for machines.
    pub const fn key(self) -> &'static str {
        match self {
            Severity::MustFix => "must_fix",
            Severity::Check => "check",
            Severity::Note => "note",
        }
    }
}

//! A rule, and where it reports.

use super::look::Look;
use super::{Finding, Severity};
use crate::codebook::{CodeFamily, Codebook, Profile, RuleSetting};
use crate::job::Detail;
use crate::study::Place;
use crate::units::{UnitSystem, in_units};

/// The basis of a rule that a code asks for: the codebook has its clauses, by family.
pub const BY_CODE: &str = "by code";

/// The basis of a rule that a code asks for and whose limit the profile itself sets: whoever sets one wants it held,
/// whatever codes of the country are known to ask.
pub const BY_PROFILE: &str = "by the profile's own limit";

/// A rule: one a file in this room.
#[derive(Debug)]
pub struct Rule {
    /// Short name in kebab case, stable for ever: profiles switch rules by it.
    pub id: &'static str,
    /// One line of what it looks for.
    pub title: &'static str,
    /// How heavy its findings are, unless the profile says otherwise.
    pub severity: Severity,
    /// [`BY_CODE`] or [`BY_PROFILE`] where a code asks it; else what it stands on: "common practice, no source", "a limit of this tool".
    pub basis: &'static str,
    /// Looks at the job and reports.
    pub check: fn(&Look<'_>, &mut Found<'_>),
}

impl Rule {
    /// Whether clauses of codes ask it.
    pub fn is_by_code(&self) -> bool {
        [BY_CODE, BY_PROFILE].contains(&self.basis)
    }

    /// What it checks, in the units of a job.
    pub fn titled(&self, units: UnitSystem) -> String {
        in_units(self.title, units)
    }

    /// How heavy its findings are under a profile; `None` where the profile switches it off. What only codes of another
    /// country are known to ask is to be checked, never more: nobody must fix a thing by the code of another country.
    pub fn severity_under(&self, book: &Codebook, profile: &Profile) -> Option<Severity> {
        let foreign = |family: CodeFamily| {
            let mut near = CodeFamily::ALL
                .into_iter()
                .filter(|other| other.is_canadian() == family.is_canadian());
            !near.any(|near| book.clause(self.id, near).is_some())
        };
        match profile.rules.get(self.id) {
            None if self.basis == BY_CODE && profile.family.is_some_and(foreign) => {
                Some(self.severity.max(Severity::Check))
            }
            None => Some(self.severity),
            Some(RuleSetting::Off) => None,
            Some(RuleSetting::Note) => Some(Severity::Note),
            Some(RuleSetting::Check) => Some(Severity::Check),
            Some(RuleSetting::MustFix) => Some(Severity::MustFix),
        }
    }

    /// What the rule stands on under a family of codes: the clause, or that none of that family was read.
    pub fn basis_under(&self, book: &Codebook, family: Option<CodeFamily>) -> String {
        match self.basis {
            BY_CODE | BY_PROFILE => book.asked_by_code(self.id, family).unwrap_or_default(),
            own => own.to_owned(),
        }
    }
}

/// Where a rule reports; each report carries the rule's id, basis and the severity in force.
#[derive(Debug)]
pub struct Found<'a> {
    rule: &'static Rule,
    severity: Severity,
    basis: String,
    field: Option<Detail>,
    penetration: Option<usize>,
    findings: &'a mut Vec<Finding>,
}

impl<'a> Found<'a> {
    /// A report of a rule at a severity and on a basis, written to the end of `findings`.
    pub(super) fn by(
        rule: &'static Rule,
        severity: Severity,
        basis: String,
        findings: &'a mut Vec<Finding>,
    ) -> Found<'a> {
        Found {
            rule,
            severity,
            basis,
            field: None,
            penetration: None,
            findings,
        }
    }

    /// What is reported is put right in one field of the part.
    pub const fn put_right_in(&mut self, field: Detail) {
        self.field = Some(field);
    }

    /// What is reported next is of one of the run's penetrations.
    pub const fn through(&mut self, penetration: usize) {
        self.penetration = Some(penetration);
    }

    /// Reports one place: what is wrong, with figures, and what to do.
    pub fn at(&mut self, place: Place, what: impl Into<String>, remedy: impl Into<String>) {
        self.at_all([place], what, remedy);
    }

    /// Reports one cause that shows at several places; without any place it is the job's. What was said last of the
    /// same place in the same words is not said again.
    pub fn at_all(
        &mut self,
        places: impl IntoIterator<Item = Place>,
        what: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        let mut places = places.into_iter();
        let finding = Finding {
            rule: self.rule.id,
            severity: self.severity,
            place: places.next().unwrap_or(Place::Job),
            also: places.collect(),
            field: self.field,
            penetration: self.penetration.take(),
            what: with_one_stop(what.into()),
            remedy: with_one_stop(remedy.into()),
            basis: self.basis.clone(),
        };
        let same = |last: &Finding| {
            let penetration = last.penetration;
            *last
                == Finding {
                    penetration,
                    ..finding.clone()
                }
        };
        if !self.findings.last().is_some_and(same) {
            self.findings.push(finding);
        }
    }
}

/// A sentence that ends in a unit with a stop of its own, as "in w.c.", has no second one.
fn with_one_stop(words: String) -> String {
    match words.contains("w.c..") {
        true => words.replace("w.c..", "w.c."),
        false => words,
    }
}

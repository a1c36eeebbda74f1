//! What the rules find: one rule a file, each with its clause or a plain word that it has none.
//!
//! A rule reports one cause once, names the place, says what was held against what, and what to do. It never says that
//! a job is in order. Rules read shared facts from [`Look`] and [`Walk`], which are gathered once, so that all rules
//! together stay linear in the size of the job.

mod look;
mod walk;

pub use look::Look;
pub use walk::{Kind, Pipe, Walk};

use super::{Finding, Found, Rule, Severity, Study};
use crate::codebook::{Codebook, Profile, RuleSetting};
use crate::job::Job;

/// Every rule of this tool, in the order in which findings of one severity are listed.
pub const RULES: &[&Rule] = &[];

/// The rule of an id.
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|rule| rule.id == id)
}

/// What the rules find in a job, worst first, then in the order of [`RULES`], then in the order of the job.
///
/// The profile switches rules off or gives their findings another severity.
pub fn of(job: &Job, book: &Codebook, profile: &Profile, study: &Study) -> Vec<Finding> {
    let walk = Walk::of(job, study);
    let look = Look {
        job,
        book,
        profile,
        study,
        walk: &walk,
    };
    let mut findings = Vec::new();
    for rule in RULES {
        if let Some(severity) = severity(rule, profile) {
            (rule.check)(&look, &mut Found::by(rule, severity, &mut findings));
        }
    }
    findings.sort_by_key(|finding| finding.severity);
    findings
}

/// How heavy a rule is under a profile; `None` when the profile switches it off.
fn severity(rule: &Rule, profile: &Profile) -> Option<Severity> {
    match profile.rules.get(rule.id) {
        None => Some(rule.severity),
        Some(RuleSetting::Off) => None,
        Some(RuleSetting::Remark) => Some(Severity::Remark),
        Some(RuleSetting::Caution) => Some(Severity::Caution),
        Some(RuleSetting::Blocking) => Some(Severity::Blocking),
    }
}

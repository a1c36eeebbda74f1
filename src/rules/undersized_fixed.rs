//! New pipe whose size was fixed too small.

use super::look::Look;
use super::undersized_existing::{enlarge, too_small};
use super::{BY_CODE, Found, Rule, Severity};
use crate::sizing::{Origin, Verdict};
use crate::study::Place;

/// A size fixed by hand must carry its load.
pub const RULE: Rule = Rule {
    id: "undersized-fixed",
    title: "A size set by hand is over its published capacity",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (number, section) in look.study.sections.iter().enumerate() {
        if section.sizing.origin == Origin::Fixed && section.sizing.verdict == Verdict::TooSmall {
            found.at(
                Place::Section(section.number),
                too_small(look, number, section),
                format!("{}, or clear its size, so that it is sized.", enlarge(look, section)),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check, run};
    use super::RULE;
    use crate::job::Job;
    use crate::units::{HeatRate, NominalSize};

    fn fix(job: &mut Job, size: NominalSize) {
        appliance(job, PIT).input = Some(HeatRate::from_mbh(130.0));
        (3..=8).for_each(|number| run(job, number).size = Some(size));
    }

    #[test]
    fn a_fixed_size_is_judged() {
        let found = check(&RULE, 1, |job| fix(job, NominalSize::HALF));
        assert!(found[0].remedy.contains("Increase it to 3/4\""), "{}", found[0].remedy);
        check(&RULE, 0, |job| fix(job, NominalSize::Inch(12)));
    }
}

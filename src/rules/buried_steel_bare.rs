//! Steel in the soil that will rust.

use super::exterior_steel_bare::{bare_steel, is_in_soil};
use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};

/// Steel in the soil is coated, its joints wrapped.
pub const RULE: Rule = Rule {
    id: "buried-steel-bare",
    title: "Buried steel is not marked as coated",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let runs = bare_steel(look, |run| is_in_soil(look, run));
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!("Buried steel, not marked as coated: {}.", look.runs_named(&runs)),
            "Use factory-coated pipe, wrap the joints, and mark the runs as coated.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Barrier, Job, Penetration, Surroundings};

    #[test]
    fn buried_steel_is_coated() {
        let bury = |coated| {
            move |job: &mut Job| {
                (run(job, 5).surroundings, run(job, 5).coated) = (Surroundings::Underground, coated);
            }
        };
        check(&RULE, 1, bury(false));
        check(&RULE, 0, bury(true));
    }

    #[test]
    fn steel_that_goes_into_the_ground_is_coated_too() {
        let enter = |coated| {
            move |job: &mut Job| {
                run(job, 5).coated = coated;
                run(job, 5).penetrations.push(Penetration {
                    barrier: Barrier::Ground,
                    ..Penetration::default()
                });
            }
        };
        check(&RULE, 1, enter(false));
        check(&RULE, 0, enter(true));
    }
}

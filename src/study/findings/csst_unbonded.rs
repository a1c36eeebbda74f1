//! Corrugated tubing without bonding.

use super::Look;
use crate::job::Material;
use crate::study::{Found, Rule, Severity};

/// Corrugated tubing is bonded to the grounding electrode system.
pub const RULE: Rule = Rule {
    id: "csst-unbonded",
    title: "CSST is not marked as bonded",
    severity: Severity::Blocking,
    basis: "fuel gas codes: CSST bonded, 6 AWG copper; clause not read",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let tubing = look
        .walk
        .pipes
        .iter()
        .filter(|pipe| pipe.is_new_pipe() && pipe.material == Material::Csst);
    let runs: Vec<usize> = tubing
        .map(|pipe| pipe.run)
        .filter(|&run| !look.run(run).bonded)
        .collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!("CSST, not marked as bonded: {}.", look.runs_named(&runs)),
            "Bond it to the grounding electrode system with 6 AWG copper or larger, and mark the runs as bonded.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Material, State};

    #[test]
    fn tubing_is_bonded() {
        let lay =
            |bonded| move |job: &mut Job| (run(job, 3).material, run(job, 3).bonded) = (Some(Material::Csst), bonded);
        check(&RULE, 1, lay(false));
        check(&RULE, 0, lay(true));
        check(&RULE, 0, |job| {
            lay(false)(job);
            run(job, 3).state = State::Existing;
        });
    }
}

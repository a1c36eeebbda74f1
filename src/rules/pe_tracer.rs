//! Plastic pipe nobody will find again.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::Surroundings;
use crate::study::tracer_gauge;

/// A wire lies with plastic pipe so that it can be found.
pub const RULE: Rule = Rule {
    id: "pe-tracer",
    title: "Buried polyethylene has no tracer wire",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let plastic = look.walk.pipes.iter().filter(|pipe| {
        pipe.is_new_pipe() && pipe.material.is_plastic() && pipe.surroundings == Surroundings::Underground
    });
    let runs: Vec<usize> = plastic
        .map(|pipe| pipe.run)
        .filter(|&run| !look.run(run).tracer)
        .collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!(
                "Buried polyethylene with no tracer wire shown: {}.",
                look.runs_named(&runs)
            ),
            format!(
                "Lay tracer wire of {} AWG or larger with it, bring its ends up above ground, and mark it.",
                tracer_gauge(look.profile)
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, check_under, run};
    use super::RULE;
    use crate::codebook::Codebook;
    use crate::job::{Job, Material, Surroundings};

    #[test]
    fn a_wire_lies_with_plastic_pipe() {
        let lay = |tracer| {
            move |job: &mut Job| {
                let run = run(job, 5);
                (run.surroundings, run.material, run.tracer) = (Surroundings::Underground, Some(Material::Pe), tracer);
            }
        };
        let book = Codebook::published();
        for (profile, gauge) in [("us-ifgc", "18 AWG"), ("us-ca", "14 AWG"), ("ca-b149", "14 AWG")] {
            let found = check_under(&RULE, book.profile(profile).unwrap(), 1, lay(false));
            assert!(found[0].remedy.contains(gauge), "{profile}: {}", found[0].remedy);
        }
        check(&RULE, 0, lay(true));
    }
}

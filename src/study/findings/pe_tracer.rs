//! Plastic pipe nobody will find again.

use super::Look;
use crate::job::{Material, Surroundings};
use crate::study::{Found, Rule, Severity};

/// A wire lies with plastic pipe so that it can be found.
pub const RULE: Rule = Rule {
    id: "pe-tracer",
    title: "Buried polyethylene has no tracer wire",
    severity: Severity::Caution,
    basis: "CPC 2013 1210.1.7.2 (tracer 14 AWG or larger, one end above ground)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let plastic = look.walk.pipes.iter().filter(|pipe| {
        pipe.is_new_pipe() && pipe.material == Material::Pe && pipe.surroundings == Surroundings::Underground
    });
    let runs: Vec<usize> = plastic
        .map(|pipe| pipe.run)
        .filter(|&run| !look.run(run).tracer)
        .collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!(
                "Buried polyethylene, no tracer wire stated: {}.",
                look.runs_named(&runs)
            ),
            "Lay a tracer wire of AWG 14 or larger with it, one end brought up at the riser, and mark it.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Material, Surroundings};

    #[test]
    fn a_wire_lies_with_plastic_pipe() {
        let lay = |tracer| {
            move |job: &mut Job| {
                let run = run(job, 5);
                (run.surroundings, run.material, run.tracer) = (Surroundings::Underground, Some(Material::Pe), tracer);
            }
        };
        check(&RULE, 1, lay(false));
        check(&RULE, 0, lay(true));
    }
}

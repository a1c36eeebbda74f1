//! Corrugated tubing in the soil.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Surroundings;

/// Corrugated tubing in the soil needs what its manufacturer says.
pub const RULE: Rule = Rule {
    id: "csst-buried",
    title: "CSST is buried",
    severity: Severity::Check,
    basis: "from memory: manufacturers allow buried CSST only in conduit, or of a kind made for it",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let tubing = look.walk.pipes.iter().filter(|pipe| {
        pipe.is_new_pipe() && pipe.material.is_corrugated() && pipe.surroundings == Surroundings::Underground
    });
    let runs: Vec<usize> = tubing.map(|pipe| pipe.run).collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!("Buried CSST: {}.", look.runs_named(&runs)),
            "Follow the manufacturer's instructions for burial (conduit, or tubing made for it), or use another material below grade.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Material, Surroundings};

    #[test]
    fn tubing_in_the_soil_is_told() {
        let lay = |surroundings| {
            move |job: &mut Job| (run(job, 5).material, run(job, 5).surroundings) = (Some(Material::Csst), surroundings)
        };
        check(&RULE, 1, lay(Surroundings::Underground));
        check(&RULE, 0, lay(Surroundings::Outdoors));
    }
}

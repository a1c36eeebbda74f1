//! Plastic pipe where it must not be.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::Surroundings;

/// Plastic pipe lies outdoors and underground only.
pub const RULE: Rule = Rule {
    id: "pe-above-ground",
    title: "Polyethylene is indoors or above ground",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let plastic = look.walk.pipes.iter().filter(|pipe| {
        pipe.is_new_pipe() && pipe.material.is_plastic() && pipe.surroundings != Surroundings::Underground
    });
    let runs: Vec<usize> = plastic.map(|pipe| pipe.run).collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!("Polyethylene not underground: {}.", look.runs_named(&runs)),
            "Bring it up through an anodeless riser outdoors, and continue in steel, copper or CSST.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Material, Surroundings};

    #[test]
    fn plastic_pipe_stays_in_the_soil() {
        let lay = |surroundings| {
            move |job: &mut Job| {
                (run(job, 5).surroundings, run(job, 5).material) = (surroundings, Some(Material::Pe));
            }
        };
        check(&RULE, 1, lay(Surroundings::Indoors));
        check(&RULE, 1, lay(Surroundings::Concealed));
        check(&RULE, 1, lay(Surroundings::Outdoors));
        check(&RULE, 0, lay(Surroundings::Underground));
    }
}

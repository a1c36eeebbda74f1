//! Tubing in walls that a nail may hit.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::Surroundings;
use crate::units::Length;

/// Concealed pipe other than steel is shielded near the edge of framing.
pub const RULE: Rule = Rule {
    id: "shield-plates",
    title: "Concealed tubing may need shield plates",
    severity: Severity::Note,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let soft =
        look.walk.pipes.iter().filter(|pipe| {
            pipe.is_new_pipe() && !pipe.material.is_rigid() && pipe.surroundings == Surroundings::Concealed
        });
    let runs: Vec<usize> = soft.map(|pipe| pipe.run).collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!("Concealed pipe that is not steel: {}.", look.runs_named(&runs)),
            format!(
                "Install shield plates where a hole or notch for it is less than {} from the edge of the framing.",
                look.limit(Length::from_inches(1.5))
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Material, Surroundings};

    #[test]
    fn steel_needs_no_plates() {
        let lay = |material| {
            move |job: &mut Job| {
                (run(job, 3).material, run(job, 3).surroundings) = (Some(material), Surroundings::Concealed);
            }
        };
        check(&RULE, 1, lay(Material::CopperL));
        check(&RULE, 1, lay(Material::Csst));
        check(&RULE, 0, lay(Material::Steel40));
    }
}

//! Materials that the profile does not list.

use super::look::Look;
use super::{Found, Rule, Severity};

/// New pipe is of a material that the place allows.
pub const RULE: Rule = Rule {
    id: "material-not-listed",
    title: "New pipe is of a material that the profile does not list",
    severity: Severity::MustFix,
    basis: "the profile's list of materials",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for material in crate::job::Material::ALL {
        if look.profile.allows(material) {
            continue;
        }
        let of_it = look
            .walk
            .pipes
            .iter()
            .filter(|pipe| pipe.is_new_pipe() && pipe.material == material);
        let runs: Vec<usize> = of_it.map(|pipe| pipe.run).collect();
        if !runs.is_empty() {
            let allowed: Vec<&str> = look.profile.materials.iter().map(|material| material.name()).collect();
            found.at_all(
                look.on_all(&runs),
                format!(
                    "New {} is drawn ({}) and is not on the profile's list: {}.",
                    material.name(),
                    look.runs_named(&runs),
                    allowed.join(", ")
                ),
                "Use a listed material, or ask the permit office and amend a copy of the profile.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check_under, run};
    use super::RULE;
    use crate::codebook::Codebook;
    use crate::job::Material;

    #[test]
    fn new_pipe_follows_the_list_and_old_pipe_need_not() {
        let mut profile = Codebook::published().default_profile().clone();
        profile.materials = vec![Material::Steel40, Material::CopperL];
        check_under(&RULE, &profile, 1, |job| run(job, 3).material = Some(Material::Csst));
        check_under(&RULE, &profile, 0, |job| run(job, 3).material = Some(Material::CopperL));
        check_under(&RULE, &profile, 0, |job| run(job, 1).material = Some(Material::Csst));
    }
}

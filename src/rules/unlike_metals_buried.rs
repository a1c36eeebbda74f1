//! Unlike metals joined in the soil.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{State, Surroundings};

/// In the soil unlike metals are kept apart by an insulating fitting.
pub const RULE: Rule = Rule {
    id: "unlike-metals-buried",
    title: "Dissimilar metals are joined below grade",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let buried = look
        .walk
        .pipes
        .iter()
        .filter(|pipe| pipe.surroundings == Surroundings::Underground);
    for pipe in buried {
        let Some((from, _)) = look.study.network.ends[pipe.run] else {
            continue;
        };
        let Some(feed) = look.feed(from) else { continue };
        let before = look.run(feed);
        let metals = (look.job.material(before).metal(), pipe.material.metal());
        let new = pipe.is_new() || before.state == State::New;
        if let (Some(one), Some(other)) = metals
            && one != other
            && new
            && before.surroundings == Surroundings::Underground
        {
            found.at(
                look.at(from),
                format!(
                    "Below grade at {} run {} of {one} meets run {} of {other}.",
                    look.joint_name(from),
                    before.id,
                    look.run(pipe.run).id
                ),
                "Install an insulating (dielectric) fitting between the two, or join them above ground.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Material, Surroundings};

    fn bury(material: Material) -> impl Fn(&mut Job) {
        move |job| {
            run(job, 5).surroundings = Surroundings::Underground;
            run(job, 6).surroundings = Surroundings::Underground;
            run(job, 6).material = Some(material);
        }
    }

    #[test]
    fn steel_and_copper_are_kept_apart_in_the_soil() {
        check(&RULE, 1, bury(Material::CopperK));
        check(&RULE, 0, bury(Material::Steel40));
        check(&RULE, 0, bury(Material::Pe));
        check(&RULE, 0, |job| run(job, 6).material = Some(Material::CopperK));
    }
}

//! Flared joints in concealed places.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::fittings::PortKind;
use crate::job::Surroundings;

/// Of joints of tube only brazed and listed ones are concealed.
pub const RULE: Rule = Rule {
    id: "flare-concealed",
    title: "A flared joint is in a concealed location",
    // Whether fittings are listed for it no job file says.
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let made = look.study.joints_to_make(look.job).into_iter();
    let mut joints: Vec<usize> = made
        .filter(|(_, port)| port.kind == PortKind::FlareEnd)
        .map(|(joint, _)| joint)
        .filter(|&joint| {
            look.live_legs(joint)
                .all(|run| run.surroundings == Surroundings::Concealed)
        })
        .collect();
    joints.dedup();
    if !joints.is_empty() {
        found.at_all(
            look.at_each(&joints),
            format!("Flared joints are where all pipe is concealed: {}.", look.joints_named(&joints)),
            "Move them where they stay exposed, or braze copper there; if the fittings are listed for concealed use, say so in a note and \
             keep the listing at hand.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{CopperJoints, Job, Material, Surroundings};

    /// R4 and R5, and the elbow J5 between them, are of copper in a wall.
    fn hide(job: &mut Job) {
        job.settings.copper = CopperJoints::Flared;
        for number in [4, 5] {
            run(job, number).surroundings = Surroundings::Concealed;
            run(job, number).material = Some(Material::CopperL);
        }
    }

    #[test]
    fn flared_joints_stay_in_sight() {
        let list = check(&RULE, 1, hide);
        assert!(list[0].what.ends_with("joint J5."), "{list:?}");
        check(&RULE, 0, |job| {
            hide(job);
            job.settings.copper = CopperJoints::Brazed;
        });
        check(&RULE, 0, |job| {
            hide(job);
            run(job, 5).surroundings = Surroundings::Indoors;
        });
    }
}

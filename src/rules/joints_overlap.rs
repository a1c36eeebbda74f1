//! Joints at one place.

use super::look::Look;
use super::{Found, Rule, Severity};

/// Two joints at one place look like one.
pub const RULE: Rule = Rule {
    id: "joints-overlap",
    title: "Two joints are at one place",
    severity: Severity::MustFix,
    basis: "a drawing must show what is connected; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut places: Vec<_> = (0..look.job.joints.len())
        .filter(|&joint| look.walk.live_legs(joint) > 0 || look.device(joint).is_some())
        .map(|joint| (look.joint(joint).at, joint))
        .collect();
    places.sort_unstable();
    for group in places.chunk_by(|a, b| a.0 == b.0).filter(|group| group.len() > 1) {
        let joints: Vec<usize> = group.iter().map(|&(_, joint)| joint).collect();
        found.at_all(
            look.at_each(&joints),
            format!(
                "Several joints at one place, where a reader sees only one: {}.",
                look.joints_named(&joints)
            ),
            "Merge them if they are connected, or move them apart if they are not.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, TRAP, VALVE, check, extend, joint};
    use super::RULE;

    #[test]
    fn joints_of_one_place_are_told_together() {
        let found = check(&RULE, 1, |job| {
            let place = joint(job, TRAP).at;
            joint(job, FURNACE).at = place;
            joint(job, VALVE).at = place;
        });
        assert!(found[0].what.contains("joints J3, J6 and J8"));
    }

    #[test]
    fn a_bare_joint_without_runs_is_no_matter() {
        check(&RULE, 0, |job| {
            let end = extend(job, FURNACE, (0, -4, 0));
            let id = job.runs.iter().last().map(|run| run.id).unwrap();
            job.runs.remove(id);
            let place = joint(job, end).at;
            assert_eq!(place, joint(job, 2).at);
        });
    }
}

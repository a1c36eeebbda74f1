//! More than one point of delivery.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};

/// One point of delivery feeds a job; this tool does not share a load between two.
pub const RULE: Rule = Rule {
    id: "second-supply",
    title: "More than one point of delivery is drawn",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let network = &look.study.network;
    if let (Some(first), others @ [_, ..]) = (network.supply, network.other_supplies.as_slice()) {
        found.at_all(
            look.at_each(others),
            format!(
                "Everything is sized from the point of delivery at {}; another one is drawn at {}.",
                look.joint_name(first),
                look.joints_named(others)
            ),
            "Leave one point of delivery in this job, and draw the piping of the other as a job of its own.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TEE, check, extend, joint};
    use super::RULE;
    use crate::job::JointId;

    #[test]
    fn one_supply_is_enough() {
        let found = check(&RULE, 1, |job| {
            let end = extend(job, TEE, (0, -4, 0));
            joint(job, end).placed = job.joints.get(JointId(1)).and_then(|first| first.placed.clone());
        });
        assert!(found[0].what.contains("J10"));
        check(&RULE, 0, |_| {});
    }
}

//! Sediment traps that catch nothing.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// In a sediment trap the gas turns a corner and the dirt falls on.
pub const RULE: Rule = Rule {
    id: "trap-straight",
    title: "Gas goes straight through a sediment trap",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let network = &look.study.network;
    for &joint in look.walk.all(DeviceKind::SedimentTrap) {
        let mut onward = network.onward(joint).filter_map(|run| network.ends[run]);
        let (Some(from), Some((_, to)), None) = (network.upstream(joint), onward.next(), onward.next()) else {
            continue;
        };
        let [from, at, to] = [from, joint, to].map(|joint| look.joint(joint).at);
        if look.is_new(joint) && (at - from).angle_to(to - at).is_some_and(|turn| turn < 1.0) {
            found.at(
                look.at(joint),
                format!(
                    "Gas goes straight through the sediment trap at {}: it must turn 90° at the tee, so that dirt falls out.",
                    look.joint_name(joint)
                ),
                "Bring the gas in at the top of the tee and out at the side, with the drip leg below.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{UNION, check, put};
    use super::RULE;
    use crate::job::{Device, SedimentTrap};

    #[test]
    fn gas_turns_in_a_trap() {
        check(&RULE, 0, |_| {});
        check(&RULE, 1, |job| {
            put(job, UNION, Device::SedimentTrap(SedimentTrap::default()));
        });
    }
}

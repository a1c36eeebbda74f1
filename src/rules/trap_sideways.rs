//! Sediment traps whose nipple cannot hang.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{DeviceKind, Direction};

/// The nipple of a sediment trap hangs from the bottom of its tee: no pipe may lie where it hangs.
pub const RULE: Rule = Rule {
    id: "trap-sideways",
    title: "A sediment trap has no drip leg pointing down",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

/// A way within so many degrees of straight down or up is taken for it.
const NEAR: f64 = 45.0;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let network = &look.study.network;
    for &joint in look.walk.all(DeviceKind::SedimentTrap) {
        let at = look.joint(joint).at;
        let leads = |run: usize, up: i32| {
            let far = network.joints_of[run].map(|(one, other)| if one == joint { other } else { one });
            let way = far.and_then(|far| (look.joint(far).at - at).angle_to(Direction::new(0, 0, up)));
            way.is_some_and(|way| way < NEAR)
        };
        let any = |up: i32| network.legs(joint).any(|run| leads(run, up));
        // Straight down through it is told by the rule for that.
        if look.is_new(joint) && any(-1) && !any(1) {
            found.at(
                look.at(joint),
                format!(
                    "At the sediment trap {} pipe leads down where its drip leg should be.",
                    look.joint_name(joint)
                ),
                "Bring the gas in from above, or in at the side and out at the top, with only the drip leg below the tee.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, TRAP, UNION, check, joint, put};
    use super::RULE;
    use crate::job::{Device, LatticePoint, SedimentTrap};

    #[test]
    fn nothing_but_the_nipple_leads_down_from_a_trap() {
        check(&RULE, 0, |_| {});
        // Gas goes straight down through it: told by another rule.
        check(&RULE, 0, |job| {
            put(job, UNION, Device::SedimentTrap(SedimentTrap::default()));
        });
        // Gas rises into it.
        check(&RULE, 1, |job| {
            joint(job, TRAP).at = LatticePoint::new(12, 0, 8);
            joint(job, UNION).at = LatticePoint::new(12, 0, 6);
        });
        // In at its side and up is a way to build it.
        check(&RULE, 0, |job| {
            joint(job, TRAP).at = LatticePoint::new(14, 0, 3);
            joint(job, PIT).at = LatticePoint::new(14, 0, 6);
        });
    }
}

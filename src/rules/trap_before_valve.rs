//! Sediment traps on the wrong side of the valve.

use super::look::Look;
use super::shutoff_missing::new_appliances;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// A sediment trap stands downstream of the appliance's shutoff valve.
pub const RULE: Rule = Rule {
    id: "trap-before-valve",
    title: "A sediment trap is upstream of the appliance's shutoff valve",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in new_appliances(look) {
        let (Some(valve), Some(trap)) = (
            look.walk.own(joint, DeviceKind::Valve),
            look.walk.own(joint, DeviceKind::SedimentTrap),
        ) else {
            continue;
        };
        if look.walk.upstream(valve, DeviceKind::SedimentTrap) == Some(trap) {
            found.at(
                look.at(trap),
                format!(
                    "{}: its sediment trap at {} is upstream of its shutoff valve at {}.",
                    look.outlet_name(joint),
                    look.joint_name(trap),
                    look.joint_name(valve)
                ),
                "Put the trap downstream of the valve, so that it can be emptied with the gas off.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, UNION, VALVE, check, put};
    use super::RULE;
    use crate::job::{Device, SedimentTrap, Valve};

    #[test]
    fn a_trap_follows_the_valve() {
        check(&RULE, 0, |_| {});
        check(&RULE, 1, |job| {
            put(job, VALVE, Device::SedimentTrap(SedimentTrap::default()));
            put(job, TRAP, Device::Valve(Valve::default()));
        });
        check(&RULE, 0, |job| {
            put(job, UNION, Device::SedimentTrap(SedimentTrap::default()));
        });
    }
}

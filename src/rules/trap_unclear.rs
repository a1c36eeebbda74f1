//! Appliances of which nobody said what they are.

use super::look::Look;
use super::shutoff_missing::new_appliances;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, DeviceKind};

/// Without its class nothing tells whether an appliance needs a sediment trap.
pub const RULE: Rule = Rule {
    id: "trap-unclear",
    title: "No sediment trap at an appliance of unknown type",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let bare = new_appliances(look).filter(|&joint| look.walk.own(joint, DeviceKind::SedimentTrap).is_none());
    let unclear = |joint: &usize| matches!(look.device(*joint), Some(Device::Appliance(it)) if it.class.is_none());
    let joints: Vec<usize> = bare.filter(unclear).collect();
    if !joints.is_empty() {
        found.at_all(
            look.at_each(&joints),
            format!(
                "No sediment trap at {}, and no appliance type is entered to tell whether one is required.",
                look.outlets_named(&joints)
            ),
            "Pick the type of each of these appliances, so that the rule on traps can be checked, or install sediment traps.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, TRAP, appliance, check, clear};
    use super::RULE;

    #[test]
    fn without_a_class_a_trap_is_asked_about() {
        check(&RULE, 1, |job| {
            clear(job, TRAP);
            appliance(job, PIT).class = None;
        });
        check(&RULE, 0, |job| appliance(job, PIT).class = None);
        check(&RULE, 0, |job| clear(job, TRAP));
    }
}

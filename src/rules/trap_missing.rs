//! Appliances that need a sediment trap and have none.

use super::look::Look;
use super::shutoff_missing::new_appliances;
use super::{BY_CODE, Found, Rule, Severity};
use crate::codebook::Trap;
use crate::job::{Device, DeviceKind};

/// A sediment trap stands before each appliance that the published list does not spare.
pub const RULE: Rule = Rule {
    id: "trap-missing",
    title: "No sediment trap at an appliance that needs one",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in new_appliances(look).filter(|&joint| look.walk.own(joint, DeviceKind::SedimentTrap).is_none()) {
        let Some(Device::Appliance(appliance)) = look.device(joint) else {
            continue;
        };
        let class = appliance
            .class
            .as_deref()
            .and_then(|class| look.book.appliance_class(class));
        if let Some(class) = class.filter(|class| class.trap == Trap::Needed) {
            found.at(
                look.at(joint),
                format!(
                    "{}: no sediment trap (drip leg) at this appliance; a {} is not on the exempt list.",
                    look.outlet_name(joint),
                    class.name
                ),
                "Install a sediment trap downstream of the shutoff valve, as close to the inlet as practical, unless the appliance has one built \
                 in.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, TRAP, appliance, check, clear, extend, joint};
    use super::RULE;
    use crate::job::State;

    #[test]
    fn a_fire_pit_needs_a_trap_and_a_grill_none() {
        check(&RULE, 0, |_| {});
        check(&RULE, 1, |job| clear(job, TRAP));
        check(&RULE, 0, |job| {
            clear(job, TRAP);
            appliance(job, PIT).class = Some("built-in grill".to_owned());
        });
        check(&RULE, 0, |job| {
            clear(job, TRAP);
            appliance(job, PIT).class = None;
        });
    }

    #[test]
    fn a_trap_before_a_branching_is_not_its_own() {
        check(&RULE, 1, |job| {
            extend(job, TRAP, (0, 2, 0));
        });
    }

    #[test]
    fn old_appliances_stay_as_they_are() {
        check(&RULE, 0, |job| {
            clear(job, TRAP);
            joint(job, PIT).placed.as_mut().unwrap().state = State::Existing;
            super::super::sample::run(job, 8).state = State::Existing;
        });
    }
}

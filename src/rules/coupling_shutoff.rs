//! Quick couplings without a valve.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// A shutoff valve stands at the end of the pipe, before the coupling.
pub const RULE: Rule = Rule {
    id: "coupling-shutoff",
    title: "No shutoff valve upstream of a quick-disconnect coupling",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let couplings = look.walk.all(DeviceKind::QuickCoupling);
    if couplings.is_empty() {
        return;
    }
    // Where an appliance behind the coupling has no valve at all, another rule asks for one.
    let mut asked = vec![false; look.job.joints.len()];
    for &appliance in look.walk.all(DeviceKind::Appliance) {
        if let Some(coupling) = look.walk.own(appliance, DeviceKind::QuickCoupling) {
            asked[coupling] |= look.walk.own(appliance, DeviceKind::Valve).is_none();
        }
    }
    for &joint in couplings {
        let bare = look.walk.own(joint, DeviceKind::Valve).is_none();
        if look.is_new(joint) && look.walk.reaches(joint) && bare && !asked[joint] {
            found.at(
                look.at(joint),
                format!(
                    "The coupling at {} has no shutoff valve of its own upstream.",
                    look.joint_name(joint)
                ),
                "Install a shutoff valve at the end of the pipe, ahead of the coupling.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, PIT, TRAP, VALVE, check, clear, put};
    use super::RULE;
    use crate::job::{Device, QuickCoupling};

    #[test]
    fn a_coupling_follows_a_valve() {
        let coupling = || Device::QuickCoupling(QuickCoupling::default());
        check(&RULE, 0, |job| {
            put(job, TRAP, coupling());
        });
        check(&RULE, 1, |job| {
            put(job, BEND, coupling());
        });
        check(&RULE, 1, |job| {
            put(job, PIT, coupling());
            clear(job, VALVE);
        });
    }

    #[test]
    fn one_missing_valve_is_told_once() {
        check(&RULE, 0, |job| {
            put(job, TRAP, Device::QuickCoupling(QuickCoupling::default()));
            clear(job, VALVE);
        });
    }
}

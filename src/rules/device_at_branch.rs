//! Devices where they cannot stand.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::DeviceKind;

/// A device in the line joins two runs; a cap closes an end, or plugs a tee.
pub const RULE: Rule = Rule {
    id: "device-at-branch",
    title: "A device is at a joint where more runs meet than it has ends",
    severity: Severity::MustFix,
    basis: "a drawing must show what a device acts on; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for kind in DeviceKind::ALL
        .into_iter()
        .filter(|kind| !kind.nature().may_stand_beside)
    {
        for &joint in look.walk.all(kind) {
            let legs = look.walk.live_legs(joint);
            let Some(device) = look.device(joint) else { continue };
            if device.nature().most_runs.is_some_and(|most| legs > most) {
                found.at(
                    look.at(joint),
                    format!(
                        "{legs} runs meet at {}; the {} there joins only two runs.",
                        look.joint_name(joint),
                        device.name()
                    ),
                    "Put it on a joint of its own, on the run that it belongs to.",
                );
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, TEE, VALVE, check, extend, put};
    use super::RULE;
    use crate::job::{Cap, Device, Valve};

    #[test]
    fn a_valve_joins_two_runs_and_a_cap_plugs_a_tee() {
        check(&RULE, 1, |job| {
            put(job, TEE, Device::Valve(Valve::default()));
        });
        check(&RULE, 0, |job| {
            put(job, BEND, Device::Cap(Cap::default()));
        });
        check(&RULE, 1, |job| {
            extend(job, VALVE, (0, 3, 0));
        });
        check(&RULE, 0, |job| {
            put(job, BEND, Device::Valve(Valve::default()));
        });
    }
}

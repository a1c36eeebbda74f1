//! Regulators without a valve before them.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// A line regulator can be shut off for service.
pub const RULE: Rule = Rule {
    id: "regulator-shutoff",
    title: "A line regulator has no shutoff valve upstream",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Regulator) {
        let new = look.is_new(joint);
        if new && look.walk.reaches(joint) && look.walk.own(joint, DeviceKind::Valve).is_none() {
            let what = match look.walk.upstream(joint, DeviceKind::Valve) {
                Some(valve) => format!(
                    "{} has no shutoff valve of its own: the valve at {} also shuts off other branches.",
                    look.regulator_name(joint),
                    look.joint_name(valve)
                ),
                None => format!("{} has no shutoff valve upstream.", look.regulator_name(joint)),
            };
            found.at(
                look.at(joint),
                what,
                "Install a shutoff valve between the tee and the regulator.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, VALVE, check, extend, put, regulator, supply};
    use super::RULE;
    use crate::job::{Device, Job, JointId, Valve};
    use crate::units::GaugePressure;

    #[test]
    fn a_valve_before_the_regulator_is_wanted() {
        let high = |job: &mut Job| supply(job).pressure = Some(GaugePressure::from_psi(2.0));
        check(&RULE, 1, |job| {
            high(job);
            put(job, BEND, Device::Regulator(regulator()));
        });
        check(&RULE, 0, |job| {
            high(job);
            put(job, BEND, Device::Valve(Valve::default()));
            put(job, 5, Device::Regulator(regulator()));
        });
        let found = check(&RULE, 1, |job| {
            high(job);
            put(job, BEND, Device::Valve(Valve::default()));
            extend(job, 5, (3, 0, 0));
            put(job, VALVE, Device::Regulator(regulator()));
            assert!(job.joints.get(JointId(10)).is_some());
        });
        assert!(found[0].what.contains("J4"), "{}", found[0].what);
    }
}

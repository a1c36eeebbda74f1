//! Allowed drops that are none.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};
use crate::study::Place;
use crate::units::PressureDrop;

/// A drop set by hand that cannot be used is not passed over in silence.
pub const RULE: Rule = Rule {
    id: "allowed-drop-unusable",
    title: "An allowable pressure drop is zero, negative or not a number",
    severity: Severity::MustFix,
    basis: "pipe is sized by the pressure that may be lost; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    const REMEDY: &str = "Enter a drop above zero, or leave it out to use the profile's.";
    if let Some(drop) = look.job.settings.allowed_drop.filter(is_none) {
        let what = format!(
            "The allowable pressure drop of the job is set to {}; the profile's was used.",
            said(look, drop)
        );
        found.at(Place::Job, what, REMEDY);
    }
    for &joint in look.walk.all(DeviceKind::Regulator) {
        let Some(Device::Regulator(regulator)) = look.device(joint) else {
            continue;
        };
        if let Some(drop) = regulator.allowed_drop.filter(is_none) {
            let what = format!(
                "Downstream of the line regulator at {} the allowable pressure drop is set to {}; the profile's was used.",
                look.joint_name(joint),
                said(look, drop)
            );
            found.at(look.at(joint), what, REMEDY);
        }
    }
}

fn is_none(drop: &PressureDrop) -> bool {
    !(drop.pa().is_finite() && drop.pa() > 0.0)
}

fn said(look: &Look<'_>, drop: PressureDrop) -> String {
    if drop.pa().is_finite() {
        look.show(drop)
    } else {
        "not a number".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, supply};
    use super::RULE;
    use crate::job::Device;
    use crate::units::{GaugePressure, PressureDrop};

    #[test]
    fn nothing_cannot_be_lost() {
        for inches in [0.0, -0.5, f64::NAN] {
            let drop = Some(PressureDrop::from_inches_wc(inches));
            check(&RULE, 1, |job| job.settings.allowed_drop = drop);
            check(&RULE, 1, |job| {
                supply(job).pressure = Some(GaugePressure::from_psi(2.0));
                let mut regulator = regulator();
                regulator.allowed_drop = drop;
                put(job, BEND, Device::Regulator(regulator));
            });
        }
        check(&RULE, 0, |job| {
            job.settings.allowed_drop = Some(PressureDrop::from_inches_wc(0.3))
        });
    }
}

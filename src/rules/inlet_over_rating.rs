//! More pressure than an appliance is made for.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};

/// When nothing burns the whole pressure of the zone stands at the appliance.
pub const RULE: Rule = Rule {
    id: "inlet-over-rating",
    title: "The zone pressure is above an appliance's maximum inlet pressure",
    severity: Severity::MustFix,
    basis: "the rating plate of the appliance",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Appliance) {
        let (Some(Device::Appliance(appliance)), Some(zone)) = (look.device(joint), look.study.joints[joint].zone)
        else {
            continue;
        };
        let zone = &look.study.zones[zone];
        if let (Some(greatest), Some(inlet)) = (appliance.greatest_inlet, zone.inlet)
            && inlet > greatest
        {
            found.at(
                look.at(joint),
                format!(
                    "{}: with no gas flowing the pressure at its inlet is {}; its rating plate allows {}.",
                    look.outlet_name(joint),
                    look.show(inlet),
                    look.show(greatest)
                ),
                "Install a line regulator ahead of it, or check the figure on the plate.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, FURNACE, PIT, appliance, check, put, regulator, supply};
    use super::RULE;
    use crate::job::Device;
    use crate::units::GaugePressure;

    #[test]
    fn two_psi_are_too_much_for_both() {
        check(&RULE, 2, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0))
        });
        check(&RULE, 0, |job| {
            supply(job).pressure = Some(GaugePressure::from_inches_wc(14.0))
        });
    }

    #[test]
    fn behind_a_regulator_its_setting_counts() {
        check(&RULE, 1, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
            put(job, BEND, Device::Regulator(regulator()));
        });
        check(&RULE, 0, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
            for joint in [FURNACE, PIT] {
                appliance(job, joint).greatest_inlet = Some(GaugePressure::from_psi(2.0));
            }
        });
    }
}

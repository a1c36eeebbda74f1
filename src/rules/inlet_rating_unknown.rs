//! Raised pressure at an appliance of unknown rating.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, DeviceKind};
use crate::units::GaugePressure;

/// Above the pressure that appliance regulators usually stand, the rating plate must be read.
pub const RULE: Rule = Rule {
    id: "inlet-rating-unknown",
    title: "Over {14 in w.c.} at an appliance with no maximum inlet pressure entered",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

/// A little more, for pressures typed in another unit.
const USUAL: GaugePressure = GaugePressure::from_inches_wc(14.01);

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Appliance) {
        let (Some(Device::Appliance(appliance)), Some(zone)) = (look.device(joint), look.study.joints[joint].zone)
        else {
            continue;
        };
        if appliance.greatest_inlet.is_none()
            && let Some(inlet) = look.study.zones[zone].inlet
            && inlet > USUAL
        {
            found.at(
                look.at(joint),
                format!(
                    "{}: with no gas flowing the pressure at its inlet is {}, and no maximum inlet pressure is entered; many appliances are made \
                     for {} at most.",
                    look.outlet_name(joint),
                    look.show(inlet),
                    look.show(GaugePressure::from_inches_wc(14.0))
                ),
                "Read the rating plate and enter the maximum inlet pressure, or install a line regulator ahead of it.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check, supply};
    use super::RULE;
    use crate::job::Job;
    use crate::units::GaugePressure;

    #[test]
    fn fourteen_inches_are_usual() {
        let at = |pressure: GaugePressure| {
            move |job: &mut Job| {
                appliance(job, PIT).greatest_inlet = None;
                supply(job).pressure = Some(pressure);
            }
        };
        check(&RULE, 1, at(GaugePressure::from_psi(2.0)));
        check(&RULE, 0, at(GaugePressure::from_inches_wc(14.0)));
        check(&RULE, 0, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0))
        });
    }
}

//! Line regulators that take so much pressure that they need overpressure protection.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{DeviceKind, Fuel};
use crate::units::GaugePressure;

/// Above 2 psi at its inlet a line regulator that feeds appliances for 14 in w.c. or less has overpressure protection for
/// when it fails.
pub const RULE: Rule = Rule {
    id: "overpressure",
    title: "A line regulator takes more than {2 psi}",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

/// What needs no such device.
const MOST: GaugePressure = GaugePressure::from_psi(2.0);

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Regulator) {
        let zone = look.study.zones.iter().find(|zone| zone.start == joint);
        let fed_by = zone.and_then(|zone| look.study.zones.get(zone.fed_by?));
        let Some(inlet) = fed_by.and_then(|zone| zone.inlet).filter(|inlet| inlet.is_over(MOST)) else {
            continue;
        };
        let remedy = match look.study.gas.fuel {
            Fuel::Propane => {
                "Use a second-stage regulator listed for this inlet pressure, and read on its plate whether overpressure protection is built in."
            }
            Fuel::Natural => "Use a regulator listed for this inlet pressure, with overpressure protection.",
        };
        found.at(
            look.at(joint),
            format!(
                "{} has {} at its inlet. Above {} it needs overpressure protection for when it fails, where it feeds appliances rated for {} or less. \
                 A drawing does not show whether it has it.",
                look.regulator_name(joint),
                look.show(inlet),
                look.limit_pressure(MOST),
                look.limit_pressure(GaugePressure::from_inches_wc(14.0))
            ),
            remedy,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, supply};
    use super::RULE;
    use crate::job::Device;
    use crate::units::GaugePressure;

    #[test]
    fn two_psi_are_usual_and_five_are_not() {
        for (psi, count) in [(2.0, 0), (5.0, 1)] {
            check(&RULE, count, |job| {
                supply(job).pressure = Some(GaugePressure::from_psi(psi));
                put(job, BEND, Device::Regulator(regulator()));
            });
        }
    }
}

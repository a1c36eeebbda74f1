//! Regulators that are too small.

use super::look::Look;
use super::meter_capacity::{exceeded, over};
use super::{Found, Rule, Severity};
use crate::job::DeviceKind;
use crate::pressure::RatedPart;

/// A regulator, the supplier's or one in the line, passes all that hangs behind it.
pub const RULE: Rule = Rule {
    id: "regulator-capacity",
    title: "A regulator is over its rated flow",
    severity: Severity::MustFix,
    basis: "the rating of the regulator",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for device in exceeded(look) {
        let remedy = match device.part {
            RatedPart::ServiceRegulator => {
                "Ask the supplier for a larger service regulator, and do not connect the new load until it is set."
            }
            RatedPart::Placed(DeviceKind::Regulator) => {
                "Use a regulator rated for this flow at its inlet pressure, or split the load between two."
            }
            RatedPart::SupplyMeter | RatedPart::Placed(_) => continue,
        };
        found.at(look.at(device.joint), over(look, device), remedy);
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, supply};
    use super::RULE;
    use crate::job::{Device, Rating};
    use crate::units::{Flow, GaugePressure};

    #[test]
    fn the_service_regulator_is_judged() {
        let found = check(&RULE, 1, |job| {
            supply(job).regulator = Some(Rating {
                capacity: Some(Flow::from_cfh(100.0)),
                drop: None,
            });
        });
        assert!(found[0].remedy.contains("supplier"));
        check(&RULE, 0, |_| {});
    }

    #[test]
    fn the_line_regulator_is_judged_by_what_is_behind_it() {
        let line = |cfh: f64| {
            move |job: &mut crate::job::Job| {
                supply(job).pressure = Some(GaugePressure::from_psi(2.0));
                let mut regulator = regulator();
                regulator.rating.capacity = Some(Flow::from_cfh(cfh));
                put(job, BEND, Device::Regulator(regulator));
            }
        };
        check(&RULE, 1, line(60.0));
        check(&RULE, 0, line(66.0));
    }
}

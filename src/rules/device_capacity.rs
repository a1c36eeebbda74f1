//! Valves, connectors and couplings that are too small.

use super::look::Look;
use super::meter_capacity::{exceeded, over};
use super::{Found, Rule, Severity};
use crate::job::DeviceKind;
use crate::pressure::RatedPart;

/// Every rated device passes all that hangs behind it.
pub const RULE: Rule = Rule {
    id: "device-capacity",
    title: "A valve, connector or coupling is over its rated flow",
    severity: Severity::MustFix,
    basis: "the rating of the device",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for device in exceeded(look) {
        match device.part {
            // They have rules of their own.
            RatedPart::SupplyMeter
            | RatedPart::ServiceRegulator
            | RatedPart::Placed(DeviceKind::Meter | DeviceKind::Regulator) => continue,
            RatedPart::Placed(_) => {}
        }
        found.at(
            look.at(device.joint),
            over(look, device),
            "Use one rated for this flow.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put};
    use super::RULE;
    use crate::job::{Connector, Device, Job, Rating};
    use crate::units::Flow;

    #[test]
    fn a_connector_has_a_rating_too() {
        let rated = |cfh: f64| {
            move |job: &mut Job| {
                let rating = Rating {
                    capacity: Some(Flow::from_cfh(cfh)),
                    drop: None,
                };
                put(job, BEND, Device::Connector(Connector { length: None, rating }));
            }
        };
        check(&RULE, 1, rated(60.0));
        check(&RULE, 0, rated(65.0));
    }
}

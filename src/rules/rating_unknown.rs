//! Devices of unknown rating.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Limit;
use crate::pressure::RatingVerdict;
use std::collections::BTreeMap;

/// What is not known was not checked, and is said so once for each kind of device, and once for hoses behind a coupling
/// of which no connector with its rating is drawn.
pub const RULE: Rule = Rule {
    id: "rating-unknown",
    title: "The rated flow of a device is not entered",
    severity: Severity::Note,
    basis: "manufacturers rate devices; no table covers them",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut by_name: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for device in &look.study.devices {
        let carries = device.part.limit() == Limit::Carries;
        if carries && device.verdict == RatingVerdict::Unknown && device.capacity.is_none() {
            by_name.entry(device.name()).or_default().push(device.joint);
        }
    }
    let hoses = look.study.outlets.iter().filter_map(|outlet| outlet.hose);
    let untold: Vec<usize> = hoses
        .filter(|hose| hose.connector.is_none())
        .map(|hose| hose.from)
        .collect();
    if !untold.is_empty() {
        found.at_all(
            look.at_each(&untold),
            format!(
                "No rating is entered for the hose that begins at {}, so the load was not checked against it and its loss counts as zero.",
                look.joints_named(&untold)
            ),
            "Place a connector on the hose, and enter its rated flow and the drop at it from the manufacturer's sheet.",
        );
    }
    for (name, joints) in by_name {
        found.at_all(
            look.at_each(&joints),
            format!(
                "No rated flow is entered for the {name} at {}, so the load was not checked against it.",
                look.joints_named(&joints)
            ),
            "Ask the supplier or read the manufacturer's sheet, and enter the rated flow and the drop at it.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, UNION, check, put, supply};
    use super::RULE;
    use crate::job::{Connector, Device, QuickCoupling, Rating};
    use crate::units::{Flow, PressureDrop};

    #[test]
    fn each_kind_is_told_once() {
        check(&RULE, 2, |job| {
            let supply = supply(job);
            (supply.meter, supply.regulator) = (Some(Rating::default()), Some(Rating::default()));
        });
    }

    #[test]
    fn a_hose_without_a_connector_has_no_rating() {
        let rating = Rating {
            capacity: Some(Flow::from_cfh(200.0)),
            drop: Some(PressureDrop::from_inches_wc(0.2)),
        };
        let coupling = Device::QuickCoupling(QuickCoupling { rating: rating.clone() });
        let found = check(&RULE, 1, |job| {
            put(job, UNION, coupling.clone());
        });
        assert!(found[0].what.contains("hose that begins at"), "{}", found[0].what);
        check(&RULE, 0, |job| {
            put(job, UNION, coupling.clone());
            put(
                job,
                TRAP,
                Device::Connector(Connector {
                    length: None,
                    rating: rating.clone(),
                }),
            );
        });
    }
}

//! Devices of unknown rating.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::pressure::RatingVerdict;
use std::collections::BTreeMap;

/// What is not known was not checked, and is said so once for each kind of device.
pub const RULE: Rule = Rule {
    id: "rating-unknown",
    title: "The rated flow of a device is not known",
    severity: Severity::Remark,
    basis: "makers rate devices, no table does",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut by_name: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for device in &look.study.devices {
        if device.verdict == RatingVerdict::Unknown && device.capacity.is_none() {
            by_name.entry(device.name).or_default().push(device.joint);
        }
    }
    for (name, joints) in by_name {
        found.at_all(
            look.at_each(&joints),
            format!(
                "No rated flow is given for the {name} at {}, so the load was not held against it.",
                look.joints_named(&joints)
            ),
            "Ask the supplier or read the maker's sheet, and type the rated flow and the drop at it.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, supply};
    use super::RULE;
    use crate::job::Rating;

    #[test]
    fn each_kind_is_told_once() {
        check(&RULE, 2, |job| {
            let supply = supply(job);
            (supply.meter, supply.regulator) = (Some(Rating::default()), Some(Rating::default()));
        });
    }
}

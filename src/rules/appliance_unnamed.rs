//! Appliances without a name.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Detail, Device, DeviceKind};

/// An appliance schedule needs names.
pub const RULE: Rule = Rule {
    id: "appliance-unnamed",
    title: "An appliance has no name",
    severity: Severity::Check,
    basis: "asked for by permit offices (names of appliances: 6 of 23 public requirements read)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    found.put_right_in(Detail::ApplianceName);
    let nameless = |joint: &usize| matches!(look.device(*joint), Some(Device::Appliance(appliance)) if appliance.name.trim().is_empty());
    let joints: Vec<usize> = look
        .walk
        .all(DeviceKind::Appliance)
        .iter()
        .copied()
        .filter(nameless)
        .collect();
    if !joints.is_empty() {
        found.at_all(
            look.at_each(&joints),
            format!(
                "The appliance at {} has only its letter in the schedule.",
                look.joints_named(&joints)
            ),
            "Enter what it is, as the rating plate or the customer calls it.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, PIT, appliance, check};
    use super::RULE;

    #[test]
    fn nameless_appliances_are_told_together() {
        let found = check(&RULE, 1, |job| {
            appliance(job, PIT).name.clear();
            appliance(job, FURNACE).name = " ".to_owned();
        });
        assert_eq!(found[0].also.len(), 1);
        check(&RULE, 0, |_| {});
    }
}

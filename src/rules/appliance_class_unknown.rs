//! Classes of appliances that the codebook does not have.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};

/// What an appliance needs follows from its class.
pub const RULE: Rule = Rule {
    id: "appliance-class-unknown",
    title: "An appliance has a type that is not in the appliance list",
    severity: Severity::Check,
    basis: "the appliance list of this program; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Appliance) {
        let Some(Device::Appliance(appliance)) = look.device(joint) else {
            continue;
        };
        let Some(class) = appliance.class.as_deref() else {
            continue;
        };
        if look.book.appliance_class(class).is_none() {
            found.at(
                look.at(joint),
                format!(
                    "{}: the appliance type \"{class}\" is not in the list, so it is not known whether a sediment trap is required.",
                    look.outlet_name(joint)
                ),
                format!(
                    "The nearest types in the list: {}. If none fits, leave the type out and find in your code whether a trap is required.",
                    near(look, class).join("; ")
                ),
            );
        }
    }
}

/// Classes that share a word with a name; all when there are none.
fn near(look: &Look<'_>, name: &str) -> Vec<&'static str> {
    let all = || look.book.appliance_classes().iter().map(|class| class.name);
    let words = |name: &str| -> Vec<String> {
        let words = name.split(|letter: char| !letter.is_alphanumeric());
        words.filter(|word| word.len() > 3).map(str::to_lowercase).collect()
    };
    let wanted = words(name);
    let shared: Vec<&str> = all()
        .filter(|class| words(class).iter().any(|word| wanted.contains(word)))
        .collect();
    if shared.is_empty() { all().collect() } else { shared }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;

    #[test]
    fn a_misspelt_class_is_told() {
        let found = check(&RULE, 1, |job| {
            appliance(job, PIT).class = Some("patio fire pit".to_owned())
        });
        assert_eq!(
            found[0].remedy,
            "The nearest types in the list: fire pit; patio heater. If none fits, leave the type out and find in your code whether a trap is required."
        );
        let found = check(&RULE, 1, |job| appliance(job, PIT).class = Some("kiln".to_owned()));
        assert!(found[0].remedy.contains("range; built-in oven"), "{}", found[0].remedy);
        check(&RULE, 0, |job| appliance(job, PIT).class = Some("Fire Pit ".to_owned()));
        check(&RULE, 0, |job| appliance(job, PIT).class = None);
    }
}

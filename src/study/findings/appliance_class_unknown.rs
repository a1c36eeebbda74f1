//! Classes of appliances that the codebook does not have.

use super::{Kind, Look};
use crate::job::Device;
use crate::study::{Found, Rule, Severity};

/// What an appliance needs follows from its class.
pub const RULE: Rule = Rule {
    id: "appliance-class-unknown",
    title: "An appliance names a class that the codebook does not have",
    severity: Severity::Caution,
    basis: "the appliance list of the codebook; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(Kind::Appliance) {
        let Some(Device::Appliance(appliance)) = look.device(joint) else {
            continue;
        };
        let Some(class) = appliance.class.as_deref() else {
            continue;
        };
        if look.book.appliance_class(class).is_none() {
            let known: Vec<&str> = look.book.appliance_classes().iter().map(|class| class.name).collect();
            found.at(
                look.at(joint),
                format!(
                    "{}: the class \"{class}\" is not in the list, so nothing tells whether it needs a sediment trap.",
                    look.outlet_name(joint)
                ),
                format!("Take one of: {}; or leave the class out.", known.join(", ")),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;

    #[test]
    fn a_misspelt_class_is_told() {
        check(&RULE, 1, |job| appliance(job, PIT).class = Some("fire pitt".to_owned()));
        check(&RULE, 0, |job| appliance(job, PIT).class = Some("Fire Pit ".to_owned()));
        check(&RULE, 0, |job| appliance(job, PIT).class = None);
    }
}

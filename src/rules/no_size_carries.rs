//! Loads too great for any published size.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::sizing::{Basis, Origin};
use crate::study::Place;
use crate::units::Flow;

/// Where the largest size is too small no size is drawn.
pub const RULE: Rule = Rule {
    id: "no-size-carries",
    title: "No published size has the capacity for new pipe",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (number, section) in look.study.sections.iter().enumerate() {
        let sizing = &section.sizing;
        let open = sizing.origin == Origin::Found && sizing.needed.is_none() && section.load.flow > Flow::ZERO;
        if open && !matches!(sizing.basis, Basis::Nothing(_)) {
            let largest = match sizing.capacities.last() {
                Some(largest) => format!(
                    "the largest, {}, has {}",
                    look.show(largest.size),
                    look.show(largest.flow)
                ),
                None => "there is no figure at all".to_owned(),
            };
            found.at(
                Place::Section(section.number),
                format!(
                    "No published size has capacity for {} in {}: {largest} by {}.",
                    look.load(&section.load),
                    look.section_name(number),
                    look.basis(sizing)
                ),
                "Shorten the run, split the load between two lines, or deliver at a higher pressure with regulators.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;
    use crate::units::HeatRate;

    #[test]
    fn a_load_beyond_all_sizes_is_told() {
        check(&RULE, 1, |job| {
            appliance(job, PIT).input = Some(HeatRate::from_btuh(1e10))
        });
        check(&RULE, 0, |job| {
            appliance(job, PIT).input = Some(HeatRate::from_btuh(5e6))
        });
        check(&RULE, 0, |job| appliance(job, PIT).input = None);
    }
}

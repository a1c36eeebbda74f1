//! Sizes that stand on an equation alone.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::codebook::Equations;
use crate::sizing::Basis;
use std::collections::BTreeMap;

/// Where a profile lets an equation fill in, the drawing says where it did.
pub const RULE: Rule = Rule {
    id: "equation-sized",
    title: "A size is from an equation because no table applies",
    severity: Severity::Check,
    basis: "the published table governs on a permit drawing; the equations are printed in the appendix of the codes",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    // A profile that always computes says so on every sheet.
    if look.profile.equations != Equations::WhereNoTable {
        return;
    }
    let mut by_name: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (number, section) in look.study.sections.iter().enumerate() {
        if let Basis::Equation { name, .. } = &section.sizing.basis {
            by_name.entry(name).or_default().push(number);
        }
    }
    for (name, sections) in by_name {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "No published table applies to {}: the {name} was used.",
                look.sections_named(&sections)
            ),
            "Ask the permit office whether it accepts sizes by equation.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check_under, run};
    use super::RULE;
    use crate::codebook::{Codebook, Equations};
    use crate::units::Length;

    #[test]
    fn an_equation_that_fills_in_is_told() {
        let mut profile = Codebook::published().default_profile().clone();
        profile.equations = Equations::WhereNoTable;
        let long = |feet: f64| move |job: &mut crate::job::Job| run(job, 3).length = Some(Length::from_feet(feet));
        check_under(&RULE, &profile, 1, long(5_000.0));
        check_under(&RULE, &profile, 0, long(50.0));
        profile.equations = Equations::Always;
        check_under(&RULE, &profile, 0, long(5_000.0));
    }
}

//! Sections that nothing published covers.

use super::look::Look;
use super::past_table::passed;
use super::{Found, Rule, Severity};
use crate::codebook::PipeKind;
use crate::sizing::{Basis, Origin};
use crate::units::Flow;
use std::collections::BTreeMap;

/// Where no figure is published, none is guessed.
pub const RULE: Rule = Rule {
    id: "no-published-figure",
    title: "No published figure covers a section",
    severity: Severity::MustFix,
    basis: "the codebook's tables; a size without a published figure is not drawn",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut by_reason: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (number, section) in look.study.sections.iter().enumerate() {
        let sizing = &section.sizing;
        if section.load.flow <= Flow::ZERO || sizing.origin == Origin::Connector {
            continue;
        }
        let reason = match &sizing.basis {
            // Another rule asks for the pressure.
            Basis::Nothing(_) if look.study.zones[section.zone].inlet.is_none() => continue,
            Basis::Nothing(_) if passed(look, section).is_some() => continue,
            Basis::Nothing(reason) => reason.trim_end_matches('.').to_owned(),
            _ => match (sizing.size, sizing.capacity()) {
                (Some(size), None) if made(look, number) && sizing.origin != Origin::Found => {
                    format!("There is no figure for {} in {}", look.show(size), look.basis(sizing))
                }
                _ => continue,
            },
        };
        by_reason.entry(reason).or_default().push(number);
    }
    for (reason, sections) in by_reason {
        found.at_all(
            look.in_sections(&sections),
            format!("{reason}. Size not judged: {}.", look.sections_named(&sections)),
            match sections.iter().all(|&number| has_no_drop(look, number)) {
                true => {
                    "Enter the allowable pressure drop of your own code's table for this pressure, or have an engineer \
                     size it."
                }
                false => {
                    "Use a material, size, pressure or allowable drop for which a table is published, or have an \
                     engineer size it."
                }
            },
        );
    }
}

/// Whether all that a section lacks is the allowable drop at a pressure that is known.
fn has_no_drop(look: &Look<'_>, section: usize) -> bool {
    let zone = &look.study.zones[look.study.sections[section].zone];
    zone.inlet.is_some() && zone.allowed_drop.is_none()
}

/// Whether the size of a section is one that its material is made in; otherwise another rule tells the cause.
fn made(look: &Look<'_>, section: usize) -> bool {
    let section = &look.study.sections[section];
    section.sizing.size.is_some_and(|size| {
        let own = look.tables.has_size(PipeKind::of(section.material), size);
        own || look.book.pipe(section.material, size).is_some()
    })
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run, supply};
    use super::RULE;
    use crate::job::{Fuel, Material};
    use crate::units::{GaugePressure, Length, NominalSize, PressureDrop};

    #[test]
    fn a_case_without_a_table_is_told_once() {
        let found = check(&RULE, 1, |job| {
            job.settings.allowed_drop = Some(PressureDrop::from_inches_wc(0.1))
        });
        assert!(found[0].also.len() >= 2, "{:?}", found[0]);
        check(&RULE, 0, |_| {});
    }

    #[test]
    fn past_the_last_row_another_rule_speaks() {
        check(&RULE, 0, |job| run(job, 3).length = Some(Length::from_feet(5_000.0)));
    }

    #[test]
    fn a_size_that_the_table_leaves_out_is_told() {
        check(&RULE, 1, |job| {
            job.gas.fuel = Fuel::Propane;
            supply(job).pressure = Some(GaugePressure::from_inches_wc(11.0));
            job.settings.material = Material::Steel40;
            run(job, 1).size = Some(NominalSize::Inch(6));
        });
    }
}

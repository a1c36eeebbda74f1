//! Existing pipe that is too small.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::sizing::{Origin, Section, Verdict};
use crate::study::Place;
use crate::study::words::capital;

/// Existing pipe must carry what hangs on it, the new load included.
pub const RULE: Rule = Rule {
    id: "undersized-existing",
    title: "Existing pipe is over its published capacity",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (number, section) in look.study.sections.iter().enumerate() {
        if section.sizing.origin == Origin::Known && section.sizing.verdict == Verdict::TooSmall {
            found.at(
                Place::Section(section.number),
                too_small(look, number, section),
                match look.study.network.supply == Some(section.from) {
                    // Wherever one ties in, gas comes through the pipe from the meter.
                    true => format!(
                        "{} or run a separate line from the point of delivery.",
                        enlarge(look, section)
                    ),
                    false => format!(
                        "{} or, if it was within capacity before this work, tie in closer to the point of delivery.",
                        enlarge(look, section)
                    ),
                },
            );
        }
    }
}

/// What a section carries against its capacity.
pub fn too_small(look: &Look<'_>, number: usize, section: &Section) -> String {
    let capacity = section
        .sizing
        .capacity()
        .map_or_else(|| "less".to_owned(), |capacity| look.show(capacity.flow));
    format!(
        "{} is undersized: demand {}, capacity {capacity} by {}.",
        capital(&look.section_name(number)),
        look.load(&section.load),
        look.basis(&section.sizing)
    )
}

/// What size would do, as the start of a sentence.
pub fn enlarge(look: &Look<'_>, section: &Section) -> String {
    match section.sizing.needed {
        Some(needed) => format!("Increase it to {}", look.show(needed)),
        None => {
            "No published size has capacity for this load over this length: shorten the run, split the load".to_owned()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, PIT, appliance, check, run};
    use super::RULE;
    use crate::job::State;
    use crate::units::{HeatRate, NominalSize};

    #[test]
    fn old_pipe_is_held_against_the_new_load() {
        let found = check(&RULE, 1, |job| run(job, 1).size = Some(NominalSize::Inch(8)));
        assert!(found[0].what.contains("125,000 Btu/h"), "{}", found[0].what);
        assert!(found[0].what.contains("table 402.4(2)"), "{}", found[0].what);
        check(&RULE, 0, |_| {});
    }

    #[test]
    fn new_pipe_is_the_matter_of_another_rule() {
        check(&RULE, 0, |job| {
            (run(job, 1).size, run(job, 1).state) = (Some(NominalSize::Inch(8)), State::New);
        });
    }

    #[test]
    fn a_load_too_great_for_any_size_is_told_without_one() {
        let found = check(&RULE, 2, |job| {
            appliance(job, PIT).input = Some(HeatRate::from_btuh(1e10));
            appliance(job, FURNACE).input = Some(HeatRate::from_btuh(1e10));
        });
        assert!(found[0].remedy.starts_with("No published size"), "{}", found[0].remedy);
    }
}

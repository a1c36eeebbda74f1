//! Existing pipe that gets new appliances to serve.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::State;
use crate::network::OutletKind;
use crate::study::Place;
use crate::units::HeatRate;

/// Where appliances are added, all that the existing pipe serves is looked at again.
pub const RULE: Rule = Rule {
    id: "added-load",
    title: "Existing pipe serves new appliances",
    severity: Severity::Note,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    // Heat of the outlets that are new, summed up to each outlet.
    let mut sum = HeatRate::ZERO;
    let added: Vec<HeatRate> = std::iter::once(HeatRate::ZERO)
        .chain(look.study.outlets.iter().map(|outlet| {
            let placed = look.joint(outlet.joint).placed.as_ref();
            let new = placed.is_some_and(|placed| placed.state == State::New) || outlet.kind == OutletKind::Future;
            if new {
                sum += outlet.heat.unwrap_or_default();
            }
            sum
        }))
        .collect();
    let more = |section: &crate::sizing::Section| added[section.serves.end] - added[section.serves.start];
    let existing = |number: &usize| {
        let section = &look.study.sections[*number];
        section.state == State::Existing && more(section) > HeatRate::ZERO
    };
    let sections: Vec<usize> = (0..look.study.sections.len()).filter(existing).collect();
    let Some(&first) = sections.first() else { return };
    let first = &look.study.sections[first];
    found.at_all(
        sections
            .iter()
            .map(|&section| Place::Section(look.study.sections[section].number)),
        match sections.len() {
            1 => format!(
                "Existing section {} feeds new appliances: of its {}, {} is new load.",
                first.number,
                look.show(first.load.heat),
                look.show(more(first))
            ),
            _ => format!(
                "Existing {} feed new appliances: of the {} in section {}, {} is new load.",
                look.sections_named(&sections),
                look.show(first.load.heat),
                first.number,
                look.show(more(first))
            ),
        },
        "At start-up, check the inlet pressure and the input of every appliance on this pipe, the old ones included.",
    );
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, check, joint};
    use super::RULE;
    use crate::job::State;

    #[test]
    fn a_new_appliance_loads_the_old_pipe_before_it() {
        let found = check(&RULE, 1, |_| {});
        assert!(
            found[0]
                .what
                .contains("section 1 feeds new appliances: of its 125,000 Btu/h, 65,000 Btu/h is new load"),
            "{found:?}"
        );
        check(&RULE, 0, |job| {
            joint(job, PIT).placed.as_mut().unwrap().state = State::Existing
        });
    }
}

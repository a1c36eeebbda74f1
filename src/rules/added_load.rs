//! Existing pipe that gets new appliances to serve.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, State, as_it_stood};
use crate::network::{Network, OutletKind};
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
    let Some(&at) = sections.first() else { return };
    let first = &look.study.sections[at];
    let feeds = match sections.len() {
        1 => "feeds",
        _ => "feed",
    };
    let named = look.sections_named(&sections);
    let (load, added, gone) = (first.load.heat, more(first), removed_from(look, at));
    let loads = match gone == HeatRate::ZERO {
        true => format!(
            "of the {} in section {}, {} is new load.",
            look.show(load),
            first.number,
            look.show(added)
        ),
        false => format!(
            "the load of section {} goes from {} to {} ({} added, {} removed).",
            first.number,
            look.show(load - added + gone),
            look.show(load),
            look.show(added),
            look.show(gone)
        ),
    };
    found.at_all(
        sections
            .iter()
            .map(|&section| Place::Section(look.study.sections[section].number)),
        format!("Existing {named} {feeds} new appliances: {loads}"),
        "At start-up, check the inlet pressure of every appliance on this pipe, existing ones included, and clock the meter to check their input.",
    );
}

/// Heat of the appliances that go and that a section fed as it stood.
fn removed_from(look: &Look<'_>, section: usize) -> HeatRate {
    let goes = |joint: usize| {
        let placed = look.joint(joint).placed.as_ref();
        let placed = placed.filter(|placed| placed.state == State::Removed);
        match placed.map(|placed| &placed.device) {
            Some(Device::Appliance(appliance)) => appliance.input.unwrap_or_default(),
            _ => HeatRate::ZERO,
        }
    };
    let mut gone: Vec<HeatRate> = (0..look.job.joints.len()).map(goes).collect();
    if gone.iter().all(|heat| *heat == HeatRate::ZERO) {
        return HeatRate::ZERO;
    }
    let old = as_it_stood(look.job);
    let states: Vec<State> = old.runs.iter().map(|run| run.state).collect();
    let before = Network::trace(&old, &states);
    for &joint in before.order.iter().rev() {
        if let Some(above) = before.upstream(joint) {
            let heat = gone[joint];
            gone[above] += heat;
        }
    }
    let runs = (0..look.job.runs.len()).filter(|&run| look.study.runs[run].section == Some(section));
    let ends = runs.filter_map(|run| look.study.network.joints_of[run]);
    let fed = ends.map(|(from, to)| match before.upstream(to) == Some(from) {
        true => gone[to],
        false => gone[from],
    });
    fed.fold(HeatRate::ZERO, |most, heat| if heat > most { heat } else { most })
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, PIT, appliance, check, joint};
    use super::RULE;
    use crate::job::State;

    /// What goes is taken off what comes: the furnace's 60,000 Btu/h go, the fire pit's 65,000 come.
    #[test]
    fn an_appliance_that_goes_takes_its_load_along() {
        let found = check(&RULE, 1, |job| {
            let furnace = appliance(job, FURNACE).input.unwrap();
            assert_eq!(furnace.btuh(), 60_000.0);
            joint(job, FURNACE).placed.as_mut().unwrap().state = State::Removed;
        });
        let said =
            "the load of section 1 goes from 60,000 Btu/h to 65,000 Btu/h (65,000 Btu/h added, 60,000 Btu/h removed)";
        assert!(found[0].what.contains(said), "{found:?}");
    }

    #[test]
    fn a_new_appliance_loads_the_old_pipe_before_it() {
        let found = check(&RULE, 1, |_| {});
        assert!(
            found[0].what.contains(
                "section 1 feeds new appliances: of the 125,000 Btu/h in section 1, 65,000 Btu/h is new load"
            ),
            "{found:?}"
        );
        check(&RULE, 0, |job| {
            joint(job, PIT).placed.as_mut().unwrap().state = State::Existing
        });
    }
}

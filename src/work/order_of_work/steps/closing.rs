//! The new pipe tested, inspected and joined, gas still shut off.

use super::making::{counted, stays_off};
use super::opening::unique;
use super::{Work, step};
use crate::job::{Device, Run, State, SupplyChange, Surroundings};
use crate::network::OutletKind;
use crate::study::Place;
use crate::units::{Show, UnitSystem, ranges};
use crate::work::{PRACTICE, Step};
use std::collections::BTreeSet;

impl Work<'_> {
    pub(super) fn test(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() {
            return None;
        }
        let words = "Pressure-test the new pipe per the test sheet before it is connected to anything that carries gas. Leave every joint exposed. Cap or plug \
         each tie-in and each outlet. Appliances disconnected, or isolated by caps, and always disconnected where they are rated \
         below the test pressure. Air or an inert gas, never oxygen. Find leaks with leak-detection fluid, repair them and test again.";
        step("test", "Test", places, self.cited(&["testing", "test-pressure"]), words)
    }

    pub(super) fn inspect(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() {
            return None;
        }
        let hidden = |run: &Run| matches!(run.surroundings, Surroundings::Concealed | Surroundings::Underground);
        // Named as the permit drawing shows it.
        let section = |run: &Run| {
            let at = self.job.runs.position(run.id)?;
            let section = &self.study.sections[self.study.runs[at].section?];
            section.is_pipe().then_some(section.number)
        };
        let open = self.new_runs().filter(|run| hidden(run));
        let open: Vec<Option<usize>> = open.map(section).collect();
        let sections: BTreeSet<usize> = open.iter().copied().flatten().collect();
        let which = match (sections.len(), ranges(sections)) {
            (0, _) => String::new(),
            (1, number) => format!(" (section {number} of the permit drawing)"),
            (_, numbers) => format!(" (sections {numbers} of the permit drawing)"),
        };
        let close = match open.is_empty() {
            true => String::new(),
            false => format!(
                " Leave pipe that will be concealed or buried open until then{which}; afterward close walls and backfill the trench."
            ),
        };
        let words = format!(
            "Have the inspector see the new pipe and its test before it is connected, concealed or painted: ask the permit office when to call for \
             inspection.{close}"
        );
        // The id that this step has had since it was there for concealed pipe alone.
        step("show", "Inspection", places, PRACTICE, words)
    }

    pub(super) fn join(&self) -> Option<Step> {
        let outlets = self.new_appliances();
        let kept_off = || self.new_devices().filter(|(_, device)| stays_off(device));
        let ties = self.made_at().into_iter().chain(self.new_supply());
        let put_in = kept_off().map(|(joint, _)| joint);
        let joints = ties.chain(put_in).chain(outlets.iter().copied());
        let places = unique(joints.map(|joint| self.joint(joint)));
        if places.is_empty() {
            return None;
        }
        let kept_off = counted(kept_off());
        let mut words = Vec::new();
        if self.new_runs().next().is_some() {
            words.push(format!(
                "With the gas shut off: release the test pressure, remove the gauge, and connect the new pipe {}.{}",
                match self.made_at().is_empty() {
                    true => "at the point of delivery",
                    false => "where it was capped at existing pipe or at the point of delivery",
                },
                self.closing()
            ));
        }
        if !kept_off.is_empty() {
            words.push(format!("Install what was left off for the test: {kept_off}."));
        }
        if !outlets.is_empty() {
            words.push(
                "Connect the new appliances by their manufacturers' instructions, with their valves closed.".to_owned(),
            );
        }
        if words.is_empty() {
            return None;
        }
        let words = words.join(" ");
        step("join", "Connect", places, PRACTICE, words)
    }

    /// The point of delivery, where new pipe leads from it.
    fn new_supply(&self) -> Option<usize> {
        let network = &self.study.network;
        let is_new = |run: usize| self.job.runs.at(run).state == State::New;
        network.supply.filter(|&joint| network.legs(joint).any(is_new))
    }

    /// Joints of new appliances that gas reaches, in flow order.
    fn new_appliances(&self) -> Vec<usize> {
        let outlets = self.study.outlets.iter();
        let appliances = outlets.filter(|outlet| outlet.kind == OutletKind::Appliance);
        appliances
            .map(|outlet| outlet.joint)
            .filter(|&joint| self.is_new(joint))
            .collect()
    }

    /// What only the supplier changes, before gas comes to the new load.
    pub(super) fn supplier(&self) -> Option<Step> {
        let units = self.study.names.units();
        let mut places = Vec::new();
        let mut changed = Vec::new();
        for joint in &self.job.joints {
            let Some(Device::Supply(supply)) = joint.device() else {
                continue;
            };
            for change in supply.changes() {
                places.push(Place::Joint(joint.id));
                changed.push(match change {
                    SupplyChange::Pressure(was, now) => from_to("the delivery pressure", Some(was), now, units),
                    SupplyChange::Meter(was, now) => from_to("the meter", was, now, units),
                    SupplyChange::Regulator(was, now) => from_to("the service regulator", was, now, units),
                });
            }
        }
        if changed.is_empty() {
            return None;
        }
        let words = format!(
            "Have the gas supplier change {}. Only the supplier does this. Leave the new appliances off until it is done.",
            changed.join(", ")
        );
        step(
            "supplier",
            "Supplier's work",
            unique(places.into_iter()),
            PRACTICE,
            words,
        )
    }
}

/// What is changed, with both figures: "the meter (250 cfh to 630 cfh)".
fn from_to(what: &str, was: Option<impl Show>, now: Option<impl Show>, units: UnitSystem) -> String {
    match (was, now) {
        (Some(was), Some(now)) => format!("{what} ({} to {})", was.show(units), now.show(units)),
        (Some(was), None) => format!("{what} (was {})", was.show(units)),
        (None, Some(now)) => format!("{what} (to {})", now.show(units)),
        (None, None) => what.to_owned(),
    }
}

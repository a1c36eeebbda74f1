//! The new pipe tested, inspected and joined, gas still shut off.

use super::making::{counted, stays_off};
use super::opening::unique;
use super::{Work, step};
use crate::job::{Run, State, Surroundings};
use crate::network::OutletKind;
use crate::work::{PRACTICE, Step};

impl Work<'_> {
    pub(super) fn test(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() {
            return None;
        }
        let words = "Test the new pipe by the test sheet, before it is joined to anything that carries gas: every joint exposed; \
                     closed at each tie-in and at each outlet; appliances disconnected, or isolated by blanks or caps, and \
                     disconnected at any rate where they are rated below the test pressure; with air or an inert gas, never \
                     with oxygen. Find leaks with leak-detection fluid, repair them and test again.";
        step("test", "Test", places, self.cited(&["testing", "test-pressure"]), words)
    }

    pub(super) fn inspect(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() {
            return None;
        }
        let hidden = |run: &Run| matches!(run.surroundings, Surroundings::Concealed | Surroundings::Underground);
        let open: Vec<String> = self
            .new_runs()
            .filter(|run| hidden(run))
            .map(|run| run.id.to_string())
            .collect();
        let close = match open.is_empty() {
            true => String::new(),
            false => format!(
                " Leave pipe to be concealed or buried open until then ({}); after it close walls and fill the trench.",
                open.join(" ")
            ),
        };
        let words = format!(
            "Have the inspector see the new pipe and its test before it is joined, concealed or painted: ask the office when it \
             wants to be called.{close}"
        );
        // The id that this step has had since it was there for concealed pipe alone.
        step("show", "Inspection", places, PRACTICE, words)
    }

    pub(super) fn join(&self) -> Option<Step> {
        let outlets = self.new_appliances();
        let kept_off = || self.new_devices().filter(|(_, device)| stays_off(device));
        let ties = self.made_at().into_iter().chain(self.new_supply());
        let put_in = kept_off().map(|(joint, _)| joint);
        let joints = ties.chain(put_in).chain(outlets);
        let places = unique(joints.map(|joint| self.joint(joint)));
        if places.is_empty() {
            return None;
        }
        let kept_off = counted(kept_off());
        let put_in = match kept_off.as_str() {
            "" => String::new(),
            kept_off => format!(" Put in what stayed off: {kept_off}."),
        };
        let words = format!(
            "With the gas still shut off: let the test pressure out, take the gauge away, and join the new pipe where it was \
             closed at old pipe or supply.{}{put_in} Connect the new appliances by their makers' instructions, their valves shut.",
            self.closing()
        );
        step("join", "Join", places, PRACTICE, words)
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
}

//! New pipe: laid, protected, fitted out, tested and seen before gas is let in.

use super::{Work, step};
use crate::job::{Barrier, Device, Material, Run, State, Surroundings};
use crate::study::order_of_work::{PRACTICE, Step};
use std::collections::BTreeMap;

impl Work<'_> {
    pub(super) fn run(&self) -> Option<Step> {
        let lengths = self.lengths(State::New);
        if lengths.is_empty() {
            return None;
        }
        let copper = |run: &Run| matches!(self.job.material(run), Material::CopperK | Material::CopperL);
        let brazed = match self.new_runs().any(copper) {
            true => format!(" {BRAZED}"),
            false => String::new(),
        };
        let words = format!(
            "Run the new pipe: {}. Ream cut ends, clean threads, support it as the code's table has it, and keep its ends \
             covered until they are joined.{brazed}",
            lengths.join(", ")
        );
        step("run", "Run the pipe", self.runs_where(|_| true), PRACTICE, words)
    }

    pub(super) fn penetrate(&self) -> Option<Step> {
        let passes = |run: &Run| {
            run.penetrations
                .iter()
                .any(|passage| passage.barrier != Barrier::Ground)
        };
        let places = self.runs_where(passes);
        if places.is_empty() {
            return None;
        }
        let passages = self.new_runs().flat_map(|run| &run.penetrations);
        let sleeved = passages.filter(|passage| passage.sleeved).count();
        let sleeves = match sleeved {
            0 => String::new(),
            1 => " Set the sleeve that is drawn first.".to_owned(),
            many => format!(" Set the {many} sleeves that are drawn first."),
        };
        let words = format!(
            "Pass walls, floors and roofs.{sleeves} Tape or cap the end of the pipe while it is pushed through, so that no dirt \
             enters; look for wires and pipes before boring."
        );
        step("penetrate", "Penetrate, protect the end", places, PRACTICE, words)
    }

    pub(super) fn bury(&self) -> Option<Step> {
        let buried = |run: &Run| run.surroundings == Surroundings::Underground;
        let places = self.runs_where(buried);
        if places.is_empty() {
            return None;
        }
        let mut words =
            "Lay pipe in the trench at the cover that is drawn; have other lines located before digging.".to_owned();
        // Steel that comes up out of the ground lies in it too.
        let passes = |run: &Run| {
            run.penetrations
                .iter()
                .any(|passage| passage.barrier == Barrier::Ground)
        };
        if self
            .new_runs()
            .any(|run| (buried(run) || passes(run)) && self.job.material(run) == Material::Steel40)
        {
            words += " Steel in the ground is factory-coated from above grade on, its joints wrapped before they are covered: paint \
                      is not enough. A riser listed for the change to plastic pipe keeps steel out of the ground.";
        }
        if self
            .new_runs()
            .any(|run| buried(run) && self.job.material(run) == Material::Pe)
        {
            words += " Lay tracer wire (14 AWG or larger) with plastic pipe, one end above ground.";
        }
        words += " Leave the trench open until the pipe has been tested and seen.";
        step(
            "bury",
            "Lay in the ground",
            places,
            "CPC 2013 1210.1.7.2 (tracer); Larimer County, Colorado, and Oregon State University standard 23 11 00 (coating); \
             the rest common practice, no source",
            words,
        )
    }

    pub(super) fn bond(&self) -> Option<Step> {
        let places = self.runs_where(|run| self.job.material(run) == Material::Csst);
        if places.is_empty() {
            return None;
        }
        let words = "Bond corrugated tubing to the grounding electrode system (6 AWG copper); fittings and striker plates are \
                     the maker's.";
        step(
            "bond",
            "Bond",
            places,
            "fuel gas codes: CSST bonded, 6 AWG copper; clause not read",
            words,
        )
    }

    pub(super) fn connect(&self) -> Option<Step> {
        let new = || self.new_devices().filter(|(_, device)| !is_outside_of_the_line(device));
        let fitted = counted(new().filter(|(_, device)| !stays_off(device)));
        let kept_off = counted(new().filter(|(_, device)| stays_off(device)));
        let mut words = Vec::new();
        if !fitted.is_empty() {
            words.push(format!("Fit what stands in the line: {fitted}."));
        }
        if !kept_off.is_empty() {
            words.push(format!("Keep off until the test is over: {kept_off}."));
        }
        if words.is_empty() {
            return None;
        }
        words.push(
            "At each appliance in the way of the gas: shutoff valve, union, sediment trap where one is needed, connector."
                .to_owned(),
        );
        step(
            "connect",
            "Connect",
            new().map(|(joint, _)| self.joint(joint)).collect(),
            "CPC 2013 1211.5, 1211.8 (order at an appliance); the rest common practice, no source",
            words.join(" "),
        )
    }

    pub(super) fn test(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() {
            return None;
        }
        let words = "Test the new pipe by the test sheet: closed at each tie-in and at each outlet, appliances off, with air or an \
                     inert gas, never with oxygen. Mend what leaks and test again.";
        step(
            "test",
            "Test",
            places,
            "fuel gas codes (air or inert gas, never oxygen), read; the rest common practice, no source",
            words,
        )
    }

    pub(super) fn show(&self) -> Option<Step> {
        let hidden = |run: &Run| matches!(run.surroundings, Surroundings::Concealed | Surroundings::Underground);
        let places = self.runs_where(hidden);
        if places.is_empty() {
            return None;
        }
        let words = "Leave pipe to be concealed or buried open until the inspector has seen it tested; then close walls and fill \
                     the trench.";
        step("show", "Have it seen", places, PRACTICE, words)
    }
}

/// How copper is joined.
pub const BRAZED: &str =
    "Braze copper or use fittings listed for gas, never soft solder (from memory: fuel gas codes).";

/// Whether a device is none of what is fitted into the line before the test.
fn is_outside_of_the_line(device: &Device) -> bool {
    matches!(device, Device::Supply(_) | Device::Appliance(_) | Device::TestGauge)
}

/// Whether a device would suffer from the test pressure, or belongs to an appliance.
pub(super) fn stays_off(device: &Device) -> bool {
    matches!(
        device,
        Device::Meter(_) | Device::Regulator(_) | Device::Connector(_) | Device::QuickCoupling(_)
    )
}

/// Devices by name, each with how many: "1 shutoff valve, 3 unions".
pub(super) fn counted<'d>(devices: impl Iterator<Item = (usize, &'d Device)>) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for (_, device) in devices {
        *counts.entry(device.name()).or_default() += 1;
    }
    let words = counts.iter().map(|(name, count)| match count {
        1 => format!("1 {name}"),
        many => format!("{many} {name}s"),
    });
    words.collect::<Vec<_>>().join(", ")
}

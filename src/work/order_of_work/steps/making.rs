//! New pipe: holes, pipe laid and protected, fitted out.

use super::tie_in::MAKE_UP_CSST;
use super::{Work, step};
use crate::job::{Barrier, CopperJoints, Device, Fitted, Penetration, Run, State, Surroundings};
use crate::study::{how_many, tracer_gauge, wants_bond, wants_vent_line};
use crate::work::{PRACTICE, Step};
use std::collections::BTreeMap;

impl Work<'_> {
    pub(super) fn penetrate(&self) -> Option<Step> {
        let places = self.runs_where(pierces);
        if places.is_empty() {
            return None;
        }
        let passages = || {
            let all = self.new_runs().flat_map(|run| &run.penetrations);
            all.filter(|passage| is_built(passage))
        };
        let sleeves = match passages().filter(|passage| passage.sleeved).count() {
            0 => String::new(),
            1 => " Install the sleeve that is drawn.".to_owned(),
            many => format!(" Install the {many} sleeves that are drawn."),
        };
        let barrier = match passages().any(|passage| is_envelope(passage.barrier)) {
            true => " Make good the vapor barrier and the weather barrier around the sleeve or pipe.",
            false => "",
        };
        let words = format!(
            "Bore through {} before running any pipe. Look for wires, pipes and framing; bore a pilot hole and see where it comes out; \
             then bore the full hole.{sleeves}{barrier} Tape or cap the end of the pipe when you push it through, so that no dirt gets in.",
            barriers(passages())
        );
        step("penetrate", "Make penetrations", places, PRACTICE, words)
    }

    pub(super) fn make_up(&self) -> Option<Step> {
        let places = self.runs_where(|run| self.job.material(run).is_corrugated());
        if places.is_empty() {
            return None;
        }
        let words = format!(
            "Make up the tubing.{MAKE_UP_CSST} Use no fitting of another manufacturer, and no bend tighter than the tubing manufacturer allows."
        );
        step("make-up", "Make up", places, PRACTICE, words)
    }

    pub(super) fn run(&self) -> Option<Step> {
        let lengths = self.lengths(State::New);
        if lengths.is_empty() {
            return None;
        }
        let copper = match self.new_runs().any(|run| self.job.material(run).is_copper()) {
            true => format!(" {}", how_copper_is_joined(self.job.settings.copper)),
            false => String::new(),
        };
        let ties = self.nut_ties();
        let tee = match ties.is_empty() {
            true => String::new(),
            false => format!(
                " First put these on the new pipe: {}. They are tested with it, their other ends plugged.",
                self.tie_fittings(&ties)
            ),
        };
        let plates = match self.new_runs().any(|run| self.job.material(run).is_corrugated()) {
            true => {
                " Pull tubing before its fittings go on, and protect it in studs and joists with its manufacturer's strike plates."
            }
            false => "",
        };
        let words = format!(
            "Run the new pipe: {}. Ream cut ends, clean threads, support it per the code's table, and keep its ends covered until they are \
             connected.{plates}{copper}{tee}",
            lengths.join(", ")
        );
        step("run", "Run the pipe", self.runs_where(|_| true), PRACTICE, words)
    }

    pub(super) fn bury(&self) -> Option<Step> {
        let buried = |run: &Run| run.surroundings == Surroundings::Underground;
        let places = self.runs_where(buried);
        if places.is_empty() {
            return None;
        }
        let mut words =
            "Lay pipe in the trench at the cover that is drawn; have underground utilities located before digging."
                .to_owned();
        // Steel that comes up out of the ground lies in it too.
        let passes = |run: &Run| {
            run.penetrations
                .iter()
                .any(|passage| passage.barrier == Barrier::Ground)
        };
        if self
            .new_runs()
            .any(|run| (buried(run) || passes(run)) && self.job.material(run).rusts())
        {
            words += " Use factory-coated pipe for buried steel, from above grade on, and wrap its joints before they are covered: paint is not \
             enough. An anodeless riser at each end of plastic pipe keeps steel out of the ground.";
        }
        if self
            .new_runs()
            .any(|run| buried(run) && self.job.material(run).is_plastic())
        {
            words += &format!(
                " Lay tracer wire ({} AWG or larger) with plastic pipe, and bring its ends above ground.",
                tracer_gauge(self.profile)
            );
        }
        words += " Leave the trench open until the pipe has been tested and inspected.";
        step(
            "bury",
            "Lay underground pipe",
            places,
            self.cited(&["burial-shallow", "buried-steel-bare", "pe-tracer"]),
            words,
        )
    }

    pub(super) fn bond(&self) -> Option<Step> {
        let places = self.runs_where(|run| self.job.material(run).is_corrugated() && wants_bond(self.profile, run));
        if places.is_empty() {
            return None;
        }
        let words = "Bond CSST to the grounding electrode system with a bonding jumper of 6 AWG copper: put the clamp on rigid pipe or on a fitting that the \
                     tubing's manufacturer names for it, never on the tubing.";
        step("bond", "Bond", places, self.cited(&["csst-unbonded"]), words)
    }

    pub(super) fn connect(&self) -> Option<Step> {
        let new = || {
            self.new_devices()
                .filter(|(_, device)| device.nature().fitted != Fitted::Apart)
        };
        // What the step before names is not told again.
        let outside = self.fitted_outside();
        let fitted = new().filter(|(joint, device)| !stays_off(device) && !outside.contains(joint));
        let fitted = counted(fitted);
        let kept_off = counted(new().filter(|(_, device)| stays_off(device)));
        let mut words = Vec::new();
        if !fitted.is_empty() {
            words.push(format!("Install in the line: {fitted}."));
        }
        if !kept_off.is_empty() {
            words.push(format!("Leave these off until the test is over: {kept_off}."));
        }
        let vented: Vec<usize> = new()
            .map(|(joint, _)| joint)
            .filter(|&joint| wants_vent_line(self.job, self.study, joint))
            .collect();
        if !vented.is_empty() {
            words.push(format!(
                "Run the vent of {} to the outdoors as its manufacturer and the code require, with its end protected against rain and insects.",
                self.all_named(&vented)
            ));
        }
        if words.is_empty() {
            return None;
        }
        let has_regulator = new().any(|(_, device)| matches!(device, Device::Regulator(_)));
        if has_regulator && let Some(clause) = self.book.gauge_tees(self.profile.family) {
            words.push(format!("Put in {} ({}).", clause.says, clause.number()));
        }
        if new().any(|(_, device)| !matches!(device, Device::Cap(_))) {
            words.push(
                "At each appliance, in the direction of flow: shutoff valve, union, sediment trap where one is required, connector."
                    .to_owned(),
            );
        }
        step(
            "connect",
            "Install devices",
            new().map(|(joint, _)| self.joint(joint)).collect(),
            self.cited(&["shutoff-missing", "union-missing", "trap-missing"]),
            words.join(" "),
        )
    }
}

/// How copper is joined, in words.
pub const fn how_copper_is_joined(joints: CopperJoints) -> &'static str {
    match joints {
        CopperJoints::Brazed => {
            "Braze copper or use fittings listed for gas, never soft solder (from memory: fuel gas codes)."
        }
        CopperJoints::Flared => {
            "Flare soft copper at 45°: cut it square, ream it, slide the nut on, then flare; no compound on the flare, one wrench on the \
             fitting and one on the nut (common practice, no source)."
        }
    }
}

/// Whether a penetration passes what is built; the ground line is none.
fn is_built(passage: &Penetration) -> bool {
    passage.barrier != Barrier::Ground
}

/// Whether a run passes a wall, floor or roof.
pub(super) fn pierces(run: &Run) -> bool {
    run.penetrations.iter().any(is_built)
}

/// Whether a barrier keeps weather and vapor out of a building.
const fn is_envelope(barrier: Barrier) -> bool {
    match barrier {
        Barrier::ExteriorWall | Barrier::Foundation | Barrier::Roof | Barrier::Slab => true,
        Barrier::InteriorWall | Barrier::Floor | Barrier::Ground => false,
    }
}

/// What is passed, each kind once: "the exterior wall", "2 floors and the exterior wall".
fn barriers<'p>(passages: impl Iterator<Item = &'p Penetration>) -> String {
    let mut counts: Vec<(&'static str, usize)> = Vec::new();
    for passage in passages {
        let name = passage.barrier.name();
        match counts.iter_mut().find(|known| known.0 == name) {
            Some(known) => known.1 += 1,
            None => counts.push((name, 1)),
        }
    }
    let words: Vec<String> = counts
        .into_iter()
        .map(|(name, count)| match count {
            1 => format!("the {name}"),
            many => format!("{many} {name}s"),
        })
        .collect();
    words.join(" and ")
}

/// Whether a device would suffer from the test pressure, or belongs to an appliance.
pub(super) fn stays_off(device: &Device) -> bool {
    device.nature().fitted == Fitted::AfterTheTest
}

/// Devices by name, each with how many: "1 shutoff valve, 3 unions".
pub(super) fn counted<'d>(devices: impl Iterator<Item = (usize, &'d Device)>) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for (_, device) in devices {
        *counts.entry(device.name()).or_default() += 1;
    }
    let words = counts.iter().map(|(name, count)| how_many(*count, name));
    words.collect::<Vec<_>>().join(", ")
}

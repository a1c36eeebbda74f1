//! Appliances are lit, the pressures read, and the owner is shown how to shut off.

use super::opening::unique;
use super::{Work, step};
use crate::codebook::UsualPlace;
use crate::job::{Appliance, Device, Fuel, State, Surroundings};
use crate::network::{Outlet, OutletKind};
use crate::study::Place;
use crate::work::{Fate, PRACTICE, Step};

/// Classes that cook.
const COOKING: [&str; 7] = [
    "range",
    "built-in oven or broiler",
    "built-in cooktop",
    "barbecue",
    "built-in grill",
    "side burner",
    "pizza oven",
];
/// Those of them with an open burner, whose flame is seen.
const OPEN_BURNERS: [&str; 2] = ["range", "built-in cooktop"];
/// Classes that may have a standing pilot, older ones above all (from memory).
const PILOTS: [&str; 10] = [
    "range",
    "built-in oven or broiler",
    "built-in cooktop",
    "storage water heater 30-40 gal",
    "storage water heater 50 gal",
    "furnace or boiler, one family",
    "boiler, space and water",
    "direct-vent fireplace",
    "gas log",
    "pool or spa heater",
];

/// An appliance that is lit.
pub(super) struct Lit<'a> {
    outlet: &'a Outlet,
    appliance: &'a Appliance,
    /// [`START`] or [`RELIGHT`].
    how: &'static str,
}

const START: &str = "Start up";
const RELIGHT: &str = "Relight";

impl<'a> Work<'a> {
    fn appliance(&self, joint: usize) -> Option<&'a Appliance> {
        match self.job.joints.at(joint).device() {
            Some(Device::Appliance(appliance)) => Some(appliance),
            _ => None,
        }
    }

    fn is_of(&self, joint: usize, classes: &[&str]) -> bool {
        // What stood there may be taken away: its device is asked for whatever becomes of it.
        let placed = self.job.joints.at(joint).placed.as_ref();
        let Some(Device::Appliance(appliance)) = placed.map(|placed| &placed.device) else {
            return false;
        };
        let class = appliance
            .class
            .as_deref()
            .and_then(|class| self.book.appliance_class(class));
        class.is_some_and(|class| classes.contains(&class.name))
    }

    /// Whether an appliance has an open burner that is seen.
    pub(super) fn is_cooktop(&self, joint: usize) -> bool {
        self.is_of(joint, &OPEN_BURNERS)
    }

    /// Whether an appliance stands outdoors, or is connected there.
    fn is_outdoors(&self, joint: usize) -> bool {
        let feed = self.study.network.feed[joint];
        feed.is_some_and(|run| self.job.runs.at(run).surroundings == Surroundings::Outdoors)
    }

    /// Whether an appliance cooks outdoors.
    fn cooks_outdoors(&self, joint: usize) -> bool {
        let class = self.appliance(joint).and_then(|appliance| appliance.class.as_deref());
        let known = class.and_then(|class| self.book.appliance_class(class));
        let usual = known.is_some_and(|class| class.place == UsualPlace::Outdoors);
        (usual || self.is_outdoors(joint)) && self.is_of(joint, &COOKING)
    }

    /// Appliances that are started or lit again, in flow order.
    pub(super) fn lit(&self) -> Vec<Lit<'a>> {
        let relit = self.of_fate(Fate::Relit);
        let outlets = self.study.outlets.iter();
        let appliances = outlets.filter(|outlet| outlet.kind == OutletKind::Appliance);
        let lit = appliances.filter_map(|outlet| {
            let is_relit = relit
                .iter()
                .any(|out| Place::Joint(out.joint) == self.joint(outlet.joint));
            let how = match (self.is_new(outlet.joint), is_relit) {
                (true, _) => START,
                (false, true) => RELIGHT,
                (false, false) => return None,
            };
            Some(Lit {
                outlet,
                appliance: self.appliance(outlet.joint)?,
                how,
            })
        });
        lit.collect()
    }

    /// "Relight: Furnace (A), Heater (B). Start up: Grill (C)."
    fn by_how(&self, lit: &[&Lit<'_>]) -> String {
        let named = |how: &str| {
            let names: Vec<String> = (lit.iter().filter(|lit| lit.how == how))
                .map(|lit| self.lit_named(lit))
                .collect();
            (!names.is_empty()).then(|| format!("{how}: {}.", names.join(", ")))
        };
        let said: Vec<String> = [RELIGHT, START].into_iter().filter_map(named).collect();
        said.join(" ")
    }

    fn lit_named(&self, lit: &Lit<'_>) -> String {
        self.named(lit.outlet.joint)
    }

    pub(super) fn relight(&self) -> Option<Step> {
        let all = self.lit();
        let lit: Vec<&Lit<'_>> = all
            .iter()
            .filter(|lit| !self.cooks_outdoors(lit.outlet.joint))
            .collect();
        let mut places: Vec<Place> = lit.iter().map(|lit| self.joint(lit.outlet.joint)).collect();
        let mut words = Vec::new();
        if !lit.is_empty() {
            words.push(format!(
                "Working downstream. {} At each one open its valve, follow its manufacturer's instructions, and check that flame, draft and safety \
                 controls work.",
                self.by_how(&lit)
            ));
            let unknown = |lit: &&&Lit<'_>| {
                let class = lit.appliance.class.as_deref();
                class.and_then(|class| self.book.appliance_class(class)).is_none() && self.is_outdoors(lit.outlet.joint)
            };
            let lids: Vec<String> = lit.iter().filter(unknown).map(|lit| self.lit_named(lit)).collect();
            if !lids.is_empty() {
                words.push(format!(
                    "Light these with the lid open, where they have one: {}.",
                    lids.join(", ")
                ));
            }
            let pilots: Vec<String> = (lit.iter())
                .filter(|lit| lit.how == RELIGHT)
                .filter(|lit| lit.appliance.class.is_none() || self.is_of(lit.outlet.joint, &PILOTS))
                .map(|lit| self.lit_named(lit))
                .collect();
            if !pilots.is_empty() {
                words.push(format!(
                    "Where one of these has a standing pilot, light it, blow it out once, and check that its pilot safety (thermocouple) shuts the gas off: {}.",
                    pilots.join(", ")
                ));
            }
        }
        let cut_off = self.of_fate(Fate::CutOff);
        if !cut_off.is_empty() {
            words.push(format!(
                "No gas reaches {} after the work as drawn: leave it off, with its connection capped.",
                self.names(&cut_off)
            ));
            places.extend(self.places(&cut_off));
        }
        if places.is_empty() {
            return None;
        }
        // The id is that of the step since it was there for old appliances alone.
        let heading = match lit.iter().all(|lit| lit.how == START) && !lit.is_empty() {
            true => "Start the appliances",
            false => "Relight",
        };
        step(
            "relight",
            heading,
            places,
            self.cited(&["starting-up"]),
            words.join(" "),
        )
    }

    pub(super) fn first_light(&self) -> Option<Step> {
        let all = self.lit();
        let lit: Vec<&Lit<'_>> = all.iter().filter(|lit| self.cooks_outdoors(lit.outlet.joint)).collect();
        if lit.is_empty() {
            return None;
        }
        let words = format!(
            "Light outdoor cooking appliances with the lid open, and keep the lid open until they burn. {} Keep each hose clear and check it for \
             leaks; if an appliance does not light, shut it off and wait with the lid open, as its manufacturer's instructions say.",
            self.by_how(&lit)
        );
        let places = lit.iter().map(|lit| self.joint(lit.outlet.joint)).collect();
        step("first-light", "First lighting", places, PRACTICE, words)
    }

    pub(super) fn pressures(&self) -> Option<Step> {
        let lit = self.lit();
        if lit.is_empty() {
            return None;
        }
        let mut words =
            "With every appliance firing, read the pressure at each inlet, compare it with the rating plate, and write it down."
                .to_owned();
        if self
            .new_devices()
            .any(|(_, device)| matches!(device, Device::Regulator(_)))
        {
            words += " With gas flowing, adjust each new line regulator to its setting, shut the burners, and check once more that it locks up.";
        }
        if self.study.gas.fuel == Fuel::Propane {
            words += " For propane this is the flow pressure.";
        }
        let places = lit.iter().map(|lit| self.joint(lit.outlet.joint)).collect();
        step("pressures", "Read pressures", places, PRACTICE, words)
    }

    pub(super) fn owner(&self) -> Option<Step> {
        let source = self.source();
        let mut places: Vec<Place> = source.map(Place::Joint).into_iter().collect();
        let valves = self
            .new_devices()
            .filter(|(_, device)| matches!(device, Device::Valve(_)));
        let valves: Vec<usize> = valves.map(|(joint, _)| joint).collect();
        places.extend(self.at_each(&valves));
        if places.is_empty() {
            return None;
        }
        let mut at: Vec<String> = source.map(|joint| self.joint_named(joint)).into_iter().collect();
        at.extend(valves.iter().map(|&joint| self.named(joint)));
        let hose = match self
            .new_devices()
            .any(|(_, device)| matches!(device, Device::QuickCoupling(_)))
        {
            true => " Show how to disconnect the hose and what closes the coupling then.",
            false => "",
        };
        let words = format!(
            "Show the owner how to shut off the gas: {}.{hose} If anyone smells gas: light nothing, touch no switch and no phone, get everyone out, and \
             call the supplier or 911 from outside. Leave a copy of the drawing.",
            at.join(", ")
        );
        step("owner", "Show the owner", unique(places.into_iter()), PRACTICE, words)
    }

    /// Whether what stands at a joint is new.
    pub(super) fn is_new(&self, joint: usize) -> bool {
        let placed = self.job.joints.at(joint).placed.as_ref();
        placed.is_some_and(|placed| placed.state == State::New)
    }
}

//! Gas is let in: every end looked at, regulators set, leaks looked for, air driven out. No appliance valve is open yet.

use super::opening::unique;
use super::{Work, step};
use crate::job::{Device, Fuel, JointId};
use crate::study::Place;
use crate::units::Show;
use crate::work::{Isolation, PRACTICE, PURGE_WAYS, Step, TestSheet, sinks};

impl Work<'_> {
    /// Whether gas comes into new pipe or to a new appliance, or back into old pipe.
    fn gas_comes(&self) -> bool {
        let comes_back = !self.shut.work.is_empty() || !self.shut.goes_out.is_empty();
        comes_back || self.new_runs().next().is_some() || !self.lit().is_empty()
    }

    /// Where gas is turned on: the valve that was shut, else the point of delivery.
    pub(super) fn source(&self) -> Option<JointId> {
        match self.shut.isolation {
            Isolation::Valve(joint) | Isolation::Supplier(joint) | Isolation::Every(joint) => Some(joint),
            Isolation::NothingStands | Isolation::NotKnown => {
                let supply = self.study.network.supply?;
                Some(self.job.joints.at(supply).id)
            }
        }
    }

    pub(super) fn turn_on(&self) -> Option<Step> {
        if !self.gas_comes() {
            return None;
        }
        let source = self.source();
        let at = source.map_or_else(String::new, |joint| format!(" at {}", self.joint_named(joint)));
        let unlock = match self.shut.isolation {
            Isolation::Valve(joint) => format!(" Take the lock or tag off {}.", self.joint_named(joint)),
            Isolation::Supplier(_) | Isolation::Every(_) | Isolation::NothingStands | Isolation::NotKnown => {
                String::new()
            }
        };
        let mut words = format!(
            "Shut the valve of every appliance. Before gas is turned on and while it is, look the whole system over, old pipe \
             too, for open fittings and ends; see that valves at unused outlets are shut and plugged or capped{}.{unlock} Let gas \
             in slowly{at}; where a leak shows, shut it again at once.",
            self.unused()
        );
        if matches!(self.shut.isolation, Isolation::Supplier(_) | Isolation::Every(_)) {
            words += " The supplier says who may open it.";
        }
        let supply = self.study.network.supply;
        let service = supply.filter(|&joint| {
            matches!(self.job.joints.at(joint).device(), Some(Device::Supply(supply)) if supply.regulator.is_some())
        });
        if let Some(joint) = service {
            words += &format!(
                " The service regulator at {} may have shut itself off: the supplier resets it, nobody else.",
                self.named(joint)
            );
        }
        let places = source.map(Place::Joint).into_iter();
        let places = unique(places.chain(service.map(|joint| self.joint(joint))));
        step(
            "turn-on",
            "Turn on, look over",
            places,
            self.cited(&["turning-on"]),
            words,
        )
    }

    /// Caps and valves that are left for an appliance to come, by their joints.
    fn unused(&self) -> String {
        let caps = self
            .job
            .joints
            .iter()
            .filter(|joint| matches!(joint.device(), Some(Device::Cap(_))));
        let caps: Vec<String> = caps.map(|joint| joint.id.to_string()).collect();
        match caps.is_empty() {
            true => String::new(),
            false => format!(" ({})", caps.join(" ")),
        }
    }

    pub(super) fn set_regulators(&self) -> Option<Step> {
        let units = self.job.settings.units;
        let mut said = Vec::new();
        let mut places = Vec::new();
        for (joint, device) in self.new_devices() {
            if let Device::Regulator(regulator) = device {
                let outlet = regulator
                    .outlet
                    .map_or("a pressure that is not drawn yet".to_owned(), |outlet| {
                        outlet.show(units)
                    });
                said.push(format!("{} to {}", self.named(joint), outlet.trim_end_matches('.')));
                places.push(self.joint(joint));
            }
        }
        if said.is_empty() {
            return None;
        }
        let words = format!(
            "Before any appliance valve opens, set each new line regulator by its maker's instructions, with a gauge behind it: \
             {}. Then see that it locks up: with nothing burning the pressure behind it must stop and stay. If it creeps up, the \
             regulator passes gas: shut off before it, and go no further.",
            said.join(", ")
        );
        step("set-regulator", "Set and lock up", places, PRACTICE, words)
    }

    pub(super) fn leak_check(&self) -> Option<Step> {
        if !self.gas_comes() {
            return None;
        }
        let work = self.at_each(&self.left_at()).into_iter();
        let places = work.chain(self.runs_where(|_| true)).chain(self.connector_joints());
        let words = "At once, with the gas on, look for leaks at every joint that was opened or made, tie-ins and connectors \
                     too, with an approved gas detector or non-corrosive leak-detection fluid: never with a flame, and a nose is \
                     no detector. Where gas leaks, shut it off, repair, and begin again."
            .to_owned();
        let has_meter = self.job.joints.iter().any(|joint| match joint.device() {
            Some(Device::Meter(_)) => true,
            Some(Device::Supply(supply)) => supply.meter.is_some(),
            _ => false,
        });
        let words = match has_meter {
            true => words + " See that the meter stands still while everything is off.",
            false => words,
        };
        step(
            "leak-check",
            "Look for leaks",
            unique(places),
            self.cited(&["leak-locating", "leak-at-once"]),
            words,
        )
    }

    pub(super) fn propane(&self) -> Option<Step> {
        if self.study.gas.fuel != Fuel::Propane || !self.gas_comes() {
            return None;
        }
        let joints = self.job.joints.iter().enumerate();
        let regulators = joints.filter(|(_, joint)| matches!(joint.device(), Some(Device::Regulator(_))));
        let mut joints: Vec<usize> = regulators.map(|(at, _)| at).collect();
        joints.extend(self.study.network.supply.filter(|_| joints.is_empty()));
        let at = match joints.is_empty() {
            true => "of the last regulator".to_owned(),
            false => format!("at {}", self.all_named(&joints)),
        };
        let words = format!(
            "Propane, before anything is lit: a leak test of the whole system from the container's valve on; the lock-up pressure \
             {at}, nothing burning; the flow pressure follows at the end, everything burning. Ask the propane supplier who makes \
             and records the three.{}",
            sinks(Fuel::Propane)
        );
        step(
            "propane-test",
            "Propane: leak test, lock-up, flow",
            self.at_each(&joints),
            PRACTICE,
            words,
        )
    }

    pub(super) fn purge(&self) -> Option<Step> {
        if !self.gas_comes() {
            return None;
        }
        let fuel = sinks(self.study.gas.fuel);
        let how = match TestSheet::of(self.job, self.study, self.book).purge.is_outdoors() {
            true => "to the outdoors, an inert gas first, for the reason on the test sheet.".to_owned(),
            false => format!(
                "in one of these ways: {PURGE_WAYS} Where old pipe that is purged with it brings it over the lengths of the test \
                 sheet, to the outdoors, an inert gas first."
            ),
        };
        let words = format!(
            "When no leak is found, purge the air out of all pipe that was made or opened, {how} No flame or spark near, save the \
             one that burns what is purged.{fuel}"
        );
        let places = self.runs_where(|_| true);
        step(
            "purge",
            "Purge",
            places,
            self.cited(&["purge-ways", "purge-outdoors", "leak-at-once"]),
            words,
        )
    }
}

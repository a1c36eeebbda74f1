//! Gas is let in: every end looked at, regulators set, leaks looked for, air driven out. No appliance valve is open yet.

use super::opening::unique;
use super::{Work, step};
use crate::job::{Device, Fuel, JointId, State};
use crate::network::Outlet;
use crate::study::Place;
use crate::units::Show;
use crate::work::{Isolation, PRACTICE, PURGE_WAYS, Step, TestSheet, sinks};

impl Work<'_> {
    /// The valve that was shut, where after the work nothing at all stands behind it.
    fn ends_open(&self) -> Option<usize> {
        let valve = self.unserving().filter(|_| self.lit().is_empty())?;
        self.study.network.onward(valve).next().is_none().then_some(valve)
    }

    /// The valve that was shut, where after the work no appliance and no cap left for one is behind it.
    fn unserving(&self) -> Option<usize> {
        let Isolation::Valve(id) = self.shut.isolation else {
            return None;
        };
        let valve = self.job.joints.position(id)?;
        let is_behind = |outlet: &Outlet| self.study.network.is_behind(outlet.joint, valve);
        (!self.study.outlets.iter().any(is_behind)).then_some(valve)
    }

    /// A valve with nothing behind it stays shut, and is plugged.
    pub(super) fn close_off(&self) -> Option<Step> {
        let valve = self.ends_open()?;
        let name = self.named(valve);
        let words = format!(
            "Leave {name} closed: nothing is left behind it. Plug or cap its outlet, leak-check the plug with a gas detector or \
             leak-detection fluid, and only then remove the lock or tag."
        );
        step("close-off", "Close off", vec![self.joint(valve)], PRACTICE, words)
    }

    /// Whether gas comes into new pipe or to a new appliance, or back into old pipe.
    fn gas_comes(&self) -> bool {
        if self.ends_open().is_some() {
            return false;
        }
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
        let at = source.map_or_else(String::new, |joint| {
            match self.job.joints.position(joint) == self.study.network.supply {
                true => format!(
                    " by the {} at {}",
                    self.study.gas.fuel.main_valve(),
                    self.joint_named(joint)
                ),
                false => format!(" at {}", self.joint_named(joint)),
            }
        });
        let unlock = match self.shut.isolation {
            Isolation::Valve(joint) => format!(" Remove the lock or tag from {}.", self.joint_named(joint)),
            Isolation::Supplier(_) | Isolation::Every(_) | Isolation::NothingStands | Isolation::NotKnown => {
                String::new()
            }
        };
        let mut words = format!(
            "Close the valve of every appliance. Before and while gas is turned on, check the whole system{} for open fittings \
             and ends; check that valves at unused outlets are closed and plugged or capped{}.{unlock} Let gas in slowly{at}; if there is a leak, \
             shut it off again at once.",
            match self.job.runs.iter().any(|run| run.state == State::Existing) {
                true => ", existing pipe too,",
                false => "",
            },
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
            words += &match self.study.gas.fuel {
                Fuel::Natural => format!(
                    " The service regulator at {} may have shut itself off: only the supplier resets it.",
                    self.named(joint)
                ),
                Fuel::Propane => format!(
                    " At {}, open the tank valve slowly. If the flow stops, its excess-flow valve has closed: shut the tank valve, wait, and open \
                     it more slowly (from memory).",
                    self.named(joint)
                ),
            };
        }
        let places = source.map(Place::Joint).into_iter();
        let places = unique(places.chain(service.map(|joint| self.joint(joint))));
        step("turn-on", "Turn on the gas", places, self.cited(&["turning-on"]), words)
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
        let units = self.study.names.units();
        let mut said = Vec::new();
        let mut places = Vec::new();
        for (joint, device) in self.new_devices() {
            if let Device::Regulator(regulator) = device {
                let outlet = regulator
                    .outlet
                    .map_or("a pressure not entered yet".to_owned(), |outlet| outlet.show(units));
                said.push(format!("{} to {}", self.named(joint), outlet.trim_end_matches('.')));
                places.push(self.joint(joint));
            }
        }
        if said.is_empty() {
            return None;
        }
        let words = format!(
            "Before any appliance valve is opened, put a gauge downstream of each new line regulator, by its manufacturer's instructions: {}. \
             Check that it locks up: with no gas flowing the pressure downstream must stop rising, a little above that, and stay. If it creeps up, the regulator leaks through: shut off upstream of it, and go no further. \
             It is set with gas flowing, once appliances burn.",
            said.join(", ")
        );
        step("set-regulator", "Check lock-up", places, PRACTICE, words)
    }

    pub(super) fn leak_check(&self) -> Option<Step> {
        if !self.gas_comes() {
            return None;
        }
        let work = self.at_each(&self.left_at()).into_iter();
        let places = work.chain(self.runs_where(|_| true)).chain(self.connector_joints());
        let words = "At once, with the gas on, check every joint that was opened or made for leaks, tie-ins and connectors too, with an approved \
         gas detector or non-corrosive leak-detection fluid: never with a flame, and never by smell alone. Where gas leaks, shut it off, repair, \
         and start again."
            .to_owned();
        let has_meter = self.job.joints.iter().any(|joint| match joint.device() {
            Some(Device::Meter(_)) => true,
            Some(Device::Supply(supply)) => supply.meter.is_some(),
            _ => false,
        });
        let words = match has_meter {
            true => {
                words
                    + " With everything off, watch the smallest dial of the meter: it must not move for as long as the supplier asks."
            }
            false => words,
        };
        let words = match self.unserving() {
            Some(valve) => format!(
                "{words} Then close {} again and leave it closed: no appliance is behind it.",
                self.named(valve)
            ),
            None => words,
        };
        step(
            "leak-check",
            "Check for leaks",
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
            "Propane, before anything is lit: make a leak test of the whole system from the container valve on; read the lock-up pressure {at}, with no gas \
             flowing. Read the flow pressure at the end, with every appliance firing. Ask the propane supplier who does and records the three.{}",
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
        // What lies behind a valve that is closed again keeps its air.
        if !self.gas_comes() || self.unserving().is_some() {
            return None;
        }
        let fuel = sinks(self.study.gas.fuel);
        let sheet = TestSheet::of(self.job, self.study, self.book);
        let how = match sheet.purge.is_outdoors() {
            true => "to the outdoors, with an inert gas first, for the reason on the test sheet.".to_owned(),
            false => {
                let old = sheet.purge.with_old(self.study.names.units());
                format!("in one of these ways: {PURGE_WAYS} {old}")
                    .trim_end()
                    .to_owned()
            }
        };
        let words = format!(
            "When no leak is found, purge the air from all pipe that was installed or opened, {how} No flame or spark nearby, except the one that \
             burns off the purged gas.{fuel}"
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

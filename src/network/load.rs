//! What burns at once.

use super::Network;
use crate::job::{Appliance, Device, Season};
use crate::units::{Flow, HeatRate, HeatingValue};
use std::ops::AddAssign;

/// A load: heat, and the flow of gas that carries it.
///
/// All appliances at once, and the inputs that capped ends are left for; of those that heat and those that cool only
/// the larger group (IFGC 402.2 with its appendix). A load is never less than any load downstream of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// Heat of the appliances counted.
    pub heat: HeatRate,
    /// Flow that carries it.
    pub flow: Flow,
    /// Heat left out because heating and cooling do not run together.
    pub left_out: HeatRate,
    /// Number of appliances whose input is not known, so that they count nothing.
    pub unknown: usize,
}

impl Load {
    /// This load with more heat, which burns at any time.
    pub(crate) fn with(self, heat: HeatRate, value: HeatingValue) -> Load {
        let heat = self.heat + heat;
        Load {
            heat,
            flow: heat.flow(value),
            ..self
        }
    }
}

/// Heat by the time at which it burns.
#[derive(Clone, Copy, Default)]
struct Tally {
    all_year: f64,
    heating: f64,
    cooling: f64,
    unknown: usize,
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Tally) {
        self.all_year += other.all_year;
        self.heating += other.heating;
        self.cooling += other.cooling;
        self.unknown += other.unknown;
    }
}

impl Tally {
    fn of(device: &Device) -> Tally {
        let mut tally = Tally::default();
        match device {
            Device::Appliance(appliance) => match input(appliance) {
                None => tally.unknown = 1,
                Some(heat) => match appliance.season {
                    Season::AllYear => tally.all_year = heat.btuh(),
                    Season::Heating => tally.heating = heat.btuh(),
                    Season::Cooling => tally.cooling = heat.btuh(),
                },
            },
            Device::Cap(cap) => tally.all_year = cap.future_input.and_then(usable).map_or(0.0, HeatRate::btuh),
            _ => {}
        }
        tally
    }

    fn load(&self, value: HeatingValue) -> Load {
        let heat = HeatRate::from_btuh(self.all_year + self.heating.max(self.cooling));
        Load {
            heat,
            flow: heat.flow(value),
            left_out: HeatRate::from_btuh(self.heating.min(self.cooling)),
            unknown: self.unknown,
        }
    }
}

/// More than any house burns, Btu/h; an input beyond is a slip of the pen.
const GREATEST: f64 = 1e12;

/// A heat rate that can be summed: a number, not less than nothing, not beyond all sense.
pub(crate) fn usable(heat: HeatRate) -> Option<HeatRate> {
    (0.0..=GREATEST).contains(&heat.btuh()).then_some(heat)
}

/// The input of an appliance, when a usable one is known.
pub(crate) fn input(appliance: &Appliance) -> Option<HeatRate> {
    appliance.input.and_then(usable)
}

/// Puts more heat on a joint, to burn at any time, and so on every joint upstream of it.
pub(crate) fn add(loads: &mut [Load], network: &Network, joint: usize, heat: HeatRate, value: HeatingValue) {
    for joint in network.way_up(joint) {
        loads[joint] = loads[joint].with(heat, value);
    }
}

/// For each joint the load of itself and of everything downstream of it.
pub(crate) fn at_joints(devices: &[Option<&Device>], network: &Network, value: HeatingValue) -> Vec<Load> {
    let mut tallies = vec![Tally::default(); devices.len()];
    for &joint in network.order.iter().rev() {
        if let Some(device) = devices[joint] {
            tallies[joint] += Tally::of(device);
        }
        if let Some(upstream) = network.upstream(joint) {
            let own = tallies[joint];
            tallies[upstream] += own;
        }
    }
    tallies.iter().map(|tally| tally.load(value)).collect()
}

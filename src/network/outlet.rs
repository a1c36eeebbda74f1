//! Ends where an appliance connects, now or later.

use super::{Network, load};
use crate::job::{Device, Job};
use crate::units::{Flow, GaugePressure, HeatRate, HeatingValue, Length, PressureDrop};
use std::collections::BTreeMap;

/// An appliance, or a capped end left for one.
#[derive(Clone, Debug)]
pub struct Outlet {
    /// Its letter on drawing and schedules: A, B … Z, AA …, in flow order.
    pub tag: String,
    /// Its joint.
    pub joint: usize,
    /// What it is.
    pub kind: OutletKind,
    /// The person's name for it.
    pub name: String,
    /// Input, or the future input of a capped end.
    pub heat: Option<HeatRate>,
    /// Flow at that input.
    pub flow: Flow,
    /// Measured length of pipe from the point of delivery.
    pub distance: Length,
    /// The hose or connector between the end of the pipe and the appliance.
    pub hose: Option<Hose>,
    /// Pressure at full load, when every size on the way is known.
    pub pressure: Option<GaugePressure>,
    /// Loss from the start of its zone at full load.
    pub zone_drop: Option<PressureDrop>,
    /// Least inlet pressure on the rating plate.
    pub least: Option<GaugePressure>,
    /// Pressure above that least; below it when negative.
    pub margin: Option<PressureDrop>,
    /// Devices and hoses on the way from the point of delivery whose loss is not known, so that it counts as none.
    pub unrated: usize,
}

/// The flexible line to an appliance, from where the pipe ends. It is no pipe: its own rating judges it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hose {
    /// The joint at which it begins.
    pub from: usize,
    /// How long it is drawn.
    pub length: Length,
    /// The joint of the connector that it is, whose rating is its own; `None` where only a coupling is drawn.
    pub connector: Option<usize>,
}

impl Outlet {
    /// The person's name for it, where it says more than its letter.
    pub fn own_name(&self) -> Option<&str> {
        Some(self.name.trim()).filter(|name| !name.is_empty() && *name != self.tag)
    }

    /// The person's name for it, else its letter: "outlet B".
    pub fn called(&self) -> String {
        match self.own_name() {
            Some(name) => name.to_owned(),
            None => format!("outlet {}", self.tag),
        }
    }

    /// The same with the letter that the drawing gives it: "Furnace (A)", "outlet B".
    pub fn lettered(&self) -> String {
        match self.own_name() {
            Some(name) => format!("{name} ({})", self.tag),
            None => self.called(),
        }
    }
}

/// What stands at an outlet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OutletKind {
    /// An appliance.
    Appliance,
    /// A capped end with a stated future input.
    Future,
}

/// Whether a device makes its joint an outlet: an appliance, or a cap left for one.
pub(crate) fn kind(device: Option<&Device>) -> Option<OutletKind> {
    match device {
        Some(Device::Appliance(_)) => Some(OutletKind::Appliance),
        Some(Device::Cap(cap)) => cap.future_input.and_then(load::usable).map(|_| OutletKind::Future),
        _ => None,
    }
}

/// All outlets in flow order, pressures and names left open.
pub(crate) fn all(
    network: &Network,
    devices: &[Option<&Device>],
    (distance, lengths): (&[Length], &[Length]),
    hoses: &[bool],
    value: HeatingValue,
) -> Vec<Outlet> {
    let mut outlets = Vec::new();
    let to_joint = hoses_to(network, devices, lengths, hoses);
    for &at in &network.order {
        let Some(kind) = kind(devices[at]) else { continue };
        let (heat, least) = match devices[at] {
            Some(Device::Appliance(appliance)) => (load::input(appliance), appliance.least_inlet),
            Some(Device::Cap(cap)) => (cap.future_input, None),
            _ => continue,
        };
        outlets.push(Outlet {
            tag: String::new(),
            joint: at,
            kind,
            name: String::new(),
            heat,
            flow: heat.map_or(Flow::ZERO, |heat| heat.flow(value)),
            distance: distance[at],
            hose: to_joint.get(&at).copied(),
            pressure: None,
            zone_drop: None,
            least,
            margin: None,
            unrated: 0,
        });
    }
    outlets
}

/// For each joint on a hose, its start left out, the hose as far as there.
fn hoses_to(
    network: &Network,
    devices: &[Option<&Device>],
    lengths: &[Length],
    hoses: &[bool],
) -> BTreeMap<usize, Hose> {
    let mut found: BTreeMap<usize, Hose> = BTreeMap::new();
    let connector = |joint: usize| matches!(devices[joint], Some(Device::Connector(_))).then_some(joint);
    for &joint in &network.order {
        let (Some(run), Some(from)) = (network.feed[joint], network.upstream(joint)) else {
            continue;
        };
        if hoses[run] {
            let before = found.get(&from).copied().unwrap_or(Hose {
                from,
                length: Length::ZERO,
                connector: connector(from),
            });
            let hose = Hose {
                length: before.length + lengths[run],
                connector: before.connector.or_else(|| connector(joint)),
                ..before
            };
            found.insert(joint, hose);
        }
    }
    found
}

/// Enters their letters and names.
pub(crate) fn name(outlets: &mut [Outlet], job: &Job) {
    for (number, outlet) in outlets.iter_mut().enumerate() {
        let joint = job.joints.at(outlet.joint);
        outlet.tag = tag(number);
        outlet.name = match joint.device() {
            Some(Device::Appliance(appliance)) => appliance.name.clone(),
            _ => joint.label.clone().unwrap_or_default(),
        };
    }
}

/// A, B … Z, AA, AB …
fn tag(mut number: usize) -> String {
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + (number % 26) as u8));
        number /= 26;
        if number == 0 {
            return letters.iter().rev().collect();
        }
        number -= 1;
    }
}

#[cfg(test)]
mod tests {
    use super::super::outlet::*;

    #[test]
    fn letters_go_on_past_z() {
        let found: Vec<String> = [0, 25, 26, 51, 52, 701, 702].map(tag).into();
        assert_eq!(found, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}

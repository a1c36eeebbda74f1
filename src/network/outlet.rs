//! Ends where an appliance connects, now or later.

use super::{Network, load};
use crate::job::{Device, Job, Joint, Letter, State};
use crate::units::{Flow, GaugePressure, HeatRate, HeatingValue, Length, PressureDrop};
use std::collections::{BTreeMap, BTreeSet};

/// An appliance, or a capped end left for one.
#[derive(Clone, Debug)]
pub struct Outlet {
    /// Its letter on drawing and schedules: the one that it keeps, else the next free one along the flow.
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

/// Outlets in the order of their letters, as schedules list them: those that keep their letters need not follow the flow.
pub fn by_letter(outlets: &[Outlet]) -> Vec<&Outlet> {
    let mut sorted: Vec<&Outlet> = outlets.iter().collect();
    sorted.sort_by_key(|outlet| (outlet.tag.len(), &outlet.tag));
    sorted
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
    let letters = lettered(job, outlets.iter().map(|outlet| outlet.joint));
    for (outlet, letter) in outlets.iter_mut().zip(letters) {
        let joint = job.joints.at(outlet.joint);
        outlet.tag = letter.to_string();
        outlet.name = match joint.device() {
            Some(Device::Appliance(appliance)) => appliance.name.clone(),
            _ => joint.label.clone().unwrap_or_default(),
        };
    }
}

/// Whether what stands at a joint has a letter, also while it waits to be connected or to be removed.
pub(crate) fn is_lettered(joint: &Joint) -> bool {
    kind(joint.placed.as_ref().map(|placed| &placed.device)).is_some()
}

/// The letters of the outlets that gas reaches, each with the position of its joint, along the flow.
pub(crate) fn letters(job: &Job) -> impl Iterator<Item = (usize, Letter)> {
    let states: Vec<State> = job.runs.iter().map(|run| run.state).collect();
    let network = Network::trace(job, &states);
    let is_outlet = |joint: &usize| kind(job.joints.at(*joint).device()).is_some();
    let joints: Vec<usize> = network.order.into_iter().filter(is_outlet).collect();
    let letters = lettered(job, joints.iter().copied());
    joints.into_iter().zip(letters)
}

/// The letters of outlets at joints in the order of the flow: each has the one that it keeps, of two with the same the
/// first; the others get the first that are free.
fn lettered(job: &Job, joints: impl Iterator<Item = usize>) -> Vec<Letter> {
    let kept = |joint: &Joint| joint.placed.as_ref().filter(|_| is_lettered(joint))?.letter;
    let taken: BTreeSet<Letter> = job.joints.iter().filter_map(kept).collect();
    let mut given = BTreeSet::new();
    let mut free = (0..).map(Letter).filter(|letter| !taken.contains(letter));
    let mut letter = |joint| match kept(job.joints.at(joint)).filter(|letter| given.insert(*letter)) {
        Some(letter) => letter,
        None => free.next().unwrap_or_default(),
    };
    joints.map(&mut letter).collect()
}

#[cfg(test)]
mod tests {
    use super::super::outlet::*;
    use crate::job::{Appliance, JointId, LatticePoint, Placed, Run, RunId, Supply};

    /// A point of delivery, and appliances one after the other on a line, with the letters that they keep.
    fn line(kept: &[Option<u32>]) -> Job {
        let mut job = Job::default();
        let mut add = |id: u32, device, letter: Option<u32>| {
            let mut placed = Placed::new(device);
            placed.letter = letter.map(Letter);
            job.joints.insert(Joint {
                id: JointId(id),
                at: LatticePoint::new(id as i32, 0, 0),
                placed: Some(placed),
                ..Joint::default()
            });
            if id > 1 {
                job.runs.insert(Run {
                    id: RunId(id),
                    from: JointId(id - 1),
                    to: JointId(id),
                    ..Run::default()
                });
            }
        };
        add(1, Device::Supply(Supply::default()), None);
        for (id, letter) in (2..).zip(kept) {
            add(id, Device::Appliance(Appliance::default()), *letter);
        }
        job
    }

    #[track_caller]
    fn check(kept: &[Option<u32>], expected: &[&str]) {
        let found: Vec<String> = letters(&line(kept)).map(|(_, letter)| letter.to_string()).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn letters_follow_the_flow_around_those_that_are_kept() {
        check(&[None, None, None], &["A", "B", "C"]);
        check(&[None, Some(0), None], &["B", "A", "C"]);
        check(&[Some(30), None, Some(1)], &["AE", "A", "B"]);
        // A file may say one letter twice: the second outlet gets another.
        check(&[Some(0), Some(0)], &["A", "B"]);
    }
}

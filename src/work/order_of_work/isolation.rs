//! Which valve parts the work from gas, and what goes out with it.
//!
//! All is asked of the piping as it stood, for that is what carries gas when the work begins.

use crate::job::{Device, Job, JointId, State, as_it_stood};
use crate::network::Network;
use crate::study::Study;

/// What is shut before pipe is opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Isolation {
    /// An existing valve: the nearest one upstream of all work.
    Valve(JointId),
    /// The supplier's valve at the point of delivery, for no drawn valve lies upstream of all work.
    Supplier(JointId),
    /// The supplier's valve, for existing pipe closes a ring or has a second source, so that one valve parts nothing.
    Every(JointId),
    /// Nothing stands at the work that carries gas.
    NothingStands,
    /// Existing pipe is drawn at the work, but nothing leads to it from a point of delivery.
    NotKnown,
}

/// An appliance that is without gas while the work is done.
#[derive(Clone, Debug, PartialEq)]
pub struct GoesOut {
    /// Its joint.
    pub joint: JointId,
    /// What it is called.
    pub name: String,
    /// What becomes of it.
    pub fate: Fate,
}

/// What becomes of an appliance that goes out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fate {
    /// It is lit again.
    Relit,
    /// It is taken away.
    Removed,
    /// It stays, but after the work no gas reaches it.
    CutOff,
}

/// What is shut, what goes out and where work meets what stands.
pub(super) struct Shut {
    pub(super) isolation: Isolation,
    pub(super) goes_out: Vec<GoesOut>,
    /// Joints with old pipe at which something new comes or something old goes.
    pub(super) work: Vec<usize>,
}

pub(super) fn find(job: &Job, study: &Study) -> Shut {
    let old = as_it_stood(job);
    let states: Vec<State> = old.runs.iter().map(|run| run.state).collect();
    let before = Network::trace(&old, &states);
    let work = work_places(job, study);
    let mut reached = vec![false; job.joints.len()];
    for &joint in &before.order {
        reached[joint] = true;
    }
    let touched: Vec<usize> = work.iter().copied().filter(|&joint| reached[joint]).collect();
    let (isolation, from) = shut(job, study, &before, &touched, !work.is_empty());
    let goes_out = from.map_or(Vec::new(), |from| goes_out(job, study, &old, &before, from));
    Shut {
        isolation,
        goes_out,
        work,
    }
}

/// Joints where what stands meets what comes or goes.
fn work_places(job: &Job, study: &Study) -> Vec<usize> {
    let is_work = |&joint: &usize| {
        let (mut stands, mut changes) = (false, false);
        for run in study.network.legs(joint) {
            let run = job.runs.at(run);
            stands |= run.state != State::New || run.replaced().is_some();
            changes |= run.state != State::Existing;
        }
        if let Some(placed) = &job.joints.at(joint).placed {
            stands |= placed.state != State::New;
            changes |= placed.state != State::Existing && !matches!(placed.device, Device::Supply(_));
        }
        stands && changes
    };
    (0..job.joints.len()).filter(is_work).collect()
}

/// What is shut, and the joint behind which all goes out.
fn shut(job: &Job, study: &Study, before: &Network, touched: &[usize], meets_old: bool) -> (Isolation, Option<usize>) {
    let supply = before.supply.filter(|_| !touched.is_empty());
    let Some(supply) = supply else {
        let isolation = match meets_old {
            true => Isolation::NotKnown,
            false => Isolation::NothingStands,
        };
        return (isolation, None);
    };
    let id = |joint: usize| job.joints.at(joint).id;
    if !before.loop_runs.is_empty() || !before.other_supplies.is_empty() || !study.network.other_supplies.is_empty() {
        return (Isolation::Every(id(supply)), Some(supply));
    }
    let last = last_common(before, touched);
    let mut way = last.into_iter().flat_map(|last| before.way_up(last));
    if let Some(joint) = way.find(|&joint| parts(job, study, before, joint)) {
        return (Isolation::Valve(id(joint)), Some(joint));
    }
    (Isolation::Supplier(id(supply)), Some(supply))
}

/// Whether a valve that stands and stays is fed by pipe that stands and stays.
fn parts(job: &Job, study: &Study, before: &Network, joint: usize) -> bool {
    let placed = job.joints.at(joint).placed.as_ref();
    let is_valve = |device: &Device| matches!(device, Device::Valve(_));
    let stays = placed.is_some_and(|placed| placed.state == State::Existing && is_valve(&placed.device));
    let Some(above) = before.upstream(joint).filter(|_| stays) else {
        return false;
    };
    let above = job.joints.at(above).id;
    let legs = study.network.legs(joint).map(|run| job.runs.at(run));
    let mut feeds = legs.filter(|run| run.from == above || run.to == above);
    feeds.all(|run| run.state == State::Existing)
}

/// The joint farthest downstream of which all these joints lie downstream, itself among them.
fn last_common(before: &Network, joints: &[usize]) -> Option<usize> {
    let mut below = vec![0usize; before.feed.len()];
    for &joint in joints {
        below[joint] += 1;
    }
    let mut last = None;
    for &joint in before.order.iter().rev() {
        if below[joint] == joints.len() && last.is_none() {
            last = Some(joint);
        }
        if let Some(above) = before.upstream(joint) {
            below[above] += below[joint];
        }
    }
    last
}

fn goes_out(job: &Job, study: &Study, old: &Job, before: &Network, from: usize) -> Vec<GoesOut> {
    let mut out = vec![false; job.joints.len()];
    let mut list = Vec::new();
    for &joint in &before.order {
        out[joint] = joint == from || before.upstream(joint).is_some_and(|above| out[above]);
        let drawn = old.joints.at(joint);
        let Some(Device::Appliance(appliance)) = drawn.device().filter(|_| out[joint]) else {
            continue;
        };
        let outlet = study.outlets.iter().find(|outlet| outlet.joint == joint);
        let goes = (job.joints.at(joint).placed.as_ref()).is_some_and(|placed| placed.state == State::Removed);
        list.push(GoesOut {
            joint: drawn.id,
            name: match (appliance.name.trim(), outlet) {
                ("", Some(outlet)) => outlet.called(),
                ("", None) => format!("appliance at {}", drawn.id),
                (name, _) => name.to_owned(),
            },
            fate: match (goes, outlet) {
                (true, _) => Fate::Removed,
                (false, Some(_)) => Fate::Relit,
                (false, None) => Fate::CutOff,
            },
        });
    }
    list
}

//! The most remote end downstream of each joint, within its zone.

use super::{Network, outlet};
use crate::job::{Device, Job};
use crate::units::Length;

/// For each joint the end downstream of it that is most remote from the point of delivery, not past a line regulator.
///
/// Ends are outlets and, for the zone that feeds them, line regulators. Other ends (a bare cap, an open end) count only
/// where no such end is downstream. Of two as remote as each other the first in flow order is taken.
pub(super) struct Ends {
    outlet: Vec<Best>,
    other: Vec<Best>,
    regulator: Vec<bool>,
}

#[derive(Clone, Copy, Default)]
struct Best(Option<(Length, usize)>);

impl Best {
    /// Takes `new` where it is as remote at least: joints are looked at against the flow, the first in flow order last.
    fn or_farther(&mut self, new: Best) {
        if new.0.map(|end| end.0) >= self.0.map(|end| end.0) {
            *self = new;
        }
    }
}

impl Ends {
    /// Finds the ends by `length`, for each joint how far it is from the point of delivery.
    pub(super) fn find(job: &Job, network: &Network, length: &[Length]) -> Ends {
        let none = vec![Best::default(); job.joints.len()];
        let mut ends = Ends {
            outlet: none.clone(),
            other: none,
            regulator: vec![false; job.joints.len()],
        };
        for &joint in network.order.iter().rev() {
            let here = Best(Some((length[joint], joint)));
            let device = job.joints.at(joint).device();
            if outlet::kind(device).is_some() {
                ends.outlet[joint].or_farther(here);
            }
            ends.other[joint].or_farther(here);
            let Some(upstream) = network.upstream(joint) else {
                continue;
            };
            ends.regulator[joint] = matches!(device, Some(Device::Regulator(_)));
            let (outlet, other) = match ends.regulator[joint] {
                true => (here, here),
                false => (ends.outlet[joint], ends.other[joint]),
            };
            ends.outlet[upstream].or_farther(outlet);
            ends.other[upstream].or_farther(other);
        }
        ends
    }

    /// The most remote end for the runs by which gas leaves a joint, the joint itself among them.
    pub(super) fn behind(&self, joint: usize) -> Option<usize> {
        self.outlet[joint].0.or(self.other[joint].0).map(|end| end.1)
    }

    /// The most remote end for the run that feeds a joint.
    pub(super) fn before(&self, joint: usize) -> usize {
        match self.regulator[joint] {
            true => joint,
            false => self.behind(joint).unwrap_or(joint),
        }
    }
}

//! The most remote end downstream of each joint, within its zone.

use super::{Network, outlet};
use crate::job::Device;
use crate::units::Length;

/// For each joint the end downstream of it that is most remote from the point of delivery, not past a line regulator.
///
/// Ends are outlets and, for the zone that feeds them, line regulators. Other ends (a bare cap, an open end) count only
/// where no such end is downstream. Of two as remote as each other the first in flow order is taken.
pub(crate) struct Ends {
    /// For each joint the most remote outlet or regulator at it and behind it, `NONE` where there is none.
    outlet: Vec<u32>,
    /// For each joint the most remote joint of any kind, itself among them.
    any: Vec<u32>,
    regulator: Vec<bool>,
}

const NONE: u32 = u32::MAX;

impl Ends {
    /// Finds the ends by `length`, for each joint how far it is from the point of delivery.
    pub(crate) fn find(network: &Network, devices: &[Option<&Device>], length: &[Length]) -> Ends {
        let mut ends = Ends {
            outlet: vec![NONE; length.len()],
            any: vec![NONE; length.len()],
            regulator: vec![false; length.len()],
        };
        // Joints are looked at against the flow: of equals the last looked at, the first in flow order, stays.
        let farther = |old: &mut u32, new: u32| {
            if new != NONE && (*old == NONE || length[new as usize] >= length[*old as usize]) {
                *old = new;
            }
        };
        for &joint in network.order.iter().rev() {
            let here = joint as u32;
            if outlet::kind(devices[joint]).is_some() {
                farther(&mut ends.outlet[joint], here);
            }
            farther(&mut ends.any[joint], here);
            let Some(upstream) = network.upstream(joint) else {
                continue;
            };
            let regulator = devices[joint].is_some_and(|device| device.nature().sets_pressure);
            ends.regulator[joint] = regulator;
            let (outlet, any) = if regulator {
                (here, here)
            } else {
                (ends.outlet[joint], ends.any[joint])
            };
            farther(&mut ends.outlet[upstream], outlet);
            farther(&mut ends.any[upstream], any);
        }
        ends
    }

    /// The most remote end for the runs by which gas leaves a joint, the joint itself among them.
    pub(crate) fn behind(&self, joint: usize) -> Option<usize> {
        let end = if self.outlet[joint] == NONE {
            self.any[joint]
        } else {
            self.outlet[joint]
        };
        (end != NONE).then_some(end as usize)
    }

    /// The most remote end for the run that feeds a joint.
    pub(crate) fn before(&self, joint: usize) -> usize {
        match self.regulator[joint] {
            true => joint,
            false => self.behind(joint).unwrap_or(joint),
        }
    }
}

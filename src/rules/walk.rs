//! What lies on the way to each joint, gathered in one walk down the tree, so that no rule walks by itself.

use super::lines::Lines;
use super::pipe::{Pipe, is_outside};
use crate::job::{Barrier, Device, DeviceKind, Job, Penetration, Run, State};
use crate::study::Study;

/// How many kinds of devices there are.
const KINDS: usize = DeviceKind::ALL.len();

/// What was passed on the way from the point of delivery to a joint, the joint itself left out.
#[derive(Clone, Copy, Debug)]
struct Way {
    /// The nearest joint with a device of each kind.
    nearest: [u32; KINDS],
    /// How many branchings.
    branchings: u32,
    /// How many walls, floors and changes between inside and outside.
    walls: u32,
    /// The same just after leaving the joint, when one run leaves it.
    walls_leaving: u32,
    /// Whether it has passed the wall of the building, and its location is still that of before.
    has_left: bool,
}

const NONE: u32 = u32::MAX;

/// Facts that several rules need. Numbers of joints and runs are positions in the job's stores.
#[derive(Clone, Debug)]
pub struct Walk {
    /// Runs that are not to be removed, in the order of the job.
    pub pipes: Vec<Pipe>,
    /// Runs, not to be removed, that pass through something.
    pub piercing: Vec<usize>,
    /// The lines of the lattice on which the runs lie.
    pub lines: Lines,
    devices: [Vec<usize>; KINDS],
    kinds: Vec<Option<DeviceKind>>,
    live_legs: Vec<u32>,
    outlets: Vec<Option<u32>>,
    reached: Vec<bool>,
    ways: Vec<Way>,
}

impl Walk {
    /// Walks a studied job once.
    pub fn of(job: &Job, study: &Study) -> Walk {
        let joints = job.joints.len();
        let mut walk = Walk {
            pipes: Vec::with_capacity(job.runs.len()),
            piercing: Vec::new(),
            lines: Lines::default(),
            devices: Default::default(),
            kinds: Vec::with_capacity(joints),
            live_legs: vec![0; joints],
            outlets: vec![None; joints],
            reached: vec![false; joints],
            ways: vec![
                Way {
                    nearest: [NONE; KINDS],
                    branchings: 0,
                    walls: 0,
                    walls_leaving: 0,
                    has_left: false,
                };
                joints
            ],
        };
        for (number, joint) in job.joints.iter().enumerate() {
            let kind = joint.device().map(Device::kind);
            if let Some(kind) = kind {
                walk.devices[kind as usize].push(number);
            }
            walk.kinds.push(kind);
        }
        for (number, run) in job.runs.iter().enumerate() {
            if run.state == State::Removed {
                continue;
            }
            walk.pipes.push(Pipe {
                run: number,
                material: job.material(run),
                surroundings: run.surroundings,
                state: run.state,
                is_hose: study.runs[number].is_hose,
            });
            if !run.penetrations.is_empty() {
                walk.piercing.push(number);
            }
            let other = (run.to != run.from).then_some(run.to);
            for joint in std::iter::once(run.from)
                .chain(other)
                .filter_map(|end| job.joints.position(end))
            {
                walk.live_legs[joint] += 1;
            }
        }
        walk.lines = Lines::of(job, &walk.pipes);
        for (number, outlet) in study.outlets.iter().enumerate() {
            walk.outlets[outlet.joint] = Some(number as u32);
        }
        walk.follow(job, study);
        walk
    }

    /// Carries what was passed from each joint to the next ones.
    fn follow(&mut self, job: &Job, study: &Study) {
        let network = &study.network;
        let mut leaving = vec![0_u32; self.ways.len()];
        for &(from, _) in network.ends.iter().flatten() {
            leaving[from] += 1;
        }
        for &joint in &network.order {
            self.reached[joint] = true;
            let Some(feed) = network.feed[joint] else { continue };
            let Some((from, _)) = network.ends[feed] else { continue };
            let run = job.runs.at(feed);
            let mut way = self.ways[from];
            if let Some(kind) = self.kinds[from] {
                way.nearest[kind as usize] = from as u32;
            }
            way.branchings += u32::from(leaving[from] > 1);
            let before = network.feed[from].map(|run| job.runs.at(run));
            // Pipe that has passed the wall of the building is outdoors, whatever is said of it: where its location changes behind
            // the wall, there is no other wall.
            let changes = before.is_some_and(|before| is_outside(before.surroundings) != is_outside(run.surroundings));
            way.walls += u32::from(changes && !way.has_left);
            let leaves = |passage: &Penetration| matches!(passage.barrier, Barrier::ExteriorWall | Barrier::Foundation);
            way.has_left = !changes && (way.has_left || run.penetrations.iter().any(leaves));
            self.ways[from].walls_leaving = way.walls;
            way.walls += run
                .penetrations
                .iter()
                .filter(|passage| is_wall(passage.barrier))
                .count() as u32;
            self.ways[joint] = way;
        }
    }

    /// Joints with a device of a kind that is not to be removed, in the order of the job.
    pub fn all(&self, kind: DeviceKind) -> &[usize] {
        &self.devices[kind as usize]
    }

    /// What stands on a joint, unless it is to be removed.
    pub fn kind(&self, joint: usize) -> Option<DeviceKind> {
        self.kinds[joint]
    }

    /// How many runs, not to be removed, meet at a joint.
    pub fn live_legs(&self, joint: usize) -> usize {
        self.live_legs[joint] as usize
    }

    /// Whether gas reaches a joint.
    pub fn reaches(&self, joint: usize) -> bool {
        self.reached[joint]
    }

    /// The outlet at a joint, a position in `study.outlets`.
    pub fn outlet(&self, joint: usize) -> Option<usize> {
        self.outlets[joint].map(|outlet| outlet as usize)
    }

    /// The nearest device of a kind upstream of a joint.
    pub fn upstream(&self, joint: usize, kind: DeviceKind) -> Option<usize> {
        let nearest = *self.ways[joint].nearest.get(kind as usize)?;
        (nearest != NONE).then_some(nearest as usize)
    }

    /// The same, when it serves this joint alone: no branching lies between.
    pub fn own(&self, joint: usize, kind: DeviceKind) -> Option<usize> {
        self.upstream(joint, kind)
            .filter(|&device| self.ways[device].branchings == self.ways[joint].branchings)
    }

    /// Whether a joint and one upstream of it, with no branching between, stand in one room or both outdoors.
    pub fn one_room(&self, upstream: usize, joint: usize) -> bool {
        self.ways[upstream].walls_leaving == self.ways[joint].walls
    }

    /// How many branchings lie upstream of a joint.
    pub fn branchings(&self, joint: usize) -> u32 {
        self.ways[joint].branchings
    }
}

/// Whether a run passes through what parts two rooms, or a room from the outdoors.
pub fn is_pierced(run: &Run) -> bool {
    run.penetrations.iter().any(|passage| is_wall(passage.barrier))
}

/// Whether a barrier parts two rooms, or a room from the outdoors. The ground line does not.
pub fn is_wall(barrier: Barrier) -> bool {
    !matches!(barrier, Barrier::Ground)
}

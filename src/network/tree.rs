//! Which way the gas flows: the tree that hangs from the point of delivery.

use crate::job::{Device, Job, State};

/// The piping as a tree of dense indexes. Pipe to be removed is no part of it.
///
/// Joint and run numbers here are positions in `job.joints` and `job.runs`. Children of a joint come in the order of
/// their runs' ids, so that the same job always gives the same tree.
#[derive(Clone, Debug, Default)]
pub struct Network {
    /// The joint of the first point of delivery, where there is one.
    pub supply: Option<usize>,
    /// Joints that gas reaches, each after the one upstream of it, a branch finished before the next (depth first).
    pub order: Vec<usize>,
    /// For each joint the run that feeds it.
    pub feed: Vec<Option<usize>>,
    /// For each run its joint upstream and its joint downstream, when gas reaches it through the tree.
    pub ends: Vec<Option<(usize, usize)>>,
    /// For each joint where its runs begin in `legs`; one longer than the joints.
    pub leg_start: Vec<u32>,
    /// The runs that meet at each joint, removed ones too.
    pub legs: Vec<u32>,
    /// Further points of delivery, which this tool does not feed from.
    pub other_supplies: Vec<usize>,
    /// Runs that close a loop, so that they are no part of the tree.
    pub loop_runs: Vec<usize>,
    /// Runs, not to be removed, that no gas reaches.
    pub unreached: Vec<usize>,
    /// The runs of `loop_runs` that join two joints.
    pub(crate) closings: Vec<Closing>,
    /// For each run the joints of its `from` and `to`; `None` for a run that names a joint which is not there.
    pub(crate) joints_of: Vec<Option<(usize, usize)>>,
    /// For each joint the one upstream of it, `NONE` where there is none: small, since every step asks it.
    above: Vec<u32>,
}

const NONE: u32 = u32::MAX;

/// A run that closes a ring. A branch is finished before the next, so that one of its ends is always upstream of the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Closing {
    pub(crate) run: usize,
    /// The end to which the tree comes later: the way round the ring goes on from here.
    pub(crate) from: usize,
    /// The end upstream of it.
    pub(crate) to: usize,
}

impl Network {
    /// The runs that meet at a joint.
    pub fn legs(&self, joint: usize) -> impl DoubleEndedIterator<Item = usize> + Clone + '_ {
        self.legs[self.leg_start[joint] as usize..self.leg_start[joint + 1] as usize]
            .iter()
            .map(|&run| run as usize)
    }

    /// The joint upstream of a joint.
    pub fn upstream(&self, joint: usize) -> Option<usize> {
        let above = self.above[joint];
        (above != NONE).then_some(above as usize)
    }

    /// A joint and all upstream of it, up to the point of delivery.
    pub fn way_up(&self, joint: usize) -> impl Iterator<Item = usize> + '_ {
        std::iter::successors(Some(joint), |&at| self.upstream(at))
    }

    /// Whether all gas that comes to a joint has come by another one, or it is that one.
    pub fn is_behind(&self, joint: usize, other: usize) -> bool {
        self.way_up(joint).any(|at| at == other)
    }

    /// The runs by which gas leaves a joint.
    pub fn onward(&self, joint: usize) -> impl Iterator<Item = usize> + '_ {
        self.legs(joint)
            .filter(move |&run| self.ends[run].is_some_and(|(from, _)| from == joint))
    }

    /// Follows the gas from the first point of delivery through a job; `states` is that of each run.
    pub(crate) fn trace(job: &Job, states: &[State]) -> Network {
        let mut network = Network {
            above: vec![NONE; job.joints.len()],
            feed: vec![None; job.joints.len()],
            ends: vec![None; job.runs.len()],
            ..Network::default()
        };
        network.join(job);
        let mut supplies =
            (0..job.joints.len()).filter(|&joint| matches!(job.joints.at(joint).device(), Some(Device::Supply(_))));
        network.supply = supplies.next();
        network.other_supplies = supplies.collect();
        let reached = network.flow(states);
        for (run, ends) in network.joints_of.iter().enumerate() {
            if network.ends[run].is_some() || states[run] == State::Removed {
                continue;
            }
            match ends {
                Some((from, _)) if reached[*from] => network.loop_runs.push(run),
                _ => network.unreached.push(run),
            }
        }
        network.close();
        network
    }

    /// Finds the ends of the runs that close rings.
    fn close(&mut self) {
        if self.loop_runs.is_empty() {
            return;
        }
        let mut place = vec![0; self.feed.len()];
        for (at, &joint) in self.order.iter().enumerate() {
            place[joint] = at;
        }
        for &run in &self.loop_runs {
            if let Some((a, b)) = self.joints_of[run].filter(|(a, b)| a != b) {
                let (from, to) = if place[a] > place[b] { (a, b) } else { (b, a) };
                self.closings.push(Closing { run, from, to });
            }
        }
    }

    /// Finds which runs meet at which joint.
    fn join(&mut self, job: &Job) {
        self.joints_of = job
            .runs
            .iter()
            .map(|run| Some((job.joints.position(run.from)?, job.joints.position(run.to)?)))
            .collect();
        let joints = job.joints.len();
        let mut start = vec![0u32; joints + 1];
        let ends = |&(from, to): &(usize, usize)| std::iter::once(from).chain((to != from).then_some(to));
        for joint in self.joints_of.iter().flatten().flat_map(ends) {
            start[joint + 1] += 1;
        }
        for joint in 0..joints {
            start[joint + 1] += start[joint];
        }
        let mut next = start.clone();
        self.legs = vec![0; start[joints] as usize];
        for (run, both) in self.joints_of.iter().enumerate() {
            for joint in both.iter().flat_map(ends) {
                self.legs[next[joint] as usize] = run as u32;
                next[joint] += 1;
            }
        }
        self.leg_start = start;
    }

    /// Walks the tree, without recursion: a job may be one chain of ten thousand runs. Gives which joints were reached.
    fn flow(&mut self, states: &[State]) -> Vec<bool> {
        let mut reached = vec![false; self.feed.len()];
        let mut waiting: Vec<(usize, Option<(usize, usize)>)> =
            self.supply.map(|joint| (joint, None)).into_iter().collect();
        while let Some((joint, from)) = waiting.pop() {
            if std::mem::replace(&mut reached[joint], true) {
                continue;
            }
            self.order.push(joint);
            if let Some((run, upstream)) = from {
                self.feed[joint] = Some(run);
                self.ends[run] = Some((upstream, joint));
                self.above[joint] = upstream as u32;
            }
            // The last pushed is walked first.
            for run in self.legs(joint).rev() {
                let Some((a, b)) = self.joints_of[run] else { continue };
                let beyond = if a == joint { b } else { a };
                if !reached[beyond] && states[run] != State::Removed {
                    waiting.push((beyond, Some((run, joint))));
                }
            }
        }
        reached
    }
}

#[cfg(test)]
mod tests {
    use super::super::tree::*;
    use crate::job::{Joint, JointId, Placed, Run, RunId, Supply};
    use crate::units::GaugePressure;

    fn trace(job: &Job) -> Network {
        let states: Vec<State> = job.runs.iter().map(|run| run.state).collect();
        Network::trace(job, &states)
    }

    /// A job of runs between numbered joints, fed at joint 1.
    fn job(runs: &[(u32, u32, State)]) -> Job {
        let mut job = Job::default();
        let last = runs.iter().flat_map(|run| [run.0, run.1]).max().unwrap_or(1);
        for id in 1..=last {
            job.joints.insert(Joint {
                id: JointId(id),
                ..Joint::default()
            });
        }
        for (at, &(from, to, state)) in runs.iter().enumerate() {
            let id = RunId(at as u32 + 1);
            job.runs.insert(Run {
                id,
                from: JointId(from),
                to: JointId(to),
                state,
                ..Run::default()
            });
        }
        feed(&mut job, 1);
        job
    }

    fn feed(job: &mut Job, joint: u32) {
        let pressure = GaugePressure::from_inches_wc(7.0);
        let supply = Device::Supply(Supply {
            pressure: Some(pressure),
            meter: None,
            regulator: None,
            ..Supply::default()
        });
        if let Some(joint) = job.joints.get_mut(JointId(joint)) {
            joint.placed = Some(Placed::new(supply));
        }
    }

    #[test]
    fn a_branch_is_finished_before_the_next() {
        //   1 ─ 2 ─ 3 ─ 4
        //       └ 5 ─ 6
        let network = trace(&job(&[
            (1, 2, State::New),
            (3, 2, State::Existing),
            (5, 2, State::New),
            (3, 4, State::New),
            (6, 5, State::New),
        ]));
        assert_eq!(network.order, [0, 1, 2, 3, 4, 5]);
        assert_eq!(network.ends[1], Some((1, 2)));
        assert_eq!(network.feed[5], Some(4));
        assert_eq!(network.upstream(5), Some(4));
        assert_eq!(network.onward(1).collect::<Vec<_>>(), [1, 2]);
        assert!(network.loop_runs.is_empty() && network.unreached.is_empty());
    }

    #[test]
    fn a_ring_is_opened_and_told() {
        let network = trace(&job(&[
            (1, 2, State::New),
            (2, 3, State::New),
            (3, 4, State::New),
            (4, 2, State::New),
        ]));
        assert_eq!(network.order.len(), 4);
        assert_eq!(network.loop_runs, [3]);
        let closing = Closing { run: 3, from: 3, to: 1 };
        assert_eq!(network.closings, [closing]);
        let to_itself = trace(&job(&[(1, 2, State::New), (2, 2, State::New)]));
        assert_eq!(to_itself.loop_runs, [1]);
        assert!(to_itself.closings.is_empty());
    }

    #[test]
    fn removed_pipe_carries_nothing_on() {
        let network = trace(&job(&[(1, 2, State::New), (2, 3, State::Removed), (3, 4, State::New)]));
        assert_eq!(network.order, [0, 1]);
        assert_eq!(network.unreached, [2]);
        assert_eq!(network.legs(1).collect::<Vec<_>>(), [0, 1]);
    }

    #[test]
    fn the_first_supply_feeds_and_the_second_is_told() {
        let mut two = job(&[(1, 2, State::New)]);
        feed(&mut two, 2);
        let network = trace(&two);
        assert_eq!((network.supply, network.other_supplies), (Some(0), vec![1]));
    }

    #[test]
    fn a_run_with_a_joint_that_is_not_there_is_unreached() {
        let mut job = job(&[(1, 2, State::New)]);
        job.runs.insert(Run {
            id: RunId(7),
            from: JointId(2),
            to: JointId(99),
            ..Run::default()
        });
        assert_eq!(trace(&job).unreached, [1]);
        assert!(trace(&Job::default()).order.is_empty());
    }
}

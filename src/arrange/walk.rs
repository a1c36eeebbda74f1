//! The joints of a job in an order in which all that hangs behind a run follows it, and the runs that close no loop.

use crate::job::{Device, Job};

/// A walk through all joints, depth first. Joints are numbered in its order; a part of the piping that is not joined to
/// the point of delivery begins at a root of its own.
pub struct Walk {
    /// The positions of the joints in `job.joints`.
    pub order: Vec<usize>,
    /// For each joint the one by which the walk came to it.
    pub above: Vec<Option<u32>>,
    /// For each joint how many runs it is from its root.
    pub depth: Vec<u32>,
    /// For each joint the run by which the walk came to it.
    pub feed: Vec<Option<usize>>,
    /// For each joint the number after the last that hangs behind it.
    pub end: Vec<u32>,
    /// For each run whether the piping falls in two without it.
    pub is_bridge: Vec<bool>,
    /// For each joint the earliest that is reached from it and from what hangs behind it, not by the way it was come to.
    low: Vec<u32>,
    /// The number of each joint, by position.
    at: Vec<Option<u32>>,
}

impl Walk {
    /// Walks from the point of delivery, then from the first joint of each other part; `ends` are the positions of the
    /// joints of each run.
    pub fn of(job: &Job, ends: &[Option<[usize; 2]>]) -> Walk {
        let count = job.joints.len();
        let mut legs: Vec<Vec<u32>> = vec![Vec::new(); count];
        for (run, ends) in ends.iter().enumerate() {
            if let Some([a, b]) = ends.filter(|[a, b]| a != b) {
                legs[a].push(run as u32);
                legs[b].push(run as u32);
            }
        }
        let mut walk = Walk {
            order: Vec::with_capacity(count),
            above: Vec::with_capacity(count),
            depth: Vec::with_capacity(count),
            feed: Vec::with_capacity(count),
            end: vec![0; count],
            is_bridge: vec![false; ends.len()],
            low: Vec::with_capacity(count),
            at: vec![None; count],
        };
        let is_supply = |joint: &usize| matches!(job.joints.at(*joint).device(), Some(Device::Supply(_)));
        for root in (0..count).find(is_supply).into_iter().chain(0..count) {
            if walk.at[root].is_none() {
                walk.part(root, &legs, ends);
            }
        }
        walk
    }

    fn part(&mut self, root: usize, legs: &[Vec<u32>], ends: &[Option<[usize; 2]>]) {
        // The way from the root, with how many legs of each joint were tried.
        let mut path = vec![(self.enter(root, None, None), 0)];
        while let Some((number, tried)) = path.last_mut() {
            let (number, joint) = (*number, self.order[*number as usize]);
            let Some(run) = legs[joint].get(*tried).map(|run| *run as usize) else {
                path.pop();
                self.leave(number);
                continue;
            };
            *tried += 1;
            let Some([a, b]) = ends[run].filter(|_| self.feed[number as usize] != Some(run)) else {
                continue;
            };
            let other = if a == joint { b } else { a };
            match self.at[other] {
                Some(known) => self.low[number as usize] = self.low[number as usize].min(known),
                None => path.push((self.enter(other, Some(run), Some(number)), 0)),
            }
        }
    }

    fn enter(&mut self, joint: usize, feed: Option<usize>, above: Option<u32>) -> u32 {
        let number = self.order.len() as u32;
        self.at[joint] = Some(number);
        self.order.push(joint);
        self.above.push(above);
        self.depth.push(above.map_or(0, |above| self.depth[above as usize] + 1));
        self.feed.push(feed);
        self.low.push(number);
        number
    }

    fn leave(&mut self, number: u32) {
        let at = number as usize;
        self.end[at] = self.order.len() as u32;
        if let (Some(above), Some(feed)) = (self.above[at], self.feed[at]) {
            self.is_bridge[feed] = self.low[at] == number;
            self.low[above as usize] = self.low[above as usize].min(self.low[at]);
        }
    }
}

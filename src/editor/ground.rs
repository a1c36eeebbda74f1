//! Where everything lies, close together in memory: what a draft looks through when it asks for neighbours.
//!
//! A job of 10,000 runs is some megabytes of joints and runs; their places and ends alone are a few hundred kilobytes.

use super::line;
use crate::job::{Job, JointId, LatticePoint};

/// Stands for a joint that is not there.
pub(super) const NONE: u32 = u32::MAX;

/// The places of joints and the ends of runs, by position.
#[derive(Clone, Debug, Default)]
pub struct Ground {
    /// The place of each joint; `None` once it is taken out.
    pub(super) places: Vec<Option<LatticePoint>>,
    /// The joints at the ends of each run.
    pub(super) ends: Vec<[u32; 2]>,
}

impl Ground {
    /// The ground of a job.
    pub fn of(job: &Job) -> Ground {
        let position = |id: JointId| job.joints.position(id).map_or(NONE, |at| at as u32);
        Ground {
            places: job.joints.iter().map(|joint| Some(joint.at)).collect(),
            ends: job
                .runs
                .iter()
                .map(|run| [position(run.from), position(run.to)])
                .collect(),
        }
    }

    /// The first joint at a place that a condition lets pass.
    pub fn joint_at(&self, at: LatticePoint, mut passes: impl FnMut(usize) -> bool) -> Option<usize> {
        let here = self.places.iter().enumerate().filter(|(_, place)| **place == Some(at));
        here.map(|(joint, _)| joint).find(|joint| passes(*joint))
    }

    /// The first run over a place that a condition lets pass.
    pub fn run_over(&self, at: LatticePoint, mut passes: impl FnMut(usize) -> bool) -> Option<usize> {
        let over = |run: usize| self.line(run).is_some_and(|[a, b]| line::passes(a, b, at));
        (0..self.ends.len()).find(|run| over(*run) && passes(*run))
    }

    /// The runs that meet at a joint.
    pub fn runs_at(&self, joint: usize) -> impl Iterator<Item = usize> + '_ {
        let joint = joint as u32;
        let ends = self.ends.iter().enumerate();
        ends.filter(move |(_, ends)| ends.contains(&joint)).map(|(run, _)| run)
    }

    /// The places of a run's ends.
    pub fn line(&self, run: usize) -> Option<[LatticePoint; 2]> {
        let [from, to] = self.ends[run];
        Some([self.place(from)?, self.place(to)?])
    }

    pub(super) fn place(&self, joint: u32) -> Option<LatticePoint> {
        self.places.get(joint as usize).copied().flatten()
    }
}

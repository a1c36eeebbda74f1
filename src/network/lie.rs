//! How runs truly lie: the line that each slope leaves, and the way that it goes where it was measured.

use super::Network;
use crate::job::{Axis, Direction, Job, LatticePoint};

/// Two dense tables, by positions in `job.runs`.
pub(crate) struct Lie {
    /// The way of each run from its `from` to its `to`: as measured where it is an offset with measures, in steps of its
    /// own, else in steps of the lattice. Only its angles count. No way at all for a run without both joints.
    pub(crate) ways: Vec<Direction>,
    /// For each slope the axis of the square line that it leaves; of a slope of several runs in line, the first that has one.
    pub(crate) lines: Vec<Option<Axis>>,
}

impl Lie {
    pub(crate) fn of(job: &Job, network: &Network, places: &[LatticePoint]) -> Lie {
        let drawn =
            |run: usize| network.joints_of[run].map_or(Direction::default(), |(from, to)| places[to] - places[from]);
        let mut ways: Vec<Direction> = (0..job.runs.len()).map(drawn).collect();
        let slopes = (0..ways.len()).filter(|&run| ways[run].axis().is_none() && !ways[run].is_zero());
        let slopes: Vec<usize> = slopes.collect();
        let lines = lines(network, &ways, &slopes);
        for run in slopes {
            if let (Some(Ok(offset)), Some(line)) = (job.runs.at(run).measured(), lines[run])
                && let Some(way) = offset.way(ways[run], line)
            {
                ways[run] = way;
            }
        }
        Lie { ways, lines }
    }
}

/// The line before each slope, or else the line behind it; slopes in line with one have the same.
fn lines(network: &Network, ways: &[Direction], slopes: &[usize]) -> Vec<Option<Axis>> {
    let mut lines = vec![None; ways.len()];
    let mut told = Vec::new();
    let beside = |run: usize| {
        let ends = network.ends[run].or(network.joints_of[run]);
        let joints = ends.into_iter().flat_map(|(from, to)| [from, to]);
        joints
            .flat_map(|joint| network.legs(joint))
            .filter(move |&leg| leg != run)
    };
    for &run in slopes {
        lines[run] = beside(run).find_map(|leg| ways[leg].axis());
        told.extend(lines[run].map(|_| run));
    }
    while let Some(run) = told.pop() {
        for next in beside(run) {
            if lines[next].is_none() && !ways[next].is_zero() && ways[next].is_parallel_to(ways[run]) {
                lines[next] = lines[run];
                told.push(next);
            }
        }
    }
    lines
}

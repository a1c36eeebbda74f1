//! Which drawn lengths of a job may change, and what moves with each.
//!
//! Piping that closes no loop is a tree: each of its runs has a drawn length of its own, and all beyond it moves with it.
//! Where runs close a loop they share the levels of their joints along each axis, so that the loop stays closed. Risers
//! that pass one floor together share one length, so that a storey keeps its level. A run whose figures would follow
//! from another drawn length otherwise keeps it.

use super::walk::Walk;
use crate::job::{Axis, Barrier, Direction, Job, LatticePoint, Offset, Run};
use std::collections::BTreeMap;

/// What a change of one lever by one step moves: each joint of a range, by so many steps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shift {
    /// The first of them, in the frame's order.
    pub from: u32,
    /// The one after the last.
    pub to: u32,
    /// By what.
    pub by: Direction,
}

/// A drawn length that may change.
#[derive(Clone, Debug, Default)]
pub struct Lever {
    /// What moves when it grows by one step.
    pub shifts: Vec<Shift>,
    /// The runs that grow with it, by position in `job.runs`.
    pub runs: Vec<u32>,
    /// Its length as drawn, in steps of its own.
    pub drawn: i32,
}

/// A run as it is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Edge {
    /// The joints at its ends, in the frame's order.
    pub ends: [u32; 2],
    /// The shortest way along it between two places of the lattice; none for a run of no length.
    pub unit: Direction,
    /// Whether its drawn length may change.
    pub may_change: bool,
}

/// The joints of a job in an order in which all that hangs behind a run follows it, and the levers between them.
#[derive(Debug, Default)]
pub struct Frame {
    /// The positions of the joints in `job.joints`.
    pub order: Vec<usize>,
    /// For each joint in order the one before it on the way to the root.
    pub above: Vec<Option<u32>>,
    /// For each joint in order how far it is from the root.
    pub depth: Vec<u32>,
    /// For each joint in order the run by which the walk came to it.
    pub feed: Vec<Option<usize>>,
    /// For each joint in order the lever of the run that leads to it.
    pub lever_to: Vec<Option<u32>>,
    /// For each run how it is drawn; `None` where it lacks a joint.
    pub edges: Vec<Option<Edge>>,
    /// All levers.
    pub levers: Vec<Lever>,
    /// Those that move more than what hangs behind one run.
    pub wide: Vec<u32>,
    /// The first joint of each part that is not joined to the first, with the levers that move all of it east and north.
    pub islands: Vec<(u32, [usize; 2])>,
    /// The runs whose lengths are written down.
    written: Vec<usize>,
}

/// A loop has no more levels than this, or it keeps its drawn lengths.
const MOST_LEVELS: usize = 400;
/// Of more parts that are not joined, the rest stay where they are.
const MOST_ISLANDS: usize = 24;

impl Frame {
    /// The frame of a job; `None` where it has no run.
    pub fn of(job: &Job) -> Option<Frame> {
        let ends: Vec<Option<[usize; 2]>> = job
            .runs
            .iter()
            .map(|run| Some([job.joints.position(run.from)?, job.joints.position(run.to)?]))
            .collect();
        ends.iter().flatten().next()?;
        let walk = Walk::of(job, &ends);
        let mut at = vec![0u32; job.joints.len()];
        for (number, joint) in walk.order.iter().enumerate() {
            at[*joint] = number as u32;
        }
        let place = |joint: usize| job.joints.at(joint).at;
        let edges: Vec<Option<Edge>> = job
            .runs
            .iter()
            .zip(&ends)
            .map(|(run, ends)| {
                ends.map(|[from, to]| {
                    let way = place(to) - place(from);
                    Edge {
                        ends: [at[from], at[to]],
                        unit: unit(way),
                        may_change: may_change(job, run, way),
                    }
                })
            })
            .collect();
        let written = (0..edges.len())
            .filter(|&run| edges[run].is_some_and(|edge| edge.may_change) && job.runs.at(run).given_length().is_none())
            .collect();
        let mut frame = Frame {
            above: walk.above,
            depth: walk.depth,
            lever_to: vec![None; walk.order.len()],
            order: walk.order,
            edges,
            levers: Vec::new(),
            wide: Vec::new(),
            islands: Vec::new(),
            written,
            feed: walk.feed.clone(),
        };
        frame.lever_trees(job, &walk.feed, &walk.end, &walk.is_bridge);
        frame.lever_loops(job, &walk.feed, &walk.end, &walk.is_bridge);
        frame.lever_islands(&walk.end);
        Some(frame)
    }

    /// The runs, by position, whose drawn lengths may change and whose true lengths nobody typed.
    pub fn written(&self) -> impl Iterator<Item = usize> + '_ {
        self.written.iter().copied()
    }

    /// A lever for each run that closes no loop; one for all risers that pass one floor together.
    fn lever_trees(&mut self, job: &Job, feed: &[Option<usize>], end: &[u32], is_bridge: &[bool]) {
        let mut storeys: BTreeMap<(i32, i32), u32> = BTreeMap::new();
        for number in 0..self.order.len() {
            let Some(run) = feed[number].filter(|&run| is_bridge[run]) else {
                continue;
            };
            let Some(edge) = self.edges[run].filter(|edge| edge.may_change) else {
                continue;
            };
            let [from, to] = edge.ends.map(|end| self.place(job, end));
            let way = to - from;
            let by = if edge.ends[1] == number as u32 {
                edge.unit
            } else {
                -edge.unit
            };
            let shift = Shift {
                from: number as u32,
                to: end[number],
                by,
            };
            let lever = self.levers.len() as u32;
            let run_passes_floor = || (job.runs.at(run).penetrations.iter()).any(|it| it.barrier == Barrier::Floor);
            let storey =
                (way.axis() == Some(Axis::Up) && run_passes_floor()).then(|| (from.up.min(to.up), from.up.max(to.up)));
            if let Some(known) = storey.and_then(|storey| storeys.get(&storey).copied()) {
                self.lever_to[number] = Some(known);
                let shared = &mut self.levers[known as usize];
                shared.shifts.push(shift);
                shared.runs.push(run as u32);
                if !self.wide.contains(&known) {
                    self.wide.push(known);
                }
                continue;
            }
            if let Some(storey) = storey {
                storeys.insert(storey, lever);
            }
            self.lever_to[number] = Some(lever);
            self.levers.push(Lever {
                shifts: vec![shift],
                runs: vec![run as u32],
                drawn: count(way),
            });
        }
    }

    /// Levers for the levels of what hangs together by closed ways.
    fn lever_loops(&mut self, job: &Job, feed: &[Option<usize>], end: &[u32], is_bridge: &[bool]) {
        // The first joint of each such part, by joint.
        let mut first: Vec<u32> = (0..self.order.len() as u32).collect();
        let mut members: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
        let mut runs: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
        let mut joined = vec![false; self.order.len()];
        for (run, edge) in self.edges.iter().enumerate() {
            if let Some(edge) = edge.filter(|edge| !is_bridge[run] && edge.ends[0] != edge.ends[1]) {
                joined[edge.ends[0] as usize] = true;
                joined[edge.ends[1] as usize] = true;
            }
        }
        for number in 0..self.order.len() {
            if feed[number].is_some_and(|run| !is_bridge[run])
                && let Some(above) = self.above[number]
            {
                first[number] = first[above as usize];
            }
            if joined[number] {
                members.entry(first[number]).or_default().push(number as u32);
            }
        }
        for (run, edge) in self.edges.iter().enumerate() {
            if let Some(edge) = edge.filter(|edge| !is_bridge[run] && edge.ends[0] != edge.ends[1]) {
                runs.entry(first[edge.ends[0] as usize]).or_default().push(run);
            }
        }
        for (root, joints) in &members {
            let runs = runs.get(root).map_or(&[][..], Vec::as_slice);
            self.lever_levels(job, *root, joints, runs, end);
        }
    }

    fn lever_levels(&mut self, job: &Job, root: u32, joints: &[u32], runs: &[usize], end: &[u32]) {
        for axis in [Axis::East, Axis::North, Axis::Up] {
            let along = |number: u32| along(self.place(job, number), axis);
            let mut levels: Vec<i32> = joints.iter().map(|number| along(*number)).collect();
            levels.sort_unstable();
            levels.dedup();
            if levels.len() > MOST_LEVELS {
                return;
            }
            let spans = |run: usize, low: i32, high: i32| {
                self.edges[run].is_some_and(|edge| {
                    let [a, b] = edge.ends.map(along);
                    a.min(b) <= low && high <= a.max(b)
                })
            };
            let is_free =
                |run: &usize| self.edges[*run].is_some_and(|edge| edge.may_change && edge.unit.axis().is_some());
            let mut found = Vec::new();
            for gap in levels.windows(2) {
                let spanning: Vec<usize> = runs.iter().copied().filter(|&run| spans(run, gap[0], gap[1])).collect();
                if !spanning.iter().all(is_free) {
                    continue;
                }
                let unit = axis_unit(axis);
                let beyond_root = along(root) <= gap[0];
                let moves = |number: u32| match beyond_root {
                    true => along(number) >= gap[1],
                    false => along(number) <= gap[0],
                };
                let by = if beyond_root { unit } else { -unit };
                found.push(Lever {
                    shifts: ranges(root, end[root as usize], joints, &self.above, moves, by),
                    runs: spanning.iter().map(|&run| run as u32).collect(),
                    drawn: gap[1] - gap[0],
                });
            }
            for lever in found {
                self.wide.push(self.levers.len() as u32);
                self.levers.push(lever);
            }
        }
    }

    /// Piping that is not joined to the point of delivery may move aside as a whole, never up or down.
    fn lever_islands(&mut self, end: &[u32]) {
        let roots: Vec<u32> = (0..self.order.len() as u32)
            .filter(|&number| self.above[number as usize].is_none())
            .collect();
        for &root in roots.iter().skip(1).take(MOST_ISLANDS) {
            let first = self.levers.len();
            for by in [Direction::new(1, 0, 0), Direction::new(0, 1, 0)] {
                self.wide.push(self.levers.len() as u32);
                self.levers.push(Lever {
                    shifts: vec![Shift {
                        from: root,
                        to: end[root as usize],
                        by,
                    }],
                    runs: Vec::new(),
                    drawn: 0,
                });
            }
            self.islands.push((root, [first, first + 1]));
        }
    }

    fn place(&self, job: &Job, number: u32) -> LatticePoint {
        job.joints.at(self.order[number as usize]).at
    }
}

/// How many of its shortest ways a way is long.
pub fn count(way: Direction) -> i32 {
    common(common(way.east.abs(), way.north.abs()), way.up.abs())
}

fn unit(way: Direction) -> Direction {
    match count(way) {
        0 => Direction::default(),
        by => Direction::new(way.east / by, way.north / by, way.up / by),
    }
}

fn common(a: i32, b: i32) -> i32 {
    if b == 0 { a } else { common(b, a % b) }
}

/// How far a place lies along an axis.
pub const fn along(at: LatticePoint, axis: Axis) -> i32 {
    match axis {
        Axis::East => at.east,
        Axis::North => at.north,
        Axis::Up => at.up,
    }
}

const fn axis_unit(axis: Axis) -> Direction {
    match axis {
        Axis::East => Direction::new(1, 0, 0),
        Axis::North => Direction::new(0, 1, 0),
        Axis::Up => Direction::new(0, 0, 1),
    }
}

/// Whether a run may be drawn longer or shorter and every figure stay: its true length is typed or can be, and of a slope
/// the angle stays the same to the last digit.
fn may_change(job: &Job, run: &Run, way: Direction) -> bool {
    if way.is_zero() {
        return false;
    }
    let misfits = matches!(run.measured(), Some(Err(_)));
    match (way.axis(), run.given_length()) {
        (Some(_), Some(_)) => true,
        (Some(_), None) => !misfits,
        (None, Some(_)) => true,
        (None, None) => {
            let step = job.settings.step;
            let typed = Some(job.drawn_length(run));
            let same = |line| Offset::drawn(way, line, step, None) == Offset::drawn(unit(way), line, step, typed);
            !misfits && [Axis::East, Axis::North, Axis::Up].into_iter().all(same)
        }
    }
}

/// The ranges of joints behind `root` that move, when of the joints of its loop these do, and what hangs behind each
/// moves with it.
fn ranges(
    root: u32,
    end: u32,
    joints: &[u32],
    above: &[Option<u32>],
    moves: impl Fn(u32) -> bool,
    by: Direction,
) -> Vec<Shift> {
    let mut moved = vec![false; (end - root) as usize];
    let mut shifts: Vec<Shift> = Vec::new();
    let mut own = joints.iter().peekable();
    for number in root..end {
        let is_own = own.next_if(|joint| **joint == number).is_some();
        let is_moved = if is_own {
            moves(number)
        } else {
            let parent = above[number as usize].map_or(root, |above| above.max(root));
            moved[(parent - root) as usize]
        };
        moved[(number - root) as usize] = is_moved;
        if is_moved {
            match shifts.last_mut() {
                Some(last) if last.to == number => last.to += 1,
                _ => shifts.push(Shift {
                    from: number,
                    to: number + 1,
                    by,
                }),
            }
        }
    }
    shifts
}

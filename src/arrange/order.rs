//! What is higher in truth is drawn higher, what lies farther north or east is drawn so: an isometric of a building is read
//! for that before anything else, and stretched lengths must not turn it round.
//!
//! Joints that only level pipe parts stand on one *level*. Levels with level pipe or an end of pipe are held to the order of
//! their true heights: one that is higher by more than [`NOTICED`] is never drawn lower, by much more never nearer than some
//! steps. Heights between them (valves in a riser) follow from their runs.

use super::frame::Frame;
use crate::job::{Axis, Direction, Job};

/// Heights that differ by less than the first, ft, may be drawn either way; by at least each of them, so many steps apart as
/// stand before it.
pub const NOTICED: [f64; 5] = [0.5, 3.0, 6.0, 12.0, 24.0];
/// The same of places in plan, where pipe may run aside to keep clear.
const IN_PLAN: [f64; 4] = [2.0, 8.0, 16.0, 32.0];

/// The most steps that one level is counted as out of order.
const MOST: i32 = 6;

/// The levels of a job along one axis.
pub struct Levels {
    /// For each joint in the frame's order its level.
    of: Vec<u32>,
    /// How far along the axis each level truly is, ft from the root of its part.
    truth: Vec<f64>,
    /// The levels that are held to their order, by part and then by truth, each with the first of its joints.
    kept: Vec<Vec<(u32, u32)>>,
    /// All levels by truth.
    sorted: Vec<u32>,
    apart: &'static [f64],
}

/// Where everything truly is.
pub struct Order {
    /// Up, east and north.
    pub axes: [(Axis, Levels); 3],
}

impl Order {
    /// The true order of a job.
    pub fn of(job: &Job, frame: &Frame) -> Order {
        let truth = true_places(job, frame);
        let levels = |axis, apart| (axis, Levels::of(frame, &truth, axis, apart));
        Order {
            axes: [
                levels(Axis::Up, &NOTICED[..]),
                levels(Axis::East, &IN_PLAN[..]),
                levels(Axis::North, &IN_PLAN[..]),
            ],
        }
    }
}

/// For each joint how far it truly is from the root of its part, ft east, north and up, by the way the walk came to it.
fn true_places(job: &Job, frame: &Frame) -> Vec<[f64; 3]> {
    let mut places = vec![[0.0; 3]; frame.order.len()];
    for number in 0..frame.order.len() {
        let (Some(above), Some(run)) = (frame.above[number], frame.feed[number]) else {
            continue;
        };
        let mut place = places[above as usize];
        if let Some(edge) = frame.edges[run].filter(|edge| !edge.unit.is_zero()) {
            let unit = if edge.ends[1] as usize == number {
                edge.unit
            } else {
                -edge.unit
            };
            let feet = job.true_length(job.runs.at(run)).feet().max(0.0) / unit.steps();
            for (place, part) in place.iter_mut().zip([unit.east, unit.north, unit.up]) {
                *place += feet * f64::from(part);
            }
        }
        places[number] = place;
    }
    places
}

/// What a way goes along an axis.
pub const fn part(way: Direction, axis: Axis) -> i32 {
    match axis {
        Axis::East => way.east,
        Axis::North => way.north,
        Axis::Up => way.up,
    }
}

impl Levels {
    fn of(frame: &Frame, places: &[[f64; 3]], axis: Axis, apart: &'static [f64]) -> Levels {
        let count = frame.order.len();
        let mut first: Vec<u32> = (0..count as u32).collect();
        fn root(first: &mut [u32], mut at: u32) -> u32 {
            while first[at as usize] != at {
                first[at as usize] = first[first[at as usize] as usize];
                at = first[at as usize];
            }
            at
        }
        let mut legs = vec![0u32; count];
        for edge in frame.edges.iter().flatten() {
            let [a, b] = edge.ends;
            legs[a as usize] += 1;
            legs[b as usize] += 1;
            if part(edge.unit, axis) == 0 {
                let (a, b) = (root(&mut first, a), root(&mut first, b));
                first[a.max(b) as usize] = a.min(b);
            }
        }
        let (mut of, mut truth, mut joints) = (vec![0u32; count], Vec::new(), Vec::new());
        let (mut is_kept, mut parts) = (Vec::new(), Vec::new());
        let mut in_part = 0usize;
        for number in 0..count {
            in_part += usize::from(number > 0 && frame.above[number].is_none());
            let mine = root(&mut first, number as u32) as usize;
            if mine == number {
                of[number] = truth.len() as u32;
                let [east, north, up] = places[number];
                truth.push(match axis {
                    Axis::East => east,
                    Axis::North => north,
                    Axis::Up => up,
                });
                joints.push(number as u32);
                parts.push(in_part);
                is_kept.push(legs[number] <= 1);
            } else {
                of[number] = of[mine];
                is_kept[of[mine] as usize] = true;
            }
        }
        let mut sorted: Vec<u32> = (0..truth.len() as u32).collect();
        sorted.sort_by(|a, b| truth[*a as usize].total_cmp(&truth[*b as usize]));
        let mut kept = vec![Vec::new(); in_part + 1];
        for &level in sorted.iter().filter(|level| is_kept[**level as usize]) {
            kept[parts[level as usize]].push((level, joints[level as usize]));
        }
        Levels {
            of,
            truth,
            kept,
            sorted,
            apart,
        }
    }

    /// By how many steps in all levels are out of their order, or nearer than their true distance asks for; `place` tells
    /// how far along the axis a joint is drawn.
    pub fn disorder(&self, place: impl Fn(u32) -> i32) -> i32 {
        let mut sum = 0;
        let mut drawn = Vec::new();
        for part in &self.kept {
            drawn.clear();
            drawn.extend(part.iter().map(|(_, joint)| place(*joint)));
            let mut below = [(0, i32::MIN / 2); NOTICED.len()];
            for (at, (level, _)) in part.iter().enumerate() {
                let least = self.least(part, *level, &mut below, |before| drawn[before]);
                sum += (least - drawn[at]).clamp(0, MOST);
            }
        }
        sum
    }

    /// How far along the axis a level must be drawn at least. `below` are, for each distance, how many of the levels were
    /// looked at and the farthest of them; levels are asked for by rising truth.
    fn least(&self, part: &[(u32, u32)], level: u32, below: &mut [(usize, i32)], drawn: impl Fn(usize) -> i32) -> i32 {
        let truth = self.truth[level as usize];
        let mut least = i32::MIN / 2;
        for ((steps, apart), (looked_at, farthest)) in (0..).zip(self.apart).zip(below) {
            while let Some((other, _)) = part.get(*looked_at)
                && self.truth[*other as usize] <= truth - apart
            {
                *farthest = drawn(*looked_at).max(*farthest);
                *looked_at += 1;
            }
            least = least.max(*farthest + steps);
        }
        least
    }

    /// The lowest place of each joint at which all levels are in order and every run is as long as is asked for: `asked`
    /// are runs by position, each with how much longer than nothing it is along the axis, and its true length.
    pub fn in_order(
        &self,
        frame: &Frame,
        asked: impl Fn(usize) -> i32,
        truly: impl Fn(usize) -> f64,
        axis: Axis,
    ) -> Vec<i32> {
        let mut upward: Vec<Vec<(u32, usize)>> = vec![Vec::new(); self.truth.len()];
        let mut downward = upward.clone();
        for (run, edge) in frame.edges.iter().enumerate() {
            if let Some(edge) = edge.filter(|edge| part(edge.unit, axis) != 0) {
                let [a, b] = edge.ends.map(|end| self.of[end as usize]);
                let (low, high) = if part(edge.unit, axis) > 0 { (a, b) } else { (b, a) };
                downward[high as usize].push((low, run));
                upward[low as usize].push((high, run));
            }
        }
        let mut drawn = vec![0i32; self.truth.len()];
        // Runs of no true length may stand in a wrong order: then once more, but not for ever.
        for _ in 0..4 {
            let was = drawn.clone();
            let mut below = vec![[(0, i32::MIN / 2); NOTICED.len()]; self.kept.len()];
            let part_of = self.parts();
            for &level in &self.sorted {
                let at = level as usize;
                let by_runs = downward[at]
                    .iter()
                    .map(|(low, run)| drawn[*low as usize] + asked(*run))
                    .max();
                let mut least = by_runs.unwrap_or(i32::MIN / 2).max(drawn[at]);
                if let Some(number) = part_of[at] {
                    let part = &self.kept[number];
                    least =
                        least.max(self.least(part, level, &mut below[number], |before| drawn[part[before].0 as usize]));
                }
                drawn[at] = least;
            }
            if was == drawn {
                break;
            }
        }
        // Of two runs of a riser the longer is stretched.
        let is_kept = self.parts();
        for &level in self
            .sorted
            .iter()
            .rev()
            .filter(|level| is_kept[**level as usize].is_none())
        {
            let at = level as usize;
            let longest = |runs: &[(u32, usize)]| runs.iter().map(|(_, run)| truly(*run)).fold(0.0, f64::max);
            let room = upward[at]
                .iter()
                .map(|(high, run)| drawn[*high as usize] - asked(*run) - drawn[at])
                .min();
            if let Some(room) = room.filter(|room| *room > 0 && longest(&downward[at]) > longest(&upward[at])) {
                drawn[at] += room;
            }
        }
        self.of.iter().map(|level| drawn[*level as usize]).collect()
    }

    /// For each level the part in whose order it is held.
    fn parts(&self) -> Vec<Option<usize>> {
        let mut parts = vec![None; self.truth.len()];
        for (number, part) in self.kept.iter().enumerate() {
            for (level, _) in part {
                parts[*level as usize] = Some(number);
            }
        }
        parts
    }
}

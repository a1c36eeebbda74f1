//! The line from a tie-in to the head of the branch, along the lattice.
//!
//! It goes axis by axis: of the six orders of the axes the first in which nothing stands in the way, and where each is
//! barred the first of all. They are tried so that the line leaves a run at a right angle where it can, then rises or
//! falls before it goes level, and goes the longer level way first. Between waypoints it rises or falls first too.

use super::place::{Spot, coordinates};
use crate::advice::{NewBranch, TieInPlace};
use crate::job::{Direction, Job, JointId, LatticePoint, RunId, line};
use crate::units::{Length, UnitSystem};

/// The line is led through so many places at most.
pub const MOST_WAYPOINTS: usize = 32;

/// A straight piece of the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RouteLeg {
    /// Where it ends, seen from the tie-in; the last ends at the head.
    pub to: LatticePoint,
    /// Its true length: lattice steps times the job's step, from where the tie-in is in truth.
    pub length: Length,
}

/// What is in the way of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Blocked {
    /// It would run through a joint.
    Joint(JointId),
    /// It would run along or touch a run.
    Run(RunId),
    /// It would cross itself.
    Itself,
}

/// The three axes in the order of coordinates.
const EAST: usize = 0;
const NORTH: usize = 1;
const UP: usize = 2;
const ORDERS: [[usize; 3]; 6] = [
    [UP, EAST, NORTH],
    [UP, NORTH, EAST],
    [EAST, UP, NORTH],
    [NORTH, UP, EAST],
    [EAST, NORTH, UP],
    [NORTH, EAST, UP],
];

/// Ways aside of a line that is barred, east, north and up, and how many steps it is led aside.
const BESIDE: [[i32; 3]; 6] = [[0, 0, 1], [1, 0, 0], [0, 1, 0], [-1, 0, 0], [0, -1, 0], [0, 0, -1]];
const ASIDE: [i32; 3] = [1, 2, 3];

/// What is drawn already, and where the line is to go.
pub struct Ground {
    joints: Vec<(LatticePoint, JointId)>,
    runs: Vec<(RunId, [JointId; 2], [LatticePoint; 2])>,
    head: LatticePoint,
    head_id: JointId,
    /// Places on the way from the tie-in, the head last.
    targets: Vec<LatticePoint>,
    step: Length,
    units: UnitSystem,
}

impl Ground {
    pub fn of(job: &Job, branch: &NewBranch) -> Ground {
        let place = |id| job.joints.get(id).map(|joint| joint.at);
        let head = place(branch.head).unwrap_or_default();
        let runs = job.runs.iter().filter_map(|run| {
            let ends = [place(run.from)?, place(run.to)?];
            Some((run.id, [run.from, run.to], ends))
        });
        Ground {
            joints: job.joints.iter().map(|joint| (joint.at, joint.id)).collect(),
            runs: runs.collect(),
            head,
            head_id: branch.head,
            targets: branch.through.iter().rev().copied().chain([head]).collect(),
            step: job.settings.step,
            units: job.settings.units,
        }
    }

    /// Whether a place is not where the head is itself.
    pub fn is_away(&self, spot: &Spot) -> bool {
        spot.at != self.head
    }

    /// The line from a place, and what is in its way; none where it would be no line.
    pub fn route(&self, spot: &Spot) -> Option<(Vec<RouteLeg>, Option<Blocked>)> {
        self.led(spot, &self.targets)
    }

    /// A line with nothing in its way: that of [`Ground::route`], or else one that runs beside it.
    pub fn clear_route(&self, spot: &Spot) -> Option<Vec<RouteLeg>> {
        let (route, blocked) = self.route(spot)?;
        if blocked.is_none() {
            return Some(route);
        }
        let beside = ASIDE.into_iter().flat_map(|steps| {
            let ways = BESIDE.into_iter();
            ways.map(move |[east, north, up]| Direction {
                east: east * steps,
                north: north * steps,
                up: up * steps,
            })
        });
        let mut clear = beside.filter_map(|aside| {
            let targets = [spot.at + aside, self.head + aside, self.head];
            self.led(spot, &targets).filter(|(_, blocked)| blocked.is_none())
        });
        clear.next().map(|(route, _)| route)
    }

    fn led(&self, spot: &Spot, targets: &[LatticePoint]) -> Option<(Vec<RouteLeg>, Option<Blocked>)> {
        let mut first = None;
        for order in self.orders(spot, targets) {
            let route = self.walk(spot, order, targets);
            if route.is_empty() {
                return None;
            }
            let blocked = self.blocked(spot, &route);
            if blocked.is_none() {
                return Some((route, None));
            }
            first = first.or(Some((route, blocked)));
        }
        first
    }

    /// The orders of the axes, best first.
    fn orders(&self, spot: &Spot, targets: &[LatticePoint]) -> [[usize; 3]; 6] {
        let target = coordinates(targets.first().copied().unwrap_or(self.head));
        let far = [0, 1, 2].map(|axis| (target[axis] - spot.truly[axis]).abs());
        let along = spot.tapped.and_then(|(_, [from, to])| (to - from).axis());
        let along = along.map(|axis| axis as usize);
        let mut orders = ORDERS;
        // The first axis that is gone at all shows how the tapped run is left.
        let leaves = |order: &[usize; 3]| order.iter().copied().find(|&axis| far[axis] > 0.0);
        let longer = |order: &[usize; 3]| {
            let level = order.iter().copied().find(|&axis| axis != UP);
            let other = if level == Some(EAST) { NORTH } else { EAST };
            level.is_some_and(|level| far[level] < far[other])
        };
        let late = |order: &[usize; 3]| order.iter().position(|&axis| axis == UP);
        orders.sort_by_key(|order| (along.is_some() && leaves(order) == along, late(order), longer(order)));
        orders
    }

    fn walk(&self, spot: &Spot, order: [usize; 3], targets: &[LatticePoint]) -> Vec<RouteLeg> {
        // Steps and true steps of each leg, and its axis with the sense.
        let mut legs: Vec<(LatticePoint, f64, (usize, bool))> = Vec::new();
        let (mut at, mut truly) = (spot.at, spot.truly);
        // What is less than the lattice shows goes with the next leg.
        let mut over = 0.0;
        let level_first = [UP, EAST, NORTH];
        for (number, &target) in targets.iter().enumerate() {
            let order = if number == 0 { order } else { level_first };
            let to = coordinates(target);
            for axis in order {
                over += (to[axis] - truly[axis]).abs();
                truly[axis] = to[axis];
                let before = at;
                match axis {
                    EAST => at.east = target.east,
                    NORTH => at.north = target.north,
                    _ => at.up = target.up,
                }
                let drawn = coordinates(at)[axis] - coordinates(before)[axis];
                if drawn == 0.0 {
                    continue;
                }
                let way = (axis, drawn > 0.0);
                match legs.last_mut().filter(|leg| leg.2 == way) {
                    Some(leg) => (leg.0, leg.1) = (at, leg.1 + over),
                    None => legs.push((at, over, way)),
                }
                over = 0.0;
            }
        }
        let legs = legs.into_iter();
        legs.map(|(to, steps, _)| RouteLeg {
            to,
            length: self.true_length(steps),
        })
        .collect()
    }

    /// So many steps; a broken number of them to 1/16 in or 1 mm. Never nothing.
    fn true_length(&self, steps: f64) -> Length {
        let tape = match self.units {
            UnitSystem::Us => Length::from_inches(1.0 / 16.0),
            UnitSystem::Metric | UnitSystem::MetricKpa => Length::from_mm(1.0),
        };
        let length = self.step.times(steps);
        let length = if steps.fract() == 0.0 {
            length
        } else {
            let unit = tape.eighths_of_um();
            Length::from_eighths_of_um(length.eighths_of_um().saturating_add(unit / 2) / unit * unit)
        };
        if length > Length::ZERO { length } else { tape }
    }

    /// What stands in the way of a line: as an edit of the drawing would find it.
    fn blocked(&self, spot: &Spot, route: &[RouteLeg]) -> Option<Blocked> {
        let mut points = vec![spot.at];
        points.extend(route.iter().map(|leg| leg.to));
        let corners = &points[1..points.len() - 1];
        let passes = |at: LatticePoint| points.windows(2).any(|leg| line::passes(leg[0], leg[1], at));
        let doubled = |at: usize| points[..at].contains(&points[at]);
        if (1..points.len()).any(doubled) || points.iter().any(|&at| passes(at)) {
            return Some(Blocked::Itself);
        }
        if let Some((_, joint)) = self.joints.iter().find(|(at, _)| corners.contains(at) || passes(*at)) {
            return Some(Blocked::Joint(*joint));
        }
        let tapped = match spot.place {
            TieInPlace::Run { run, .. } => Some(run),
            TieInPlace::Joint(_) => None,
        };
        let over = |&(id, joins, [a, b]): &(RunId, [JointId; 2], [LatticePoint; 2])| {
            let over = |at: LatticePoint| line::passes(a, b, at);
            let same_ends = match spot.place {
                TieInPlace::Joint(joint) => {
                    route.len() == 1 && (joins == [joint, self.head_id] || joins == [self.head_id, joint])
                }
                TieInPlace::Run { .. } => false,
            };
            same_ends
                || corners.iter().any(|&at| over(at))
                || match tapped {
                    Some(tapped) if tapped == id => over(self.head),
                    Some(_) => over(spot.at),
                    None => false,
                }
        };
        self.runs.iter().find(|run| over(run)).map(|(id, ..)| Blocked::Run(*id))
    }
}

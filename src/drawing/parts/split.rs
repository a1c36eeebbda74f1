//! Where a part of a drawing is best split in two: so that each word has the most room, little pipe is cut, no appliance is
//! cut from its drop where that can be, and nothing that is drawn at a joint lies on the match line.

use super::{NOTHING, Spot};
use crate::drawing::LARGEST_STEP;
use crate::scene::{Point, Rect, Segment, Vector};

/// From a match line to what is drawn at a joint, mm, and how much of that may lie over it.
const CLEAR_OF_SPOTS: f64 = 2.0;
const BARELY_OVER: f64 = 0.2;
/// So much more crowded halves may be for a line that is clear of what is drawn.
const WORSE: f64 = 6.0;
/// How much more a line costs for each pipe that it cuts.
const FOR_EACH_CUT: f64 = 0.2;
/// How much more for each that serves one outlet alone: who reads of an appliance on one sheet wants its drop there too.
const FOR_EACH_DROP: f64 = 0.6;
/// How much more a line costs that goes through the middle of what is drawn at a joint.
const FOR_A_SYMBOL: f64 = 3.0;
/// So many places for a match line are looked at each way.
const TRIES: usize = 48;
/// So many of them are given, so far apart, in steps.
const WAYS: usize = 4;
const APART: f64 = 1.5;

/// How the edge between two windows lies.
#[derive(Clone, Copy, Debug)]
enum Edge {
    Upright,
    Level,
}

/// The best ways to halve a window that holds these places and this pipe, best first, each line of it with whether it serves
/// one outlet alone; `inner` is the paper that a half has for what it draws, mm.
pub fn ways(window: Rect, held: &[Spot], seen: &[(Segment, bool)], inner: Vector) -> Vec<[Rect; 2]> {
    let across = cuts(held.iter().map(|spot| spot.at.x)).into_iter();
    let along = cuts(held.iter().map(|spot| spot.at.y)).into_iter();
    let across = across.map(|x| halves(window, x, Edge::Upright));
    let all = across.chain(along.map(|y| halves(window, y, Edge::Level)));
    let mut ways: Vec<(Cost, [Rect; 2])> = all
        .filter_map(|halves| Some((cost(halves, held, seen, inner)?, halves)))
        .collect();
    // A line over what is drawn at a joint is none where another does nearly as well.
    let best = |ways: &[(Cost, [Rect; 2])], over: f64| {
        let clear = ways.iter().filter(|(cost, _)| cost.over <= over);
        clear.map(|(cost, _)| cost.crowded).fold(f64::INFINITY, f64::min)
    };
    if best(&ways, BARELY_OVER) <= WORSE * best(&ways, f64::INFINITY) {
        ways.retain(|(cost, _)| cost.over <= BARELY_OVER);
    }
    let weight = |cost: &Cost| cost.crowded * (1.0 + FOR_A_SYMBOL * cost.over);
    ways.sort_by(|a, b| weight(&a.0).total_cmp(&weight(&b.0)));
    let mut chosen: Vec<[Rect; 2]> = Vec::new();
    for (_, halves) in ways {
        // A line beside one that was chosen would be no other way.
        let is_near = |other: &[Rect; 2]| halves[0].max.distance(other[0].max) < APART;
        if chosen.len() < WAYS && !chosen.iter().any(is_near) {
            chosen.push(halves);
        }
    }
    chosen
}

/// Where a line could go between places, at most so many as are tried.
fn cuts(places: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut places: Vec<f64> = places.collect();
    places.sort_by(f64::total_cmp);
    let gaps = places.windows(2).filter(|next| next[1] - next[0] > 1e-3);
    let between = gaps.flat_map(|next| {
        let shares: &[f64] = if next[1] - next[0] > 3.0 {
            &[0.3, 0.5, 0.7]
        } else {
            &[0.5]
        };
        shares.iter().map(|share| next[0] + (next[1] - next[0]) * share)
    });
    let all: Vec<f64> = between.collect();
    let stride = all.len().div_ceil(TRIES).max(1);
    all.into_iter().step_by(stride).collect()
}

/// A window in two, by an upright line or a level one.
fn halves(window: Rect, at: f64, edge: Edge) -> [Rect; 2] {
    let Rect { min, max } = window;
    match edge {
        Edge::Upright => [
            Rect::new(min, Point::new(at, max.y)),
            Rect::new(Point::new(at, min.y), max),
        ],
        Edge::Level => [
            Rect::new(min, Point::new(max.x, at)),
            Rect::new(Point::new(min.x, at), max),
        ],
    }
}

/// What speaks against a way.
struct Cost {
    /// How crowded the more crowded half would be, and more where their edge cuts much.
    crowded: f64,
    /// How far their edge lies over what is drawn at a joint: 0 for clear of all, 1 and more for through its middle.
    over: f64,
}

/// What speaks against two halves; `None` where one holds nothing, or pipe would pass the end of their edge.
fn cost(halves: [Rect; 2], held: &[Spot], seen: &[(Segment, bool)], inner: Vector) -> Option<Cost> {
    let [first, second] = halves;
    let edge = Segment::new(Point::new(second.min.x, second.min.y), first.max);
    let cut = seen.iter().filter(|(line, _)| line.crossing(edge).is_some());
    let drops = cut.clone().filter(|(_, is_drop)| *is_drop).count();
    let cut: Vec<Segment> = cut.map(|(line, _)| *line).collect();
    let mut crowded: f64 = 0.0;
    let mut step = LARGEST_STEP;
    for half in halves {
        let inside: Vec<Point> = held
            .iter()
            .map(|spot| spot.at)
            .filter(|at| half.contains(*at))
            .collect();
        let ends = (seen.iter()).filter_map(|(line, _)| {
            let (from, to) = line.within(half)?;
            Some([line.at(from), line.at(to)])
        });
        let ends: Vec<[Point; 2]> = ends.collect();
        if inside.is_empty() {
            return None;
        }
        let bounds = Rect::around(inside.iter().chain(ends.iter().flatten()).copied())?;
        let fit = (inner.x / bounds.width().max(NOTHING))
            .min(inner.y / bounds.height().max(NOTHING))
            .min(LARGEST_STEP);
        step = step.min(fit);
        crowded = crowded.max((inside.len() + ends.len()) as f64 / (fit * fit));
    }
    crowded *= 1.0 + FOR_EACH_CUT * cut.len() as f64 + FOR_EACH_DROP * drops as f64;
    let over = held.iter().map(|spot| {
        let clear = edge.distance(spot.at) * step - CLEAR_OF_SPOTS;
        (1.0 - clear / spot.reach).max(0.0)
    });
    for line in &cut {
        let (_, along) = line.crossing(edge)?;
        let to_end = along.min(1.0 - along) * edge.length();
        if to_end < 1e-6 {
            return None;
        }
        let way = line.vector();
        let is_square = way.x.abs() < 1e-9 || (way.y.abs() / way.x.abs() - 1.0 / 3f64.sqrt()).abs() < 1e-6;
        // A skew run in two loses sight of its helper plane.
        crowded *= if is_square { 1.0 } else { 1.5 };
        crowded *= 1.0 + (0.5 - to_end).max(0.0);
    }
    let over = over.fold(0.0, f64::max);
    Some(Cost { crowded, over })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_dense_all_over_is_halved_and_not_trimmed_at_its_edges() {
        let spots = (0..100).map(|at| Spot {
            at: Point::new(f64::from(at), 0.0),
            reach: 8.0,
        });
        let held: Vec<Spot> = spots.collect();
        let seen = [(Segment::new(Point::new(0.0, 0.0), Point::new(99.0, 0.0)), false)];
        let window = Rect::new(Point::new(-20.0, -20.0), Point::new(120.0, 20.0));
        let [one, _] = ways(window, &held, &seen, Vector::new(130.0, 130.0))[0];
        assert!((35.0..65.0).contains(&one.max.x), "{}", one.max.x);
    }

    #[test]
    fn a_line_goes_between_what_is_drawn_and_not_over_it() {
        let spot = |x: f64, reach| Spot {
            at: Point::new(x, 0.0),
            reach,
        };
        // A cube at 9 and a plain joint at 21: the line keeps clear of the cube more than of the joint.
        let held = [spot(0.0, 4.0), spot(9.0, 12.0), spot(21.0, 4.0), spot(30.0, 4.0)];
        let seen = [(Segment::new(Point::new(0.0, 0.0), Point::new(30.0, 0.0)), false)];
        let window = Rect::new(Point::new(-9.0, -9.0), Point::new(39.0, 9.0));
        let found = ways(window, &held, &seen, Vector::new(60.0, 60.0));
        let at = found[0][0].max.x;
        assert!(at > 9.0 + 3.0 && at < 21.0, "{at}");
        for [one, other] in found {
            assert!(held.iter().all(|spot| one.contains(spot.at) != other.contains(spot.at)));
        }
    }
    #[test]
    fn a_header_is_cut_rather_than_the_drop_of_an_appliance() {
        let at = Point::new;
        // A header to the right with a drop at each end, whose appliances lie in its middle, one lower than the other.
        let header = [at(0.0, 0.0), at(20.0, 0.0)];
        let (near, far) = ([at(0.0, 6.0), at(9.0, 6.0)], [at(20.0, 12.0), at(11.0, 12.0)]);
        let line = |a, b, is_drop| (Segment::new(a, b), is_drop);
        let seen = |is_drop| {
            [
                line(header[0], header[1], false),
                line(header[0], near[0], is_drop),
                line(near[0], near[1], is_drop),
                line(header[1], far[0], is_drop),
                line(far[0], far[1], is_drop),
            ]
        };
        let held = [header, near, far]
            .concat()
            .into_iter()
            .map(|at| Spot { at, reach: 2.0 });
        let held: Vec<Spot> = held.collect();
        let window = Rect::new(at(-9.0, -9.0), at(29.0, 21.0));
        let cut_drops = |[one, _]: [Rect; 2]| {
            let (edge, drops) = (one.max, seen(true));
            let is_cut = |line: &Segment| match edge.y == window.max.y {
                true => (line.a.x - edge.x) * (line.b.x - edge.x) < 0.0,
                false => (line.a.y - edge.y) * (line.b.y - edge.y) < 0.0,
            };
            drops.iter().filter(|(line, is_drop)| *is_drop && is_cut(line)).count()
        };
        assert_eq!(
            cut_drops(ways(window, &held, &seen(true), Vector::new(60.0, 60.0))[0]),
            0
        );
    }
}

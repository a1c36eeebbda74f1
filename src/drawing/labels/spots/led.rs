//! Places away from a home, at the end of a leader: where it could begin, in which direction it could go, and how far.

use super::{BEFORE_WORDS, Home, STUB, Spot, upright};
use crate::drawing::block::{Block, Flush};
use crate::scene::{Point, Quad, Segment, Vector};
use std::sync::LazyLock;

/// How far leaders reach to their knee, mm: with the level piece none is longer than 25 mm, as short as drafting asks
/// (ASME Y14.2 and ISO 128 give no figure; the bound is our own).
const RINGS: [f64; 10] = [3.0, 4.5, 6.0, 8.0, 10.0, 12.5, 15.0, 17.5, 20.0, 22.5];
/// A leader that leaves a joint at a smaller angle from pipe is not told from it: the cosine.
const ALONG_PIPE: f64 = 0.92;
/// The longest of them, mm.
pub const FARTHEST: f64 = RINGS[RINGS.len() - 1];
/// From a symbol to the beginning of a leader, mm.
const LEAVE: f64 = 0.65;
/// Directions of leaders and what they cost beside their length; degrees, clockwise from the right as seen on paper.
const WAYS: [(f64, f64); 20] = [
    (-60.0, 0.0),
    (-120.0, 0.2),
    (60.0, 0.1),
    (120.0, 0.3),
    (-45.0, 0.2),
    (-135.0, 0.4),
    (45.0, 0.3),
    (135.0, 0.5),
    (-75.0, 0.4),
    (-105.0, 0.5),
    (75.0, 0.5),
    (105.0, 0.6),
    (-24.0, 0.7),
    (-156.0, 0.8),
    (24.0, 0.8),
    (156.0, 0.9),
    (-6.0, 1.0),
    (-174.0, 1.1),
    (6.0, 1.1),
    (174.0, 1.2),
];
/// What each mm of a leader costs.
const PER_MM: f64 = 0.12;
/// What any leader costs.
const LED: f64 = 3.0;
/// How much more one costs that begins beside the symbols between which its pipe is hidden.
const BETWEEN: f64 = 2.0;
/// How far from the middle of its pipe such a leader may begin, mm.
const NEAR_ENDS: f64 = 5.0;

/// Straight up and down: only to the edge of words above or below.
const UPRIGHT: [(f64, f64); 2] = [(-90.0, 0.4), (90.0, 0.5)];
/// A leader steeper than this may meet the edge of words above or below it: the sine.
const STEEP: f64 = 0.8;
/// What it costs a leader to meet the last line of its words, and their edge.
const LAST_LINE: f64 = 0.3;
const EDGE: f64 = 0.6;
/// Where along their edge, as a share of it.
const EDGES: [f64; 3] = [0.5, 0.2, 0.8];

/// Which leaders are looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// Those to the side of the first line.
    Plain,
    /// Those to the last line too, and to the edge of words above or below.
    Any,
}

/// Where a leader meets its words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meets {
    /// At the side of the first line.
    FirstLine,
    /// At the side of the last.
    LastLine,
    /// At the edge that is nearest, at a share of its width.
    Edge(f64),
}

/// A way out from a home: where a leader could begin, and in which direction it could go.
#[derive(Clone, Copy, Debug)]
pub struct WayOut {
    /// Where it begins, on the pipe or at the edge of a symbol.
    pub start: Point,
    /// Its direction, 1 mm long.
    pub way: Vector,
    /// How much worse than the best, whatever the length.
    pub cost: f64,
    /// Where it meets its words.
    pub meets: Meets,
}

/// Where leaders could begin on a home, best first, each with its number.
pub fn starts(home: &Home) -> Vec<Point> {
    match home {
        Home::Along { line, .. } => [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9].map(|t| line.at(t)).to_vec(),
        Home::Around { place, .. } => vec![*place],
        Home::Level { places } => places.iter().take(1).map(|place| place.at).collect(),
    }
}

/// The ways out from the start of that number.
pub fn ways_out(home: &Home, number: usize, start: Point, how: Manner) -> impl Iterator<Item = WayOut> + '_ {
    let edges = match home {
        Home::Along { .. } => Vec::new(),
        Home::Level { places } => places.first().map_or_else(Vec::new, |place| edges(&place.rooms)),
        Home::Around { rooms, .. } => edges(rooms),
    };
    ways(how).filter_map(move |(way, dislike)| {
        let start = match home {
            Home::Along { line, .. } => {
                let along = line.vector().unit().unwrap_or_default();
                // A leader that nearly follows its pipe is not seen.
                (along.cross(way).abs() > 0.42).then_some(start)?
            }
            Home::Level { places } => {
                let place = places.first()?;
                begin(place.at, &edges, place.is_bare, way)
            }
            Home::Around {
                place, is_bare, pipe, ..
            } => {
                let follows = |pipe: &Vector| way.dot(*pipe) > ALONG_PIPE;
                (!pipe.iter().any(follows)).then(|| begin(*place, &edges, *is_bare, way))?
            }
        };
        let cost = LED + dislike + 0.1 * number as f64;
        let meets = Meets::FirstLine;
        Some(WayOut {
            start,
            way,
            cost,
            meets,
        })
    })
}

/// The ways out from between the symbols at the ends of a run that hide it: across it, and beginning near it.
pub fn ways_between(home: &Home, how: Manner) -> impl Iterator<Item = WayOut> + '_ {
    let edges = match home {
        Home::Along { ends, .. } => edges(ends),
        Home::Around { .. } | Home::Level { .. } => Vec::new(),
    };
    ways(how).filter_map(move |(way, dislike)| {
        let Home::Along { line, .. } = home else {
            return None;
        };
        let (middle, along) = (line.at(0.5), line.vector().unit()?);
        let start = leave(middle, &edges, way);
        let cost = LED + BETWEEN + dislike;
        let meets = Meets::FirstLine;
        (along.cross(way).abs() > 0.55 && start.distance(middle) < NEAR_ENDS).then_some(WayOut {
            start,
            way,
            cost,
            meets,
        })
    })
}

/// The same way out once for each place at which its leader may meet these words.
pub fn meetings(out: WayOut, block: &Block, how: Manner) -> impl Iterator<Item = WayOut> + use<> {
    let is_any = how == Manner::Any && !block.is_ringed();
    let is_aslant = out.way.x.abs() > 0.01;
    let first = is_aslant.then_some((Meets::FirstLine, 0.0));
    let last = (is_any && is_aslant && block.has_lines()).then_some((Meets::LastLine, LAST_LINE));
    let edges = EDGES.map(|share| (Meets::Edge(share), EDGE));
    let edges = edges.into_iter().filter(move |_| is_any && out.way.y.abs() > STEEP);
    let all = first.into_iter().chain(last).chain(edges);
    all.map(move |(meets, dear)| WayOut {
        cost: out.cost + dear,
        meets,
        ..out
    })
}

/// Directions of leaders, 1 mm long, with what each costs.
fn ways(how: Manner) -> impl Iterator<Item = (Vector, f64)> {
    static UNIT: LazyLock<Vec<(Vector, f64)>> = LazyLock::new(|| {
        let all = WAYS.into_iter().chain(UPRIGHT);
        all.map(|(degrees, dislike)| {
            let (sin, cos) = libm::sincos(degrees.to_radians());
            (Vector::new(cos, sin), dislike)
        })
        .collect()
    });
    let count = match how {
        Manner::Plain => WAYS.len(),
        Manner::Any => UNIT.len(),
    };
    UNIT.iter().copied().take(count)
}

/// The reaches of a leader from the shortest, mm, each with what it costs.
pub fn reaches() -> impl Iterator<Item = (f64, f64)> {
    RINGS.into_iter().map(|reach| (reach, PER_MM * reach))
}

/// What the nearest place along a way out costs at least.
pub fn least(out: &WayOut) -> f64 {
    out.cost + PER_MM * RINGS[0]
}

/// The words beyond the knee of a leader that takes a way out, to its right or left.
pub fn beyond(block: &Block, out: &WayOut, reach: f64, cost: f64) -> Spot {
    let (start, knee) = (out.start, out.start + out.way * reach);
    let to_right = out.way.x >= 0.0;
    let side = if to_right { 1.0 } else { -1.0 };
    let (stub, before) = if block.is_ringed() {
        (0.0, 0.0)
    } else {
        let before = if block.is_boxed() { 0.0 } else { BEFORE_WORDS };
        (STUB, before)
    };
    let line = match out.meets {
        Meets::FirstLine => block.middle_of_first_line(),
        Meets::LastLine => block.middle_of_last_line(),
        Meets::Edge(share) => {
            let left = knee.x - share * block.width;
            let top = if out.way.y < 0.0 {
                knee.y - before - block.height
            } else {
                knee.y + before
            };
            let flush = if share > 0.5 { Flush::Right } else { Flush::Left };
            return upright(block, Point::new(left, top), flush, Some([start, knee, knee]), cost);
        }
    };
    let end = knee + Vector::new(side * stub, 0.0);
    let top = knee.y - line;
    let (corner, flush) = if to_right {
        (Point::new(end.x + before, top), Flush::Left)
    } else {
        (Point::new(end.x - before - block.width, top), Flush::Right)
    };
    upright(block, corner, flush, Some([start, knee, end]), cost)
}

/// Where a leader begins at a joint: on it, or beside what stands there.
pub fn start(place: Point, rooms: &[Quad], is_bare: bool, way: Vector) -> Point {
    begin(place, &edges(rooms), is_bare, way)
}

fn begin(place: Point, edges: &[Segment], is_bare: bool, way: Vector) -> Point {
    if is_bare { place } else { leave(place, edges, way) }
}

/// The edges that a leader keeps clear of.
fn edges(rooms: &[Quad]) -> Vec<Segment> {
    rooms.iter().flat_map(|room| room.grown(LEAVE).edges()).collect()
}

/// Where a leader ends that was looked for from the edge of a box around ink: on the ink itself, or as near to it as an
/// oval in that box tells.
pub fn on_ink(home: &Home, start: Point) -> Point {
    const STRIDE: f64 = 0.1;
    const ON: f64 = 0.15;
    let (target, rooms, line) = match home {
        Home::Level { .. } => return start,
        Home::Around { is_bare: true, .. } => return start,
        Home::Around { place, rooms, .. } => {
            let nearest = rooms
                .iter()
                .min_by(|a, b| a.distance(start).total_cmp(&b.distance(start)));
            (nearest.map_or(*place, Quad::center), rooms, None)
        }
        Home::Along { line, ends, .. } => (line.at(line.nearest(start).clamp(0.0, 1.0)), ends, Some(*line)),
    };
    let is_on = |at: Point| {
        let in_oval = |room: &Quad| {
            let [a, b, c, d] = room.0;
            let (wide, tall) = (
                Segment::new(a.midway(d), b.midway(c)),
                Segment::new(a.midway(b), d.midway(c)),
            );
            let part = |axis: Segment| {
                let half = axis.length() / 2.0 + ON;
                let way = axis.vector().unit().unwrap_or_default();
                (at - room.center()).dot(way) / half
            };
            libm::hypot(part(wide), part(tall)) <= 1.0
        };
        rooms.iter().any(in_oval) || line.is_some_and(|line| line.distance(at) <= ON)
    };
    let way = target - start;
    let steps = (way.length() / STRIDE).ceil().max(1.0);
    let mut points = (0..=steps as usize).map(|step| start + way * (step as f64 / steps));
    points.find(|at| is_on(*at)).unwrap_or(start)
}

/// Where a line from a place leaves everything that is drawn there.
fn leave(place: Point, edges: &[Segment], way: Vector) -> Point {
    const FAR: f64 = 1000.0;
    let ray = Segment::new(place, place + way * FAR);
    let out = edges
        .iter()
        .filter_map(|edge| ray.crossing(*edge).map(|(t, _)| t * FAR))
        .fold(LEAVE, f64::max);
    place + way * out
}

//! Where the words of a label could go: along their run, around their joint, or away from it on a leader.

use crate::drawing::block::{Block, Flush};
use crate::drawing::layout::across;
use crate::scene::{Affine, Point, Quad, Rect, Segment, Vector};
use std::sync::LazyLock;

/// Lettering in a slanted plane is this much higher, so that across its line it stands as tall as upright lettering.
const SLANTED: f64 = 1.155;
/// From pipe to words, mm.
const OFF: f64 = 1.0;
/// From the middle of a run to words that stand over an arrow of flow, mm.
const OVER_ARROWS: f64 = 1.5;
/// Words that a person put nearer than this to their home need no leader, mm.
const NEAR: f64 = 3.0;
/// From a symbol to words beside it, mm.
const BESIDE: f64 = 1.2;
/// From a symbol to the beginning of a leader, mm.
const LEAVE: f64 = 0.6;
/// Length of the level piece of a leader before the words, mm.
const STUB: f64 = 2.2;
/// From the end of a leader to the words, mm.
const BEFORE_WORDS: f64 = 0.9;

/// What a label belongs to, on paper.
#[derive(Clone, Debug)]
pub enum Home {
    /// A straight run or several in line.
    Along {
        /// The line on paper.
        line: Segment,
        /// Half the width of the line, mm.
        half: f64,
        /// How far marks reach below it, mm.
        below: f64,
        /// The symbols at its ends.
        ends: Vec<Quad>,
    },
    /// A place with what is drawn there.
    Around {
        /// The middle.
        place: Point,
        /// What is drawn there.
        rooms: Vec<Quad>,
    },
}

/// How the words lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lay {
    /// In one line, carried to paper.
    Line(Affine),
    /// Upright, the upper left corner here.
    Block(Point, Flush),
}

/// One possibility.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// How the words lie.
    pub lay: Lay,
    /// The room that they take.
    pub room: Quad,
    /// The leader: from its place over a knee to the words.
    pub leader: Option<[Point; 3]>,
    /// How much worse than the best.
    pub cost: f64,
}

impl Spot {
    /// The box around the words and their leader.
    pub fn bounds(&self) -> Rect {
        let leader = self.leader.iter().flatten();
        leader.fold(self.room.bounds(), |bounds, point| bounds.with(*point))
    }
}

/// A box around everything that a label could ever take up, beside its home or on a leader.
pub fn reach(block: &Block, home: &Home) -> Rect {
    let bounds = match home {
        Home::Along { line, .. } => line.bounds(),
        Home::Around { place, rooms } => rooms
            .iter()
            .map(Quad::bounds)
            .fold(Rect::sized(*place, 0.0, 0.0), Rect::union),
    };
    let longest = RINGS[RINGS.len() - 1];
    bounds.grown(longest + LEAVE + STUB + BEFORE_WORDS + block.width.max(block.height))
}

/// Where words stand whose middle a person put there: along their run as long as they are near it, else upright, and
/// with a leader when they are away from their home.
pub fn put(block: &Block, home: &Home, middle: Point) -> Spot {
    if let (Home::Along { line, .. }, Some(words)) = (home, block.single())
        && let Some(along) = line.vector().unit().filter(|along| along.x.abs() > 0.45)
    {
        let (_, x, down) = reading(along);
        let at = Affine::frame(Point::default(), x, down);
        let at = at.then(Affine::shift(middle - Quad::of(words.extent(), at).center()));
        let room = Quad::of(words.extent(), at);
        if room.gap_to_segment(*line) < NEAR {
            return Spot {
                lay: Lay::Line(at),
                room,
                leader: None,
                cost: 0.0,
            };
        }
    }
    let corner = middle - Vector::new(block.width, block.height) * 0.5;
    let room = block.room(corner);
    let quad = Quad(room.corners());
    let (start, gap) = match home {
        Home::Along { line, .. } => (
            line.at(line.nearest(middle).clamp(0.1, 0.9)),
            quad.gap_to_segment(*line),
        ),
        Home::Around { place, rooms } => {
            let gap = rooms
                .iter()
                .map(|drawn| quad.gap(drawn))
                .fold(quad.distance(*place), f64::min);
            (leave(*place, rooms, (middle - *place).unit().unwrap_or_default()), gap)
        }
    };
    let to_right = middle.x >= start.x;
    let flush = if to_right { Flush::Left } else { Flush::Right };
    let leader = (gap >= NEAR).then(|| led_to(block, room, start, to_right));
    upright(block, corner, flush, leader, 0.0)
}

/// A leader to words that stand somewhere: to the side of their first line, or straight to their edge where they stand
/// above or below its beginning.
fn led_to(block: &Block, room: Rect, start: Point, to_right: bool) -> [Point; 3] {
    let edge = room.grown(BEFORE_WORDS);
    let first = room.min.y + block.middle_of_first_line();
    let (end, stub) = if to_right {
        (Point::new(edge.min.x, first), -STUB)
    } else {
        (Point::new(edge.max.x, first), STUB)
    };
    let knee = end + Vector::new(stub, 0.0);
    if (knee.x - start.x) * stub < 0.0 {
        return [start, knee, end];
    }
    let nearest = Point::new(
        start.x.clamp(edge.min.x, edge.max.x),
        start.y.clamp(edge.min.y, edge.max.y),
    );
    [start, nearest, nearest]
}

/// How lettering lies along a way that is not steep: its own way, one mm along its line and one mm down from it.
fn reading(along: Vector) -> (Vector, Vector, Vector) {
    // Never upside down: lettering reads to the right.
    let u = if along.x > 0.0 { along } else { -along };
    let is_isometric = (u.y.abs() - 0.5).abs() < 1e-6;
    if is_isometric {
        (-across(u), u, -across(u) * SLANTED)
    } else {
        (u.turned(), u, u.turned())
    }
}

/// Places beside the home itself, best first as a rule; the same number in the same order at every call.
pub fn near(block: &Block, home: &Home, out: &mut Vec<Spot>) {
    out.clear();
    match home {
        Home::Along { line, half, below, .. } => match (block.single(), line.vector().unit()) {
            (Some(_), Some(along)) if along.x.abs() > 0.45 => along_run(block, *line, along, (*half, *below), out),
            (_, along) => beside_run(
                block,
                *line,
                along.unwrap_or(Vector::new(0.0, 1.0)),
                half.max(*below),
                out,
            ),
        },
        Home::Around { place, rooms } => {
            let all = rooms.iter().map(Quad::bounds).reduce(Rect::union);
            around(block, all.unwrap_or(Rect::sized(*place, 0.0, 0.0)), out);
        }
    }
}

/// Along a run that is not steep: above and below it, at several places.
fn along_run(block: &Block, line: Segment, along: Vector, (half, below): (f64, f64), out: &mut Vec<Spot>) {
    let Some(words) = block.single() else { return };
    let (down, x, tall) = reading(along);
    let (start, u, scale) = (if along.x > 0.0 { line.a } else { line.b }, x, tall.length());
    let extent = words.extent();
    let (length, width) = (line.length(), words.advance() * x.length());
    let sine = u.cross(down).abs();
    let flush = (length - width) / 2.0;
    let shifts = [
        0.0,
        -0.15 * length,
        0.15 * length,
        -0.3 * length,
        0.3 * length,
        -flush,
        flush,
    ];
    for (side, is_above) in [(0.0, true), (0.25, false)] {
        let off = if is_above {
            -(half + OFF).max(OVER_ARROWS) / sine - extent.max.y.max(0.0) * scale
        } else {
            (half.max(below) + OFF).max(OVER_ARROWS) / sine - extent.min.y * scale
        };
        for (number, shift) in shifts.into_iter().enumerate() {
            let middle = length / 2.0 + shift;
            let overhang = (width / 2.0 - middle.min(length - middle)).max(0.0);
            let origin = start + u * (middle - width / 2.0) + down * off;
            let at = Affine::frame(origin, x, tall);
            out.push(Spot {
                lay: Lay::Line(at),
                room: Quad::of(extent, at),
                leader: None,
                cost: side + 0.04 * shift.abs().min(10.0) + 0.01 * number as f64 + overhang.min(12.0) * 0.12,
            });
        }
    }
}

/// Beside a run: upright to its right and left, at several places along it.
fn beside_run(block: &Block, line: Segment, along: Vector, half: f64, out: &mut Vec<Spot>) {
    let normal = if along.turned().x >= 0.0 {
        along.turned()
    } else {
        -along.turned()
    };
    // How far the box reaches toward the line from its middle.
    let support = normal.x.abs() * block.width / 2.0 + normal.y.abs() * block.height / 2.0;
    let off = normal * (half + OFF + support);
    let overhang = (block.height - line.vector().y.abs()).max(0.0);
    for (side, flush, off) in [(0.0, Flush::Left, off), (0.25, Flush::Right, -off)] {
        for (number, t) in [0.5, 0.38, 0.62, 0.25, 0.75, 0.1, 0.9].into_iter().enumerate() {
            let corner = line.at(t) + off - Vector::new(block.width, block.height) * 0.5;
            out.push(upright(
                block,
                corner,
                flush,
                None,
                side + 0.1 * number as f64 + 0.1 * overhang,
            ));
        }
    }
}

/// Around a place: to the right and left, above and below, and aslant.
fn around(block: &Block, room: Rect, out: &mut Vec<Spot>) {
    let (w, h) = (block.width, block.height);
    let c = room.center();
    let centred = c.y - h / 2.0;
    let first = c.y - block.middle_of_first_line();
    let (right, left) = (room.max.x + BESIDE, room.min.x - BESIDE - w);
    let (above, under) = (room.min.y - BESIDE - h, room.max.y + BESIDE);
    let near = BESIDE * 0.4;
    let spots = [
        (right, first, Flush::Left, 0.0),
        (right, centred, Flush::Left, 0.1),
        (left, first, Flush::Right, 0.3),
        (left, centred, Flush::Right, 0.4),
        (room.max.x + near, room.min.y - h + near, Flush::Left, 0.6),
        (room.max.x + near, room.max.y - near, Flush::Left, 0.7),
        (room.min.x - near - w, room.min.y - h + near, Flush::Right, 0.8),
        (room.min.x - near - w, room.max.y - near, Flush::Right, 0.9),
        (c.x - w / 2.0, above, Flush::Left, 0.9),
        (c.x - w / 2.0, under, Flush::Left, 0.9),
        (c.x - 1.0, above, Flush::Left, 1.0),
        (c.x - 1.0, under, Flush::Left, 1.0),
        (c.x + 1.0 - w, above, Flush::Right, 1.1),
        (c.x + 1.0 - w, under, Flush::Right, 1.1),
    ];
    for (x, y, flush, cost) in spots {
        out.push(upright(block, Point::new(x, y), flush, None, cost));
    }
}

/// How far leaders reach, mm.
const RINGS: [f64; 10] = [4.0, 6.0, 9.0, 13.0, 18.0, 24.0, 32.0, 42.0, 54.0, 70.0];
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
/// What any leader costs.
const LED: f64 = 3.0;
/// How much more one costs that begins beside the symbols between which its pipe is hidden.
const BETWEEN: f64 = 2.0;
/// How far from the middle of its pipe such a leader may begin, mm.
const NEAR_ENDS: f64 = 4.0;

/// A way out from a home: where a leader could begin, and in which direction it could go.
#[derive(Clone, Copy, Debug)]
pub struct WayOut {
    /// Where it begins, on the pipe or at the edge of a symbol.
    pub start: Point,
    /// Its direction, 1 mm long.
    pub way: Vector,
    /// How much worse than the best, whatever the length.
    pub cost: f64,
}

/// Where leaders could begin on a home, best first, each with its number.
pub fn starts(home: &Home) -> Vec<Point> {
    match home {
        Home::Along { line, .. } => [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9].map(|t| line.at(t)).to_vec(),
        Home::Around { place, .. } => vec![*place],
    }
}

/// The ways out from the start of that number.
pub fn ways_out(home: &Home, number: usize, start: Point) -> impl Iterator<Item = WayOut> + '_ {
    ways().filter_map(move |(way, dislike)| {
        let start = match home {
            Home::Along { line, .. } => {
                let along = line.vector().unit().unwrap_or_default();
                // A leader that nearly follows its pipe is not seen.
                (along.cross(way).abs() > 0.42).then_some(start)?
            }
            Home::Around { place, rooms } => leave(*place, rooms, way),
        };
        let cost = LED + dislike + 0.1 * number as f64;
        Some(WayOut { start, way, cost })
    })
}

/// The ways out from between the symbols at the ends of a run that hide it: about square to it, and beginning near it.
pub fn ways_between(home: &Home) -> impl Iterator<Item = WayOut> + '_ {
    ways().filter_map(move |(way, dislike)| {
        let Home::Along { line, ends, .. } = home else {
            return None;
        };
        let (middle, along) = (line.at(0.5), line.vector().unit()?);
        let start = leave(middle, ends, way);
        let cost = LED + BETWEEN + dislike;
        (along.cross(way).abs() > 0.8 && start.distance(middle) < NEAR_ENDS).then_some(WayOut { start, way, cost })
    })
}

/// Directions of leaders, 1 mm long, with what each costs.
fn ways() -> impl Iterator<Item = (Vector, f64)> {
    static UNIT: LazyLock<[(Vector, f64); WAYS.len()]> = LazyLock::new(|| {
        WAYS.map(|(degrees, dislike)| {
            let (sin, cos) = libm::sincos(degrees.to_radians());
            (Vector::new(cos, sin), dislike)
        })
    });
    UNIT.iter().copied()
}

/// The reaches of a leader from the shortest, mm, each with what it costs.
pub fn reaches() -> impl Iterator<Item = (f64, f64)> {
    RINGS.into_iter().map(|reach| (reach, 0.12 * reach))
}

/// The words beyond the knee of a leader that takes a way out, to its right or left.
pub fn beyond(block: &Block, out: &WayOut, reach: f64, cost: f64) -> Spot {
    let (start, knee) = (out.start, out.start + out.way * reach);
    let to_right = out.way.x >= 0.0;
    let side = if to_right { 1.0 } else { -1.0 };
    let (stub, before) = if block.is_ringed() {
        (0.0, 0.0)
    } else {
        (STUB, BEFORE_WORDS)
    };
    let end = knee + Vector::new(side * stub, 0.0);
    let top = knee.y - block.middle_of_first_line();
    let (corner, flush) = if to_right {
        (Point::new(end.x + before, top), Flush::Left)
    } else {
        (Point::new(end.x - before - block.width, top), Flush::Right)
    };
    upright(block, corner, flush, Some([start, knee, end]), cost)
}

fn upright(block: &Block, corner: Point, flush: Flush, leader: Option<[Point; 3]>, cost: f64) -> Spot {
    Spot {
        lay: Lay::Block(corner, flush),
        room: Quad(block.room(corner).corners()),
        leader,
        cost,
    }
}

/// Where a line from a place leaves everything that is drawn there.
fn leave(place: Point, rooms: &[Quad], way: Vector) -> Point {
    const FAR: f64 = 1000.0;
    let ray = Segment::new(place, place + way * FAR);
    let out = rooms
        .iter()
        .flat_map(|room| room.grown(LEAVE).edges())
        .filter_map(|edge| ray.crossing(edge).map(|(t, _)| t * FAR))
        .fold(0.6, f64::max);
    place + way * out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::block::Line;

    fn block() -> Block {
        Block::new(vec![Line::plain("3/4\" × 12'-6\"")])
    }

    fn home(a: Point, b: Point) -> Home {
        Home::Along {
            line: Segment::new(a, b),
            half: 0.35,
            below: 0.35,
            ends: Vec::new(),
        }
    }

    #[test]
    fn words_along_a_run_read_to_the_right_and_leave_the_line_free() {
        let (a, b) = (Point::new(50.0, 50.0), Point::new(93.301_270_189, 25.0));
        let mut spots = Vec::new();
        for home in [home(a, b), home(b, a)] {
            near(&block(), &home, &mut spots);
            assert!(spots.len() >= 10);
            for spot in &spots {
                let Lay::Line(at) = spot.lay else { panic!("{spot:?}") };
                assert!(at.xx > 0.0 && at.yy > 0.0, "upright: {at:?}");
                let gap = spot.room.gap_to_segment(Segment::new(a, b));
                assert!(gap > 0.35 + 0.5 && gap < 2.5, "{gap}");
            }
        }
    }

    #[test]
    fn lettering_is_at_least_two_and_a_half_mm_tall_across_its_line() {
        for b in [
            Point::new(93.301_270_189, 25.0),
            Point::new(93.301_270_189, 75.0),
            Point::new(90.0, 60.0),
        ] {
            let mut spots = Vec::new();
            near(&block(), &home(Point::new(50.0, 50.0), b), &mut spots);
            let Lay::Line(at) = spots[0].lay else { panic!() };
            let (x, y) = (Vector::new(at.xx, at.yx), Vector::new(at.xy, at.yy));
            let tall = x.cross(y).abs() / x.length() * block().single().unwrap().height();
            assert!(tall >= 2.5 - 1e-9, "{tall}");
        }
    }

    #[test]
    fn beside_an_upright_run_words_stand_clear() {
        let line = Segment::new(Point::new(50.0, 90.0), Point::new(50.0, 50.0));
        let mut spots = Vec::new();
        near(&block(), &home(line.a, line.b), &mut spots);
        for spot in &spots {
            assert!(spot.room.gap_to_segment(line) > 1.0);
        }
    }

    #[test]
    fn a_leader_starts_outside_what_it_points_at_and_ends_before_its_words() {
        let room = Rect::sized(Point::new(40.0, 40.0), 8.0, 6.0);
        let home = Home::Around {
            place: room.center(),
            rooms: vec![Quad(room.corners())],
        };
        let mut count = 0;
        for out in ways_out(&home, 0, starts(&home)[0]) {
            for (reach, _) in reaches() {
                let spot = beyond(&block(), &out, reach, 0.0);
                let [start, knee, end] = spot.leader.unwrap();
                assert!(!room.grown(0.5).contains(start));
                for piece in [Segment::new(start, knee), Segment::new(knee, end)] {
                    assert!(spot.room.gap_to_segment(piece) > 0.5);
                }
                count += 1;
            }
        }
        assert!(count >= 100);
    }
}

//! Places along a run: its size and length skewed on it, or upright beside it.

use super::{Lay, NEAR, Spot, line_at, upright};
use crate::drawing::block::{Block, Flush};
use crate::drawing::layout::across;
use crate::scene::{Affine, Point, Quad, Segment, TextItem, Vector};

/// Lettering in a slanted plane is this much higher, so that across its line it stands as tall as upright lettering.
const SLANTED: f64 = 1.155;
/// From pipe to words, mm.
const OFF: f64 = 1.0;
/// From the middle of a run to words that stand over an arrow of flow, mm.
const OVER_ARROWS: f64 = 1.5;
/// From a size to the length below it where both stand on one side of their run, from base line to base line, mm.
const APART: f64 = 4.3;
/// From this place among [`Run::shifts`] words are flush with an end.
const FLUSH: usize = 5;
/// What it costs a size and a length to stand on one side.
const STACKED: f64 = 0.6;
/// What it costs a size and a length to stand to both sides of a steep run.
const FLANKING: f64 = 0.9;
/// What it costs words to stand upright beside a run along which they could lie.
pub const UPRIGHT: f64 = 1.4;
/// A person's words whose middle is nearer to their run stand on both sides of it, mm.
const ASTRIDE: f64 = 2.0;

/// How lettering lies along a way that is not steep: its own way, one mm along its line and one mm down from it.
pub fn reading(along: Vector) -> (Vector, Vector, Vector) {
    // Never upside down: lettering reads to the right.
    let u = if along.x > 0.0 { along } else { -along };
    let is_isometric = (u.y.abs() - 0.5).abs() < 1e-6;
    if is_isometric {
        (-across(u), u, -across(u) * SLANTED)
    } else {
        (u.turned(), u, u.turned())
    }
}

/// A run as lettering sees it that reads along it.
struct Run {
    start: Point,
    /// One mm along it, to the right.
    along: Vector,
    /// One mm down in its plane.
    down: Vector,
    /// One mm of lettering, down.
    tall: Vector,
    length: f64,
    /// Sine of the angle between run and lettering.
    sine: f64,
}

impl Run {
    fn new(line: Segment, along: Vector) -> Run {
        let (down, x, tall) = reading(along);
        Run {
            start: if along.x > 0.0 { line.a } else { line.b },
            along: x,
            down,
            tall,
            length: line.length(),
            sine: x.cross(down).abs(),
        }
    }

    /// From the line to the base line of words above it, mm in its plane; below zero.
    fn above(&self, words: &TextItem, half: f64) -> f64 {
        -(half + OFF).max(OVER_ARROWS) / self.sine - words.extent().max.y.max(0.0) * self.tall.length()
    }

    /// The same of words below it.
    fn below(&self, words: &TextItem, below: f64) -> f64 {
        (below + OFF).max(OVER_ARROWS) / self.sine - words.extent().min.y * self.tall.length()
    }

    /// Words with their middle so far along the line and their base line so far down from it.
    fn lay(&self, words: &TextItem, middle: f64, off: f64) -> (Affine, Quad) {
        let origin = self.start + self.along * (middle - words.advance() / 2.0) + self.down * off;
        let at = Affine::frame(origin, self.along, self.tall);
        (at, Quad::of(words.extent(), at))
    }

    /// Where along the line words could stand, from its middle, with what each place costs, best first as a rule.
    fn shifts(&self, words: &TextItem) -> [(f64, f64); 7] {
        let width = words.advance();
        let flush = (self.length - width) / 2.0;
        let part = |share: f64| share * self.length;
        let shifts = [0.0, part(-0.15), part(0.15), part(-0.3), part(0.3), -flush, flush];
        let mut number = 0.0;
        shifts.map(|shift| {
            let middle = self.length / 2.0 + shift;
            let overhang = (width / 2.0 - middle.min(self.length - middle)).max(0.0);
            number += 1.0;
            let cost = 0.04 * shift.abs().min(10.0) + 0.01 * number + overhang.min(12.0) * 0.12;
            (middle, cost)
        })
    }
}

/// One line of words along a run that is not steep: above and below it, at several places.
pub fn in_line(words: &TextItem, line: Segment, along: Vector, (half, below): (f64, f64), out: &mut Vec<Spot>) {
    let run = Run::new(line, along);
    for (side, off) in [(0.0, run.above(words, half)), (0.25, run.below(words, below))] {
        out.extend(run.shifts(words).map(|(middle, cost)| {
            let (at, room) = run.lay(words, middle, off);
            line_at(at, room, side + cost)
        }));
    }
}

/// A size above a run that is not steep and a length below it; or both above or below.
pub fn astride(
    [size, length]: [&TextItem; 2],
    line: Segment,
    along: Vector,
    (half, below): (f64, f64),
    out: &mut Vec<Spot>,
) {
    let run = Run::new(line, along);
    let above = run.above(size, half);
    let under = run.below(length, below);
    let mut pair = |of_size: (f64, f64), of_length: (f64, f64), offs: (f64, f64), cost: f64| {
        let (one, room) = run.lay(size, of_size.0, offs.0);
        let (other, its) = run.lay(length, of_length.0, offs.1);
        out.push(Spot {
            lay: Lay::Pair([one, other]),
            room,
            other: Some(its),
            leader: None,
            cost: cost + (of_size.1 + of_length.1) / 2.0 + 0.01 * (of_size.0 - of_length.0).abs().min(20.0),
        });
    };
    let (sizes, lengths) = (run.shifts(size), run.shifts(length));
    for (at, one) in sizes.into_iter().enumerate() {
        for (its, other) in lengths.into_iter().enumerate() {
            // One of them in the middle, both alike, or one flush with each end: the rest is no gain.
            let is_of_use = at == its || at == 0 || its == 0 || at.min(its) >= FLUSH;
            if is_of_use {
                pair(one, other, (above, under), 0.0);
            }
        }
    }
    let apart = APART * run.tall.length();
    let longest = if size.advance() > length.advance() {
        sizes
    } else {
        lengths
    };
    for at in longest {
        pair(
            at,
            at,
            (run.above(length, half) - apart, run.above(length, half)),
            STACKED,
        );
    }
    for at in longest {
        let first = run.below(size, below);
        pair(at, at, (first, first + apart), STACKED + 0.2);
    }
}

/// A size and a length that a person put near their run: on both sides of it, or one below the other on the side where
/// they were put; `None` where they are too far for that.
pub fn put([size, length]: [&TextItem; 2], line: Segment, along: Vector, half: f64, middle: Point) -> Option<Spot> {
    let run = Run::new(line, along);
    let is_astride = line.distance(middle) < ASTRIDE;
    let lines = [size, length];
    let offs = if is_astride {
        [run.above(size, half), run.below(length, half)]
    } else {
        [0.0, APART * run.tall.length()]
    };
    let laid = [0, 1].map(|at| run.lay(lines[at], 0.0, offs[at]));
    let way = middle - laid[0].1.center().midway(laid[1].1.center());
    let laid = laid.map(|(at, room)| {
        let by = Affine::shift(way);
        (at.then(by), Quad(room.0.map(|corner| corner + way)))
    });
    let gap = laid
        .iter()
        .map(|(_, room)| room.gap_to_segment(line))
        .fold(f64::INFINITY, f64::min);
    (is_astride || gap < NEAR).then_some(Spot {
        lay: Lay::Pair(laid.map(|(at, _)| at)),
        room: laid[0].1,
        other: Some(laid[1].1),
        leader: None,
        cost: 0.0,
    })
}

/// Upright to both sides of a steep run: its size to the left, its length to the right, or the other way round.
pub fn flanking(pair: [&TextItem; 2], line: Segment, half: f64, out: &mut Vec<Spot>) {
    for ([left, right], dear) in [(pair, 0.0), ([pair[1], pair[0]], 0.1)] {
        for (number, t) in [0.5, 0.38, 0.62, 0.25, 0.75, 0.1, 0.9].into_iter().enumerate() {
            let middle = line.at(t) + Vector::new(0.0, left.height() / 2.0);
            let aside = half + OFF;
            let lay = |x: f64, words: &TextItem| {
                let at = Affine::to(middle + Vector::new(x, 0.0));
                (at, Quad::of(words.extent(), at))
            };
            let (one, other) = (lay(-aside - left.advance(), left), lay(aside, right));
            let [size, length] = if dear == 0.0 { [one, other] } else { [other, one] };
            out.push(Spot {
                lay: Lay::Pair([size.0, length.0]),
                room: size.1,
                other: Some(length.1),
                leader: None,
                cost: FLANKING + dear + 0.1 * number as f64,
            });
        }
    }
}

/// Beside a run: upright to its right and left, at several places along it.
pub fn beside(block: &Block, line: Segment, along: Vector, half: f64, dear: f64, out: &mut Vec<Spot>) {
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
                dear + side + 0.1 * number as f64 + 0.1 * overhang,
            ));
        }
    }
}

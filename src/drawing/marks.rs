//! Marks on a run: the arrow of flow and the break of a run that is much longer than drawn.

use super::layout::{Leg, across};
use crate::scene::{Ink, Outline, PathItem, Pen, Point, Quad, Segment, Stroke, Vector};

/// Length of an arrow head, mm.
pub const ARROW: f64 = 2.8;
const ARROW_HALF: f64 = 0.85;
/// Half the gap of a break, mm.
pub const BREAK: f64 = 0.9;
const BREAK_HALF: f64 = 1.7;

/// A solid arrow head whose middle is at a place.
pub fn arrow(middle: Point, along: Vector) -> (PathItem, Quad) {
    let (tip, tail) = (middle + along * (ARROW / 2.0), middle - along * (ARROW / 2.0));
    let side = along.turned() * ARROW_HALF;
    let head = Outline::polygon([tip, tail + side, tail - side]);
    (
        PathItem::filled(head, Ink::Black),
        Quad::strip(Segment::new(tail, tip), 2.0 * ARROW_HALF),
    )
}

/// The two slanted strokes of a break; the line between them is left out by who draws the line.
pub fn strokes(middle: Point, along: Vector) -> (PathItem, Quad) {
    let lean = along * 0.8 + across(along) * BREAK_HALF;
    let mut outline = Outline::new();
    for at in [middle - along * BREAK, middle + along * BREAK] {
        outline.extend(&Outline::line(at - lean, at + lean));
    }
    let room = Quad([
        middle - along * (BREAK + 0.2) - lean,
        middle + along * (BREAK + 0.2) - lean,
        middle + along * (BREAK + 0.2) + lean,
        middle - along * (BREAK + 0.2) + lean,
    ]);
    (PathItem::stroked(outline, Stroke::new(Pen::Thin)), room)
}

/// Which stretches of a leg are taken, in mm from its beginning.
#[derive(Clone, Debug, Default)]
pub struct Taken(Vec<(f64, f64)>);

impl Taken {
    /// Takes a stretch.
    pub fn take(&mut self, from: f64, to: f64) {
        self.0.push((from, to));
    }

    /// The middle nearest to `wish` of a free stretch `2 half` long; `None` where there is none.
    pub fn find(&self, leg: &Leg, wish: f64, half: f64) -> Option<f64> {
        let is_free = |middle: f64| {
            middle - half >= 0.0
                && middle + half <= leg.length
                && self
                    .0
                    .iter()
                    .all(|(from, to)| middle + half <= *from || middle - half >= *to)
        };
        // A free stretch nearest to the wish either has its middle there or touches a taken one.
        let touching = self
            .0
            .iter()
            .flat_map(|(from, to)| [from - half, to + half])
            .filter(|middle| is_free(*middle));
        std::iter::once(wish)
            .filter(|middle| is_free(*middle))
            .chain(touching)
            .min_by(|a, b| (a - wish).abs().total_cmp(&(b - wish).abs()))
    }
}

//! What pipe passes through: a hatched patch of the plane across the pipe, the ground line, the sleeve.

use super::{Shape, covering, line};
use crate::scene::{Affine, Group, Ink, Outline, PathItem, Pen, Point, Quad, Rect, Stroke, Vector};

/// Half the edge of a patch, mm.
pub const BARRIER_HALF: f64 = 5.0;
const HATCH: f64 = 1.25;

/// A hatched patch spanned by two directions of its plane, each 1 mm long, `half` mm to each side.
pub fn barrier(at: Point, one: Vector, other: Vector, half: f64) -> (Group, Quad) {
    let plane = Affine::frame(at, one, other);
    let square = Rect::new(Point::new(-half, -half), Point::new(half, half));
    let quad = Quad::of(square, plane);
    let mut hatch = Outline::new();
    // Lines x − y = c across the square, half a spacing away from its corners.
    let count = (2.0 * half / HATCH).floor().max(1.0);
    let spacing = 4.0 * half / (2.0 * count);
    for number in 0..2 * count as u32 {
        let c = -2.0 * half + spacing * (f64::from(number) + 0.5);
        let (low, high) = ((-half).max(-half + c), half.min(half + c));
        hatch = hatch
            .to(plane.point(Point::new(low, low - c)))
            .line_to(plane.point(Point::new(high, high - c)));
    }
    let edge = Outline::polygon(quad.0);
    let group = Group::new()
        .with(PathItem::filled(edge.clone(), Ink::White))
        .with(PathItem::stroked(hatch, Stroke::new(Pen::Thin)))
        .with(PathItem::stroked(edge, Stroke::new(Pen::Medium)));
    (group, quad.grown(Pen::Medium.mm() / 2.0))
}

/// The ground line across a riser: a line with short strokes of soil below it.
pub fn ground() -> Shape {
    const HALF: f64 = 6.0;
    let mut shape = Shape::new(-HALF, -0.3, HALF, 1.8).with(line(Pen::Medium, -HALF, 0.0, HALF, 0.0));
    for number in 0..6 {
        let x = -HALF + 1.6 + f64::from(number) * 2.0;
        if x.abs() > 0.9 {
            shape = shape.with(line(Pen::Thin, x, 0.0, x - 1.1, 1.6));
        }
    }
    shape
}

/// A sleeve: the collar that stands out of the barrier toward the viewer, to be drawn before the pipe in it.
pub fn sleeve() -> Shape {
    let body = Outline::rect(Rect::new(Point::new(0.0, -1.1), Point::new(2.8, 1.1)));
    Shape::new(0.0, -1.2, 2.9, 1.2).with(covering(body, Pen::Medium))
}

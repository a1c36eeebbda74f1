//! An appliance: a cube that carries its letter on one of the faces that are seen.

use super::{Shape, covering};
use crate::job::Axis;
use crate::projection::axis;
use crate::scene::{Affine, Anchor, Face, Outline, PathItem, Pen, Point, Stroke, TextItem, Vector, measure};

/// The edge of a cube that has room for its letter, mm.
pub const CUBE: f64 = 4.6;
const LETTER: f64 = 2.6;

/// A face of the cube that is seen and can carry the letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CubeFace {
    /// The face to the lower left.
    South,
    /// The face to the lower right.
    East,
}

/// An appliance's cube of `edge` mm about the origin, upright on paper, with its letter where the edge leaves room.
pub fn cube(edge: f64, letter: &str, face: CubeFace, pen: Pen) -> Shape {
    let [east, north, up] = [Axis::East, Axis::North, Axis::Up].map(|a| axis(a) * edge);
    let corner = |v: Vector| Point::default() + v;
    let hull = Outline::polygon([up, north, east, -up, -north, -east].map(corner));
    let mut shape = Shape::new((-east).x, -edge, east.x, edge).with(covering(hull, pen));
    // Seen from the south-east and above, the three edges of the nearest corner meet in the middle.
    for spoke in [-east, north, -up] {
        shape = shape.with(PathItem::stroked(
            Outline::line(Point::default(), corner(spoke)),
            Stroke::new(Pen::Thin),
        ));
    }
    if edge > LETTER * 1.5 && measure(letter, LETTER, Face::Strong) < edge * 0.9 {
        let (way, across) = match face {
            CubeFace::South => (Axis::East, -east),
            CubeFace::East => (Axis::North, north),
        };
        let middle = corner((across - up) * 0.5) + Vector::new(0.0, LETTER / 2.0);
        let plane = Affine::frame(middle, axis(way), -axis(Axis::Up));
        let letter = TextItem::new(letter, LETTER, Face::Strong).place(plane, Anchor::Middle);
        shape.group.push(letter);
    }
    shape
}

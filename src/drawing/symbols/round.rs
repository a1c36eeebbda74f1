//! Round symbols: point of delivery, meter, excess-flow valve, test gauge.

use super::{Shape, covering, line};
use crate::scene::{Anchor, Face, Ink, Outline, PathItem, Pen, Point, TextItem};

const RADIUS: f64 = 3.4;
const GAUGE: f64 = 2.0;
const STEM: f64 = 3.4;

/// The point of delivery without a meter: a ring with a solid core.
pub fn supply(pen: Pen) -> Shape {
    ring(pen).with(PathItem::filled(Outline::circle(Point::default(), 1.3), Ink::Black))
}

/// A meter: a circle with its letter.
pub fn meter(pen: Pen) -> Shape {
    let letter = TextItem::new("M", 2.8, Face::Regular).at(Point::new(0.0, 1.4), Anchor::Middle);
    let mut shape = ring(pen);
    shape.group.push(letter);
    shape
}

/// A valve that shuts by itself: in a circle a solid wedge that the gas drives downstream against its seat.
pub fn excess_flow(pen: Pen) -> Shape {
    const HALF: f64 = 2.1;
    let wedge = Outline::polygon([Point::new(-1.3, -0.95), Point::new(-1.3, 0.95), Point::new(0.5, 0.0)]);
    Shape::new(-HALF, -HALF, HALF, HALF)
        .with(covering(Outline::circle(Point::default(), HALF), pen))
        .with(PathItem::filled(wedge, Ink::Black))
        .with(line(pen, 0.9, -1.2, 0.9, 1.2))
}

/// A gauge on a stem that stands on the pipe.
pub fn test_gauge(pen: Pen) -> Shape {
    let face = Point::new(0.0, -STEM - GAUGE);
    Shape::new(-GAUGE, face.y - GAUGE, GAUGE, 0.0)
        .with(line(pen, 0.0, 0.0, 0.0, -STEM))
        .with(covering(Outline::circle(face, GAUGE), pen))
        .with(line(Pen::Thin, face.x, face.y, face.x + 1.0, face.y - 1.1))
}

fn ring(pen: Pen) -> Shape {
    Shape::new(-RADIUS, -RADIUS, RADIUS, RADIUS).with(covering(Outline::circle(Point::default(), RADIUS), pen))
}

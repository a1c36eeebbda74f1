//! Two triangles tip to tip: valves, and the line regulator with its dome.

use super::{Shape, covering, line};
use crate::job::ValveKind;
use crate::scene::{Ink, Outline, PathItem, Pen, Point, Rect};

const HALF_LENGTH: f64 = 2.6;
const HALF_HEIGHT: f64 = 1.6;
/// How far the stem of a key valve reaches.
const KEY: f64 = 3.2;

/// A shutoff valve: an open ring at the tips for a ball valve, a bar across them for a plug valve, a dot for a globe
/// valve, nothing for a gate valve, and for a key valve the stem that comes through the wall, with the bit of its key.
pub fn valve(kind: ValveKind, pen: Pen) -> Shape {
    let top = match kind {
        ValveKind::Key => KEY,
        ValveKind::Ball | ValveKind::Plug | ValveKind::Gate | ValveKind::Globe => HALF_HEIGHT,
    };
    let bow = bow_tie(Shape::new(-HALF_LENGTH, -top, HALF_LENGTH, HALF_HEIGHT), pen);
    match kind {
        ValveKind::Ball => bow.with(covering(Outline::circle(Point::default(), 0.85), pen)),
        ValveKind::Plug => bow.with(line(pen, 0.0, -HALF_HEIGHT, 0.0, HALF_HEIGHT)),
        ValveKind::Gate => bow,
        ValveKind::Globe => bow.with(PathItem::filled(Outline::circle(Point::default(), 0.85), Ink::Black)),
        ValveKind::Key => bow
            .with(line(pen, 0.0, 0.0, 0.0, -KEY))
            .with(line(pen, 0.0, -KEY, 1.2, -KEY))
            .with(line(pen, 0.0, 0.7 - KEY, 0.8, 0.7 - KEY)),
    }
}

/// A line regulator: a bow tie under a dome.
pub fn regulator(pen: Pen) -> Shape {
    let dome = Outline::arc(Point::new(0.0, -2.0), 1.8, 180.0, 180.0).close();
    bow_tie(Shape::new(-HALF_LENGTH, -3.9, HALF_LENGTH, HALF_HEIGHT), pen)
        .with(line(pen, 0.0, 0.0, 0.0, -2.0))
        .with(covering(dome, pen))
}

/// The same with the pipe of its vent, which leaves the dome and bends down.
pub fn vented(pen: Pen) -> Shape {
    let mut shape = regulator(pen);
    for (ax, ay, bx, by) in [
        (1.5, -3.0, 3.6, -3.0),
        (3.6, -3.0, 3.6, -1.4),
        (3.1, -2.1, 3.6, -1.4),
        (4.1, -2.1, 3.6, -1.4),
    ] {
        shape = shape.with(line(Pen::Thin, ax, ay, bx, by));
    }
    Shape {
        room: Rect::new(shape.room.min, Point::new(4.2, HALF_HEIGHT)),
        ..shape
    }
}

fn bow_tie(shape: Shape, pen: Pen) -> Shape {
    let half = |x: f64| {
        Outline::polygon([
            Point::new(x, -HALF_HEIGHT),
            Point::new(x, HALF_HEIGHT),
            Point::default(),
        ])
    };
    let mut outline = half(-HALF_LENGTH);
    outline.extend(&half(HALF_LENGTH));
    shape.with(covering(outline, pen))
}

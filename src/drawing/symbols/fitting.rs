//! Small things in the line or at its end: union, cap, reducing fitting, transition, connector, coupling, trap.

use super::{Shape, covering, line};
use crate::scene::{Ink, Outline, PathItem, Pen, Point, Rect, Stroke};

/// A union: three ticks close together.
pub fn union(pen: Pen) -> Shape {
    [-0.9, 0.0, 0.9]
        .into_iter()
        .fold(Shape::new(-1.1, -1.6, 1.1, 1.6), |shape, x| {
            shape.with(line(pen, x, -1.6, x, 1.6))
        })
}

/// A cap at the end of the pipe: a tick closed by a flat arc.
pub fn cap(pen: Pen) -> Shape {
    let arc = Outline::new()
        .to(Point::new(0.0, -1.5))
        .cubic(Point::new(1.7, -1.3), Point::new(1.7, 1.3), Point::new(0.0, 1.5))
        .close();
    Shape::new(-0.2, -1.6, 1.5, 1.6).with(covering(arc, pen))
}

/// A plug in the outlet of a tee, beside the pipe: what leads to it, and a cap.
pub fn plug(pipe: Stroke, pen: Pen) -> Shape {
    const OUT: f64 = 2.2;
    let outlet = PathItem::stroked(Outline::line(Point::default(), Point::new(OUT, 0.0)), pipe);
    let arc = Outline::new()
        .to(Point::new(OUT, -1.3))
        .cubic(
            Point::new(OUT + 1.4, -1.1),
            Point::new(OUT + 1.4, 1.1),
            Point::new(OUT, 1.3),
        )
        .close();
    Shape::new(-0.2, -1.4, OUT + 1.3, 1.4)
        .with(outlet)
        .with(covering(arc, pen))
}

/// A reducing fitting in line, its point toward the smaller size downstream.
pub fn reducer(pen: Pen) -> Shape {
    let body = Outline::polygon([
        Point::new(-1.6, -1.3),
        Point::new(1.6, -0.45),
        Point::new(1.6, 0.45),
        Point::new(-1.6, 1.3),
    ]);
    Shape::new(-1.7, -1.4, 1.7, 1.4).with(covering(body, pen))
}

/// A transition from one material to another.
pub fn transition(pen: Pen) -> Shape {
    let body = Outline::rect(Rect::new(Point::new(-1.7, -1.0), Point::new(1.7, 1.0)));
    let half = Outline::rect(Rect::new(Point::new(0.0, -1.0), Point::new(1.7, 1.0)));
    Shape::new(-1.8, -1.2, 1.8, 1.2)
        .with(covering(body, pen))
        .with(PathItem::filled(half, Ink::Black))
}

/// An anodeless riser: a transition that ends a steel case around the pipe.
pub fn riser(pen: Pen) -> Shape {
    let case = Outline::rect(Rect::new(Point::new(-2.6, -1.15), Point::new(0.6, 1.15)));
    let head = Outline::rect(Rect::new(Point::new(0.6, -1.5), Point::new(2.4, 1.5)));
    Shape::new(-2.7, -1.6, 2.5, 1.6)
        .with(PathItem::stroked(case, Stroke::new(pen)))
        .with(PathItem::filled(head, Ink::Black))
}

/// A flexible connector: a wavy piece between two ticks.
pub fn connector(pen: Pen) -> Shape {
    const HALF: f64 = 3.0;
    let cover = Outline::rect(Rect::new(Point::new(-HALF, -0.6), Point::new(HALF, 0.6)));
    let mut wave = Outline::new().to(Point::new(-HALF, 0.0));
    for part in 0..4 {
        let (x, y) = (-HALF + 1.5 * f64::from(part), if part % 2 == 0 { -1.7 } else { 1.7 });
        wave = wave.cubic(Point::new(x + 0.5, y), Point::new(x + 1.0, y), Point::new(x + 1.5, 0.0));
    }
    Shape::new(-HALF - 0.2, -1.5, HALF + 0.2, 1.5)
        .with(PathItem::filled(cover, Ink::White))
        .with(PathItem::stroked(wave, Stroke::new(pen)))
        .with(line(pen, -HALF, -1.2, -HALF, 1.2))
        .with(line(pen, HALF, -1.2, HALF, 1.2))
}

/// A quick-disconnect coupling: a socket that holds a plug.
pub fn quick_coupling(pen: Pen) -> Shape {
    let body = Outline::rect(Rect::new(Point::new(-1.9, -1.4), Point::new(1.9, 1.4)));
    let plug = Outline::polyline([Point::new(-0.9, -1.4), Point::new(0.7, 0.0), Point::new(-0.9, 1.4)]);
    Shape::new(-2.0, -1.6, 2.0, 1.6)
        .with(covering(body, pen))
        .with(PathItem::stroked(plug, Stroke::new(pen)))
}

/// The nipple and cap of a sediment trap, along x from the tee.
pub fn sediment_trap(pipe: Stroke, pen: Pen) -> Shape {
    const DEPTH: f64 = 4.6;
    let nipple = PathItem::stroked(Outline::line(Point::default(), Point::new(DEPTH, 0.0)), pipe);
    let cap = Outline::new()
        .to(Point::new(DEPTH, -1.3))
        .cubic(
            Point::new(DEPTH + 1.4, -1.1),
            Point::new(DEPTH + 1.4, 1.1),
            Point::new(DEPTH, 1.3),
        )
        .close();
    Shape::new(-0.2, -1.4, DEPTH + 1.3, 1.4)
        .with(nipple)
        .with(line(pen, 1.7, -1.1, 1.7, 1.1))
        .with(covering(cap, pen))
}

//! Isometric paper: the lattice, and the plane in which places are looked for.

use super::Glass;
use crate::desk::VIEW;
use crate::editor::Plane;
use crate::job::{Direction, LatticePoint};
use crate::look;
use crate::scene::{Point, Rect};
use egui::{Mesh, Painter, Pos2, Shape, Stroke};

/// Lattice lines nearer together than so many points are left out, save every fifth.
const CLOSE: f64 = 9.0;
/// Even every fifth is left out below so many.
const TOO_CLOSE: f64 = 2.4;
/// Cosine of 30°.
const RIGHT: f64 = 0.866_025_403_784_438_6;
/// How many steps the tinted plane reaches from the place that is worked at.
const REACH: i32 = 6;

/// Rules the paper.
pub fn rule(painter: &Painter, glass: Glass, seen: Rect) {
    let step = VIEW.step * glass.scale;
    let every = match step {
        step if step >= CLOSE => 1.0,
        step if step >= TOO_CLOSE => 5.0,
        _ => return,
    };
    // One pixel wide and without the soft edge of other lines: there are many, and soft ones cost three times the paint.
    let mut mesh = Mesh::default();
    let half = 0.5 / glass.pixels;
    let apart = VIEW.step * every;
    let mut line = |from: Point, to: Point| {
        let (from, to) = (glass.point(from), glass.point(to));
        let across = (to - from).normalized().rot90() * half;
        let first = mesh.vertices.len() as u32;
        for corner in [from - across, from + across, to + across, to - across] {
            mesh.colored_vertex(corner, look::LATTICE);
        }
        mesh.add_triangle(first, first + 1, first + 2);
        mesh.add_triangle(first, first + 2, first + 3);
    };
    let multiples = |low: f64, high: f64, apart: f64| {
        let (first, last) = ((low / apart).ceil() as i64, (high / apart).floor() as i64);
        (first..=last).map(move |count| count as f64 * apart)
    };
    for x in multiples(seen.min.x, seen.max.x, apart * RIGHT) {
        line(Point::new(x, seen.min.y), Point::new(x, seen.max.y));
    }
    let slope = 0.5 / RIGHT;
    let fall = (seen.max.x - seen.min.x) * slope;
    // East falls to the right, north rises: y = ±slope·x + height.
    for sign in [1.0, -1.0] {
        let at = |x: f64, height: f64| Point::new(x, sign * slope * x + height);
        let left = sign * slope * seen.min.x;
        let (low, high) = match sign > 0.0 {
            true => (seen.min.y - left - fall, seen.max.y - left),
            false => (seen.min.y - left, seen.max.y - left + fall),
        };
        for height in multiples(low, high, apart) {
            line(at(seen.min.x, height), at(seen.max.x, height));
        }
    }
    painter.add(Shape::mesh(mesh));
}

/// Tints the plane around the place that is worked at.
pub fn tint(painter: &Painter, glass: Glass, plane: Plane, around: LatticePoint) {
    let [a, b] = plane.facing.ways();
    let corner = |along: i32, across: i32| -> Pos2 {
        let away = |way: Direction, steps: i32| [way.east, way.north, way.up].map(|part| part.saturating_mul(steps));
        let ([ae, an, au], [be, bn, bu]) = (away(a, along), away(b, across));
        let at = LatticePoint::new(
            around.east.saturating_add(ae).saturating_add(be),
            around.north.saturating_add(an).saturating_add(bn),
            around.up.saturating_add(au).saturating_add(bu),
        );
        glass.point(VIEW.point(at))
    };
    let corners = [
        corner(-REACH, -REACH),
        corner(REACH, -REACH),
        corner(REACH, REACH),
        corner(-REACH, REACH),
    ];
    let pale = look::PLANE.gamma_multiply(0.07);
    painter.add(Shape::convex_polygon(corners.to_vec(), pale, Stroke::NONE));
    let pen = Stroke::new(1.0, look::PLANE.gamma_multiply(0.22));
    for step in -REACH..=REACH {
        painter.line_segment([corner(step, -REACH), corner(step, REACH)], pen);
        painter.line_segment([corner(-REACH, step), corner(REACH, step)], pen);
    }
}

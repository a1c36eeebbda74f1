//! A drawn line: pattern, ends and corners, feathered by egui.

use super::{Chain, Glass};
use crate::scene::{Cap, Join, Stroke};
use egui::epaint::{CircleShape, PathShape, PathStroke, Tessellator};
use egui::{Color32, Mesh, Pos2, Shape};

/// No line is thinner than so many pixels, or it would fade away.
const THINNEST: f32 = 0.9;
/// Ends and corners of lines wider than so many pixels are rounded.
const SEEN_ROUND: f32 = 2.0;

/// Lays a line along a chain.
pub fn lay(
    chain: &Chain,
    (stroke, ink): (Stroke, Color32),
    glass: Glass,
    tessellator: &mut Tessellator,
    mesh: &mut Mesh,
) {
    let width = (stroke.width.mm() * glass.scale) as f32;
    let width = width.max(THINNEST / glass.pixels);
    let pen = egui::Stroke::new(width, ink);
    let pattern = stroke.dash.pattern();
    let mut points = chain.points.clone();
    points.dedup_by(|a, b| a.distance(*b) < 1e-3);
    let mut tessellate = |shape: Shape| tessellator.tessellate_shape(shape, mesh);
    if points.len() < 2 {
        // A dot.
        if let Some(at) = points.first() {
            tessellate(Shape::Circle(CircleShape::filled(*at, width / 2.0, ink)));
        }
        return;
    }
    if !pattern.is_empty() {
        if chain.closed {
            points.push(points[0]);
        }
        let mm = |length: &f64| (length * glass.scale) as f32;
        let drawn: Vec<f32> = pattern.iter().step_by(2).map(mm).collect();
        let gaps: Vec<f32> = pattern.iter().skip(1).step_by(2).map(mm).collect();
        // Where a pattern falls together the line may as well be unbroken.
        if gaps.iter().all(|gap| *gap * glass.pixels >= 0.75) {
            let mut pieces = Vec::new();
            Shape::dashed_line_many_with_offset(&points, pen, &drawn, &gaps, 0.0, &mut pieces);
            for piece in pieces {
                tessellate(piece);
            }
            return;
        }
    }
    let closed = chain.closed && points.len() > 2;
    let mut round = |at: Pos2| tessellate(Shape::Circle(CircleShape::filled(at, width / 2.0, ink)));
    if width * glass.pixels > SEEN_ROUND {
        if !closed && stroke.cap == Cap::Round {
            round(points[0]);
            round(points[points.len() - 1]);
        }
        if stroke.join == Join::Round {
            for corner in sharp(&points, closed) {
                round(corner);
            }
        }
    }
    tessellate(Shape::Path(PathShape {
        points,
        closed,
        fill: egui::Color32::TRANSPARENT,
        stroke: PathStroke::new(width, ink),
    }));
}

/// The corners at which a chain turns by more than a little.
fn sharp(points: &[Pos2], closed: bool) -> impl Iterator<Item = Pos2> + '_ {
    let count = points.len();
    let range = if closed { 0..count } else { 1..count - 1 };
    range.filter_map(move |at| {
        let (before, here, after) = (points[(at + count - 1) % count], points[at], points[(at + 1) % count]);
        let (a, b) = ((here - before).normalized(), (after - here).normalized());
        (a.dot(b) < 0.9).then_some(here)
    })
}

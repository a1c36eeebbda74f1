//! Walls, floors, roofs and slabs on the shelf, each with pipe through it and told from the others at a glance. On paper
//! all are hatched planes across the pipe with words beside them.

use crate::job::Barrier;
use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, Vec2, vec2};

/// The ink of pictures on the shelf.
const INK: Color32 = Color32::from_gray(0x22);
/// Edges.
const EDGE: Stroke = Stroke { width: 1.2, color: INK };
/// Hatching and soil.
const THIN: Stroke = Stroke { width: 0.7, color: INK };
/// Pipe.
const PIPE: Stroke = Stroke { width: 1.8, color: INK };

/// The corners of an upright patch around the middle of a picture, in points, clockwise from the upper left.
const UPRIGHT: [Vec2; 4] = [vec2(-4.0, -4.0), vec2(4.0, -8.0), vec2(4.0, 4.0), vec2(-4.0, 8.0)];
/// Those of a level patch: left, back, right, front.
const LEVEL: [Vec2; 4] = [vec2(-13.0, 0.0), vec2(0.0, -5.0), vec2(13.0, 0.0), vec2(0.0, 5.0)];

/// Paints what pipe passes through into a window of the shelf.
pub fn paint(painter: &Painter, window: Rect, barrier: Barrier) {
    let at = |away: Vec2| window.center() + away;
    let line = |a: Vec2, b: Vec2, pen: Stroke| {
        painter.line_segment([at(a), at(b)], pen);
    };
    let patch = |corners: [Vec2; 4]| {
        let corners: Vec<Pos2> = corners.map(at).to_vec();
        painter.add(Shape::convex_polygon(corners, Color32::WHITE, EDGE));
    };
    let hatch = |corners: [Vec2; 4], strokes: usize| {
        let [a, b, c, d] = corners;
        for number in 1..strokes {
            let share = number as f32 / strokes as f32;
            line(a + (d - a) * share, b + (c - b) * share, THIN);
        }
    };
    match barrier {
        Barrier::ExteriorWall | Barrier::InteriorWall | Barrier::Foundation => {
            line(vec2(-16.0, -4.0), vec2(0.0, 0.0), PIPE);
            patch(UPRIGHT);
            match barrier {
                Barrier::ExteriorWall => hatch(UPRIGHT, 6),
                Barrier::Foundation => {
                    hatch(UPRIGHT, 6);
                    // Soil stands against it.
                    line(vec2(5.0, -6.0), vec2(17.0, -6.0), EDGE);
                    for x in [7.0, 10.0, 13.0, 16.0] {
                        line(vec2(x, -6.0), vec2(x - 2.0, -3.5), THIN);
                    }
                }
                _ => {}
            }
            line(vec2(0.0, 0.0), vec2(16.0, 4.0), PIPE);
        }
        Barrier::Floor => {
            line(vec2(0.0, 0.0), vec2(0.0, 9.0), PIPE);
            patch(LEVEL);
            line(vec2(0.0, -9.0), vec2(0.0, 0.0), PIPE);
        }
        Barrier::Slab => {
            line(vec2(0.0, 3.0), vec2(0.0, 9.0), PIPE);
            let down = vec2(0.0, 3.0);
            let [left, back, right, front] = LEVEL.map(|corner| corner - vec2(0.0, 1.0));
            patch([left, front, front + down, left + down]);
            patch([front, right, right + down, front + down]);
            patch([left, back, right, front]);
            line(vec2(0.0, -9.0), vec2(0.0, -1.0), PIPE);
        }
        Barrier::Roof => {
            line(vec2(-4.0, 0.0), vec2(-4.0, 9.0), PIPE);
            line(vec2(-14.0, 5.0), vec2(2.0, -5.0), EDGE);
            line(vec2(2.0, -5.0), vec2(16.0, 5.0), EDGE);
            line(vec2(-4.0, -9.0), vec2(-4.0, 0.0), PIPE);
        }
        Barrier::Ground => {}
    }
}

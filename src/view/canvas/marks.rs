//! Marks of editing over the drawing, never printed: what is under the pointer, what is chosen, what is to come.
//!
//! None is told by colour alone: what is chosen has square handles, what is to come is dashed, what is refused is crossed
//! out and says why in the status line.

use super::Glass;
use super::foretold::Card;
use crate::desk::VIEW;
use crate::drawing::strokes::Across;
use crate::drawing::{SAMPLE_WIDTH, legend_sample};
use crate::editor::{Ghost, Item, Part, Standing};
use crate::job::{Job, JointId, LatticePoint, RunId};
use crate::look;
use crate::scene::Point;
use crate::view::ink::tessellated;
use crate::view::shelf;
use egui::text::{LayoutJob, TextFormat};
use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, vec2};

/// Where a part lies on paper: one place, or the two ends of a run.
pub fn places(job: &Job, part: Part) -> Vec<Point> {
    let joint = |id: JointId| Some(VIEW.point(job.joints.get(id)?.at));
    match part {
        Part::Joint(id) => joint(id).into_iter().collect(),
        Part::Run(id) => {
            let run = job.runs.get(id);
            run.into_iter()
                .flat_map(|run| [run.from, run.to])
                .filter_map(joint)
                .collect()
        }
        Part::Penetration(id, passage) => along(job, id, passage_share(job, id, passage)).into_iter().collect(),
        Part::Note(at) => job.notes.get(at).and_then(|note| joint(note.at)).into_iter().collect(),
    }
}

/// The share of a run's way at which one of its passages lies.
fn passage_share(job: &Job, run: RunId, passage: usize) -> f64 {
    let share = || {
        let run = job.runs.get(run)?;
        let at = run.penetrations.get(passage)?.at?;
        Some(at.feet() / job.true_length(run).feet().max(1e-9))
    };
    share().unwrap_or(0.5).clamp(0.0, 1.0)
}

fn along(job: &Job, run: RunId, share: f64) -> Option<Point> {
    let run = job.runs.get(run)?;
    let (from, to) = (job.joints.get(run.from)?, job.joints.get(run.to)?);
    Some(VIEW.point(from.at).toward(VIEW.point(to.at), share))
}

/// The radius of a ring around the symbol at a joint, in points.
fn around(glass: Glass) -> f32 {
    const LARGEST_SYMBOL: f64 = 4.2;
    ((LARGEST_SYMBOL * glass.scale) as f32).max(10.0)
}

/// Strokes over the drawing that tell of pipe. Dark, with a light edge so that they are seen over pipe and words.
pub fn across(painter: &Painter, glass: Glass, strokes: &[Across]) {
    for stroke in strokes {
        let ends = [stroke.from, stroke.to].map(|end| glass.point(end));
        if painter
            .clip_rect()
            .intersects(Rect::from_two_pos(ends[0], ends[1]).expand(2.0))
        {
            let width = ((stroke.pen.mm() * glass.scale) as f32).max(1.0);
            painter.line_segment(ends, Stroke::new(width + 1.5, look::PAPER.gamma_multiply(0.8)));
            painter.line_segment(ends, Stroke::new(width, look::STROKES));
        }
    }
}

/// The way of pipe that could be laid, dashed, with a ring where it starts.
pub fn way(painter: &Painter, glass: Glass, way: &[Point]) {
    let pen = Stroke::new(2.5, look::GHOST);
    for pair in way.windows(2) {
        if let Some(seen) = seen(painter.clip_rect(), glass.point(pair[0]), glass.point(pair[1])) {
            painter.extend(Shape::dashed_line(&seen, pen, 8.0, 4.0));
        }
    }
    if let Some(start) = way.first() {
        painter.circle_stroke(glass.point(*start), 9.0, pen);
    }
}

/// Marks what lies under the pointer.
pub fn pointed(painter: &Painter, glass: Glass, job: &Job, part: Part) {
    let pale = look::CHOSEN.gamma_multiply(0.25);
    match places(job, part)[..] {
        [from, to] => {
            painter.line_segment([glass.point(from), glass.point(to)], Stroke::new(8.0, pale));
        }
        [at] => {
            painter.circle_stroke(glass.point(at), 10.0, Stroke::new(4.0, pale));
        }
        _ => {}
    }
}

/// Marks what is chosen.
pub fn chosen(painter: &Painter, glass: Glass, job: &Job, part: Part) {
    let pen = Stroke::new(1.5, look::CHOSEN);
    let handle = |at: Pos2| {
        let square = Rect::from_center_size(at, vec2(6.0, 6.0));
        painter.rect(square, 0.0, Color32::WHITE, pen, StrokeKind::Middle);
    };
    match places(job, part)[..] {
        [from, to] => {
            let (from, to) = (glass.point(from), glass.point(to));
            painter.line_segment([from, to], Stroke::new(6.0, look::CHOSEN.gamma_multiply(0.35)));
            handle(from);
            handle(to);
        }
        [at] => {
            // Around a symbol, not over it.
            let (at, radius) = (glass.point(at), around(glass));
            painter.circle_stroke(at, radius, pen);
            for way in [vec2(0.0, -1.0), vec2(1.0, 0.0), vec2(0.0, 1.0), vec2(-1.0, 0.0)] {
                handle(at + way * radius);
            }
        }
        _ => {}
    }
}

/// Draws a ring around a place that somebody was led to.
pub fn found(painter: &Painter, glass: Glass, job: &Job, part: Part) {
    for at in places(job, part) {
        painter.circle_stroke(glass.point(at), around(glass) + 7.0, Stroke::new(2.0, look::REFUSED));
    }
}

/// Draws what is to come.
pub fn ghost(painter: &Painter, glass: Glass, job: &Job, ghost: &Ghost, card: Option<&Card>) {
    let ink = if ghost.refused { look::REFUSED } else { look::GHOST };
    let pen = Stroke::new(2.5, ink);
    let at = |place: LatticePoint| glass.point(VIEW.point(place));
    if let Some([top, foot]) = ghost.plumb {
        let (top, foot) = (at(top), at(foot));
        let thin = Stroke::new(1.0, ink.gamma_multiply(0.6));
        if let Some(seen) = seen(painter.clip_rect(), top, foot) {
            painter.extend(Shape::dotted_line(&seen, ink.gamma_multiply(0.6), 4.0, 1.0));
        }
        for side in [-1.0, 1.0] {
            painter.line_segment([foot - vec2(7.0, 4.0 * side), foot + vec2(7.0, 4.0 * side)], thin);
        }
    }
    for [from, to] in &ghost.lines {
        if let Some(seen) = seen(painter.clip_rect(), at(*from), at(*to)) {
            painter.extend(Shape::dashed_line(&seen, pen, 8.0, 4.0));
        }
    }
    for (run, words) in &ghost.at_runs {
        if let Some(place) = along(job, *run, 0.5) {
            let card = Card {
                head: words.clone(),
                below: String::new(),
            };
            tag(painter, glass.point(place) + vec2(10.0, -8.0), &card, ink);
        }
    }
    if let Some((run, share)) = ghost.passage
        && let Some(place) = along(job, run, share)
    {
        let place = glass.point(place);
        let patch = [vec2(-5.0, -10.0), vec2(5.0, -4.0), vec2(5.0, 10.0), vec2(-5.0, 4.0)];
        let corners = patch.iter().map(|corner| place + *corner).collect();
        painter.add(Shape::convex_polygon(
            corners,
            ink.gamma_multiply(0.2),
            Stroke::new(1.5, ink),
        ));
    }
    if let Some(frame) = ghost.frame {
        let frame = Rect::from_two_pos(glass.point(frame.min), glass.point(frame.max));
        painter.rect_filled(frame, 0.0, look::CHOSEN.gamma_multiply(0.06));
        let corners = [
            frame.left_top(),
            frame.right_top(),
            frame.right_bottom(),
            frame.left_bottom(),
            frame.left_top(),
        ];
        painter.extend(Shape::dashed_line(&corners, Stroke::new(1.0, look::CHOSEN), 5.0, 3.0));
    }
    if let Some((place, standing)) = ghost.place {
        let place = at(place);
        if ghost.refused {
            for side in [-1.0, 1.0] {
                painter.line_segment([place - vec2(6.0, 6.0 * side), place + vec2(6.0, 6.0 * side)], pen);
            }
        } else {
            match standing {
                Standing::Open => painter.circle_filled(place, 4.0, ink),
                Standing::Joint(_) => painter.circle_stroke(place, 8.0, pen),
                Standing::Run(_) => {
                    painter.circle_filled(place, 4.0, ink);
                    painter.circle_stroke(place, 8.0, pen)
                }
            };
        }
    }
    let place = ghost.place.map(|(place, _)| at(place));
    if let (Some(card), Some(place)) = (card, place) {
        tag(painter, place + vec2(14.0, -14.0), card, ink);
    }
}

/// Shows the symbol of what is to be placed, beside its place.
pub fn preview(painter: &Painter, glass: Glass, item: Item, place: LatticePoint, refused: bool) {
    let Some(symbol) = shelf::symbol(item).filter(|_| !refused) else {
        return;
    };
    let at = glass.point(VIEW.point(place)) + vec2(16.0, 22.0);
    let card = Rect::from_min_size(at, vec2(54.0, 30.0));
    painter.rect(
        card,
        3.0,
        look::PAPER,
        Stroke::new(1.0, look::GHOST),
        StrokeKind::Outside,
    );
    let sample = Glass {
        origin: card.left_center() + vec2(3.0, 0.0),
        scale: 3.0,
        pixels: glass.pixels,
    };
    let seen = crate::scene::Rect::new(Point::new(-2.0, -20.0), Point::new(SAMPLE_WIDTH - 0.5, 20.0));
    let mesh = tessellated(&legend_sample(symbol, Point::default()), sample, seen);
    painter.with_clip_rect(card).add(Shape::mesh(mesh));
}

/// The part of a line that can be seen. A line to the edge of the paper would be dashes without number.
pub fn seen(area: Rect, from: Pos2, to: Pos2) -> Option<[Pos2; 2]> {
    let area = area.expand(12.0);
    let way = to - from;
    let (mut first, mut last) = (0.0_f32, 1.0_f32);
    for (start, step, low, high) in [
        (from.x, way.x, area.min.x, area.max.x),
        (from.y, way.y, area.min.y, area.max.y),
    ] {
        if step == 0.0 {
            if !(low..=high).contains(&start) {
                return None;
            }
            continue;
        }
        let (a, b) = ((low - start) / step, (high - start) / step);
        first = first.max(a.min(b));
        last = last.min(a.max(b));
    }
    (first < last).then(|| [from + way * first, from + way * last])
}

/// Words on a little card, inside the paper.
fn tag(painter: &Painter, at: Pos2, card: &Card, ink: Color32) {
    let mut job = LayoutJob::default();
    let mut line = |words: &str, font: FontId| {
        if !words.is_empty() {
            let next = if job.is_empty() { "" } else { "\n" };
            job.append(&format!("{next}{words}"), 0.0, TextFormat::simple(font, ink));
        }
    };
    line(&card.head, FontId::new(15.0, look::bold()));
    line(&card.below, FontId::proportional(12.5));
    let galley = painter.layout_job(job);
    let text = Align2::LEFT_BOTTOM.anchor_size(at, galley.size());
    let room = painter.clip_rect().shrink(8.0);
    let back = vec2((room.max.x - text.max.x).min(0.0), (room.min.y - text.min.y).max(0.0));
    let text = text.translate(back);
    painter.rect(
        text.expand2(vec2(5.0, 2.0)),
        3.0,
        look::PAPER,
        Stroke::new(1.0, ink),
        StrokeKind::Outside,
    );
    painter.galley(text.min, galley, ink);
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn of_a_line_only_what_can_be_seen_is_dashed() {
        let area = Rect::from_min_max(pos2(100.0, 100.0), pos2(500.0, 400.0));
        let [from, to] = seen(area, pos2(200.0, 9e6), pos2(200.0, -9e6)).expect("it crosses the paper");
        assert!(
            (from.y - 412.0).abs() < 2.0 && (to.y - 88.0).abs() < 2.0,
            "{from:?} {to:?}"
        );
        let whole = [pos2(150.0, 120.0), pos2(480.0, 390.0)];
        assert_eq!(seen(area, whole[0], whole[1]), Some(whole));
        assert_eq!(seen(area, pos2(0.0, 0.0), pos2(0.0, 900.0)), None, "beside it");
        assert_eq!(
            seen(area, pos2(0.0, 350.0), pos2(250.0, 600.0)),
            None,
            "past its corner"
        );
    }
}

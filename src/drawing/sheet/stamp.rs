//! Blank space for the office's stamp.

use super::lettering::Hand;
use super::strip::boxed;
use super::tags::{self, Schedule};
use crate::scene::{Anchor, Dash, Group, Pen, Point, Rect, Stroke, Vector};

/// Between the place and the dashed frame in it, mm.
const INSET: f64 = 2.5;

/// The space within a place: a dashed frame with a small label.
pub fn draw(place: Rect) -> Group {
    let tag = tags::schedule(Schedule::Stamp);
    let frame = place.grown(-INSET);
    let label = frame.min + Vector::new(1.6, 3.2);
    Group::tagged(tag.role, tag.key)
        .label(Schedule::Stamp.name())
        .with(boxed(frame, Stroke::new(Pen::Thin).dash(Dash::Dashed)))
        .with(Hand::CAPTION.write(
            "Space for the office's stamp",
            Point::new(label.x, label.y),
            Anchor::Start,
        ))
}

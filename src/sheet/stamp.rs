//! Blank space for the office's stamp, or for notes.

use super::lettering::Hand;
use super::strip::boxed;
use super::tags::{self, Schedule};
use crate::scene::{Anchor, Dash, Group, Pen, Point, Rect, Stroke, Vector};

/// Between the place and the dashed frame in it, mm.
const INSET: f64 = 2.5;

/// The space within a place: a dashed frame with a small label that says what it is for.
pub fn draw(place: Rect, words: &str) -> Group {
    let tag = tags::schedule(Schedule::Stamp);
    let frame = place.grown(-INSET);
    let label = frame.min + Vector::new(1.6, 3.2);
    Group::tagged(tag.role, tag.key)
        .label(Schedule::Stamp.name())
        .with(boxed(frame, Stroke::new(Pen::Thin).dash(Dash::Dashed)))
        .with(Hand::CAPTION.write(words, Point::new(label.x, label.y), Anchor::Start))
}

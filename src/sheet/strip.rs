//! Strips: the pieces that stack into schedules, and the rules between them.
//!
//! A strip has its origin at its upper left corner and is never broken; where a column of the sheet ends, the next strip
//! goes to the next column.

use super::lettering::Hand;
use crate::scene::{Affine, Anchor, Cap, Group, Ink, Join, Outline, PathItem, Pen, Point, Rect, Stroke};

/// A piece of a schedule that stays whole.
#[derive(Clone, Debug, Default)]
pub struct Strip {
    /// The room that it takes downward, mm.
    pub height: f64,
    /// What is drawn, from the upper left corner.
    pub ink: Group,
}

impl Strip {
    /// What is drawn, moved to a place.
    pub fn at(&self, corner: Point) -> Group {
        self.ink.clone().map(Affine::to(corner))
    }

    /// The two as one, this one above.
    pub fn over(self, below: Strip) -> Strip {
        let under = below.at(Point::new(0.0, self.height));
        let mut ink = Group::new();
        ink.push(self.ink);
        ink.push(under);
        Strip {
            height: self.height + below.height,
            ink,
        }
    }
}

/// A ruled line, cut square.
pub fn rule(from: Point, to: Point, pen: Pen, ink: Ink) -> PathItem {
    PathItem::stroked(Outline::line(from, to), Stroke::new(pen).ink(ink).cap(Cap::Butt))
}

/// A ruled box with sharp corners.
pub fn boxed(rect: Rect, stroke: Stroke) -> PathItem {
    PathItem::stroked(Outline::rect(rect), stroke.join(Join::Miter))
}

/// Lines of lettering below one another, the first base line at `at`.
pub fn lines(group: &mut Group, words: &[String], hand: Hand, at: Point, pitch: f64, anchor: Anchor) {
    for (row, line) in words.iter().enumerate() {
        group.push(hand.write(line, Point::new(at.x, at.y + row as f64 * pitch), anchor));
    }
}

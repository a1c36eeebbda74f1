//! The symbols of devices, penetrations and joints, in our own style with the trade's conventions.
//!
//! A [`Shape`] is drawn around the origin in its own millimetres: x along the pipe, downstream, y down across it. Where
//! it stands and how large is decided by who places it. The legend explains every one.

mod appliance;
mod barrier;
pub mod bow_tie;
pub mod fitting;
pub mod round;

pub use appliance::{CUBE, CubeFace, cube};
pub use barrier::{BARRIER_HALF, barrier, ground, sleeve};

use crate::job::State;
use crate::scene::{Affine, Group, Ink, Outline, PathItem, Pen, Point, Quad, Rect, Stroke};

/// A symbol around the origin.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// What is drawn.
    pub group: Group,
    /// The box around its shape, in its own mm; half the pen reaches beyond.
    pub room: Rect,
}

impl Shape {
    fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self {
            group: Group::new(),
            room: Rect::new(Point::new(left, top), Point::new(right, bottom)),
        }
    }

    fn with(mut self, item: PathItem) -> Self {
        self.group.push(item);
        self
    }

    /// The symbol carried to paper, and the room that it takes there.
    pub fn place(self, at: Affine) -> (Group, Quad) {
        let room = Quad::of(self.room, at).grown(Pen::Wide.mm() / 2.0);
        (self.group.map(at), room)
    }
}

/// The pen of a symbol.
pub const fn pen(state: State) -> Pen {
    match state {
        State::New => Pen::Wide,
        State::Existing | State::Removed => Pen::Thin,
    }
}

/// An outline in a pen, white inside, so that the pipe behind it is covered.
fn covering(outline: Outline, pen: Pen) -> PathItem {
    PathItem::stroked(outline, Stroke::new(pen)).fill(Ink::White)
}

fn line(pen: Pen, ax: f64, ay: f64, bx: f64, by: f64) -> PathItem {
    PathItem::stroked(Outline::line(Point::new(ax, ay), Point::new(bx, by)), Stroke::new(pen))
}

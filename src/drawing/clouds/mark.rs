//! The mark of a cloud: a triangle with the revision, and the number of the cloud beside it where clouds are numbered.

use super::Cloud;
use crate::scene::{Anchor, Face, Group, Outline, PathItem, Pen, Point, Rect, Stroke, TextItem, Vector};

/// Height of the lettering, mm.
const LETTERING: f64 = 2.5;
/// From the foot of the triangle to the words in it, mm.
const FOOT: f64 = 1.1;
/// The least side of the triangle, mm.
const SIDE: f64 = 7.5;
/// From the triangle to the number, mm.
const BESIDE: f64 = 0.9;
/// The most letters of a revision in a triangle.
const LETTERS: usize = 4;
/// How far from the line of a cloud its mark may stand, mm.
const OFF: [f64; 4] = [0.9, 2.5, 5.0, 8.0];
/// Half the square root of three.
const RISE: f64 = 0.866_025_403_784_438_6;

/// The mark of a revision at a cloud.
pub struct Mark {
    revision: TextItem,
    number: TextItem,
    side: f64,
}

impl Mark {
    /// The mark of a cloud; a revision that is not listed yet leaves the triangle empty.
    pub fn new(revision: Option<&str>, number: Option<usize>) -> Mark {
        let letters: String = revision.unwrap_or_default().chars().take(LETTERS).collect();
        let number = number.map_or_else(String::new, |number| number.to_string());
        let revision = TextItem::new(&letters, LETTERING, Face::Strong);
        // The triangle is as wide as its words where their tops are.
        let side = revision.advance() + 0.9 + (FOOT + LETTERING) / RISE;
        Mark {
            side: side.max(SIDE),
            number: TextItem::new(&number, LETTERING, Face::Regular),
            revision,
        }
    }

    /// Width and height, mm.
    pub fn size(&self) -> Vector {
        Vector::new(self.side + BESIDE + self.number.advance(), self.side * RISE)
    }

    /// The first place beside a cloud that is free.
    pub fn place(&self, cloud: &Cloud, is_free: impl Fn(Rect) -> bool) -> Option<Rect> {
        let size = self.size();
        let mut bulges: Vec<_> = cloud.bulges().collect();
        // To the upper right first, as a reader comes to it.
        let dislike = |out: Vector| -(out.x - out.y);
        bulges.sort_by(|a, b| dislike(a.1).total_cmp(&dislike(b.1)));
        OFF.iter().find_map(|off| {
            bulges.iter().find_map(|(chord, out)| {
                let support = (out.x.abs() * size.x + out.y.abs() * size.y) / 2.0;
                let swell = super::swell(chord.length()) * 0.75;
                let middle = chord.at(0.5) + *out * (swell + off + support);
                let room = Rect::sized(middle - size * 0.5, size.x, size.y);
                is_free(room).then_some(room)
            })
        })
    }

    /// Draws it in its room.
    pub fn draw(&self, room: Rect, into: &mut Group) {
        let (left, foot) = (room.min.x, room.max.y);
        let corners = [
            Point::new(left, foot),
            Point::new(left + self.side, foot),
            Point::new(left + self.side / 2.0, foot - self.side * RISE),
        ];
        into.push(PathItem::stroked(Outline::polygon(corners), Stroke::new(Pen::Medium)));
        let middle = Point::new(left + self.side / 2.0, foot - FOOT);
        into.push(self.revision.clone().at(middle, Anchor::Middle));
        let beside = Point::new(left + self.side + BESIDE, foot);
        into.push(self.number.clone().at(beside, Anchor::Start));
    }
}

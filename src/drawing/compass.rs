//! The three axes with north, the stated zero of elevations, and that the drawing is not to scale.

use super::projection::axis;
use super::tags::Subject;
use crate::job::{Axis, Job, NorthAxis};
use crate::scene::{Anchor, Face, Group, Ink, Outline, PathItem, Pen, Point, Role, Stroke, TextItem, Vector};

/// Width of the block, mm.
pub const WIDTH: f64 = 42.0;
/// Height of the block, mm.
pub const HEIGHT: f64 = 27.0;
const LETTERING: f64 = 2.5;
const ARM: f64 = 9.0;

/// The block with its upper right corner at a place.
pub fn draw(job: &Job, corner: Point) -> Group {
    let mut group = Group::tagged(Role::Label, Subject::Sheet.key()).label("axes and north");
    let centre = corner + Vector::new(-14.0, 13.0);
    let (east, north) = (axis(Axis::East), axis(Axis::North));
    let (north, east) = match job.settings.north {
        NorthAxis::North => (north, east),
        NorthAxis::East => (east, -north),
        NorthAxis::South => (-north, -east),
        NorthAxis::West => (-east, north),
    };
    for (way, letter, is_north) in [(axis(Axis::Up), "up", false), (east, "E", false), (north, "N", true)] {
        let tip = centre + way * ARM;
        group.push(PathItem::stroked(Outline::line(centre, tip), Stroke::new(Pen::Thin)));
        if is_north {
            let side = way.turned() * 1.1;
            let head = Outline::polygon([tip + way * 1.2, tip - way * 2.4 + side, tip - way * 2.4 - side]);
            group.push(PathItem::filled(head, Ink::Black));
        }
        let face = if is_north { Face::Strong } else { Face::Regular };
        let off = if is_north { 3.4 } else { 2.2 };
        let base = tip + way * off + Vector::new(0.0, LETTERING / 2.0);
        group.push(TextItem::new(letter, LETTERING, face).at(base, Anchor::Middle));
    }
    let zero = format!("elevations from {}", job.settings.datum_name);
    for (line, words) in ["NOT TO SCALE: lengths as written", &zero].into_iter().enumerate() {
        let base = corner + Vector::new(0.0, 22.5 + 4.0 * line as f64);
        group.push(TextItem::new(words, LETTERING, Face::Regular).at(base, Anchor::End));
    }
    group
}

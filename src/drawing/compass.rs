//! The three axes with north, the stated zero of elevations, and that the drawing is not to scale.

use super::block::{Block, Flush, Lead, Line, wrap};
use super::layers;
use super::tags::Subject;
use crate::job::{Axis, Job, NorthAxis};
use crate::projection::axis;
use crate::scene::{Anchor, Face, Group, Ink, Outline, PathItem, Pen, Point, Rect, Role, Stroke, TextItem, Vector};

/// Height of the axes above the words, mm.
const AXES: f64 = 21.5;
const LETTERING: f64 = 2.5;
const ARM: f64 = 8.0;

/// The axes and what stands with them, in their room.
pub struct Placed {
    /// The room of all of it.
    pub room: Rect,
    /// The arms with their letters.
    pub axes: Group,
    words: Group,
}

impl Placed {
    /// All of it as one group.
    pub fn whole(self) -> Group {
        let group = Group::tagged(Role::Label, Subject::Sheet.key()).on(layers::WORDS);
        let items = self.axes.items().iter().chain(self.words.items()).cloned();
        items.fold(group.label("axes, north and scale"), Group::with)
    }
}

/// The block in the first corner that is free, the upper right one first.
pub fn place(job: &Job, is_arranged: bool, area: Rect, is_free: impl Fn(Rect) -> bool) -> Option<Placed> {
    let scale: &[&str] = match is_arranged {
        true => &[
            "NOT TO SCALE: drawn lengths arranged",
            "for legibility; true lengths as written",
        ],
        false => &["NOT TO SCALE: lengths as written"],
    };
    let mut lines: Vec<Line> = scale.iter().copied().map(Line::plain).collect();
    let zero = format!("elevations from {}", job.settings.datum_name.trim());
    let mut zero = wrap(&zero, 34).into_iter().take(3);
    // What the mark of a level means is said here, so that no legend has to.
    lines.extend(zero.next().map(|line| Line {
        lead: Lead::Level,
        ..line
    }));
    lines.extend(zero);
    let words = Block::new(lines);
    let (width, height) = (words.width, AXES + words.height);
    let inner = area.grown(-1.0);
    let (left, top) = (inner.min.x, inner.min.y);
    let (right, bottom) = (inner.max.x - width, inner.max.y - height);
    let middle = (left + right) / 2.0;
    [
        (right, top),
        (left, top),
        (right, bottom),
        (left, bottom),
        (middle, top),
        (middle, bottom),
    ]
    .into_iter()
    .map(|(x, y)| Rect::sized(Point::new(x, y), width, height))
    .find(|room| is_free(*room))
    .map(|room| {
        let flush = if room.center().x > area.center().x {
            Flush::Right
        } else {
            Flush::Left
        };
        draw(job, &words, room, flush)
    })
}

fn draw(job: &Job, words: &Block, room: Rect, flush: Flush) -> Placed {
    let mut group = Group::new();
    let x = match flush {
        Flush::Left => room.min.x + ARM + 3.0,
        Flush::Right => room.max.x - ARM - 6.0,
    };
    let centre = Point::new(x, room.min.y + 12.5);
    let (east, north) = (axis(Axis::East), axis(Axis::North));
    let (north, east) = match job.settings.north {
        NorthAxis::North => (north, east),
        NorthAxis::East => (east, -north),
        NorthAxis::South => (-north, -east),
        NorthAxis::West => (-east, north),
    };
    arm(&mut group, centre, axis(Axis::Up), "up");
    arm(&mut group, centre, east, "E");
    arm(&mut group, centre, north, "N");
    let tip = centre + north * ARM;
    let side = north.turned() * 1.1;
    let head = Outline::polygon([tip + north * 0.6, tip - north * 2.8 + side, tip - north * 2.8 - side]);
    group.push(PathItem::filled(head, Ink::Black));
    let mut below = Group::new();
    words.draw(Point::new(room.min.x, room.min.y + AXES), flush, &mut below);
    Placed {
        room,
        axes: group,
        words: below,
    }
}

fn arm(into: &mut Group, centre: Point, way: Vector, letter: &str) {
    let tip = centre + way * ARM;
    into.push(PathItem::stroked(Outline::line(centre, tip), Stroke::new(Pen::Thin)));
    let base = tip + way * 2.6 + Vector::new(0.0, LETTERING / 2.0);
    into.push(TextItem::new(letter, LETTERING, Face::Regular).at(base, Anchor::Middle));
}

//! The key plan of a part of a drawing: the whole of it small in thin lines with the letters of its outlets, where its parts
//! lie, on which sheets they are, and which of them this is.

use super::layers;
use super::parts::Part;
use crate::projection::Projection;
use crate::scene::{Anchor, Face, Group, Ink, Outline, PathItem, Pen, Point, Rect, Stroke, TextItem, Vector};

/// The most that the small drawing takes, mm.
const MOST: Vector = Vector::new(44.0, 32.0);
/// Height of the caption and of the numbers, mm.
const LETTERING: f64 = 2.5;
/// Height of the place of the caption, mm.
const CAPTION: f64 = 4.5;
/// Around everything, mm.
const PAD: f64 = 1.5;
/// So much pipe is drawn: what is more is too small to be seen.
const MOST_LINES: usize = 2000;

/// From the end of a drop to its letter, mm.
const LETTER_OFF: f64 = 0.8;

/// The key plan in the first corner that is free, the lower left one first, and its room; `None` where it finds none, or
/// where the drawing is in one part. `letters` are those of the outlets with their places on the unit's paper.
pub fn place(
    part: Part<'_>,
    letters: &[(Point, &str)],
    area: Rect,
    is_free: impl Fn(Rect) -> bool,
) -> Option<(Group, Rect)> {
    if part.of.count() < 2 {
        return None;
    }
    let lines = part.of.lines().iter().take(MOST_LINES);
    let pipe = Rect::around(lines.flat_map(|line| [line.a, line.b]))?;
    let all = pipe.grown(0.04 * pipe.width().max(pipe.height()));
    let plan = Rect::sized(Point::default(), MOST.x, MOST.y);
    let view = Projection::fit_bounds(all, plan, f64::INFINITY);
    let drawn = Vector::new(all.width(), all.height()) * view.step;
    let caption = caption(part);
    let size = Vector::new(
        drawn.x.max(caption.advance()) + 2.0 * PAD,
        drawn.y + CAPTION + 2.0 * PAD,
    );
    let inner = area.grown(-1.0);
    let far = inner.max - size;
    [
        (inner.min.x, far.y),
        (far.x, far.y),
        (inner.min.x, inner.min.y),
        (far.x, inner.min.y),
    ]
    .into_iter()
    .map(|(x, y)| Rect::sized(Point::new(x, y), size.x, size.y))
    .find(|room| inner.grown(0.01).encloses(*room) && is_free(*room))
    .map(|room| (draw((part, letters), room, all, view.step), room))
}

fn caption(part: Part<'_>) -> TextItem {
    let words = format!("KEY PLAN: PART {} OF {}", part.number + 1, part.of.count());
    TextItem::new(&words, LETTERING, Face::Regular)
}

fn draw((part, letters): (Part<'_>, &[(Point, &str)]), room: Rect, all: Rect, step: f64) -> Group {
    let left = room.center().x - all.width() * step / 2.0;
    let corner = Point::new(left, room.min.y + PAD + CAPTION);
    let to_paper = |place: Point| corner + (place - all.min) * step;
    let thin = Stroke::new(Pen::Thin);
    let mut group = Group::new().on(layers::MATCH_LINES).label("key plan");
    let boxes: Vec<Rect> = (part.of.windows().iter())
        .map(|window| {
            let within = |at: Point| Point::new(at.x.clamp(all.min.x, all.max.x), at.y.clamp(all.min.y, all.max.y));
            Rect::new(to_paper(within(window.min)), to_paper(within(window.max)))
        })
        .collect();
    let mut pipe = Outline::new();
    for line in part.of.lines().iter().take(MOST_LINES) {
        pipe.extend(&Outline::line(to_paper(line.a), to_paper(line.b)));
    }
    group.push(PathItem::stroked(pipe, thin));
    // Which part this is is told by its edge: a tint would be lost on a copy.
    for (number, at) in boxes.iter().enumerate().filter(|(number, _)| *number != part.number) {
        group.push(PathItem::stroked(Outline::rect(*at), thin));
        write(
            &mut group,
            &part.of.sheet(number).to_string(),
            Face::Regular,
            at.center(),
        );
    }
    let own = boxes[part.number];
    group.push(PathItem::stroked(
        Outline::rect(own.grown(-0.3)),
        Stroke::new(Pen::Heavy),
    ));
    write(
        &mut group,
        &part.of.sheet(part.number).to_string(),
        Face::Strong,
        own.center(),
    );
    let mut taken: Vec<Rect> = boxes
        .iter()
        .map(|at| Rect::sized(at.center(), 0.0, 0.0).grown(LETTERING))
        .collect();
    let plan = Rect::new(corner, to_paper(all.max));
    for (at, letter) in letters {
        let below = to_paper(*at) + Vector::new(0.0, LETTERING / 2.0 + LETTER_OFF);
        let inner = plan.grown(-LETTERING / 2.0 - LETTER_OFF);
        let middle = Point::new(
            below.x.min(inner.max.x).max(inner.min.x),
            below.y.min(inner.max.y).max(inner.min.y),
        );
        let room = Rect::sized(middle, 0.0, 0.0).grown(LETTERING / 2.0 + 0.2);
        if !taken.iter().any(|other| other.overlaps(room)) {
            write(&mut group, letter, Face::Regular, middle);
            taken.push(room);
        }
    }
    let base = Point::new(room.min.x + PAD, room.min.y + PAD + LETTERING);
    group.push(caption(part).at(base, Anchor::Start));
    group
}

/// Words around their middle, with what lies behind them cut out.
fn write(into: &mut Group, words: &str, face: Face, middle: Point) {
    let words = TextItem::new(words, LETTERING, face).at(middle + Vector::new(0.0, LETTERING / 2.0), Anchor::Middle);
    into.push(PathItem::filled(
        Outline::rect(words.quad().bounds().grown(0.2)),
        Ink::White,
    ));
    into.push(words);
}

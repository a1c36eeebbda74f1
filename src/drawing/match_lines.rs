//! Match lines of a part of a drawing: heavy, of dashes and dots, and beyond them the letter and the sheet on which pipe
//! goes on.

use super::layers;
use super::parts::Part;
use super::picture::Owner;
use crate::projection::Projection;
use crate::scene::{
    Affine, Anchor, Cap, Dash, Face, Group, Outline, PathItem, Pen, Point, Quad, Rect, Segment, Stroke, TextItem,
    Vector,
};

/// Height of their words, mm.
const LETTERING: f64 = 2.5;
/// From the line to its words, mm.
const OFF: f64 = 1.6;
/// So much longer than its words a line is, so that those of the next stand apart, mm.
const APART: f64 = 10.0;

/// Where along a line its words may stand, the first first.
const ALONG: [f64; 5] = [0.5, 0.3, 0.7, 0.15, 0.85];

/// The match lines of a part on its paper, and the room that they take; their words keep clear of what is drawn, in `drawn`.
pub fn draw(part: Part<'_>, area: Rect, view: &Projection, drawn: &[(Quad, Owner)]) -> (Group, Vec<Quad>) {
    let mut all = Group::new().on(layers::MATCH_LINES);
    let mut rooms = Vec::new();
    for (found, beyond) in part.matches() {
        let line = Segment::new(view.of_unit(found.line.a), view.of_unit(found.line.b));
        let Some((from, to)) = line.within(area) else { continue };
        let line = Segment::new(line.at(from), line.at(to));
        let words = words(found.letter, part.of.sheet(beyond), line.length());
        let name = format!("match line {0}-{0}", found.letter);
        let stroke = Stroke::new(Pen::Heavy).dash(Dash::DashDot).cap(Cap::Butt);
        let at = |along: f64| {
            let frame = beside(line.at(along), part.outward(found.line));
            words.clone().place(frame, Anchor::Middle)
        };
        let is_clear = |words: &TextItem| drawn.iter().all(|(room, _)| !room.overlaps(&words.quad()));
        let fits = |words: &TextItem| stands_along(line, words.quad().bounds());
        let places = ALONG.map(at).into_iter();
        let words = places.filter(fits).find(is_clear).unwrap_or_else(|| at(ALONG[0]));
        rooms.extend([Quad::strip(line, Pen::Heavy.mm()), words.quad()]);
        let drawn = PathItem::stroked(Outline::line(line.a, line.b), stroke);
        all.push(Group::new().label(name).with(drawn).with(words));
    }
    (all, rooms)
}

/// Whether words are beside a line over their whole length: beyond its end the frame may be.
fn stands_along(line: Segment, words: Rect) -> bool {
    let within = |low: f64, high: f64, a: f64, b: f64| low >= a.min(b) && high <= a.max(b);
    within(words.min.x, words.max.x, line.a.x, line.b.x) || within(words.min.y, words.max.y, line.a.y, line.b.y)
}

/// What stands at a match line, in short where it is short.
fn words(letter: char, sheet: usize, room: f64) -> TextItem {
    let text = |words: &str| TextItem::new(words, LETTERING, Face::Strong);
    let long = text(&format!("MATCH LINE {letter}–{letter}, SEE SHEET {sheet}"));
    if long.advance() + APART <= room {
        long
    } else {
        text(&format!("{letter}–{letter}, SHEET {sheet}"))
    }
}

/// The frame of words around a place on a line, on the side to which `out` points; upright ones read from the right.
fn beside(middle: Point, out: Vector) -> Affine {
    if out.x == 0.0 {
        let base = if out.y > 0.0 { OFF + LETTERING } else { -OFF };
        Affine::to(middle + Vector::new(0.0, base))
    } else {
        let base = if out.x > 0.0 { OFF + LETTERING } else { -OFF };
        Affine::frame(
            middle + Vector::new(base, 0.0),
            Vector::new(0.0, -1.0),
            Vector::new(1.0, 0.0),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stand_beyond_the_line_and_do_not_touch_it() {
        let (low, high) = (Point::new(50.0, 20.0), Point::new(50.0, 140.0));
        let upright = Segment::new(low, high);
        let level = Segment::new(Point::new(20.0, 80.0), Point::new(160.0, 80.0));
        for (line, out) in [
            (upright, Vector::new(1.0, 0.0)),
            (upright, Vector::new(-1.0, 0.0)),
            (level, Vector::new(0.0, 1.0)),
            (level, Vector::new(0.0, -1.0)),
        ] {
            let room = words('A', 3, line.length())
                .place(beside(line.at(0.5), out), Anchor::Middle)
                .quad();
            assert!(room.gap_to_segment(line) > 1.0);
            assert!((room.center() - line.at(0.5)).dot(out) > 0.0);
        }
    }

    #[test]
    fn a_short_line_has_short_words() {
        assert_eq!(words('B', 4, 100.0).words(), "MATCH LINE B–B, SEE SHEET 4");
        assert_eq!(words('B', 4, 30.0).words(), "B–B, SHEET 4");
    }
}

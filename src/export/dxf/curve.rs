//! Shapes as chains of straight lines, nowhere farther from the shape than a hundredth of a millimetre.

use crate::scene::{Outline, Point, Rect, Step};

/// How far a chord may lie from its curve, mm.
pub const TOLERANCE: f64 = 0.01;

/// The most lines for one curve; enough for a circle of ten metres.
const MOST: f64 = 3000.0;

/// A part of a shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// Its corners; the first is not repeated at the end of a closed one.
    pub points: Vec<Point>,
    /// Whether it goes back to its first corner.
    pub closed: bool,
}

impl Chain {
    /// The box around it; `None` where there is nothing.
    pub fn bounds(&self) -> Option<Rect> {
        let (first, rest) = self.points.split_first()?;
        let start = Rect {
            min: *first,
            max: *first,
        };
        Some(rest.iter().fold(start, |bounds, point| bounds.with(*point)))
    }

    /// Its straight pieces.
    pub fn pieces(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let back = self.points.last().zip(self.points.first()).filter(|_| self.closed);
        let on = self.points.windows(2).map(|pair| (pair[0], pair[1]));
        on.chain(back.map(|(last, first)| (*last, *first)))
    }
}

/// The parts of a shape.
pub fn chains(outline: &Outline) -> Vec<Chain> {
    let mut all: Vec<Chain> = Vec::new();
    for step in outline.steps() {
        match (step, all.last_mut()) {
            (Step::Move(point), _) => all.push(Chain {
                points: vec![*point],
                closed: false,
            }),
            (Step::Close, Some(chain)) => {
                chain.closed = true;
                if chain.points.len() > 1 && chain.points.first() == chain.points.last() {
                    chain.points.pop();
                }
            }
            (Step::Line(to), Some(chain)) => chain.points.push(*to),
            (Step::Quad(control, to), Some(chain)) => {
                let from = chain.points.last().copied().unwrap_or(*to);
                let bend = bend([from, *control, *to]);
                chords(chain, |t| step.at(from, t), bend * 2.0, *to);
            }
            (Step::Cubic(first, second, to), Some(chain)) => {
                let from = chain.points.last().copied().unwrap_or(*to);
                let bend = bend([from, *first, *second]).max(self::bend([*first, *second, *to]));
                chords(chain, |t| step.at(from, t), bend * 6.0, *to);
            }
            // Every part of an outline begins with a move.
            (Step::Close | Step::Line(_) | Step::Quad(..) | Step::Cubic(..), None) => {}
        }
    }
    all
}

/// How much three control points bend.
fn bend([a, b, c]: [Point; 3]) -> f64 {
    let second = (c - b) - (b - a);
    second.length()
}

/// Adds the chords of a curve. Between two of them it leaves its chord by at most an eighth of its greatest second
/// derivative times the square of the step.
fn chords(chain: &mut Chain, at: impl Fn(f64) -> Point, second: f64, to: Point) {
    let count = (second / (8.0 * TOLERANCE)).sqrt().ceil().clamp(1.0, MOST);
    let inner = (1..count as u32).map(|number| at(f64::from(number) / count));
    chain.points.extend(inner);
    chain.points.push(to);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circle_is_met_within_a_hundredth_of_a_millimetre() {
        for radius in [0.5, 3.4, 40.0, 400.0] {
            let chains = chains(&Outline::circle(Point::new(7.0, 9.0), radius));
            let [circle] = &chains[..] else { panic!("{chains:?}") };
            assert!(circle.closed && circle.points.first() != circle.points.last());
            // Four curves stand for the circle, themselves within 0.03 %.
            let most = TOLERANCE + radius * 0.0003;
            for (a, b) in circle.pieces() {
                let middle = a.toward(b, 0.5);
                for point in [a, b, middle] {
                    let off = point.distance(Point::new(7.0, 9.0)) - radius;
                    assert!(off.abs() <= most, "{radius}: {off}");
                }
            }
            let most = 16.0 + 32.0 * radius.sqrt();
            assert!((circle.points.len() as f64) < most, "{radius}: {}", circle.points.len());
        }
    }

    #[test]
    fn parts_are_told_apart() {
        let (a, b, c) = (Point::new(0.0, 0.0), Point::new(1.0, 0.0), Point::new(1.0, 1.0));
        let mut outline = Outline::polygon([a, b, c, a]);
        outline.extend(&Outline::line(a, c));
        let found = chains(&outline);
        assert_eq!(found.len(), 2);
        assert_eq!((&found[0].points[..], found[0].closed), (&[a, b, c][..], true));
        assert_eq!((&found[1].points[..], found[1].closed), (&[a, c][..], false));
        assert_eq!(found[0].pieces().count(), 3);
        assert!(chains(&Outline::new()).is_empty());
    }

    #[test]
    fn after_closing_a_line_begins_anew() {
        let (a, b, c) = (Point::new(0.0, 0.0), Point::new(1.0, 0.0), Point::new(1.0, 1.0));
        let outline = Outline::polygon([a, b, c]).line_to(b);
        let found = chains(&outline);
        assert_eq!(found.len(), 2, "{found:?}");
    }
}

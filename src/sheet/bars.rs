//! Sticks as bars to scale: each cut with its mark, what is left over hatched, and under the bar all of it in words.

use super::lettering::{Hand, LINE};
use super::strip::{Strip, boxed, lines, rule};
use crate::scene::{Anchor, Group, Ink, Pen, Point, Rect, Stroke};

/// Height of a bar, mm.
const HEIGHT: f64 = 4.6;
/// Room before a bar for its number, mm.
const SIGN: f64 = 7.0;
/// From the top of a bar to the base line of what stands in it, mm.
const BASE: f64 = 3.5;
/// Under a bar and its words, mm.
const BELOW: f64 = 1.6;
/// Between the lines of the hatching, mm.
const HATCH: f64 = 1.6;

/// A stick.
#[derive(Clone, Debug)]
pub struct Bar {
    /// Its number.
    pub sign: String,
    /// What is cut from it: marks, and the shares of its length.
    pub parts: Vec<(String, f64)>,
    /// The same in words, with what is left.
    pub words: String,
}

/// Bars at a width in mm, each with its words.
pub fn strips(bars: &[Bar], width: f64) -> Vec<Strip> {
    bars.iter().map(|bar| strip(bar, width)).collect()
}

fn strip(bar: &Bar, width: f64) -> Strip {
    let length = (width - SIGN).max(1.0);
    let mut ink = Group::new().with(Hand::STRONG.write(&bar.sign, Point::new(0.0, BASE), Anchor::Start));
    let mut left = SIGN;
    for (mark, share) in &bar.parts {
        let piece = Rect::sized(Point::new(left, 0.0), (length * share).max(0.0), HEIGHT);
        ink.push(boxed(piece, Stroke::new(Pen::Medium)));
        if Hand::BODY.measure(mark) + 1.0 <= piece.width() {
            ink.push(Hand::BODY.write(mark, Point::new(piece.center().x, BASE), Anchor::Middle));
        }
        left = piece.max.x;
    }
    let rest = Rect::new(Point::new(left.min(width), 0.0), Point::new(width, HEIGHT));
    let mut x = rest.min.x + HATCH;
    while x < rest.max.x {
        let foot = (x - HEIGHT).max(rest.min.x);
        ink.push(rule(
            Point::new(x, 0.0),
            Point::new(foot, x - foot),
            Pen::Thin,
            Ink::Black,
        ));
        x += HATCH;
    }
    ink.push(boxed(rest, Stroke::new(Pen::Thin)));
    let words = Hand::BODY.wrap(&bar.words, length, usize::MAX).lines;
    lines(
        &mut ink,
        &words,
        Hand::BODY,
        Point::new(SIGN, HEIGHT + 3.6),
        LINE,
        Anchor::Start,
    );
    Strip {
        height: HEIGHT + words.len() as f64 * LINE + BELOW,
        ink,
    }
}

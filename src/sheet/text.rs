//! Running text of the sheet.

use super::lettering::{Hand, LINE};
use super::strip::{Strip, lines};
use crate::scene::{Anchor, Group, Point};

/// Up to so many lines a paragraph stays whole.
const WHOLE: usize = 4;
/// Between two paragraphs, mm.
const BETWEEN: f64 = 0.9;
/// From the top of a line to its base line, mm.
const BASE: f64 = 3.1;

/// A paragraph, perhaps with a number or sign that stands before it.
#[derive(Clone, Debug)]
pub struct Paragraph {
    /// What stands in the margin: "1", "–"; empty for none.
    pub sign: String,
    /// What it says.
    pub words: String,
    /// How it is lettered.
    pub hand: Hand,
}

impl Paragraph {
    /// A plain paragraph.
    pub fn new(words: impl Into<String>) -> Paragraph {
        Paragraph {
            sign: String::new(),
            words: words.into(),
            hand: Hand::BODY,
        }
    }

    /// The same paragraph behind a sign.
    pub fn signed(self, sign: impl Into<String>) -> Paragraph {
        Paragraph {
            sign: sign.into(),
            ..self
        }
    }

    /// The same paragraph in another hand of the same height.
    pub fn hand(self, hand: Hand) -> Paragraph {
        Paragraph { hand, ..self }
    }
}

/// Paragraphs at a width in mm, their signs in one margin.
pub fn paragraphs(all: &[Paragraph], width: f64) -> Vec<Strip> {
    let widest = all.iter().map(|p| Hand::BODY.measure(&p.sign)).fold(0.0, f64::max);
    let margin = if widest > 0.0 { widest + 1.6 } else { 0.0 };
    let mut strips = Vec::new();
    for (at, paragraph) in all.iter().enumerate() {
        let words = paragraph.hand.wrap(&paragraph.words, width - margin, usize::MAX).lines;
        let last = at + 1 == all.len();
        let piece = if words.len() <= WHOLE { words.len().max(1) } else { 1 };
        let pieces = words.len().div_ceil(piece);
        for (number, some) in words.chunks(piece).enumerate() {
            let mut ink = Group::new();
            if number == 0 {
                ink.push(Hand::BODY.write(&paragraph.sign, Point::new(0.0, BASE), Anchor::Start));
            }
            lines(
                &mut ink,
                some,
                paragraph.hand,
                Point::new(margin, BASE),
                LINE,
                Anchor::Start,
            );
            let between = if number + 1 == pieces && !last { BETWEEN } else { 0.0 };
            let height = some.len() as f64 * LINE + between;
            strips.push(Strip { height, ink });
        }
    }
    strips
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_paragraph_stays_whole_and_a_long_one_breaks_by_lines() {
        let long = "shut off and prove the line dead before it is cut ".repeat(12);
        let strips = paragraphs(&[Paragraph::new("short"), Paragraph::new(long)], 60.0);
        assert!(strips.len() > 6);
        assert!(strips[2..].iter().all(|strip| strip.height <= LINE + BETWEEN));
    }
}

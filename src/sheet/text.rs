//! Running text of the sheet: paragraphs, and pairs of a name and what it is.

use super::lettering::{Hand, LINE};
use super::strip::{Strip, lines};
use crate::scene::{Anchor, Group, Point, Tag};

/// Up to so many lines a paragraph stays whole.
const WHOLE: usize = 4;
/// Between two paragraphs, mm.
const BETWEEN: f64 = 1.25;
/// From the top of a line to its base line, mm.
const BASE: f64 = 3.25;

/// A paragraph, perhaps with a number or sign that stands before it.
#[derive(Clone, Debug)]
pub struct Paragraph {
    /// What stands in the margin: "1", "–"; empty for none.
    pub sign: String,
    /// What it says.
    pub words: String,
    /// How it is lettered.
    pub hand: Hand,
    /// How the sign is lettered.
    pub sign_hand: Hand,
}

impl Paragraph {
    /// A plain paragraph.
    pub fn new(words: impl Into<String>) -> Paragraph {
        Paragraph {
            sign: String::new(),
            words: words.into(),
            hand: Hand::BODY,
            sign_hand: Hand::BODY,
        }
    }

    /// The same paragraph behind a sign.
    pub fn signed(self, sign: impl Into<String>) -> Paragraph {
        Paragraph {
            sign: sign.into(),
            ..self
        }
    }

    /// The same paragraph behind words that stand out.
    pub fn headed(self, sign: impl Into<String>) -> Paragraph {
        Paragraph {
            sign: sign.into(),
            sign_hand: Hand::STRONG,
            ..self
        }
    }

    /// The same paragraph in another hand of the same height.
    pub fn hand(self, hand: Hand) -> Paragraph {
        Paragraph { hand, ..self }
    }
}

/// A name and what it is: `Gas` and `natural gas`.
#[derive(Clone, Debug)]
pub struct Pair {
    /// The name.
    pub name: String,
    /// What it is.
    pub words: String,
    /// What the pair stands for.
    pub tag: Option<Tag>,
}

impl Pair {
    /// A pair.
    pub fn new(name: impl Into<String>, words: impl Into<String>) -> Pair {
        Pair {
            name: name.into(),
            words: words.into(),
            tag: None,
        }
    }
}

/// Paragraphs at a width in mm, their signs in one margin.
pub fn paragraphs(all: &[Paragraph], width: f64) -> Vec<Strip> {
    let widest = all.iter().map(|p| p.sign_hand.measure(&p.sign)).fold(0.0, f64::max);
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
                ink.push(
                    paragraph
                        .sign_hand
                        .write(&paragraph.sign, Point::new(0.0, BASE), Anchor::Start),
                );
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

/// Pairs at a width in mm, what they are in one column.
pub fn pairs(all: &[Pair], width: f64) -> Vec<Strip> {
    let widest = all
        .iter()
        .map(|pair| Hand::QUIET.measure(&pair.name))
        .fold(0.0, f64::max);
    let margin = (widest + 3.5).min(width / 2.0);
    let mut strips = Vec::new();
    for pair in all {
        let names = Hand::QUIET.wrap(&pair.name, margin - 1.5, usize::MAX).lines;
        let words = Hand::BODY.wrap(&pair.words, width - margin, usize::MAX).lines;
        for row in 0..names.len().max(words.len()) {
            let mut ink = match pair.tag {
                Some(tag) => Group::tagged(tag.role, tag.key),
                None => Group::new(),
            };
            let name = names.get(row).map_or(&[][..], std::slice::from_ref);
            lines(&mut ink, name, Hand::QUIET, Point::new(0.0, BASE), LINE, Anchor::Start);
            let said = words.get(row).map_or(&[][..], std::slice::from_ref);
            lines(
                &mut ink,
                said,
                Hand::BODY,
                Point::new(margin, BASE),
                LINE,
                Anchor::Start,
            );
            strips.push(Strip { height: LINE, ink });
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

    #[test]
    fn pairs_share_a_column() {
        let strips = pairs(
            &[Pair::new("Gas", "natural"), Pair::new("Delivery pressure", "7 in w.c.")],
            100.0,
        );
        let left: Vec<f64> = strips
            .iter()
            .filter_map(|strip| strip.ink.items().last()?.bounds())
            .map(|bounds| bounds.min.x)
            .collect();
        assert_eq!(left.len(), 2);
        assert!((left[0] - left[1]).abs() < 0.5, "{left:?}");
    }
}

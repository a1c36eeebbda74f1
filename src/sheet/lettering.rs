//! The few hands in which a sheet is lettered, and how words are broken into lines.
//!
//! Heights are those of ISO 3098: 2.5 and 3.5 mm, 5 mm for the title; all of it black, so that a copy of a copy has it.
//! Words wrap; only long values of the title block are written smaller, never below 2 mm, before they wrap there.

use crate::drawing::words::{TooLong, lines};
use crate::scene::{Anchor, Face, Ink, Point, TextItem, measure};

/// From base line to base line of running text 2.5 mm high, mm.
pub const LINE: f64 = 3.9;

/// Height, weight and ink of lettering.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hand {
    /// Height of a capital, mm.
    pub height: f64,
    /// Weight.
    pub face: Face,
    /// Ink.
    pub ink: Ink,
}

impl Hand {
    /// Captions of fields and heads of columns.
    pub const CAPTION: Hand = Hand::new(2.5, Face::Regular, Ink::Black);
    /// Long values of the title block: no lettering is smaller.
    pub const SMALL: Hand = Hand::new(2.0, Face::Strong, Ink::Black);
    /// Running text and figures.
    pub const BODY: Hand = Hand::new(2.5, Face::Regular, Ink::Black);
    /// Figures and words that must not be overlooked.
    pub const STRONG: Hand = Hand::new(2.5, Face::Strong, Ink::Black);
    /// Headings of schedules.
    pub const HEADING: Hand = Hand::new(3.5, Face::Strong, Ink::Black);
    /// The title of the drawing.
    pub const TITLE: Hand = Hand::new(5.0, Face::Strong, Ink::Black);

    const fn new(height: f64, face: Face, ink: Ink) -> Hand {
        Hand { height, face, ink }
    }

    /// The length of words in mm.
    pub fn measure(self, words: &str) -> f64 {
        measure(words, self.height, self.face)
    }

    /// A line of lettering on paper.
    pub fn write(self, words: &str, at: Point, anchor: Anchor) -> TextItem {
        TextItem::new(words, self.height, self.face)
            .ink(self.ink)
            .at(at, anchor)
    }

    /// Breaks words into at most so many lines of a width in mm.
    pub fn wrap(self, words: &str, width: f64, most: usize) -> Wrapped {
        let lines = lines(words, width, TooLong::IsSpelled, |words| self.measure(words));
        let mut lines: Vec<String> = lines.take(most.saturating_add(1)).collect();
        let cut = lines.len() > most;
        if cut {
            lines.truncate(most);
            if let Some(last) = lines.last_mut() {
                *last = self.cut(last, width);
            }
        }
        Wrapped { lines, cut }
    }

    /// A line that ends in an ellipsis, within a width in mm.
    fn cut(self, line: &str, width: f64) -> String {
        let room = width - self.measure("…");
        let mut filled = 0.0;
        let mut short: String = line
            .chars()
            .take_while(|letter| {
                filled += self.measure(letter.encode_utf8(&mut [0; 4]));
                filled <= room
            })
            .collect();
        short.truncate(short.trim_end().len());
        short.push('…');
        short
    }
}

/// Words in lines.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrapped {
    /// The lines, none of them empty.
    pub lines: Vec<String>,
    /// Whether words were left out.
    pub cut: bool,
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_number_keeps_its_unit() {
        let width = Hand::BODY.measure("allowed drop 0");
        let wrapped = Hand::BODY.wrap("allowed drop 0.5 in w.c. from the profile", width, 9);
        assert_eq!(wrapped.lines, ["allowed drop", "0.5 in w.c.", "from the", "profile"]);
        assert!(!wrapped.cut);
    }

    #[test]
    fn a_length_is_never_broken_at_its_blank() {
        for width in 12..60 {
            let words = "P14 × 1'-2 1/4\" + P3 3 1/2\", tee −1 1/16\" (2 5/8\" over), J14 1/2\" pipe";
            let lines = Hand::BODY.wrap(words, f64::from(width), usize::MAX).lines;
            for pair in lines.windows(2).filter(|pair| pair[1].starts_with(['1', '5'])) {
                assert!(!pair[0].ends_with(['2', '3', '1']), "{width}: {lines:?}");
            }
        }
    }

    #[test]
    fn what_finds_no_room_ends_in_an_ellipsis() {
        let width = Hand::BODY.measure("new patio line");
        let wrapped = Hand::BODY.wrap("new patio line from the tie-in to three outlets", width, 2);
        assert_eq!(wrapped.lines.len(), 2);
        assert!(wrapped.cut && wrapped.lines[1].ends_with('…'), "{wrapped:?}");
    }

    proptest! {
        #[test]
        fn no_line_is_wider_than_asked_and_no_letter_is_lost(words in "\\PC{0,80}", width in 8.0..90.0f64) {
            let wrapped = Hand::BODY.wrap(&words, width, usize::MAX);
            for line in &wrapped.lines {
                prop_assert!(Hand::BODY.measure(line) <= width + 1e-9 || line.chars().count() == 1, "{}", line);
            }
            let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
            prop_assert_eq!(letters(&wrapped.lines.concat()), letters(&words));
        }

        #[test]
        fn a_cut_text_fits_too(words in "[a-zA-Z ]{0,200}", width in 8.0..90.0f64, most in 1..4usize) {
            let wrapped = Hand::HEADING.wrap(&words, width, most);
            prop_assert!(wrapped.lines.len() <= most);
            prop_assert!(wrapped.lines.iter().all(|line| Hand::HEADING.measure(line) <= width + 1e-9));
        }
    }
}

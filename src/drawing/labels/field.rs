//! The paper as words see it: what is already there, found fast.

use super::layer::{Drawn, Layer, Tests, Thing};
use crate::drawing::picture::Owner;
use crate::scene::{Quad, Rect, Segment};
use std::cell::Cell;

/// Clear distance of words from pipe and symbols, mm.
const CLEAR: f64 = 0.5;
/// Clear distance of words from other words, mm.
const CLEAR_OF_WORDS: f64 = 0.9;
/// Clear distance of leaders from words, mm.
const CLEAR_OF_LEADERS: f64 = 0.6;
/// Clear distance of leaders from each other, mm; each may begin in a dot.
const LEADERS_APART: f64 = 1.4;
/// Clear distance of leaders from symbols, mm.
const LEADER_CLEAR: f64 = 0.25;

/// Everything on the paper.
pub struct Field {
    /// The paper.
    pub area: Rect,
    /// What was drawn: it stays.
    pub drawn: Drawn,
    /// Words and leaders.
    pub words: Layer,
    /// The tests that were made.
    pub tests: Tests,
    /// For each label its shapes among the words.
    owned: Vec<Vec<u32>>,
    /// How many tests may be made before placing gives up: what is too dense is not searched for ever.
    granted: usize,
    /// How many of them are kept for the plainest looks, when the search is over.
    kept: usize,
    /// Whether a search was ended by that.
    gave_up: Cell<bool>,
}

/// How many tests of two shapes a placement may take, whatever the drawing, and how many more for each label.
const TESTS: usize = 3_000_000;
const TESTS_PER_LABEL: usize = 400;
/// How many of them, for each label, only ask whether a place is free.
const KEPT_PER_LABEL: usize = 200;

impl Field {
    /// Empty paper for so many labels.
    pub fn new(area: Rect, labels: usize) -> Field {
        Field {
            area,
            drawn: Drawn::new(area),
            words: Layer::new(area),
            tests: Tests::default(),
            owned: vec![Vec::new(); labels],
            granted: TESTS + (TESTS_PER_LABEL + KEPT_PER_LABEL) * labels,
            kept: KEPT_PER_LABEL * labels,
            gave_up: Cell::new(false),
        }
    }

    /// Whether the search has taken too long already.
    pub fn is_exhausted(&self) -> bool {
        let is_over = self.tests.spent() + self.kept >= self.granted;
        self.gave_up.set(self.gave_up.get() || is_over);
        is_over
    }

    /// Whether a search was ended because it took too long.
    pub fn gave_up(&self) -> bool {
        self.gave_up.get()
    }

    /// Adds what was drawn.
    pub fn add_drawn(&mut self, room: Quad, owner: Owner) {
        self.drawn.add(room.grown(CLEAR), room.grown(LEADER_CLEAR), owner);
    }

    /// Adds the words of a label.
    pub fn add_words(&mut self, room: Quad, label: usize) {
        let (for_words, for_leaders) = (room.grown(CLEAR_OF_WORDS), room.grown(CLEAR_OF_LEADERS));
        let number = self.words.add(for_words, for_leaders, Thing::Words(label));
        self.owned[label].push(number);
    }

    /// Adds a piece of the leader of a label.
    pub fn add_leader(&mut self, line: Segment, label: usize) {
        let strip = |clear: f64| Quad::strip(line, 2.0 * clear).grown(clear);
        let (for_words, for_leaders) = (strip(LEADERS_APART / 2.0), strip(LEADERS_APART));
        let number = self.words.add(for_words, for_leaders, Thing::Leader(label));
        self.owned[label].push(number);
    }

    /// Takes the words and the leader of a label away.
    pub fn remove(&mut self, label: usize) {
        for number in self.owned[label].drain(..) {
            self.words.remove(number);
        }
    }

    /// Whether words in a box would lie on the paper and touch nothing at all.
    pub fn is_free(&self, room: &Quad) -> bool {
        self.area.encloses(room.bounds())
            && self.drawn.is_free(room, &self.tests)
            && self.words.is_free(room, &self.tests)
    }
}

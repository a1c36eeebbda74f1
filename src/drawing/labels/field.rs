//! The paper as words see it: what is already there, found fast.
//!
//! Everything is kept as a slanted box with its clearance already added, so that one exact test of two boxes decides.

use super::raster::{By, Raster};
use crate::drawing::picture::Owner;
use crate::scene::{Grid, Point, Quad, Rect, Segment, Vector};
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

/// Width of a leader, mm.
const LINE: f64 = 0.25;

/// What is in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thing {
    /// Something drawn.
    Drawn(Owner),
    /// The words of a label.
    Words(usize),
    /// The leader of a label.
    Leader(usize),
}

impl Thing {
    /// Whether a leader may never pass it.
    pub fn bars_leaders(self) -> bool {
        match self {
            Thing::Drawn(Owner::Symbol(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => true,
            Thing::Drawn(Owner::Pipe(_) | Owner::Mark(_) | Owner::Plane(_) | Owner::Passage(_) | Owner::Cloud) => false,
        }
    }
}

#[derive(Clone, Copy, Debug)]
struct Shape {
    /// With the clearance that words keep.
    for_words: Quad,
    /// With the clearance that leaders keep.
    for_leaders: Quad,
    bounds: Rect,
    thing: Thing,
    gone: bool,
}

/// Everything on the paper.
pub struct Field {
    area: Rect,
    /// Everything, with the clearance that words keep.
    taken: Raster,
    /// What no leader may pass, with the clearance that leaders keep.
    barred: Raster,
    grid: Grid,
    shapes: Vec<Shape>,
    /// For each label its shapes.
    owned: Vec<Vec<u32>>,
    /// Tests left before placing gives up: what is too dense is not searched for ever.
    left: Cell<usize>,
    /// How many there were.
    granted: usize,
    /// How many of them are kept for the plainest looks, when the search is over.
    kept: usize,
}

/// How many tests of two shapes a placement may take, whatever the drawing, and how many more for each label.
const TESTS: usize = 6_000_000;
const TESTS_PER_LABEL: usize = 400;
/// How many of them, for each label, only ask whether a place is free.
const KEPT_PER_LABEL: usize = 200;
/// So many looks at the raster take as long as one test.
const LOOKS: usize = 16;

impl Field {
    /// Empty paper for so many labels.
    pub fn new(area: Rect, labels: usize) -> Field {
        let granted = TESTS + (TESTS_PER_LABEL + KEPT_PER_LABEL) * labels;
        Field {
            area,
            taken: Raster::new(area, 1.0, By::Places),
            barred: Raster::new(area, 1.0, By::Cells),
            grid: Grid::new(area, 4.0),
            shapes: Vec::new(),
            owned: vec![Vec::new(); labels],
            left: Cell::new(granted),
            granted,
            kept: KEPT_PER_LABEL * labels,
        }
    }

    /// Whether the search has taken too long already.
    pub fn is_exhausted(&self) -> bool {
        self.left.get() <= self.kept
    }

    /// How many tests it has taken.
    pub fn effort(&self) -> usize {
        self.granted - self.left.get()
    }

    fn spend(&self, tests: usize) {
        self.left.set(self.left.get().saturating_sub(tests));
    }

    /// Adds what was drawn.
    pub fn add_drawn(&mut self, room: Quad, owner: Owner) {
        self.add(room.grown(CLEAR), room.grown(LEADER_CLEAR), Thing::Drawn(owner));
    }

    /// Adds the words of a label.
    pub fn add_words(&mut self, room: Quad, label: usize) {
        self.add(
            room.grown(CLEAR_OF_WORDS),
            room.grown(CLEAR_OF_LEADERS),
            Thing::Words(label),
        );
    }

    /// Adds a piece of the leader of a label.
    pub fn add_leader(&mut self, line: Segment, label: usize) {
        let strip = |clear: f64| Quad::strip(line, 2.0 * clear).grown(clear);
        self.add(strip(LEADERS_APART / 2.0), strip(LEADERS_APART), Thing::Leader(label));
    }

    fn add(&mut self, for_words: Quad, for_leaders: Quad, thing: Thing) {
        let number = self.shapes.len() as u32;
        let bounds = for_words.bounds();
        let [a, b, c, d] = for_words.0;
        if let Thing::Words(label) | Thing::Leader(label) = thing {
            self.owned[label].push(number);
        }
        self.taken.cover(&for_words);
        if thing.bars_leaders() {
            self.barred.cover(&for_leaders);
        }
        // A long strip would touch far too many cells by its upright box.
        let middle = Segment::new(a.midway(d), b.midway(c));
        let reach = for_words
            .0
            .iter()
            .map(|corner| middle.distance(*corner))
            .fold(0.0, f64::max);
        if middle.length() > 12.0 && reach < 5.0 {
            self.grid.insert_along(number, middle, reach + 0.01);
        } else {
            self.grid.insert(number, bounds);
        }
        self.shapes.push(Shape {
            for_words,
            for_leaders,
            bounds,
            thing,
            gone: false,
        });
    }

    /// Takes the words and the leader of a label away.
    pub fn remove(&mut self, label: usize) {
        for number in self.owned[label].drain(..) {
            let shape = &mut self.shapes[number as usize];
            shape.gone = true;
            self.taken.uncover(&shape.for_words);
            if shape.thing.bars_leaders() {
                self.barred.uncover(&shape.for_leaders);
            }
        }
    }

    /// Whether words in an upright box would lie off the paper or on something, for certain: a quick no. Where the
    /// answer is no, only an exact test tells.
    pub fn is_surely_taken(&self, room: Rect) -> bool {
        self.spend(1);
        !self.area.encloses(room) || self.taken.is_box_covered(room)
    }

    /// Whether words in a box would lie on the paper, touch nothing drawn, and only the labels that `each` lets pass; it
    /// may be asked twice.
    pub fn admits_words(&self, room: &Quad, mut each: impl FnMut(usize) -> bool) -> bool {
        let each = |thing| match thing {
            Thing::Words(label) | Thing::Leader(label) => each(label),
            Thing::Drawn(_) => false,
        };
        self.area.encloses(room.bounds()) && self.admits(room, |shape| &shape.for_words, each)
    }

    /// Whether something bars a leader somewhere on a piece of its way, for certain: a quick yes. The end counts, the
    /// start does not.
    pub fn is_surely_barred(&self, from: Point, way: Vector, length: f64) -> bool {
        const STRIDE: f64 = 2.0;
        self.spend(1 + (length / STRIDE) as usize / LOOKS);
        let mut mm = length;
        while mm > 0.0 {
            if self.barred.is_point_covered(from + way * mm) {
                return true;
            }
            mm -= STRIDE;
        }
        false
    }

    /// Whether a piece of a leader would touch only what `each` lets pass; it may be asked twice.
    pub fn admits_leader(&self, line: Segment, each: impl FnMut(Thing) -> bool) -> bool {
        self.admits(&Quad::strip(line, LINE), |shape| &shape.for_leaders, each)
    }

    /// Whether words in a box would lie on the paper and touch nothing at all; not where it took too long to tell.
    pub fn is_free(&self, room: &Quad) -> bool {
        self.spend(1);
        self.left.get() > 0
            && self.area.encloses(room.bounds())
            && !self.taken.is_covered(room)
            && self.admits(room, |shape| &shape.for_words, |_| false)
    }

    fn admits(&self, room: &Quad, of: impl Fn(&Shape) -> &Quad, mut each: impl FnMut(Thing) -> bool) -> bool {
        let bounds = room.bounds();
        let mut tests = 1;
        let free = self.grid.near(bounds, |number| {
            let shape = &self.shapes[number as usize];
            tests += 1;
            shape.gone || !(shape.bounds.overlaps(bounds) && of(shape).overlaps(room)) || each(shape.thing)
        });
        self.spend(tests);
        free
    }
}

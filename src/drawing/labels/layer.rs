//! One layer of what lies on the paper: that which was drawn and stays, or words and leaders, which come and go.
//!
//! Everything is kept as a slanted box with its clearance already added, so that one exact test of two boxes decides.

use super::raster::{By, Raster};
use crate::drawing::picture::Owner;
use crate::scene::{Grid, Point, Quad, Rect, Segment, Tested, Vector};
use std::cell::{Cell, OnceCell};

/// Width of a leader, mm.
const LINE: f64 = 0.25;
/// So many looks at the raster take as long as one test.
const LOOKS: usize = 16;

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

/// Counts tests of one thing against another: how long a search takes, the same on every machine.
#[derive(Debug, Default)]
pub struct Tests(Cell<usize>);

impl Tests {
    /// Counts so many more.
    pub fn spend(&self, tests: usize) {
        self.0.set(self.0.get() + tests);
    }

    /// How many there were.
    pub fn spent(&self) -> usize {
        self.0.get()
    }
}

#[derive(Clone, Copy, Debug)]
struct Shape {
    /// With the clearance that words keep.
    for_words: Tested,
    /// With the clearance that leaders keep.
    for_leaders: Tested,
    thing: Thing,
}

impl Shape {
    /// Its middle line and how far it reaches from that, where it is a long strip: that would touch far too many cells by
    /// its upright box.
    fn strip(&self) -> Option<(Segment, f64)> {
        let [a, b, c, d] = self.for_words.quad().0;
        let middle = Segment::new(a.midway(d), b.midway(c));
        let corners = self.for_words.quad().0.iter();
        let reach = corners.map(|corner| middle.distance(*corner)).fold(0.0, f64::max);
        (middle.length() > 12.0 && reach < 5.0).then_some((middle, reach + 0.01))
    }
}

/// Everything of one layer.
pub struct Layer {
    grid: Grid,
    shapes: Vec<Shape>,
    /// Numbers of shapes that were taken away.
    spare: Vec<u32>,
}

impl Layer {
    /// Empty paper.
    pub fn new(area: Rect) -> Layer {
        Layer {
            grid: Grid::new(area, 4.0),
            shapes: Vec::new(),
            spare: Vec::new(),
        }
    }

    /// Whether nothing lies on it.
    pub fn is_empty(&self) -> bool {
        self.shapes.len() == self.spare.len()
    }

    /// Adds a shape, with the clearances that words and leaders keep; gives back its number.
    pub fn add(&mut self, for_words: Quad, for_leaders: Quad, thing: Thing) -> u32 {
        let shape = Shape {
            for_words: for_words.tested(),
            for_leaders: for_leaders.tested(),
            thing,
        };
        let number = match self.spare.pop() {
            Some(number) => {
                self.shapes[number as usize] = shape;
                number
            }
            None => {
                self.shapes.push(shape);
                self.shapes.len() as u32 - 1
            }
        };
        match shape.strip() {
            Some((middle, reach)) => self.grid.insert_along(number, middle, reach),
            None => self.grid.insert(number, shape.for_words.bounds()),
        }
        number
    }

    /// Takes a shape away.
    pub fn remove(&mut self, number: u32) {
        let shape = self.shapes[number as usize];
        match shape.strip() {
            Some((middle, reach)) => self.grid.remove_along(number, middle, reach),
            None => self.grid.remove(number, shape.for_words.bounds()),
        }
        self.spare.push(number);
    }

    /// Whether words in a box would touch nothing.
    pub fn is_free(&self, room: &Quad, tests: &Tests) -> bool {
        self.admits_words(room, tests, |_| false)
    }

    /// Whether words in a box would touch only what `each` lets pass; it may be asked twice.
    pub fn admits_words(&self, room: &Quad, tests: &Tests, each: impl FnMut(Thing) -> bool) -> bool {
        self.admits(room, tests, |shape| &shape.for_words, each)
    }

    /// Whether a piece of a leader would touch only what `each` lets pass; it may be asked twice.
    pub fn admits_leader(&self, line: Segment, tests: &Tests, each: impl FnMut(Thing) -> bool) -> bool {
        let strip = Quad::strip(line, LINE);
        self.admits(&strip, tests, |shape| &shape.for_leaders, each)
    }

    fn admits(
        &self,
        room: &Quad,
        tests: &Tests,
        of: impl Fn(&Shape) -> &Tested,
        mut each: impl FnMut(Thing) -> bool,
    ) -> bool {
        let mut count = 1;
        let tested = OnceCell::new();
        let touches = |shape: &Tested| tested.get_or_init(|| room.tested()).overlaps(shape);
        let mut look = |bounds: Rect| {
            self.grid.near(bounds, |number| {
                let shape = &self.shapes[number as usize];
                count += 1;
                !(shape.for_words.bounds().overlaps(bounds) && touches(of(shape))) || each(shape.thing)
            })
        };
        // The upright box of a long strip holds far too much.
        let free = match pieces(room) {
            Some(pieces) => pieces.into_iter().all(|piece| look(piece.bounds())),
            None => look(room.bounds()),
        };
        tests.spend(count);
        free
    }
}

/// A box that is longer than this is looked at piece by piece, mm.
const LONG: f64 = 48.0;

/// The pieces of a long box.
fn pieces(room: &Quad) -> Option<Vec<Quad>> {
    let [a, b, c, d] = room.0;
    let count = (a.distance(b) / (LONG / 2.0)).ceil();
    if count <= 2.0 {
        return None;
    }
    let share = |piece: f64| piece / count;
    let piece = |piece: f64| {
        let (from, to) = (share(piece), share(piece + 1.0));
        Quad([a.toward(b, from), a.toward(b, to), d.toward(c, to), d.toward(c, from)])
    };
    Some((0..count as usize).map(|number| piece(number as f64)).collect())
}

/// What is drawn: a layer that is filled once, with rasters for a quick answer.
pub struct Drawn {
    layer: Layer,
    /// Everything, with the clearance that words keep.
    taken: Raster,
    /// What no leader may pass, with the clearance that leaders keep.
    barred: Raster,
}

impl Drawn {
    /// Empty paper.
    pub fn new(area: Rect) -> Drawn {
        Drawn {
            layer: Layer::new(area),
            taken: Raster::new(area, 1.0, By::Places),
            barred: Raster::new(area, 1.0, By::Cells),
        }
    }

    /// Adds what was drawn, with the clearances that words and leaders keep.
    pub fn add(&mut self, for_words: Quad, for_leaders: Quad, owner: Owner) {
        let thing = Thing::Drawn(owner);
        self.taken.cover(&for_words);
        if thing.bars_leaders() {
            self.barred.cover(&for_leaders);
        }
        self.layer.add(for_words, for_leaders, thing);
    }

    /// Whether words in an upright box would lie on something, for certain: a quick yes. Where the answer is no, only an
    /// exact test tells.
    pub fn is_surely_taken(&self, room: Rect, tests: &Tests) -> bool {
        tests.spend(1);
        self.taken.is_box_covered(room)
    }

    /// Whether something bars a leader somewhere on a piece of its way, for certain: a quick yes. The end counts, the
    /// start does not.
    pub fn is_surely_barred(&self, from: Point, way: Vector, length: f64, tests: &Tests) -> bool {
        const STRIDE: f64 = 2.0;
        tests.spend(1 + (length / STRIDE) as usize / LOOKS);
        let mut mm = length;
        while mm > 0.0 {
            if self.barred.is_point_covered(from + way * mm) {
                return true;
            }
            mm -= STRIDE;
        }
        false
    }

    /// Whether words in a box would touch nothing.
    pub fn is_free(&self, room: &Quad, tests: &Tests) -> bool {
        tests.spend(1);
        !self.taken.is_covered(room) && self.layer.is_free(room, tests)
    }

    /// Whether words in a box would touch only what `each` lets pass; it may be asked twice.
    pub fn admits_words(&self, room: &Quad, tests: &Tests, each: impl FnMut(Thing) -> bool) -> bool {
        self.layer.admits_words(room, tests, each)
    }

    /// Whether a piece of a leader would touch only what `each` lets pass; it may be asked twice.
    pub fn admits_leader(&self, line: Segment, tests: &Tests, each: impl FnMut(Thing) -> bool) -> bool {
        self.layer.admits_leader(line, tests, each)
    }
}

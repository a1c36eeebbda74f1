//! Where a label could stand as far as what is drawn lets it: asked once for each label, since what is drawn stays while
//! words come and go.

use super::layer::{Drawn, Tests, Thing};
use super::spots::{self, Home, Manner, Spot, WayOut};
use super::wishes::Wish;
use crate::drawing::block::Block;
use crate::drawing::picture::Owner;
use crate::scene::{Point, Rect, Segment};
use std::cell::OnceCell;

/// From its beginning the line of a level may lie on pipe, mm.
const ON_PIPE: f64 = 3.0;
/// What it costs a leader to point at pipe where a wall hides it.
const IN_PASSAGE: f64 = 1.5;
/// What it costs a leader to pass over a plane.
const OVER: f64 = 2.5;
/// A shorter piece of a leader is none, mm.
const NO_PIECE: f64 = 0.01;

/// The paper with what is drawn on it.
#[derive(Clone, Copy)]
pub struct Ground<'a> {
    /// The paper.
    pub area: Rect,
    /// What is drawn.
    pub drawn: &'a Drawn,
}

/// The places away from a home.
#[derive(Clone, Debug, Default)]
pub struct Led {
    /// From where leaders can begin on the home itself, best first.
    pub starts: Vec<Start>,
    /// The ways out from between the symbols that hide the home.
    pub between: Vec<Way>,
}

/// The places of a label with other words than its own.
#[derive(Clone, Debug)]
pub struct Instead {
    /// The width and height of the words, mm, and whether they stand in a ring.
    pub of: (f64, f64, bool),
    /// The places beside its home.
    pub near: Vec<u16>,
    /// Those on leaders, once they were asked for.
    pub led: Option<Led>,
}

/// Where leaders can begin.
#[derive(Clone, Debug)]
pub struct Start {
    /// The place; `None` where it is plain whatever is written there.
    pub at: Option<Point>,
    /// What it costs to begin there.
    pub cost: f64,
    /// The ways out from it.
    pub ways: Vec<Way>,
}

/// A way out, with the places along it once they were asked for: most ways are too dear to be looked along.
#[derive(Clone, Debug)]
pub struct Way {
    /// Where it begins and goes.
    pub out: WayOut,
    /// The places, nearest first.
    ends: OnceCell<Vec<End>>,
}

impl Way {
    fn new(out: WayOut) -> Way {
        Way {
            out,
            ends: OnceCell::new(),
        }
    }
}

/// A place at the end of a leader.
#[derive(Clone, Copy, Debug)]
pub struct End {
    /// How far the leader reaches, mm, and what that costs.
    pub reach: (f64, f64),
    /// What it costs that the leader passes over planes up to its knee.
    pub over: f64,
    /// The same of the whole leader.
    pub over_all: f64,
}

/// The runs whose planes a leader passes over.
#[derive(Clone, Debug, Default)]
struct Over(Vec<usize>);

impl Over {
    fn cost(&self) -> f64 {
        OVER * self.0.len() as f64
    }
}

/// The pieces of the line of a level: that which may lie on pipe, and the rest.
pub fn level_line(wish: &Wish, spot: &Spot) -> Option<[Segment; 2]> {
    let [start, _, end] = spot.leader.filter(|_| matches!(wish.home, Home::Level { .. }))?;
    let line = Segment::new(start, end);
    let leaves = line.at((ON_PIPE / line.length()).min(1.0));
    Some([Segment::new(start, leaves), Segment::new(leaves, end)])
}

/// The pieces of a leader that can be seen: to its knee, and from there to the words.
pub fn pieces([start, knee, end]: [Point; 3]) -> impl Iterator<Item = Segment> {
    let pieces = [Segment::new(start, knee), Segment::new(knee, end)];
    pieces.into_iter().filter(|piece| piece.length() >= NO_PIECE)
}

impl Ground<'_> {
    /// The places beside the home of a label where it touches nothing drawn: their numbers among [`spots::near`].
    pub fn near(&self, wish: &Wish, block: &Block, all: &mut Vec<Spot>, tests: &Tests) -> Vec<u16> {
        spots::near(block, &wish.home, all);
        let free = all.iter().enumerate().filter(|(_, spot)| {
            self.is_clear(spot, tests)
                && level_line(wish, spot).is_none_or(|line| self.is_level_line_clear(wish, line, tests))
        });
        free.map(|(number, _)| number as u16).collect()
    }

    /// Whether words would lie on the paper and touch nothing drawn.
    fn is_clear(&self, spot: &Spot, tests: &Tests) -> bool {
        spot.rooms()
            .all(|room| self.area.encloses(room.bounds()) && self.drawn.is_free(room, tests))
    }

    /// Whether the line of a level touches no pipe but that on which it begins.
    fn is_level_line_clear(&self, wish: &Wish, [on_pipe, rest]: [Segment; 2], tests: &Tests) -> bool {
        let start = on_pipe.a;
        let begins_on = |thing| match thing {
            Thing::Drawn(Owner::Pipe(_) | Owner::Plane(_) | Owner::Cloud) => true,
            Thing::Drawn(Owner::Symbol(joint)) => wish.ticks_at.iter().any(|(its, at)| *its == joint && *at == start),
            Thing::Drawn(Owner::Mark(_) | Owner::Passage(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => {
                false
            }
        };
        let is_white = |thing| matches!(thing, Thing::Drawn(Owner::Plane(_) | Owner::Cloud));
        self.drawn.admits_leader(on_pipe, tests, begins_on) && self.drawn.admits_leader(rest, tests, is_white)
    }

    /// From where and by which ways leaders may go to these words; [`Ground::ends`] looks along one.
    pub fn led(&self, wish: &Wish, block: &Block, how: Manner, tests: &Tests) -> Led {
        let mut starts = Vec::new();
        for (number, start) in spots::starts(&wish.home).into_iter().enumerate() {
            let Some(cost) = self.points_plainly(wish, start, tests) else {
                continue;
            };
            let ways = spots::ways_out(&wish.home, number, start, how);
            let ways = ways.flat_map(|out| spots::meetings(out, block, how));
            let at = matches!(wish.home, Home::Along { .. }).then_some(start);
            let ways: Vec<Way> = ways.map(Way::new).collect();
            starts.push(Start { at, cost, ways });
        }
        let between = spots::ways_between(&wish.home, how);
        let between = between.flat_map(|out| spots::meetings(out, block, how));
        Led {
            between: between.map(Way::new).collect(),
            starts,
        }
    }

    /// What it costs a leader to point at a place; `None` where it would not be plain which pipe it means.
    fn points_plainly(&self, wish: &Wish, start: Point, tests: &Tests) -> Option<f64> {
        if !matches!(wish.home, Home::Along { .. }) {
            return Some(0.0);
        }
        let mut cost = 0.0;
        let is_plain = self
            .drawn
            .admits_leader(Segment::new(start, start), tests, |thing| match thing {
                Thing::Drawn(Owner::Pipe(run)) => wish.runs.contains(&run),
                Thing::Drawn(Owner::Passage(run)) => {
                    cost = IN_PASSAGE;
                    wish.runs.contains(&run)
                }
                Thing::Drawn(Owner::Plane(_) | Owner::Cloud) => true,
                Thing::Drawn(Owner::Symbol(_) | Owner::Mark(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => {
                    false
                }
            });
        is_plain.then_some(cost)
    }

    /// The places along one way out where nothing drawn is in the way.
    pub fn ends<'w>(&self, wish: &Wish, block: &Block, way: &'w Way, tests: &Tests) -> &'w [End] {
        way.ends.get_or_init(|| self.walk(wish, block, way.out, tests))
    }

    /// Most places are taken: those are passed by before anything else is looked at, and the leader is followed only as
    /// far as there is a place to lead to.
    fn walk(&self, wish: &Wish, block: &Block, out: WayOut, tests: &Tests) -> Vec<End> {
        let mut ends = Vec::new();
        let mut over = Over::default();
        let mut walked = out.start;
        let mut before = 0.0;
        for reach in spots::reaches() {
            let from = out.start + out.way * before;
            if self.drawn.is_surely_barred(from, out.way, reach.0 - before, tests) {
                break;
            }
            before = reach.0;
            let spot = spots::beyond(block, &out, reach.0, 0.0);
            let Some([_, knee, end]) = spot.leader else { continue };
            let room = spot.room.bounds();
            if !self.area.encloses(room) || self.drawn.is_surely_taken(room, tests) {
                continue;
            }
            if !self.passes(wish, Segment::new(walked, knee), &mut over, tests) {
                break;
            }
            walked = knee;
            let mut all = over.clone();
            if self.is_clear(&spot, tests) && self.passes(wish, Segment::new(knee, end), &mut all, tests) {
                ends.push(End {
                    reach,
                    over: over.cost(),
                    over_all: all.cost(),
                });
            }
        }
        ends
    }

    /// Whether a piece of a leader is free of foreign pipe and symbols; notes the planes that it passes over.
    fn passes(&self, wish: &Wish, piece: Segment, over: &mut Over, tests: &Tests) -> bool {
        if piece.length() < NO_PIECE {
            return true;
        }
        self.drawn.admits_leader(piece, tests, |thing| match thing {
            Thing::Drawn(Owner::Pipe(run) | Owner::Passage(run)) => wish.runs.contains(&run),
            Thing::Drawn(Owner::Plane(run)) => {
                if !wish.runs.contains(&run) && !over.0.contains(&run) {
                    over.0.push(run);
                }
                true
            }
            Thing::Drawn(Owner::Cloud) => true,
            // From a joint between the ticks of its fitting.
            Thing::Drawn(Owner::Symbol(joint)) => {
                let begins_there = |(its, at): &(usize, Point)| *its == joint && at.distance(piece.a) < 0.1;
                is_bare(wish) && wish.ticks_at.iter().any(begins_there)
            }
            Thing::Drawn(Owner::Mark(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => false,
        })
    }
}

/// Whether a leader begins on the joint itself.
fn is_bare(wish: &Wish) -> bool {
    matches!(wish.home, Home::Around { is_bare: true, .. } | Home::Level { .. })
}

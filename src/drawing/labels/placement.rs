//! Finds a place for every label: a small optimisation that always ends the same way.
//!
//! 1. The most constrained first, each takes the best free place beside its home.
//! 2. What found none may push up to two others to places that are free for them.
//! 3. What still has none goes away from its home on a leader.
//! 4. What found a poor place looks again, now that all are placed.
//! 5. For what has none even then others make room, of which those that matter less may lose theirs.
//!
//! A place is only ever taken when it is free, so the result is clear of overlaps whatever happens.
// A spot carries the shapes of its words by value: it is copied where it is chosen, not in the search.
#![allow(clippy::large_enum_variant, clippy::large_types_passed_by_value)]

use super::choices::{Ground, Instead, Led};
use super::field::Field;
use super::layer::{Tests, Thing};
use super::several;
use super::spots::{self, Home, Manner, Spot};
use super::wishes::{Turn, Wish};
use crate::drawing::block::Block;
use crate::drawing::picture::Owner;
use crate::scene::{Point, Quad, Rect, Segment};
use std::borrow::Cow;
use std::cell::OnceCell;
use std::collections::HashMap;

mod best;
mod misreading;
mod pushing;
mod rescue;
mod second_look;

/// A place that costs more is weighed against one at the end of a leader.
const POOR: f64 = 3.5;

/// Labels being placed.
pub struct Placement<'a> {
    wishes: &'a [Wish],
    blocks: Vec<Cow<'a, Block>>,
    field: Field,
    chosen: Vec<Option<Spot>>,
    /// Labels that a person put somewhere.
    held: Vec<bool>,
    /// Labels that stand with others.
    settled: Vec<bool>,
    /// For each label its places beside its home that touch nothing drawn, as numbers among [`spots::near`].
    near: Vec<Vec<u16>>,
    /// The same on leaders, once they are asked for.
    led: Vec<OnceCell<Led>>,
    /// The same of words that stand instead of others, for the last that were asked for.
    instead: Vec<Option<Instead>>,
    /// The labels around each place.
    around: HashMap<[u64; 2], Vec<usize>>,
    /// Boxes around what labels have left, in the order in which they left it.
    vacated: Vec<Rect>,
    /// For each label how much was vacated when it last looked for the best place; `None` for one that has not.
    looked: Vec<Option<usize>>,
    /// Labels that stay for now, whatever wants their place.
    stays: Vec<bool>,
    /// Where labels stood that went elsewhere since this was begun, in that order.
    stood: Option<Vec<(usize, Option<Spot>)>>,
}

impl<'a> Placement<'a> {
    /// Nothing placed yet.
    pub fn new(wishes: &'a [Wish], field: Field) -> Self {
        let mut around: HashMap<[u64; 2], Vec<usize>> = HashMap::new();
        for (label, wish) in wishes.iter().enumerate() {
            if let Home::Around { place, .. } = &wish.home {
                around.entry(key(*place)).or_default().push(label);
            }
        }
        Self {
            blocks: wishes.iter().map(|wish| Cow::Borrowed(&wish.block)).collect(),
            chosen: vec![None; wishes.len()],
            held: vec![false; wishes.len()],
            settled: vec![false; wishes.len()],
            near: Vec::new(),
            led: vec![OnceCell::new(); wishes.len()],
            instead: (0..wishes.len()).map(|_| None).collect(),
            around,
            vacated: Vec::new(),
            looked: vec![None; wishes.len()],
            stays: vec![false; wishes.len()],
            stood: None,
            wishes,
            field,
        }
    }

    /// Puts a label where a person wants it; it stays there whatever lies there.
    pub fn hold(&mut self, label: usize, spot: &Spot) {
        self.held[label] = true;
        self.put(label, spot);
    }

    /// Whether nothing at all lies in a box of the paper.
    pub fn is_free(&self, room: Rect) -> bool {
        self.field.is_free(&Quad(room.corners()))
    }

    /// The same of a box that may lie aslant.
    pub fn is_clear_quad(&self, room: &Quad) -> bool {
        self.field.is_free(room)
    }

    /// Keeps a box of the paper free that may lie aslant.
    pub fn keep_quad_free(&mut self, room: Quad) {
        self.field.add_drawn(room, Owner::Sheet);
    }

    /// Says that a label stands elsewhere, with others.
    pub fn settle(&mut self, label: usize) {
        self.settled[label] = true;
    }

    /// Whether it does.
    pub fn is_settled(&self, label: usize) -> bool {
        self.settled[label]
    }

    /// Keeps a box of the paper free.
    pub fn keep_free(&mut self, room: Rect) {
        self.keep_quad_free(Quad(room.corners()));
    }

    /// Places all labels that are not held; nothing may be drawn any more.
    pub fn run(&mut self) {
        self.look_around();
        self.take_turn(Turn::First);
        self.take_turn(Turn::Last);
        self.rescue();
    }

    /// Finds the places that touch nothing drawn, for all labels at once.
    fn look_around(&mut self) {
        let (ground, wishes, settled) = (self.ground(), self.wishes, &self.settled);
        let look = |label: usize, all: &mut Vec<Spot>| match settled[label] {
            true => (Vec::new(), 0),
            false => {
                let tests = Tests::default();
                let near = ground.near(&wishes[label], &wishes[label].block, all, &tests);
                (near, tests.spent())
            }
        };
        let found = several::find(wishes.len(), |labels| {
            let mut all = Vec::new();
            labels.map(|label| look(label, &mut all)).collect()
        });
        let (near, tests): (Vec<Vec<u16>>, Vec<usize>) = found.into_iter().unzip();
        self.near = near;
        self.field.tests.spend(tests.into_iter().sum());
    }

    fn ground(&self) -> Ground<'_> {
        Ground {
            area: self.field.area,
            drawn: &self.field.drawn,
        }
    }

    fn take_turn(&mut self, turn: Turn) {
        let order = self.most_constrained_first(turn);
        if order.is_empty() {
            return;
        }
        let mut waiting: Vec<usize> = Vec::new();
        for label in order {
            match self.best_near(label) {
                Some(spot) if spot.cost > POOR && self.may_be_led(label) => {
                    let led = self.best_led(label, spot.cost);
                    self.put(label, &led.unwrap_or(spot));
                }
                Some(spot) => self.put(label, &spot),
                None => waiting.push(label),
            }
            self.looked[label] = Some(self.vacated.len());
        }
        waiting.retain(|label| !self.push_in(*label));
        let pushed = self.vacated.len();
        waiting.retain(|label| !self.lead(*label));
        // Paper only fills up: a second try is worth it only where something was vacated since the first.
        if pushed > 0 {
            waiting.retain(|label| !self.push_in(*label));
        }
        waiting.retain(|label| !self.join(*label));
        for _ in 0..2 {
            self.look_again();
        }
        let moved = self.vacated.len() > pushed;
        for label in waiting {
            if !(moved && self.push_in(label)) && self.may_gain(label) {
                self.lead(label);
            }
        }
    }

    /// Tries to place a label with other words, beside its home or on a leader.
    pub fn place_instead(&mut self, label: usize, block: Cow<'a, Block>) -> bool {
        let (wish, mut all) = (&self.wishes[label], Vec::new());
        let of = (block.width, block.height, block.is_ringed());
        let known = self.instead[label].take().filter(|known| known.of == of);
        self.blocks[label] = block;
        let block = &self.blocks[label];
        let mut known = known.unwrap_or_else(|| Instead {
            of,
            near: self.ground().near(wish, block, &mut all, &self.field.tests),
            led: None,
        });
        spots::near(block, &wish.home, &mut all);
        let spot = self.best_of(label, &all, &known.near).or_else(|| {
            let look = || self.ground().led(wish, block, Manner::Plain, &self.field.tests);
            self.best_on(label, known.led.get_or_insert_with(look), f64::INFINITY)
        });
        self.instead[label] = Some(known);
        if let Some(spot) = &spot {
            self.put(label, spot);
        }
        spot.is_some()
    }

    /// Puts a label right below or above other words of its own place, as one paragraph with them; an elevation with words
    /// of any place on its level.
    pub fn join(&mut self, label: usize) -> bool {
        let here = |place: &Point| self.around.get(&key(*place)).into_iter().flatten().copied();
        let mut beside: Vec<usize> = match &self.wishes[label].home {
            Home::Around { place, .. } => here(place).collect(),
            Home::Level { places } => places.iter().flat_map(|place| here(&place.at)).collect(),
            Home::Along { .. } => return false,
        };
        beside.sort_unstable();
        beside.dedup();
        let block = &self.blocks[label];
        let spots = beside
            .into_iter()
            .filter_map(|other| spots::paragraph(block, &self.blocks[other], self.chosen[other].as_ref()?));
        let is_free = |spot: &Spot| spot.rooms().all(|room| self.field.is_free(room));
        let spot = spots.flatten().find(is_free);
        if let Some(spot) = spot {
            self.put(label, &spot);
        }
        spot.is_some()
    }

    /// How many tests all this took, and whether the search was ended by that.
    pub fn effort(&self) -> (usize, bool) {
        (self.field.tests.spent(), self.field.gave_up())
    }

    /// Where each label stands; `None` for one without a place.
    pub fn chosen(&self) -> &[Option<Spot>] {
        &self.chosen
    }

    /// The words with which each label stands there.
    pub fn blocks(&self) -> &[Cow<'a, Block>] {
        &self.blocks
    }

    fn most_constrained_first(&self, turn: Turn) -> Vec<usize> {
        let mut all = Vec::new();
        let mut order: Vec<(usize, usize)> = (0..self.wishes.len())
            .filter(|label| !self.settled[*label] && self.chosen[*label].is_none() && self.wishes[*label].turn == turn)
            .map(|label| {
                let near = &self.near[label];
                let free = match self.field.words.is_empty() {
                    true => near.len(),
                    false => {
                        spots::near(&self.blocks[label], &self.wishes[label].home, &mut all);
                        let free = near.iter().filter(|at| self.is_clear(label, &all[usize::from(**at)]));
                        free.count()
                    }
                };
                (free, label)
            })
            .collect();
        order.sort_unstable();
        order.into_iter().map(|(_, label)| label).collect()
    }

    /// Whether a leader may end on a piece of way: it touches no pipe but of these runs and no symbol but of these joints.
    pub fn admits_end(&self, piece: Segment, runs: &[usize], joints: &[usize]) -> bool {
        let is_own = |thing| match thing {
            Thing::Drawn(Owner::Symbol(joint)) => joints.contains(&joint),
            Thing::Drawn(Owner::Pipe(run) | Owner::Passage(run)) => runs.contains(&run),
            Thing::Drawn(Owner::Mark(_) | Owner::Sheet) => false,
            Thing::Drawn(Owner::Plane(_) | Owner::Cloud) => true,
            Thing::Words(_) | Thing::Leader(_) => true,
        };
        self.field.drawn.admits_leader(piece, &self.field.tests, is_own)
    }

    /// Whether a label stays where it is, whatever wants its place.
    fn stays(&self, label: usize) -> bool {
        self.held[label] || self.stays[label]
    }

    /// Remembers where a label stands, where that may have to be so again.
    fn note(&mut self, label: usize) {
        if let Some(stood) = &mut self.stood {
            stood.push((label, self.chosen[label]));
        }
    }

    fn put(&mut self, label: usize, spot: &Spot) {
        self.note(label);
        for room in spot.rooms() {
            self.field.add_words(*room, label);
        }
        if let Some([start, knee, end]) = spot.leader {
            self.field.add_leader(Segment::new(start, knee), label);
            self.field.add_leader(Segment::new(knee, end), label);
        }
        self.chosen[label] = Some(*spot);
    }

    fn take_away(&mut self, label: usize) -> Option<Spot> {
        self.note(label);
        self.field.remove(label);
        self.chosen[label].take()
    }

    /// Puts a label on the best leader that is free.
    fn lead(&mut self, label: usize) -> bool {
        self.looked[label] = Some(self.vacated.len());
        match self.best_led(label, f64::INFINITY) {
            Some(spot) => {
                self.put(label, &spot);
                true
            }
            None => false,
        }
    }
}

/// A place, to be told from others to the last digit; nothing lies at minus nothing.
fn key(place: Point) -> [u64; 2] {
    [place.x + 0.0, place.y + 0.0].map(f64::to_bits)
}

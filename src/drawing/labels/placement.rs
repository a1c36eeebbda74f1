//! Finds a place for every label: a small optimisation that always ends the same way.
//!
//! 1. The most constrained first, each takes the best free place beside its home.
//! 2. What found none may push up to two others to places that are free for them.
//! 3. What still has none goes away from its home on a leader.
//! 4. What found a poor place looks again, now that all are placed.
//!
//! A place is only ever taken when it is free, so the result is clear of overlaps whatever happens.

use super::block::Block;
use super::field::{Field, Thing};
use super::spots::{self, Home, Spot};
use super::wishes::Wish;
use crate::drawing::picture::Owner;
use crate::scene::{Point, Segment};

/// Labels that one label may push aside.
const PUSHED: usize = 2;
/// What it costs a leader to point at pipe where a wall hides it.
const IN_PASSAGE: f64 = 1.5;
/// What it costs a leader to pass over pipe or a plane.
const OVER: f64 = 2.5;

/// Labels being placed.
pub struct Placement<'a> {
    wishes: &'a [Wish],
    blocks: Vec<&'a Block>,
    field: Field,
    chosen: Vec<Option<Spot>>,
}

/// The runs that a leader passes over.
#[derive(Clone, Debug, Default)]
struct Over(Vec<usize>);

impl Over {
    fn cost(&self) -> f64 {
        OVER * self.0.len() as f64
    }
}

impl<'a> Placement<'a> {
    /// Nothing placed yet.
    pub fn new(wishes: &'a [Wish], field: Field) -> Self {
        Self {
            blocks: wishes.iter().map(|wish| &wish.block).collect(),
            chosen: vec![None; wishes.len()],
            wishes,
            field,
        }
    }

    /// Places all labels.
    pub fn run(&mut self) {
        let order = self.most_constrained_first();
        let mut waiting: Vec<usize> = Vec::new();
        for label in order {
            match self.best_near(label) {
                Some(spot) => self.put(label, spot),
                None => waiting.push(label),
            }
        }
        waiting.retain(|label| !self.push_in(*label));
        waiting.retain(|label| !self.lead(*label));
        waiting.retain(|label| !self.push_in(*label));
        for _ in 0..2 {
            self.look_again();
        }
        for label in waiting {
            if !self.push_in(label) {
                self.lead(label);
            }
        }
    }

    /// Tries to place a label with other words, beside its home or on a leader.
    pub fn place_instead(&mut self, label: usize, block: &'a Block) -> bool {
        self.blocks[label] = block;
        if let Some(spot) = self.best_near(label) {
            self.put(label, spot);
            return true;
        }
        self.lead(label)
    }

    /// Where each label stands; `None` for one without a place.
    pub fn chosen(&self) -> &[Option<Spot>] {
        &self.chosen
    }

    fn most_constrained_first(&self) -> Vec<usize> {
        let mut spots = Vec::new();
        let mut order: Vec<(usize, usize)> = (0..self.wishes.len())
            .map(|label| {
                spots::near(self.blocks[label], &self.wishes[label].home, &mut spots);
                let free = spots.iter().filter(|spot| self.field.is_free(&spot.room)).count();
                (free, label)
            })
            .collect();
        order.sort_unstable();
        order.into_iter().map(|(_, label)| label).collect()
    }

    fn best_near(&self, label: usize) -> Option<Spot> {
        let mut spots = Vec::new();
        spots::near(self.blocks[label], &self.wishes[label].home, &mut spots);
        let mut best: Option<Spot> = None;
        for spot in spots {
            if best.is_none_or(|best| spot.cost < best.cost) && self.field.is_free(&spot.room) {
                best = Some(spot);
            }
        }
        best
    }

    fn put(&mut self, label: usize, spot: Spot) {
        self.field.add_words(spot.room, label);
        if let Some([start, knee, end]) = spot.leader {
            self.field.add_leader(Segment::new(start, knee), label);
            self.field.add_leader(Segment::new(knee, end), label);
        }
        self.chosen[label] = Some(spot);
    }

    fn take_away(&mut self, label: usize) -> Option<Spot> {
        self.field.remove(label);
        self.chosen[label].take()
    }

    /// Puts a label on the best leader that is free.
    fn lead(&mut self, label: usize) -> bool {
        match self.best_led(label) {
            Some(spot) => {
                self.put(label, spot);
                true
            }
            None => false,
        }
    }

    /// The best free place on a leader. Each way out is walked outward until something stops it.
    fn best_led(&self, label: usize) -> Option<Spot> {
        let (wish, block) = (&self.wishes[label], self.blocks[label]);
        let mut best: Option<Spot> = None;
        for (number, start) in spots::starts(&wish.home).into_iter().enumerate() {
            let Some(hidden) = self.points_plainly(wish, start) else {
                continue;
            };
            for out in spots::ways_out(&wish.home, number, start) {
                let mut over = Over::default();
                let mut from = out.start;
                for (reach, dear) in spots::reaches() {
                    let cost = out.cost + hidden + dear;
                    let is_worse = |cost: f64| best.is_some_and(|best| cost >= best.cost);
                    if is_worse(cost) || self.field.is_exhausted() {
                        break;
                    }
                    let knee = out.start + out.way * reach;
                    if !self.passes(wish, Segment::new(from, knee), &mut over) {
                        break;
                    }
                    from = knee;
                    let spot = spots::beyond(block, &out, reach, cost + over.cost());
                    let Some([_, knee, end]) = spot.leader else { continue };
                    let mut stub = over.clone();
                    if !is_worse(spot.cost)
                        && self.field.is_free(&spot.room)
                        && self.passes(wish, Segment::new(knee, end), &mut stub)
                    {
                        best = Some(Spot {
                            cost: cost + stub.cost(),
                            ..spot
                        });
                    }
                }
            }
        }
        best
    }

    /// What it costs a leader to point at a place; `None` where it would not be plain which pipe it means.
    fn points_plainly(&self, wish: &Wish, start: Point) -> Option<f64> {
        if matches!(wish.home, Home::Around { .. }) {
            return Some(0.0);
        }
        let mut cost = 0.0;
        let is_plain = self
            .field
            .admits_leader(Segment::new(start, start), |thing| match thing {
                Thing::Drawn(Owner::Pipe(run)) => wish.runs.contains(&run),
                Thing::Drawn(Owner::Passage(run)) => {
                    cost = IN_PASSAGE;
                    wish.runs.contains(&run)
                }
                Thing::Drawn(Owner::Plane(_)) => true,
                Thing::Drawn(Owner::Symbol(_) | Owner::Mark(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => {
                    false
                }
            });
        is_plain.then_some(cost)
    }

    /// Whether a piece of a leader is free of symbols, words and other leaders; notes the pipe that it passes over.
    fn passes(&self, wish: &Wish, piece: Segment, over: &mut Over) -> bool {
        if piece.length() < 0.01 {
            return true;
        }
        self.field.admits_leader(piece, |thing| match thing {
            Thing::Drawn(Owner::Pipe(run) | Owner::Mark(run) | Owner::Plane(run) | Owner::Passage(run)) => {
                if !wish.runs.contains(&run) && !over.0.contains(&run) {
                    over.0.push(run);
                }
                true
            }
            Thing::Drawn(Owner::Symbol(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => false,
        })
    }

    /// Puts a label beside its home by pushing up to two others to other free places.
    fn push_in(&mut self, label: usize) -> bool {
        let mut spots = Vec::new();
        spots::near(self.blocks[label], &self.wishes[label].home, &mut spots);
        spots.into_iter().any(|spot| self.push_to(label, spot))
    }

    fn push_to(&mut self, label: usize, spot: Spot) -> bool {
        if self.field.is_exhausted() {
            return false;
        }
        let mut pushed: Vec<usize> = Vec::new();
        let is_possible = self.field.admits_words(&spot.room, |thing| match thing {
            Thing::Words(other) | Thing::Leader(other) => {
                if !pushed.contains(&other) {
                    pushed.push(other);
                }
                pushed.len() <= PUSHED
            }
            Thing::Drawn(_) => false,
        });
        if !is_possible {
            return false;
        }
        let before: Vec<(usize, Option<Spot>)> = pushed.iter().map(|other| (*other, self.take_away(*other))).collect();
        self.put(label, spot);
        let all_found = pushed
            .iter()
            .all(|other| match self.best_near(*other).or_else(|| self.best_led(*other)) {
                Some(spot) => {
                    self.put(*other, spot);
                    true
                }
                None => false,
            });
        if !all_found {
            self.take_away(label);
            for (other, spot) in before {
                self.take_away(other);
                if let Some(spot) = spot {
                    self.put(other, spot);
                }
            }
        }
        all_found
    }

    /// Lets each label that stands poorly look for something better.
    fn look_again(&mut self) {
        for label in 0..self.wishes.len() {
            let Some(spot) = self.chosen[label].filter(|spot| spot.cost > 0.2) else {
                continue;
            };
            if self.field.is_exhausted() {
                return;
            }
            self.take_away(label);
            let mut better = self.best_near(label);
            if better.is_none() && spot.leader.is_some() {
                better = self.best_led(label);
            }
            self.put(label, better.filter(|better| better.cost < spot.cost).unwrap_or(spot));
        }
    }
}

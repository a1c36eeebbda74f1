//! Finds a place for every label: a small optimisation that always ends the same way.
//!
//! 1. The most constrained first, each takes the best free place beside its home.
//! 2. What found none may push up to two others to places that are free for them.
//! 3. What still has none goes away from its home on a leader.
//! 4. What found a poor place looks again, now that all are placed.
//!
//! A place is only ever taken when it is free, so the result is clear of overlaps whatever happens.
// A spot carries the shapes of its words by value: it is copied where it is chosen, not in the search.
#![allow(clippy::large_enum_variant, clippy::large_types_passed_by_value)]

use super::field::{Field, Thing};
use super::spots::{self, Home, Spot, WayOut};
use super::wishes::{Turn, Wish};
use crate::drawing::block::Block;
use crate::drawing::picture::Owner;
use crate::scene::{Point, Quad, Rect, Segment};

/// Labels that one label may push aside.
const PUSHED: usize = 2;
/// From its beginning the line of a level may lie on pipe, mm.
const ON_PIPE: f64 = 3.0;
/// What it costs a leader to point at pipe where a wall hides it.
const IN_PASSAGE: f64 = 1.5;
/// What it costs a leader to pass over a plane.
const OVER: f64 = 2.5;

/// Labels being placed.
pub struct Placement<'a> {
    wishes: &'a [Wish],
    blocks: Vec<&'a Block>,
    field: Field,
    chosen: Vec<Option<Spot>>,
    /// Labels that stand with others.
    settled: Vec<bool>,
    /// Boxes around what labels have left, in the order in which they left it.
    vacated: Vec<Rect>,
    /// For each label how much was vacated when it last looked for the best place; `None` for one that has not.
    looked: Vec<Option<usize>>,
    /// Labels that come before all others.
    favored: Vec<bool>,
}

/// No leader can begin where one would.
struct NoStart;

/// The runs whose planes a leader passes over.
#[derive(Clone, Debug, Default)]
struct Over(Vec<usize>);

impl Over {
    fn cost(&self) -> f64 {
        OVER * self.0.len() as f64
    }
}

/// Whether a leader begins on the joint itself.
fn is_bare(wish: &Wish) -> bool {
    matches!(wish.home, Home::Around { is_bare: true, .. } | Home::Level { .. })
}

impl<'a> Placement<'a> {
    /// Nothing placed yet.
    pub fn new(wishes: &'a [Wish], field: Field) -> Self {
        Self {
            blocks: wishes.iter().map(|wish| &wish.block).collect(),
            chosen: vec![None; wishes.len()],
            settled: vec![false; wishes.len()],
            vacated: Vec::new(),
            looked: vec![None; wishes.len()],
            favored: vec![false; wishes.len()],
            wishes,
            field,
        }
    }

    /// Puts a label where a person wants it; it stays there whatever lies there.
    pub fn hold(&mut self, label: usize, spot: &Spot) {
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
        self.field.add_drawn(Quad(room.corners()), Owner::Sheet);
    }

    /// Lets these labels come before all others.
    pub fn favor(&mut self, labels: &[usize]) {
        for label in labels {
            self.favored[*label] = true;
        }
    }

    /// Places all labels that are not held.
    pub fn run(&mut self) {
        self.take_turn(Turn::First);
        self.take_turn(Turn::Last);
    }

    fn take_turn(&mut self, turn: Turn) {
        let order = self.most_constrained_first(turn);
        if order.is_empty() {
            return;
        }
        let mut waiting: Vec<usize> = Vec::new();
        for label in order {
            match self.best_near(label) {
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
    pub fn place_instead(&mut self, label: usize, block: &'a Block) -> bool {
        self.blocks[label] = block;
        if let Some(spot) = self.best_near(label) {
            self.put(label, &spot);
            return true;
        }
        self.lead(label)
    }

    /// Puts a label right below or above other words of its own place, as one paragraph with them; an elevation with words
    /// of any place on its level.
    pub fn join(&mut self, label: usize) -> bool {
        let places: Vec<Point> = match &self.wishes[label].home {
            Home::Around { place, .. } => vec![*place],
            Home::Level { places } => places.iter().map(|place| place.at).collect(),
            Home::Along { .. } => return false,
        };
        let is_here = |wish: &Wish| matches!(&wish.home, Home::Around { place, .. } if places.contains(place));
        let block = self.blocks[label];
        let beside = (0..self.wishes.len()).filter(|other| is_here(&self.wishes[*other]));
        let spots =
            beside.filter_map(|other| spots::paragraph(block, self.blocks[other], self.chosen[other].as_ref()?));
        let spot = spots.flatten().find(|spot| self.is_clear(spot));
        if let Some(spot) = spot {
            self.put(label, &spot);
        }
        spot.is_some()
    }

    /// How many tests all this took.
    pub fn effort(&self) -> usize {
        self.field.effort()
    }

    /// Where each label stands; `None` for one without a place.
    pub fn chosen(&self) -> &[Option<Spot>] {
        &self.chosen
    }

    fn most_constrained_first(&self, turn: Turn) -> Vec<usize> {
        let mut spots = Vec::new();
        let mut order: Vec<(bool, usize, usize)> = (0..self.wishes.len())
            .filter(|label| !self.settled[*label] && self.chosen[*label].is_none() && self.wishes[*label].turn == turn)
            .map(|label| {
                spots::near(self.blocks[label], &self.wishes[label].home, &mut spots);
                let free = spots
                    .iter()
                    .filter(|spot| self.is_clear_near(&self.wishes[label], spot))
                    .count();
                (!self.favored[label], free, label)
            })
            .collect();
        order.sort_unstable();
        order.into_iter().map(|(.., label)| label).collect()
    }

    fn best_near(&self, label: usize) -> Option<Spot> {
        let mut spots = Vec::new();
        spots::near(self.blocks[label], &self.wishes[label].home, &mut spots);
        let mut best: Option<Spot> = None;
        for spot in spots {
            if best.is_none_or(|best| spot.cost < best.cost) && self.is_clear_near(&self.wishes[label], &spot) {
                best = Some(spot);
            }
        }
        best
    }

    /// Whether words would lie on the paper there and touch nothing at all.
    fn is_clear(&self, spot: &Spot) -> bool {
        spot.rooms().all(|room| self.field.is_free(room))
    }

    /// The same of a place beside its home, with the line of a level.
    fn is_clear_near(&self, wish: &Wish, spot: &Spot) -> bool {
        self.is_clear(spot) && self.is_level_line_clear(wish, spot)
    }

    /// Whether the line of a level touches no pipe but that on which it begins.
    fn is_level_line_clear(&self, wish: &Wish, spot: &Spot) -> bool {
        let Some([start, _, end]) = spot.leader.filter(|_| matches!(wish.home, Home::Level { .. })) else {
            return true;
        };
        let line = Segment::new(start, end);
        let leaves = line.at((ON_PIPE / line.length()).min(1.0));
        let mut begins_on = |thing| match thing {
            Thing::Drawn(Owner::Pipe(_) | Owner::Plane(_) | Owner::Cloud) => true,
            Thing::Drawn(Owner::Symbol(joint)) => wish.ticks_at.iter().any(|(its, at)| *its == joint && *at == start),
            Thing::Drawn(Owner::Mark(_) | Owner::Passage(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => {
                false
            }
        };
        let is_white = |thing| matches!(thing, Thing::Drawn(Owner::Plane(_) | Owner::Cloud));
        self.field.admits_leader(Segment::new(start, leaves), &mut begins_on)
            && self.field.admits_leader(Segment::new(leaves, end), is_white)
    }

    fn put(&mut self, label: usize, spot: &Spot) {
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
        self.field.remove(label);
        self.chosen[label].take()
    }

    /// Whether something was vacated within reach of a label since it last looked for the best place.
    fn may_gain(&self, label: usize) -> bool {
        let Some(since) = self.looked[label] else { return true };
        let reach = spots::reach(self.blocks[label], &self.wishes[label].home);
        self.vacated[since..].iter().any(|left| left.overlaps(reach))
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

    /// The best free place on a leader that costs less than `limit`: from the pipe itself, or else from between the
    /// symbols that hide it.
    fn best_led(&self, label: usize, limit: f64) -> Option<Spot> {
        let (wish, block) = (&self.wishes[label], self.blocks[label]);
        let mut best: Option<Spot> = None;
        for (number, start) in spots::starts(&wish.home).into_iter().enumerate() {
            let mut plain = None;
            for out in spots::ways_out(&wish.home, number, start) {
                let limit = best.map_or(limit, |best| best.cost);
                let mut hidden = || *plain.get_or_insert_with(|| self.points_plainly(wish, start));
                match self.best_on_way(wish, block, &out, limit, &mut hidden) {
                    Ok(found) => best = found.or(best),
                    Err(NoStart) => break,
                }
            }
        }
        if best.is_some() {
            return best;
        }
        for out in spots::ways_between(&wish.home) {
            let limit = best.map_or(limit, |best| best.cost);
            if let Ok(Some(spot)) = self.best_on_way(wish, block, &out, limit, &mut || Some(0.0)) {
                best = Some(spot);
            }
        }
        best
    }

    /// The best place that one way out leads to. Most places are taken: those are passed by before anything else is
    /// looked at, and the leader is followed only as far as there is a place to lead to.
    fn best_on_way(
        &self,
        wish: &Wish,
        block: &Block,
        out: &WayOut,
        limit: f64,
        hidden: &mut dyn FnMut() -> Option<f64>,
    ) -> Result<Option<Spot>, NoStart> {
        let mut best: Option<Spot> = None;
        let mut over = Over::default();
        let mut walked = out.start;
        let mut before = 0.0;
        for (reach, dear) in spots::reaches() {
            let limit = best.map_or(limit, |best| best.cost);
            if out.cost + dear >= limit || self.field.is_exhausted() {
                break;
            }
            if self
                .field
                .is_surely_barred(out.start + out.way * before, out.way, reach - before)
            {
                break;
            }
            before = reach;
            let spot = spots::beyond(block, out, reach, out.cost + dear);
            let Some([_, knee, end]) = spot.leader else { continue };
            if self.field.is_surely_taken(spot.room.bounds()) {
                continue;
            }
            let Some(hidden) = hidden() else { return Err(NoStart) };
            if !self.passes(wish, Segment::new(walked, knee), &mut over) {
                break;
            }
            walked = knee;
            let cost = spot.cost + hidden;
            let mut stub = over.clone();
            if cost + over.cost() < limit
                && self.is_clear(&spot)
                && self.passes(wish, Segment::new(knee, end), &mut stub)
            {
                best = Some(Spot {
                    cost: cost + stub.cost(),
                    ..spot
                });
            }
        }
        Ok(best)
    }

    /// What it costs a leader to point at a place; `None` where it would not be plain which pipe it means.
    fn points_plainly(&self, wish: &Wish, start: Point) -> Option<f64> {
        if !matches!(wish.home, Home::Along { .. }) {
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
                Thing::Drawn(Owner::Plane(_) | Owner::Cloud) => true,
                Thing::Drawn(Owner::Symbol(_) | Owner::Mark(_) | Owner::Sheet) | Thing::Words(_) | Thing::Leader(_) => {
                    false
                }
            });
        is_plain.then_some(cost)
    }

    /// Whether a piece of a leader is free of foreign pipe, symbols, words and other leaders; notes the planes that it
    /// passes over.
    fn passes(&self, wish: &Wish, piece: Segment, over: &mut Over) -> bool {
        if piece.length() < 0.01 {
            return true;
        }
        self.field.admits_leader(piece, |thing| match thing {
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

    /// Puts a label beside its home by pushing up to two others to other free places.
    fn push_in(&mut self, label: usize) -> bool {
        let mut spots = Vec::new();
        spots::near(self.blocks[label], &self.wishes[label].home, &mut spots);
        spots.iter().any(|spot| self.push_to(label, spot))
    }

    fn push_to(&mut self, label: usize, spot: &Spot) -> bool {
        if self.field.is_exhausted() {
            return false;
        }
        let mut pushed: Vec<usize> = Vec::new();
        let is_possible = spot.rooms().all(|room| {
            self.field.admits_words(room, |other| {
                if !pushed.contains(&other) {
                    pushed.push(other);
                }
                pushed.len() <= PUSHED && self.wishes[other].words_at.is_none()
            })
        });
        if !is_possible || !self.is_level_line_clear(&self.wishes[label], spot) {
            return false;
        }
        let before: Vec<(usize, Option<Spot>)> = pushed.iter().map(|other| (*other, self.take_away(*other))).collect();
        self.put(label, spot);
        let all_found =
            pushed.iter().all(
                |other| match self.best_near(*other).or_else(|| self.best_led(*other, f64::INFINITY)) {
                    Some(spot) => {
                        self.put(*other, &spot);
                        true
                    }
                    None => false,
                },
            );
        if all_found {
            self.looked[label] = None;
            self.vacated
                .extend(before.iter().filter_map(|(_, spot)| Some(spot.as_ref()?.bounds())));
        } else {
            self.take_away(label);
            for (other, spot) in before {
                self.take_away(other);
                if let Some(spot) = spot {
                    self.put(other, &spot);
                }
            }
        }
        all_found
    }

    /// Lets each label that stands poorly look for something better.
    fn look_again(&mut self) {
        for label in 0..self.wishes.len() {
            // A label that a person put somewhere costs nothing, so that it stays.
            let Some(spot) = self.chosen[label].filter(|spot| spot.cost > 0.2) else {
                continue;
            };
            if self.field.is_exhausted() {
                return;
            }
            if !self.may_gain(label) {
                continue;
            }
            self.looked[label] = Some(self.vacated.len());
            self.take_away(label);
            let mut better = self.best_near(label);
            if better.is_none() && spot.leader.is_some() {
                better = self.best_led(label, spot.cost);
            }
            let better = better.filter(|better| better.cost < spot.cost);
            if better.is_some() {
                self.vacated.push(spot.bounds());
            }
            self.put(label, &better.unwrap_or(spot));
        }
    }
}

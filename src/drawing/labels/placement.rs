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

use super::choices::{self, Ground, Instead, Led, Way};
use super::field::Field;
use super::layer::{Tests, Thing};
use super::several;
use super::spots::{self, Home, Spot};
use super::wishes::{Turn, Wish};
use crate::drawing::block::Block;
use crate::drawing::picture::Owner;
use crate::drawing::tags::Subject;
use crate::scene::{Point, Quad, Rect, Segment};
use std::borrow::Cow;
use std::cell::OnceCell;
use std::collections::HashMap;

/// Labels that one label may push aside.
const PUSHED: usize = 2;
/// What it costs words to stand nearer to foreign pipe than to their own: more than most leaders.
const NEAR_STRANGER: f64 = 4.5;
/// What it costs words to stand so near to others that both are read as one.
const AS_ONE: f64 = 1.5;
/// So much nearer than to their own pipe is foreign pipe to words that are read on it, mm.
const NEARER: f64 = 0.4;
/// Words nearer to one another than this are read as one, mm beside what all words keep.
const ONE: f64 = 0.9;
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
    /// Labels that come before all others.
    favored: Vec<bool>,
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
            favored: vec![false; wishes.len()],
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

    /// Places all labels that are not held, these before all others. What was placed so before is taken away; nothing may
    /// be drawn any more.
    pub fn run(&mut self, first: &[usize]) {
        match self.near.is_empty() {
            true => self.look_around(),
            false => self.begin_anew(),
        }
        for label in first {
            self.favored[*label] = true;
        }
        self.take_turn(Turn::First);
        self.take_turn(Turn::Last);
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

    fn begin_anew(&mut self) {
        for label in 0..self.wishes.len() {
            if !self.held[label] {
                self.take_away(label);
            }
            self.blocks[label] = Cow::Borrowed(&self.wishes[label].block);
        }
        self.vacated.clear();
        self.looked.fill(None);
        self.favored.fill(false);
        self.field.grant();
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
            let look = || self.ground().led(wish, block, &self.field.tests);
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
        let mut order: Vec<(bool, usize, usize)> = (0..self.wishes.len())
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
                (!self.favored[label], free, label)
            })
            .collect();
        order.sort_unstable();
        order.into_iter().map(|(.., label)| label).collect()
    }

    fn best_near(&self, label: usize) -> Option<Spot> {
        if self.near[label].is_empty() {
            return None;
        }
        let mut all = Vec::new();
        spots::near(&self.blocks[label], &self.wishes[label].home, &mut all);
        self.best_of(label, &all, &self.near[label])
    }

    /// The best of some places that touch nothing drawn where no words are in the way.
    fn best_of(&self, label: usize, all: &[Spot], near: &[u16]) -> Option<Spot> {
        let mut best: Option<Spot> = None;
        for spot in near.iter().map(|at| &all[usize::from(*at)]) {
            if best.is_none_or(|best| spot.cost < best.cost) && self.is_clear(label, spot) {
                let cost = spot.cost + self.strange(label, spot);
                if best.is_none_or(|best| cost < best.cost) {
                    best = Some(Spot { cost, ..*spot });
                }
            }
        }
        best
    }

    /// Whether a leader may be better than a poor place: not for the number of a section, which is read on its pipe.
    fn may_be_led(&self, label: usize) -> bool {
        !matches!(self.wishes[label].subject, Subject::Section(_))
    }

    /// What a place beside a home costs for being read as a label of something else.
    fn strange(&self, label: usize, spot: &Spot) -> f64 {
        let (wish, tests) = (&self.wishes[label], &self.field.tests);
        let gaps: Vec<f64> = match &wish.home {
            Home::Along { line, .. } => spot.rooms().map(|room| room.gap_to_segment(*line)).collect(),
            Home::Around { rooms, .. } => (rooms.iter())
                .flat_map(|room| spot.rooms().map(|words| words.gap(room)))
                .collect(),
            Home::Level { .. } => Vec::new(),
        };
        let own = gaps.into_iter().reduce(f64::min).unwrap_or(0.0) - NEARER;
        let is_own = |thing| match thing {
            Thing::Drawn(Owner::Pipe(run)) => wish.runs.contains(&run),
            Thing::Drawn(_) | Thing::Words(_) | Thing::Leader(_) => true,
        };
        let is_read_there = own > 0.0
            && spot
                .rooms()
                .any(|room| !self.field.drawn.admits_words(&room.grown(own), tests, is_own));
        let is_silent = |thing| !matches!(thing, Thing::Words(other) if other != label);
        let is_one = spot
            .rooms()
            .any(|room| !self.field.words.admits_words(&room.grown(ONE), tests, is_silent));
        let cost = |is: bool, cost: f64| if is { cost } else { 0.0 };
        cost(is_read_there, NEAR_STRANGER) + cost(is_one, AS_ONE)
    }

    /// Whether no words are in the way of a label beside its home, nor of the line of a level.
    fn is_clear(&self, label: usize, spot: &Spot) -> bool {
        let mut line = choices::level_line(&self.wishes[label], spot).into_iter().flatten();
        spot.rooms().all(|room| self.is_free_of_words(room)) && line.all(|piece| self.is_passable(piece))
    }

    fn is_free_of_words(&self, room: &Quad) -> bool {
        self.field.words.is_free(room, &self.field.tests)
    }

    /// Whether no words and no leader are in the way of a leader.
    fn is_passable(&self, piece: Segment) -> bool {
        self.field.words.admits_leader(piece, &self.field.tests, |_| false)
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
        let reach = spots::reach(&self.blocks[label], &self.wishes[label].home);
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
        let look = || {
            self.ground()
                .led(&self.wishes[label], &self.blocks[label], &self.field.tests)
        };
        self.best_on(label, self.led[label].get_or_init(look), limit)
    }

    fn best_on(&self, label: usize, led: &Led, limit: f64) -> Option<Spot> {
        let block = &*self.blocks[label];
        let mut best: Option<Spot> = None;
        for start in &led.starts {
            let is_plain = |at: Point| self.is_passable(Segment::new(at, at));
            if !start.at.is_none_or(is_plain) {
                continue;
            }
            for way in &start.ways {
                self.best_on_way(block, way, start.cost, limit, &mut best);
            }
        }
        if best.is_none() {
            for way in &led.between {
                self.best_on_way(block, way, 0.0, limit, &mut best);
            }
        }
        best
    }

    /// Looks for a better place along one way out; `more` is what it costs to begin there.
    fn best_on_way(&self, block: &Block, way: &Way, more: f64, limit: f64, best: &mut Option<Spot>) {
        for end in &way.ends {
            let limit = best.map_or(limit, |best| best.cost);
            let (reach, dear) = end.reach;
            let cost = way.out.cost + dear;
            if cost >= limit {
                break;
            }
            if cost + more + end.over >= limit {
                continue;
            }
            let spot = spots::beyond(block, &way.out, reach, cost);
            let mut pieces = spot.leader.into_iter().flat_map(choices::pieces);
            if self.is_free_of_words(&spot.room) && pieces.all(|piece| self.is_passable(piece)) {
                *best = Some(Spot {
                    cost: cost + more + end.over_all,
                    ..spot
                });
            }
        }
    }

    /// Puts a label beside its home by pushing up to two others to other free places.
    fn push_in(&mut self, label: usize) -> bool {
        if self.near[label].is_empty() {
            return false;
        }
        let mut all = Vec::new();
        spots::near(&self.blocks[label], &self.wishes[label].home, &mut all);
        let near = self.near[label].clone();
        near.into_iter().any(|at| self.push_to(label, &all[usize::from(at)]))
    }

    fn push_to(&mut self, label: usize, spot: &Spot) -> bool {
        if self.field.is_exhausted() {
            return false;
        }
        let mut pushed: Vec<usize> = Vec::new();
        let is_possible = spot.rooms().all(|room| {
            self.field.words.admits_words(room, &self.field.tests, |thing| {
                let (Thing::Words(other) | Thing::Leader(other)) = thing else {
                    return false;
                };
                if !pushed.contains(&other) {
                    pushed.push(other);
                }
                pushed.len() <= PUSHED && self.wishes[other].words_at.is_none()
            })
        });
        let mut line = choices::level_line(&self.wishes[label], spot).into_iter().flatten();
        if !is_possible || !line.all(|piece| self.is_passable(piece)) {
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
            if spot.leader.is_some() && better.is_none()
                || spot.leader.is_none() && spot.cost > POOR && self.may_be_led(label)
            {
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

/// A place, to be told from others to the last digit; nothing lies at minus nothing.
fn key(place: Point) -> [u64; 2] {
    [place.x + 0.0, place.y + 0.0].map(f64::to_bits)
}

//! Places for labels that found none: others make room for them, and what matters less gives way to what matters more.

use super::Placement;
use crate::drawing::labels::choices::{self, Led};
use crate::drawing::labels::layer::Thing;
use crate::drawing::labels::spots::{self, Manner, Spot};
use crate::drawing::tags::Subject;

/// Labels that make room for one.
const MOVED: usize = 3;
/// Places of one label for which others are asked to make room.
const TRIED: usize = 24;
/// How many tests all this may take.
const TESTS: usize = 60_000;

impl Placement<'_> {
    /// Looks for places for all labels that have none, what matters most first. What lost its place is looked for in turn;
    /// each time what is lost matters less than what is won, so that it ends.
    pub(super) fn rescue(&mut self) {
        let is_without = |label: &usize| !self.settled[*label] && self.chosen[*label].is_none();
        let mut waiting: Vec<usize> = (0..self.wishes.len()).filter(is_without).collect();
        let most = self.field.tests.spent() + TESTS;
        while let Some(next) = (0..waiting.len()).max_by_key(|at| (self.weight(waiting[*at]), waiting.len() - at)) {
            if self.field.is_exhausted() || self.field.tests.spent() > most {
                return;
            }
            let label = waiting.remove(next);
            waiting.extend(self.make_room(label));
        }
    }

    /// How much a label matters.
    fn weight(&self, label: usize) -> usize {
        let wish = &self.wishes[label];
        match wish.subject {
            _ if wish.is_key => 8,
            Subject::Run(_) | Subject::Passage(_) | Subject::Section(_) => 4,
            Subject::Note(_) | Subject::Level(_) => 3,
            Subject::Joint(_) | Subject::Change(_) | Subject::Sheet => 2,
        }
    }

    /// Puts a label at the best place for which others make room; the labels that lost theirs, and nothing where none was
    /// found.
    fn make_room(&mut self, label: usize) -> Vec<usize> {
        let mut places: Vec<(Spot, Vec<usize>)> = Vec::new();
        for spot in self.all_places(label) {
            if let Some(others) = self.in_way(label, &spot) {
                places.push((spot, others));
            }
        }
        places.sort_by(|a, b| (a.1.len().cmp(&b.1.len())).then(a.0.cost.total_cmp(&b.0.cost)));
        for (spot, others) in places.into_iter().take(TRIED) {
            if let Some(lost) = self.take(label, &spot, others) {
                return lost;
            }
        }
        Vec::new()
    }

    /// All places of a label that touch nothing drawn, with what each costs.
    fn all_places(&self, label: usize) -> Vec<Spot> {
        let (wish, block) = (&self.wishes[label], &*self.blocks[label]);
        let mut all = Vec::new();
        spots::near(block, &wish.home, &mut all);
        let near = self.near[label].iter().map(|at| all[usize::from(*at)]);
        let near = near.map(|spot| Spot {
            cost: spot.cost + self.strange(label, &spot),
            ..spot
        });
        let mut places: Vec<Spot> = near.collect();
        let Led { starts, between } = self.ground().led(wish, block, Manner::Any, &self.field.tests);
        let on_home = starts
            .iter()
            .flat_map(|start| start.ways.iter().map(|way| (way, start.cost)));
        for (way, more) in on_home.chain(between.iter().map(|way| (way, 0.0))) {
            places.extend(self.ends(label, way).iter().map(|end| {
                let (reach, dear) = end.reach;
                spots::beyond(block, &way.out, reach, way.out.cost + dear + more + end.over_all)
            }));
        }
        places
    }

    /// The labels in the way of a label; `None` where those are too many, or one of them stays.
    fn in_way(&self, label: usize, spot: &Spot) -> Option<Vec<usize>> {
        let mut others: Vec<usize> = Vec::new();
        let mut passes = |thing: Thing| {
            let (Thing::Words(other) | Thing::Leader(other)) = thing else {
                return true;
            };
            if other != label && !others.contains(&other) {
                others.push(other);
            }
            others.len() <= MOVED && (other == label || !self.stays(other))
        };
        let (words, tests) = (&self.field.words, &self.field.tests);
        let is_possible = spot.rooms().all(|room| words.admits_words(room, tests, &mut passes))
            && (spot.leader.into_iter().flat_map(choices::pieces))
                .all(|piece| words.admits_leader(piece, tests, &mut passes));
        is_possible.then_some(others)
    }

    /// Puts a label at a place and others elsewhere; those that find no place, or `None`, with all as it was, where they
    /// matter as much as the label itself.
    fn take(&mut self, label: usize, spot: &Spot, mut others: Vec<usize>) -> Option<Vec<usize>> {
        self.stood = Some(Vec::new());
        others.sort_by_key(|other| (std::cmp::Reverse(self.weight(*other)), *other));
        for other in &others {
            self.take_away(*other);
        }
        self.put(label, spot);
        self.stays[label] = true;
        let mut lost = Vec::new();
        for other in others {
            match self.best(other) {
                Some(spot) => self.put(other, &spot),
                None if self.push_in(other) => {}
                None => lost.push(other),
            }
        }
        self.stays[label] = false;
        let mut before = self.stood.take().unwrap_or_default();
        let weight: usize = lost.iter().map(|other| self.weight(*other)).sum();
        if weight < self.weight(label) {
            return Some(lost);
        }
        // Of each only where it stood first.
        before.sort_by_key(|(at, _)| *at);
        before.dedup_by_key(|(at, _)| *at);
        before.retain(|(at, spot)| *spot != self.chosen[*at]);
        for (at, _) in &before {
            self.take_away(*at);
        }
        for (at, spot) in before {
            if let Some(spot) = spot {
                self.put(at, &spot);
            }
        }
        None
    }
}

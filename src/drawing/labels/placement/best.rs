//! The best free place of a label: beside its home, or else at the end of a leader.

use super::{POOR, Placement};
use crate::drawing::block::Block;
use crate::drawing::labels::choices::{self, End, Led, Way};
use crate::drawing::labels::spots::{self, Manner, Spot};
use crate::drawing::tags::Subject;
use crate::scene::{Point, Quad, Segment};

impl Placement<'_> {
    /// The best free place of a label: one at the end of a leader where those beside its home are poor or taken.
    pub(super) fn best(&self, label: usize) -> Option<Spot> {
        match self.best_near(label) {
            Some(spot) if spot.cost > POOR && self.may_be_led(label) => {
                Some(self.best_led(label, spot.cost).unwrap_or(spot))
            }
            Some(spot) => Some(spot),
            None => self.best_led(label, f64::INFINITY),
        }
    }

    pub(super) fn best_near(&self, label: usize) -> Option<Spot> {
        if self.near[label].is_empty() {
            return None;
        }
        let mut all = Vec::new();
        spots::near(&self.blocks[label], &self.wishes[label].home, &mut all);
        self.best_of(label, &all, &self.near[label])
    }

    /// The best of some places that touch nothing drawn where no words are in the way.
    pub(super) fn best_of(&self, label: usize, all: &[Spot], near: &[u16]) -> Option<Spot> {
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
    pub(super) fn may_be_led(&self, label: usize) -> bool {
        !matches!(self.wishes[label].subject, Subject::Section(_))
    }

    /// Whether no words are in the way of a label beside its home, nor of the line of a level.
    pub(super) fn is_clear(&self, label: usize, spot: &Spot) -> bool {
        let mut line = choices::level_line(&self.wishes[label], spot).into_iter().flatten();
        spot.rooms().all(|room| self.is_free_of_words(room)) && line.all(|piece| self.is_passable(piece))
    }

    pub(super) fn is_free_of_words(&self, room: &Quad) -> bool {
        self.field.words.is_free(room, &self.field.tests)
    }

    /// Whether no words and no leader are in the way of a leader.
    pub(super) fn is_passable(&self, piece: Segment) -> bool {
        self.field.words.admits_leader(piece, &self.field.tests, |_| false)
    }

    /// The best free place on a leader that costs less than `limit`: from the pipe itself, or else from between the
    /// symbols that hide it.
    pub(super) fn best_led(&self, label: usize, limit: f64) -> Option<Spot> {
        let look = || {
            self.ground().led(
                &self.wishes[label],
                &self.blocks[label],
                Manner::Plain,
                &self.field.tests,
            )
        };
        self.best_on(label, self.led[label].get_or_init(look), limit)
    }

    pub(super) fn best_on(&self, label: usize, led: &Led, limit: f64) -> Option<Spot> {
        let block = &*self.blocks[label];
        let mut best: Option<Spot> = None;
        for start in &led.starts {
            let is_plain = |at: Point| self.is_passable(Segment::new(at, at));
            if !start.at.is_none_or(is_plain) {
                continue;
            }
            for way in &start.ways {
                self.best_on_way((label, block), way, start.cost, limit, &mut best);
            }
        }
        if best.is_none() {
            for way in &led.between {
                self.best_on_way((label, block), way, 0.0, limit, &mut best);
            }
        }
        best
    }

    /// The places of a label along one way out that touch nothing drawn.
    pub(super) fn ends<'w>(&self, label: usize, way: &'w Way) -> &'w [End] {
        let (wish, block) = (&self.wishes[label], &*self.blocks[label]);
        self.ground().ends(wish, block, way, &self.field.tests)
    }

    /// Looks for a better place along one way out; `more` is what it costs to begin there.
    fn best_on_way(&self, (label, block): (usize, &Block), way: &Way, more: f64, limit: f64, best: &mut Option<Spot>) {
        if spots::least(&way.out) + more >= best.map_or(limit, |best| best.cost) {
            return;
        }
        for end in self.ends(label, way) {
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
                let cost = cost + more + end.over_all + self.runs_together(label, &spot);
                if cost < limit {
                    *best = Some(Spot { cost, ..spot });
                }
            }
        }
    }
}

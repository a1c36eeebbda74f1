//! Labels that make room for another by going to other free places.

use super::Placement;
use crate::drawing::labels::choices;
use crate::drawing::labels::layer::Thing;
use crate::drawing::labels::spots::{self, Spot};

/// Labels that one label may push aside.
const PUSHED: usize = 2;

impl Placement<'_> {
    /// Puts a label beside its home by pushing up to two others to other free places.
    pub(super) fn push_in(&mut self, label: usize) -> bool {
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
                pushed.len() <= PUSHED && !self.stays(other)
            })
        });
        let mut line = choices::level_line(&self.wishes[label], spot).into_iter().flatten();
        if !is_possible || !line.all(|piece| self.is_passable(piece)) {
            return false;
        }
        let before: Vec<(usize, Option<Spot>)> = pushed.iter().map(|other| (*other, self.take_away(*other))).collect();
        self.put(label, spot);
        let all_found = pushed.iter().all(|other| match self.best(*other) {
            Some(spot) => {
                self.put(*other, &spot);
                true
            }
            None => false,
        });
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
}

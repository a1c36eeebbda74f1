//! A second look of labels that stand poorly, now that all are placed.

use super::{POOR, Placement};
use crate::drawing::labels::spots;

impl Placement<'_> {
    /// Whether something was vacated within reach of a label since it last looked for the best place.
    pub(super) fn may_gain(&self, label: usize) -> bool {
        let Some(since) = self.looked[label] else { return true };
        let reach = spots::reach(&self.blocks[label], &self.wishes[label].home);
        self.vacated[since..].iter().any(|left| left.overlaps(reach))
    }

    /// Lets each label that stands poorly look for something better.
    pub(super) fn look_again(&mut self) {
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

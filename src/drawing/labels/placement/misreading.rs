//! How a place could be misread, and what that costs: words that are read on foreign pipe, or as one with other words.

use super::Placement;
use crate::drawing::labels::layer::Thing;
use crate::drawing::labels::spots::{Home, Lay, Spot};
use crate::drawing::picture::Owner;
use crate::scene::{Quad, Rect, Vector};

/// What it costs words to stand nearer to foreign pipe than to their own: more than most leaders.
const NEAR_STRANGER: f64 = 4.5;
/// What it costs words to stand hardly farther from foreign pipe than from their own.
const BETWEEN: f64 = 1.2;
/// What it costs words to stand so near to others that both are read as one.
const AS_ONE: f64 = 1.5;
/// So much farther than their own pipe foreign pipe is no nearer than that to words, and so much farther words are surely
/// not read on it, mm; both beside the clear distance of words.
const NEARER: f64 = -0.4;
const SURELY: f64 = 0.5;
/// Words nearer to one another than this are read as one, mm beside what all words keep: below one another, and after one
/// another on a line.
const BELOW: f64 = 1.5;
const AFTER: f64 = 2.6;

impl Placement<'_> {
    /// What a place beside a home costs for being read as a label of something else.
    pub(super) fn strange(&self, label: usize, spot: &Spot) -> f64 {
        let strangest = spot.rooms().map(|room| self.on_foreign_pipe(label, room));
        strangest.fold(0.0, f64::max) + self.runs_together(label, spot)
    }

    fn on_foreign_pipe(&self, label: usize, room: &Quad) -> f64 {
        let wish = &self.wishes[label];
        let own = match &wish.home {
            Home::Along { line, .. } => room.gap_to_segment(*line),
            Home::Around { rooms, .. } => rooms.iter().map(|drawn| room.gap(drawn)).fold(f64::INFINITY, f64::min),
            Home::Level { .. } => return 0.0,
        };
        let is_own = |thing| match thing {
            Thing::Drawn(Owner::Pipe(run)) => wish.runs.contains(&run),
            Thing::Drawn(_) | Thing::Words(_) | Thing::Leader(_) => true,
        };
        let (drawn, tests) = (&self.field.drawn, &self.field.tests);
        let is_nearer_than = |mm: f64| mm > 0.0 && !drawn.admits_words(&room.grown(mm), tests, is_own);
        if is_nearer_than(own + NEARER) {
            return NEAR_STRANGER;
        }
        let is_between = matches!(wish.home, Home::Along { .. }) && is_nearer_than(own + SURELY);
        if is_between { BETWEEN } else { 0.0 }
    }

    /// What a place costs where words of another home are so near that both are read as one.
    pub(super) fn runs_together(&self, label: usize, spot: &Spot) -> f64 {
        let anchor = self.wishes[label].anchor;
        let is_silent = |thing| match thing {
            Thing::Words(other) => other == label || self.wishes[other].anchor == anchor,
            Thing::Drawn(_) | Thing::Leader(_) => true,
        };
        let is_alone = |room: &Quad| {
            let wide = match spot.lay {
                Lay::Block(..) => Quad(stretched(room.bounds()).corners()),
                Lay::Line(_) | Lay::Pair(_) => room.grown(BELOW),
            };
            self.field.words.admits_words(&wide, &self.field.tests, is_silent)
        };
        if spot.rooms().all(is_alone) { 0.0 } else { AS_ONE }
    }
}

/// With so much more room as keeps upright words apart from others.
fn stretched(room: Rect) -> Rect {
    let by = Vector::new(AFTER, BELOW);
    Rect::new(room.min - by, room.max + by)
}

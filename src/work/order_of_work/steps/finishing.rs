//! What is closed up, painted and tagged once nothing leaks.

use super::making::pierces;
use super::opening::unique;
use super::{Work, step};
use crate::job::{Run, Surroundings};
use crate::study::Place;
use crate::work::{PRACTICE, Step};

impl Work<'_> {
    pub(super) fn seal(&self) -> Option<Step> {
        let places = self.runs_where(pierces);
        if places.is_empty() {
            return None;
        }
        let words = "Seal the gaps around pipe in walls, floors and roofs: at an exterior wall the outside face, with a sleeve both gaps; at a \
         foundation wall both gaps; at a fire-rated wall or floor with a firestop listed for it.";
        step(
            "seal",
            "Seal",
            places,
            self.cited(&["exterior-wall-open", "foundation-open"]),
            words,
        )
    }

    pub(super) fn paint(&self) -> Option<Step> {
        let steel = |run: &Run| run.surroundings == Surroundings::Outdoors && self.job.material(run).rusts();
        let places = self.runs_where(steel);
        if places.is_empty() {
            return None;
        }
        let words = "After no leak is found: paint or coat new outdoor steel against rust, joints and fittings too, and never before, because \
         paint hides leaks. Do not paint hoses, connectors, valve stems, vents or rating plates. Local rules set the color.";
        step("paint", "Paint", places, self.cited(&["exterior-steel-bare"]), words)
    }

    pub(super) fn tag(&self) -> Option<Step> {
        self.new_runs().next()?;
        let source = self.source();
        let at = source.map_or_else(String::new, |joint| format!(" at {}", self.joint_named(joint)));
        let words = format!(
            "Tag the new line{at}: what it serves, its working pressure, test pressure and test time, the date, and who installed it."
        );
        let places = source.map(Place::Joint).into_iter();
        step("tag", "Tag", unique(places), PRACTICE, words)
    }
}

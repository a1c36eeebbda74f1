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
        let words = "Seal the gaps around pipe in walls, floors and roofs: an exterior wall at its outside face, with a sleeve both \
                     gaps; a foundation wall both gaps; where a wall or floor holds back fire, with what is listed for it.";
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
        let words = "Once no leak is found: paint or coat new steel outdoors against rust, joints and fittings too, never before, \
                     for paint hides a leak; no hose or connector, no valve stem, vent or rating plate. The color is the place's \
                     to say.";
        step("paint", "Paint", places, self.cited(&["exterior-steel-bare"]), words)
    }

    pub(super) fn tag(&self) -> Option<Step> {
        self.new_runs().next()?;
        let source = self.source();
        let at = source.map_or_else(String::new, |joint| format!(" at {}", self.joint_named(joint)));
        let words = format!(
            "Tag the new line{at}: what it serves, its working pressure, test pressure and time, the date, and who made it."
        );
        let places = source.map(Place::Joint).into_iter();
        step("tag", "Tag", unique(places), PRACTICE, words)
    }
}

//! What is closed up, painted and tagged once nothing leaks.

use super::making::pierces;
use super::opening::unique;
use super::{Work, step};
use crate::job::{Device, Run, State, Surroundings};
use crate::study::Place;
use crate::work::{PRACTICE, Step};

impl Work<'_> {
    pub(super) fn seal(&self) -> Option<Step> {
        let places = self.runs_where(pierces);
        let gone = self
            .job
            .runs
            .iter()
            .filter(|run| run.state == State::Removed && pierces(run));
        let gone: Vec<Place> = gone.map(|run| Place::Run(run.id)).collect();
        let mut words = Vec::new();
        if !places.is_empty() {
            words.push(
                "Seal the gaps around pipe in walls, floors and roofs: at an exterior wall, the outside face; where there is a sleeve, and at a foundation wall, both between pipe and sleeve and between sleeve and wall; at a fire-rated wall or floor, with a firestop listed for it.",
            );
        }
        if !gone.is_empty() {
            words.push("Close the holes that removed pipe leaves, as the wall or floor was built.");
        }
        if words.is_empty() {
            return None;
        }
        let words = words.join(" ");
        let places = unique(places.into_iter().chain(gone));
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
        // Its own valve; where it has none, the valve that shuts it with the rest.
        let own = self.first_valve().map(|joint| self.job.joints.at(joint).id);
        let source = own.or_else(|| self.source());
        let at = source.map_or_else(String::new, |joint| format!(" at {}", self.joint_named(joint)));
        let words = format!(
            "Tag the new line{at}: what it serves, its working pressure, test pressure and test time, the date, and who installed it."
        );
        let places = source.map(Place::Joint).into_iter();
        step("tag", "Tag", unique(places), PRACTICE, words)
    }

    /// The first new valve in the way of the gas that shuts all outlets of the new pipe.
    fn first_valve(&self) -> Option<usize> {
        let network = &self.study.network;
        let is_valve =
            |joint: usize| self.is_new(joint) && matches!(self.job.joints.at(joint).device(), Some(Device::Valve(_)));
        let fed_by_new =
            |joint: usize| network.feed[joint].is_some_and(|run| self.job.runs.at(run).state == State::New);
        let first = network
            .order
            .iter()
            .copied()
            .find(|&joint| is_valve(joint) && fed_by_new(joint))?;
        let outlets = self.study.outlets.iter().map(|outlet| outlet.joint);
        let mut new = outlets.filter(|&joint| fed_by_new(joint));
        new.all(|joint| network.is_behind(joint, first)).then_some(first)
    }
}

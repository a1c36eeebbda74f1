//! A joint as it is before the work or after it, with what its fittings have in common.

use crate::fittings::{Fitting, FittingKind, Port, PortKind};
use crate::job::{Barrier, Counted, Device, Joining, Joint, Material, State, Surroundings, stock_turn};
use crate::network::{Meeting, Survey, meeting};
use crate::units::NominalSize;

/// When a joint is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum View {
    /// Once the work is done: what is to be removed is gone.
    After,
    /// As it stood: nothing new is there, and old pipe is where new pipe takes its place.
    Before,
}

/// A joint at one time.
pub(super) struct Place<'s> {
    pub(super) survey: &'s Survey<'s>,
    /// For each section its size on the drawing.
    sizes: &'s [Option<NominalSize>],
    pub(super) index: usize,
    pub(super) joint: &'s Joint,
    pub(super) device: Option<&'s Device>,
    /// Size of the device's ends, when it is its own.
    pub(super) own: Option<NominalSize>,
    view: View,
}

/// How the ends of a fitting that is no tubing's are made: what pipe of one kind goes into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Family {
    Threaded,
    Brazed,
    Flared,
    Fused,
}

impl Family {
    pub(super) const fn female(self) -> PortKind {
        match self {
            Family::Threaded => PortKind::FemaleThread,
            Family::Brazed => PortKind::Socket,
            Family::Flared => PortKind::FlareEnd,
            Family::Fused => PortKind::Fusion,
        }
    }

    pub(super) const fn male(self) -> PortKind {
        self.female().mate()
    }
}

impl<'s> Place<'s> {
    pub(super) fn new(survey: &'s Survey<'s>, sizes: &'s [Option<NominalSize>], index: usize, view: View) -> Place<'s> {
        let joint = survey.job.joints.at(index);
        let there = |state: State| match view {
            View::After => state != State::Removed,
            View::Before => state != State::New,
        };
        let placed = joint.placed.as_ref().filter(|placed| there(placed.state));
        Place {
            survey,
            sizes,
            index,
            joint,
            device: placed.map(|placed| &placed.device),
            own: placed.and_then(|placed| placed.size),
            view,
        }
    }

    /// The runs that meet there at that time, the one that feeds it first.
    pub(super) fn legs(&self) -> impl Iterator<Item = usize> + Clone + '_ {
        let network = &self.survey.network;
        let feed = network.feed[self.index];
        let others = network.legs(self.index).filter(move |&run| Some(run) != feed);
        feed.into_iter().chain(others).filter(|&run| self.has(run))
    }

    /// Whether a run is there at that time.
    pub(super) fn has(&self, run: usize) -> bool {
        match (self.view, self.survey.states[run]) {
            (View::After, state) => state != State::Removed,
            (View::Before, State::New) => self.survey.job.runs.at(run).replaced().is_some(),
            (View::Before, State::Existing | State::Removed) => true,
        }
    }

    /// Whether more than two ways meet.
    pub(super) fn is_branching(meeting: &Meeting) -> bool {
        match meeting {
            Meeting::End | Meeting::Line(_) | Meeting::Turn(..) => false,
            Meeting::Tee(_) | Meeting::Corner(_) | Meeting::Cross(_) | Meeting::SideTee(_) | Meeting::Many(_) => true,
        }
    }

    /// Whether a run is part of a flexible connector.
    pub(super) fn is_connector(&self, run: usize) -> bool {
        self.survey.is_hose(run)
    }

    pub(super) fn material(&self, run: usize) -> Material {
        self.survey.materials[run]
    }

    /// Copper K and L are one tube outside: they go into the same fittings.
    pub(super) fn kind(&self, run: usize) -> Joining {
        self.survey.job.settings.copper.joining(self.material(run))
    }

    /// The size on the drawing, or as it stood.
    pub(super) fn size(&self, run: usize) -> Option<NominalSize> {
        let replaced = || self.survey.job.runs.at(run).replaced();
        if let (View::Before, Some(size)) = (self.view, replaced()) {
            return Some(size);
        }
        match self.survey.section_of[run] {
            Some(section) => self.sizes[section],
            None => self.survey.given[run],
        }
    }

    /// The size of a thread that leads to a run; that of corrugated tubing tells none.
    pub(super) fn thread(&self, run: usize) -> Option<NominalSize> {
        self.pipe_thread(self.size(run))
    }

    /// The thread of the end fitting of corrugated tubing, where the person's own list has it.
    pub(super) fn own_thread(&self, size: Option<NominalSize>) -> Option<NominalSize> {
        size.and_then(|tubing| self.survey.book.own_lengths().thread_of_tubing(tubing))
    }

    /// The pipe thread of a size: there is none of sizes in which only tube is made, as 5/8 of copper.
    pub(super) fn pipe_thread(&self, size: Option<NominalSize>) -> Option<NominalSize> {
        size.filter(|size| self.survey.book.pipe(Joining::Threaded.material(), *size).is_some())
    }

    /// The size of the device's ends: its own, else that of the pipe that comes to it, else of other pipe. What stands has
    /// the size of the pipe that it was put into, whatever new pipe comes in the place of that.
    pub(super) fn device_size(&self) -> Option<NominalSize> {
        let placed = self.joint.placed.as_ref();
        let stands = placed
            .is_some_and(|placed| placed.state == State::Existing && placed.device.nature().counted == Counted::Alone);
        if self.view == View::After && stands {
            let before = Place::new(self.survey, self.sizes, self.index, View::Before);
            if let Some(size) = before.device_size() {
                return Some(size);
            }
        }
        let pipe = || self.legs().filter(|&run| !self.is_connector(run));
        self.pipe_thread(self.own)
            .or_else(|| pipe().find_map(|run| self.thread(run)))
            .or_else(|| pipe().find_map(|run| self.own_thread(self.size(run))))
    }

    /// The family of a fitting in which runs meet: that of most of them, else threaded, since any pipe is led to a thread.
    pub(super) fn family(&self, runs: &[usize]) -> Family {
        let most = |kind: Joining| 2 * runs.iter().filter(|&&run| self.kind(run) == kind).count() > runs.len();
        let families = [
            (Joining::Brazed, Family::Brazed),
            (Joining::Flared, Family::Flared),
            (Joining::Fused, Family::Fused),
        ];
        let own = families.into_iter().find(|&(kind, _)| most(kind));
        own.map_or(Family::Threaded, |(_, family)| family)
    }

    /// The material of a fitting of a family among these runs.
    pub(super) fn material_of(&self, family: Family, runs: &[usize]) -> Material {
        let mut materials = runs.iter().map(|&run| self.material(run));
        match family {
            Family::Threaded => Joining::Threaded.material(),
            Family::Brazed | Family::Flared => materials
                .find(|material| material.is_copper())
                .unwrap_or(Joining::Brazed.material()),
            Family::Fused => Joining::Fused.material(),
        }
    }

    /// A fitting; its sizes are empty when any is not known.
    pub(super) fn fitting(
        &self,
        kind: FittingKind,
        sizes: impl IntoIterator<Item = Option<NominalSize>>,
        material: Material,
        ports: Vec<Port>,
        first: usize,
    ) -> Fitting {
        let sizes: Option<Vec<NominalSize>> = sizes.into_iter().collect();
        let mut sizes = sizes.unwrap_or_default();
        if kind.goes_by_larger_end() {
            sizes.sort_unstable_by(|one, other| other.cmp(one));
        }
        let feed = self.survey.network.feed[self.index];
        Fitting {
            joint: self.index,
            kind,
            sizes,
            material,
            state: State::New,
            section: feed.or(Some(first)).and_then(|run| self.survey.section_of[run]),
            ports,
        }
    }

    /// The run that stands below a riser, where a turn at its foot is the riser's own bend: risers come bent and with a tail
    /// of plastic pipe (common practice, no source).
    pub(super) fn bend_of_riser(&self, [a, b]: [usize; 2], degrees: f64) -> Option<usize> {
        let alike = self.kind(a) == Joining::Fused && self.kind(b) == Joining::Fused && self.size(a) == self.size(b);
        if !alike || self.device.is_some() || stock_turn(degrees) != Some(90.0) {
            return None;
        }
        [a, b].into_iter().find(|&run| {
            let way = meeting::direction(self.survey, self.index, run);
            let (east, north) = (way.east, way.north);
            let Some((from, to)) = self.survey.network.joints_of[run] else {
                return false;
            };
            let far = if from == self.index { to } else { from };
            let top = Place::new(self.survey, self.sizes, far, self.view);
            let leads_on = top.device.is_some() || top.legs().any(|other| top.kind(other) != Joining::Fused);
            way.up > 0 && east == 0 && north == 0 && leads_on && top.is_above_grade(run)
        })
    }

    /// Whether polyethylene comes up to this joint above grade, where only a riser may lead on: what meets it there is
    /// neither below ground nor goes into it, and the pipe rises out of the ground or what meets it lies outdoors.
    pub(super) fn is_above_grade(&self, plastic: usize) -> bool {
        let runs = &self.survey.job.runs;
        let lies = |run: usize| runs.at(run).surroundings;
        let pierces = |run: usize| {
            let mut passages = runs.at(run).penetrations.iter();
            passages.any(|passage| passage.barrier == Barrier::Ground)
        };
        let others = || self.legs().filter(|&run| self.kind(run) != Joining::Fused);
        let in_soil = others().any(|run| lies(run) == Surroundings::Underground || pierces(run));
        let rises = pierces(plastic) || meeting::direction(self.survey, self.index, plastic).up < 0;
        let outdoors = others().any(|run| lies(run) == Surroundings::Outdoors);
        !in_soil && (rises || outdoors || lies(plastic) != Surroundings::Underground)
    }
}

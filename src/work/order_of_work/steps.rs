//! The steps in turn, each only where the job has what it speaks of.

mod closing;
mod finishing;
mod gas;
mod lighting;
mod making;
mod opening;
mod outside;
mod tie_in;

pub use making::how_copper_is_joined;

use super::isolation::Shut;
use crate::codebook::{Codebook, Profile};
use crate::job::{Device, Job, Joint, JointId, Material, Run, State};
use crate::network::Outlet;
use crate::study::{Place, Study};
use crate::units::{Length, NominalSize, Show};
use crate::work::{Fate, GoesOut, PRACTICE, Step};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// All steps of a job, in turn: the order in which nobody is hurt.
pub(super) fn all(job: &Job, study: &Study, book: &Codebook, shut: &Shut) -> Vec<Step> {
    let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
    let work = Work {
        job,
        study,
        book,
        profile,
        shut,
    };
    if !work.is_any() {
        return Vec::new();
    }
    let open = [
        work.tell(),
        work.shut_off(),
        work.prove(),
        work.take_out(),
        work.cut_in_rigid(),
        work.put_in(),
    ];
    let make = [
        // Holes are made before there is pipe to push through them.
        work.penetrate(),
        work.run(),
        // Tubing with its fittings on does not go through a bored hole.
        work.make_up(),
        work.bury(),
        work.bond(),
        work.fit_outside(),
        work.connect(),
        work.test(),
        work.inspect(),
    ];
    // A house is not left without gas from the first cut to the inspection where its pipe can stay whole until then.
    let (first, then) = match work.shuts_late() {
        true => (make.to_vec(), open.to_vec()),
        false => (open.to_vec(), make.to_vec()),
    };
    let close = [
        // Tubing that stands stays whole until what joins it has passed its test.
        work.cut_in_tubing(),
        work.join(),
        work.supplier(),
        // A regulator is set by the gas that comes to it, and no gas comes before every end has been looked at.
        work.close_off(),
        work.turn_on(),
        work.set_regulators(),
        work.leak_check(),
        work.propane(),
        work.purge(),
        work.relight(),
        work.first_light(),
        work.pressures(),
        work.seal(),
        // Paint would seal a weeping joint for a while: it waits for the search at working pressure.
        work.paint(),
        work.tag(),
        work.owner(),
    ];
    first.into_iter().chain(then).chain(close).flatten().collect()
}

struct Work<'a> {
    job: &'a Job,
    study: &'a Study,
    book: &'a Codebook,
    profile: &'a Profile,
    shut: &'a Shut,
}

fn step(
    id: &'static str,
    heading: &'static str,
    places: Vec<Place>,
    note: impl Into<Cow<'static, str>>,
    words: impl Into<String>,
) -> Option<Step> {
    let made = words.into();
    Some(Step {
        id,
        heading,
        words: made.clone(),
        made,
        places,
        note: note.into(),
        after: Vec::new(),
        left_out: false,
    })
}

impl<'a> Work<'a> {
    fn is_any(&self) -> bool {
        let runs = self.job.runs.iter().any(|run| run.state != State::Existing);
        let mut placed = self.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
        runs || placed.any(|placed| match &placed.device {
            Device::Supply(supply) => !supply.changes().is_empty(),
            _ => placed.state != State::Existing,
        })
    }

    /// Whether gas is shut off once the new pipe is there, tested and inspected. Not where new pipe comes into the place of
    /// pipe or of an appliance that goes: that must be out first.
    fn shuts_late(&self) -> bool {
        let network = &self.study.network;
        let is_of = |run: usize, state: State| self.job.runs.at(run).state == state;
        let makes_room = |joint: usize| {
            let device = self.job.joints.at(joint).placed.as_ref();
            let goes = device.is_some_and(|placed| placed.state == State::Removed)
                || network.legs(joint).any(|run| is_of(run, State::Removed));
            goes && network.legs(joint).any(|run| is_of(run, State::New))
        };
        self.new_runs().next().is_some()
            && self.new_runs().all(|run| run.replaced().is_none())
            && !(0..self.job.joints.len()).any(makes_room)
    }

    /// Runs of new pipe; a hose is none.
    fn new_runs(&self) -> impl Iterator<Item = &'a Run> {
        let runs = self.job.runs.iter().zip(&self.study.runs);
        let pipe = runs.filter(|(run, study)| run.state == State::New && !study.is_hose);
        pipe.map(|(run, _)| run)
    }

    /// What is new on joints, in the order of the job.
    fn new_devices(&self) -> impl Iterator<Item = (usize, &'a Device)> {
        let placed = |(at, joint): (usize, &'a Joint)| Some((at, joint.placed.as_ref()?));
        let new = self.job.joints.iter().enumerate().filter_map(placed);
        new.filter(|(_, placed)| placed.state == State::New)
            .map(|(at, placed)| (at, &placed.device))
    }

    fn runs_where(&self, keep: impl Fn(&Run) -> bool) -> Vec<Place> {
        self.new_runs()
            .filter(|run| keep(run))
            .map(|run| Place::Run(run.id))
            .collect()
    }

    /// The clauses on which a step stands, by the code that the profile follows.
    fn cited(&self, topics: &[&str]) -> String {
        format!(
            "{}; the rest is {PRACTICE}",
            self.book.cited(topics, self.profile.family)
        )
    }

    fn joint(&self, joint: usize) -> Place {
        Place::Joint(self.job.joints.at(joint).id)
    }

    /// A joint by its appliance, the person's own label or what stands there, and its letter or id.
    fn named(&self, joint: usize) -> String {
        let it = self.job.joints.at(joint);
        if let Some(outlet) = self.study.outlets.iter().find(|outlet| outlet.joint == joint) {
            return outlet.lettered();
        }
        match (it.label.as_deref().map(str::trim), it.device()) {
            (Some(label), _) if !label.is_empty() => format!("{label} ({})", it.id),
            (_, Some(device)) => format!("{} {}", device.name(), it.id),
            (_, None) => it.id.to_string(),
        }
    }

    /// The same by its id.
    fn joint_named(&self, joint: JointId) -> String {
        let at = self.job.joints.position(joint);
        at.map_or_else(|| joint.to_string(), |at| self.named(at))
    }

    /// An appliance at a joint, as it is called and lettered on the drawing; by its joint where it has no letter.
    fn lettered(&self, name: &str, joint: JointId) -> String {
        let is_here = |outlet: &&Outlet| self.job.joints.at(outlet.joint).id == joint;
        match self.study.outlets.iter().find(is_here) {
            Some(outlet) => outlet.lettered(),
            None => format!("{name} ({joint})"),
        }
    }

    fn names(&self, list: &[&GoesOut]) -> String {
        let names = list.iter().map(|out| self.lettered(&out.name, out.joint));
        names.collect::<Vec<_>>().join(", ")
    }

    /// Pipe of a state by material and size, each with its length: "12'-10\" of 1/2\" steel".
    fn lengths(&self, state: State) -> Vec<String> {
        self.lengths_of(|at, run| (run.state == state).then(|| self.study.size(self.job, at)))
    }

    /// Pipe by material and the size that is said of it, each with its length; `None` leaves a run out.
    fn lengths_of(&self, size: impl Fn(usize, &Run) -> Option<Option<NominalSize>>) -> Vec<String> {
        let mut lengths: BTreeMap<(Material, Option<NominalSize>), Length> = BTreeMap::new();
        for (at, run) in self
            .job
            .runs
            .iter()
            .enumerate()
            .filter(|(at, _)| !self.study.runs[*at].is_hose)
        {
            if let Some(size) = size(at, run) {
                *lengths.entry((self.job.material(run), size)).or_default() += self.study.runs[at].length;
            }
        }
        let units = self.job.settings.units;
        let words = lengths.into_iter().map(|((material, size), length)| {
            let named = |size| self.study.names.show(material, size);
            let size = size.map_or("unknown size".to_owned(), named);
            format!("{} of {size} {}", length.show(units), material.short())
        });
        words.collect()
    }

    fn places(&self, list: &[&GoesOut]) -> Vec<Place> {
        list.iter().map(|out| Place::Joint(out.joint)).collect()
    }

    fn of_fate(&self, fate: Fate) -> Vec<&'a GoesOut> {
        self.shut.goes_out.iter().filter(|out| out.fate == fate).collect()
    }
}

//! Before pipe is made: who is told, what is shut, proved, taken out and opened.

use super::{Work, step};
use crate::job::{Device, Run, State};
use crate::study::order_of_work::isolation::{GoesOut, Isolation};
use crate::study::order_of_work::{PRACTICE, Step};
use crate::study::{Place, cut_ins};

impl Work<'_> {
    pub(super) fn tell(&self) -> Option<Step> {
        let all: Vec<&GoesOut> = self.shut.goes_out.iter().collect();
        if all.is_empty() {
            return None;
        }
        let words = format!(
            "Tell those who live or work there which appliances go out with the gas: {}. Turn them off at their own valves.",
            self.names(&all)
        );
        step("tell", "Tell", self.places(&all), PRACTICE, words)
    }

    pub(super) fn shut_off(&self) -> Option<Step> {
        let (words, at) = match self.shut.isolation {
            Isolation::Valve(joint) => (
                format!(
                    "Shut the existing valve at {joint}: the nearest one drawn upstream of all work. Tag or lock it. {LATE}"
                ),
                joint,
            ),
            Isolation::Supplier(joint) => (
                format!(
                    "No drawn valve that stays lies upstream of all work: the gas is shut at the point of delivery {joint}. \
                     That is the supplier's valve: ask the supplier who may shut it and open it again. {LATE}"
                ),
                joint,
            ),
            Isolation::Every(joint) => (
                format!(
                    "The piping closes a ring or has a second source, so that one house valve parts nothing: the gas is shut \
                     at the point of delivery {joint} and at every other source. These are the suppliers' valves: ask them."
                ),
                joint,
            ),
            Isolation::NothingStands => return None,
            Isolation::NotKnown => {
                let words = "Existing pipe is drawn at the work, but nothing leads to it from a point of delivery: find on \
                             site which valve parts it from gas, and shut it.";
                let places = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
                return step("shut", "Shut off", places, PRACTICE, words);
            }
        };
        step("shut", "Shut off", vec![Place::Joint(at)], PRACTICE, words)
    }

    pub(super) fn prove(&self) -> Option<Step> {
        if self.shut.isolation == Isolation::NothingStands {
            return None;
        }
        let places = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
        let words = "Prove that the valve holds: burn or vent what is left in the pipe to a safe place, put a gauge on it and \
                     see that no pressure comes back, before any pipe is opened. No flame or spark near; air the room; keep \
                     metal pipe electrically bridged while it is parted.";
        step("prove", "Prove", places, PRACTICE, words)
    }

    pub(super) fn take_out(&self) -> Option<Step> {
        let gone = self.job.runs.iter().filter(|run| run.state == State::Removed);
        let mut places: Vec<Place> = gone.map(|run| Place::Run(run.id)).collect();
        let mut names = self.lengths(State::Removed);
        for joint in &self.job.joints {
            if let Some(placed) = joint.placed.as_ref().filter(|placed| placed.state == State::Removed) {
                let name = match &placed.device {
                    Device::Appliance(appliance) if !appliance.name.trim().is_empty() => appliance.name.trim(),
                    device => device.name(),
                };
                names.push(format!("{name} at {}", joint.id));
                places.push(Place::Joint(joint.id));
            }
        }
        if names.is_empty() {
            return None;
        }
        let words = format!(
            "Take out what is drawn as to be removed: {}. Close every end that is left on pipe that stays with a cap or plug, gas-tight, at once.",
            names.join(", ")
        );
        step("take-out", "Take out", places, PRACTICE, words)
    }

    pub(super) fn cut_in(&self) -> Option<Step> {
        let ties: Vec<usize> = (self.shut.work.iter().copied())
            .filter(|&joint| {
                self.study
                    .network
                    .legs(joint)
                    .any(|run| self.job.runs.at(run).state == State::New)
            })
            .collect();
        if ties.is_empty() {
            return None;
        }
        let words: Vec<String> = ties.iter().map(|&joint| self.tie_in(joint)).collect();
        let mut words = format!("Cut in at {}. ", words.join("; at "));
        let all = cut_ins(self.job, self.study);
        for (concealed, how) in [(false, CLOSED_BY_A_UNION), (true, CLOSED_ELSEWHERE)] {
            let here = all.iter().filter(|cut_in| cut_in.concealed == concealed);
            let names: Vec<String> = here.map(|cut_in| self.named(cut_in.joint)).collect();
            if !names.is_empty() {
                words += &format!("At {} {how} ", names.join(", "));
            }
        }
        words += "Close the new outlet with a plug or cap until the new pipe has been tested.";
        let places = ties.into_iter().map(|joint| self.joint(joint)).collect();
        step("cut-in", "Cut in", places, PRACTICE, words)
    }

    /// A tie-in with its fitting and the pipe that meets there.
    fn tie_in(&self, joint: usize) -> String {
        let units = self.job.settings.units;
        let mut words = self.named(joint);
        if let Some(fitting) = self.study.joints[joint]
            .fitting
            .and_then(|at| self.study.fittings.get(at))
        {
            words += &format!(": {} {}", fitting.kind.name(), fitting.sizes_named(units));
        }
        let legs = || self.study.network.legs(joint).map(|run| self.job.runs.at(run));
        if legs().any(|run| run.state == State::Existing) {
            words += ", in the pipe that stands";
        }
        let far = |run: &Run| {
            if run.from == self.job.joints.at(joint).id {
                run.to
            } else {
                run.from
            }
        };
        let new = legs().filter(|run| run.state == State::New);
        let new: Vec<String> = new
            .filter_map(|run| self.job.joints.position(far(run)))
            .map(|at| self.named(at))
            .collect();
        format!("{words}, for the new pipe to {}", new.join(" and "))
    }
}

/// When gas need not be shut off yet.
const LATE: &str =
    "What can be run and tested apart from the old pipe may be done before, so that nobody is long without gas.";

/// How threaded pipe that was cut for a tee is closed again.
const CLOSED_BY_A_UNION: &str = "close the standing line again with a union beside the tee.";
/// The same where no union may stand.
const CLOSED_ELSEWHERE: &str =
    "the standing line lies concealed, where no union may stand (IRC 2006 G2415.3): part it where it can be reached.";

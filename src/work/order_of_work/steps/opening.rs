//! Before pipe is made: who is told, what is shut, proved and taken out.

use super::{Work, step};
use crate::job::{Device, State};
use crate::study::Place;
use crate::work::{Fate, GoesOut, Isolation, PRACTICE, Step};

impl Work<'_> {
    pub(super) fn tell(&self) -> Option<Step> {
        let all: Vec<&GoesOut> = self.shut.goes_out.iter().collect();
        if all.is_empty() {
            return None;
        }
        let (gone, back): (Vec<&GoesOut>, Vec<&GoesOut>) =
            all.iter().copied().partition(|out| out.fate == Fate::Removed);
        let mut words = Vec::new();
        if !back.is_empty() {
            words.push(format!(
                "Tell the occupants which appliances will be without gas during the work: {}.",
                self.names(&back)
            ));
        }
        if !gone.is_empty() {
            words.push(format!(
                "Tell the occupants which appliances are removed for good: {}.",
                self.names(&gone)
            ));
        }
        words.push("Turn them off at their own controls, except the one used to prove the shutoff.".to_owned());
        let words = words.join(" ");
        step("tell", "Tell the occupants", self.places(&all), PRACTICE, words)
    }

    pub(super) fn shut_off(&self) -> Option<Step> {
        let late = match self.shuts_late() {
            true => "",
            false => LATE,
        };
        let (words, at) = match self.shut.isolation {
            Isolation::Valve(joint) => (
                format!(
                    "Shut off {}: the nearest existing valve on the drawing upstream of all the work. Lock or tag it.{late}",
                    self.joint_named(joint)
                ),
                joint,
            ),
            Isolation::Supplier(joint) => (
                format!(
                    "No existing valve on the drawing is upstream of all the work: shut off the gas at the point of delivery, {}. That is the supplier's \
                     valve: ask the supplier who may close it and open it again.{late}",
                    self.joint_named(joint)
                ),
                joint,
            ),
            Isolation::Every(joint) => (
                format!(
                    "The piping closes a loop or has a second source, so one house valve isolates nothing: shut off the gas at the point of \
                     delivery, {}, and at every other source. These are the suppliers' valves: ask them.",
                    self.joint_named(joint)
                ),
                joint,
            ),
            Isolation::NothingStands => return None,
            Isolation::NotKnown => {
                let words = "Existing pipe is drawn at the work, but no pipe connects it to a point of delivery: find out on site which valve \
                 isolates it from gas, and close it.";
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
        let burner = self.proving_burner();
        let burned = match burner {
            Some(out) => format!(
                "with the valve closed, burn off the gas left in the pipe at {}; the flame must go out, and no gas must come when you try again",
                self.lettered(&out.name, out.joint)
            ),
            None => "with the valve closed, vent the gas left in the pipe to the outdoors".to_owned(),
        };
        let words = format!(
            "Prove the shutoff before opening any pipe: {burned}. Then put a gauge on the dead pipe and check that no pressure comes back. If gas still comes, the valve leaks through: open nothing, and have the gas shut off farther upstream. Ventilate; no other flame or spark nearby; \
             put a bonding jumper across metal pipe before separating it."
        );
        let work = self.shut.work.iter().map(|&joint| self.joint(joint));
        let places = burner.map(|out| Place::Joint(out.joint)).into_iter().chain(work);
        step("prove", "Prove the shutoff", unique(places), PRACTICE, words)
    }

    /// The appliance at which the shutoff is proved: one that goes out with the gas, if there is a choice one whose open
    /// burner shows a flame and that stays.
    fn proving_burner(&self) -> Option<&GoesOut> {
        let rank = |out: &&GoesOut| {
            let stays = out.fate != Fate::Removed;
            let position = self.job.joints.position(out.joint);
            (!(stays && position.is_some_and(|joint| self.is_cooktop(joint))), !stays)
        };
        self.shut.goes_out.iter().min_by_key(rank)
    }

    pub(super) fn take_out(&self) -> Option<Step> {
        let runs = self.job.runs.iter().zip(&self.study.runs);
        let gone = runs.filter(|(run, study)| run.state == State::Removed && !study.is_hose);
        let mut places: Vec<Place> = gone.map(|(run, _)| Place::Run(run.id)).collect();
        let mut names = self.lengths(State::Removed);
        // Pipe that new pipe replaces comes out with it.
        let replaced = self.lengths_of(|_, run| run.replaced().map(Some));
        names.extend(replaced.into_iter().map(|length| format!("{length} that is replaced")));
        places.extend(self.runs_where(|run| run.replaced().is_some()));
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
            "Remove the parts that the drawing shows as removed or replaced: {}. At once, cap or plug every open end of pipe that remains.",
            names.join(", ")
        );
        step("take-out", "Remove", places, PRACTICE, words)
    }
}

/// Places in turn, each once.
pub(super) fn unique(places: impl Iterator<Item = Place>) -> Vec<Place> {
    let mut once: Vec<Place> = Vec::new();
    for place in places {
        if !once.contains(&place) {
            once.push(place);
        }
    }
    once
}

/// When gas need not be shut off yet.
const LATE: &str =
    " Pipe that can be run and tested apart from existing pipe may go in first, to keep the time without gas short.";

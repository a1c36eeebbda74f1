//! The steps in turn, each only where the job has what it speaks of.

use super::isolation::{Fate, GoesOut, Isolation, Shut};
use super::{PRACTICE, Step};
use crate::job::{Barrier, Device, Job, Material, Run, State, Surroundings};
use crate::study::test_sheet::{pipe, size_of};
use crate::study::{OutletKind, Place, Study, sizes_named};
use crate::units::{Length, NominalSize, Show};
use std::collections::BTreeMap;

/// All steps of a job, in turn.
pub(super) fn all(job: &Job, study: &Study, shut: &Shut) -> Vec<Step> {
    let work = Work { job, study, shut };
    if !work.is_any() {
        return Vec::new();
    }
    let steps = [
        work.tell(),
        work.shut_off(),
        work.prove(),
        work.take_out(),
        work.cut_in(),
        work.run(),
        work.penetrate(),
        work.bury(),
        work.bond(),
        work.connect(),
        work.test(),
        work.show(),
        work.join(),
        work.paint(),
        work.purge(),
        work.leak_check(),
        work.relight(),
        work.seal(),
    ];
    steps.into_iter().flatten().collect()
}

struct Work<'a> {
    job: &'a Job,
    study: &'a Study,
    shut: &'a Shut,
}

fn step(
    id: &'static str,
    heading: &'static str,
    places: Vec<Place>,
    note: &'static str,
    words: impl Into<String>,
) -> Option<Step> {
    let made = words.into();
    Some(Step {
        id,
        heading,
        words: made.clone(),
        made,
        places,
        note,
        after: Vec::new(),
        left_out: false,
    })
}

impl<'a> Work<'a> {
    fn is_any(&self) -> bool {
        let runs = self.job.runs.iter().any(|run| run.state != State::Existing);
        let mut placed = self.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
        runs || placed.any(|placed| placed.state != State::Existing && !matches!(placed.device, Device::Supply(_)))
    }

    fn new_runs(&self) -> impl Iterator<Item = &'a Run> {
        self.job.runs.iter().filter(|run| run.state == State::New)
    }

    fn runs_where(&self, keep: impl Fn(&Run) -> bool) -> Vec<Place> {
        self.new_runs()
            .filter(|run| keep(run))
            .map(|run| Place::Run(run.id))
            .collect()
    }

    fn joint(&self, joint: usize) -> Place {
        Place::Joint(self.job.joints.at(joint).id)
    }

    fn names(&self, list: &[&GoesOut]) -> String {
        list.iter()
            .map(|out| format!("{} ({})", out.name, out.joint))
            .collect::<Vec<_>>()
            .join(", ")
    }

    fn places(&self, list: &[&GoesOut]) -> Vec<Place> {
        list.iter().map(|out| Place::Joint(out.joint)).collect()
    }

    fn of_fate(&self, fate: Fate) -> Vec<&'a GoesOut> {
        self.shut.goes_out.iter().filter(|out| out.fate == fate).collect()
    }

    fn tell(&self) -> Option<Step> {
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

    fn shut_off(&self) -> Option<Step> {
        let (words, at) = match self.shut.isolation {
            Isolation::Valve(joint) => (
                format!(
                    "Shut the existing valve at {joint}: the nearest one drawn upstream of all work. Tag or lock it."
                ),
                joint,
            ),
            Isolation::Supplier(joint) => (
                format!(
                    "No drawn valve that stays lies upstream of all work: the gas is shut at the point of delivery {joint}. \
                     That is the supplier's valve: ask the supplier who may shut it and open it again."
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

    fn prove(&self) -> Option<Step> {
        if self.shut.isolation == Isolation::NothingStands {
            return None;
        }
        let places = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
        let words = "Prove that the valve holds: burn or vent what is left in the pipe to a safe place, put a gauge on it and \
                     see that no pressure comes back, before any pipe is opened. No flame or spark near; air the room; keep \
                     metal pipe electrically bridged while it is parted.";
        step("prove", "Prove", places, PRACTICE, words)
    }

    fn take_out(&self) -> Option<Step> {
        let gone = self.job.runs.iter().filter(|run| run.state == State::Removed);
        let mut places: Vec<Place> = gone.clone().map(|run| Place::Run(run.id)).collect();
        let mut names: Vec<String> = gone.map(|run| run.id.to_string()).collect();
        for joint in &self.job.joints {
            if let Some(placed) = joint.placed.as_ref().filter(|placed| placed.state == State::Removed) {
                names.push(format!("{} at {}", placed.device.name(), joint.id));
                places.push(Place::Joint(joint.id));
            }
        }
        if names.is_empty() {
            return None;
        }
        let words = format!(
            "Take out {}. Close every end that is left on pipe that stays with a cap or plug, gas-tight, at once.",
            names.join(", ")
        );
        step("take-out", "Take out", places, PRACTICE, words)
    }

    fn cut_in(&self) -> Option<Step> {
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
        let words = format!(
            "Cut in at {}. Close the new outlet with a plug or cap until the new pipe has been tested.",
            words.join("; at ")
        );
        let places = ties.into_iter().map(|joint| self.joint(joint)).collect();
        step("cut-in", "Cut in", places, PRACTICE, words)
    }

    /// A tie-in with its fitting and the pipe that meets there.
    fn tie_in(&self, joint: usize) -> String {
        let units = self.job.settings.units;
        let mut words = self.job.joints.at(joint).id.to_string();
        if let Some(fitting) = self.study.joints[joint]
            .fitting
            .and_then(|at| self.study.fittings.get(at))
        {
            words += &format!(": {} {}", fitting.kind.name(), sizes_named(&fitting.sizes, units));
        }
        let runs = |state: State| -> Vec<String> {
            let legs = self.study.network.legs(joint).map(|run| self.job.runs.at(run));
            legs.filter(|run| run.state == state)
                .map(|run| run.id.to_string())
                .collect()
        };
        let [old, new] = [runs(State::Existing), runs(State::New)];
        match old.is_empty() {
            true => words + &format!(", for {}", new.join(" ")),
            false => words + &format!(", between {} (existing) and {} (new)", old.join(" "), new.join(" ")),
        }
    }

    fn run(&self) -> Option<Step> {
        let mut lengths: BTreeMap<(Material, Option<NominalSize>), Length> = BTreeMap::new();
        let is_pipe = pipe(self.job, self.study);
        for (at, run) in self.job.runs.iter().enumerate() {
            if run.state == State::New && is_pipe[at] {
                let size = size_of(self.job, self.study, at);
                *lengths.entry((self.job.material(run), size)).or_default() += self.study.runs[at].length;
            }
        }
        if lengths.is_empty() {
            return None;
        }
        let units = self.job.settings.units;
        let pipe = lengths.into_iter().map(|((material, size), length)| {
            let size = size.map_or("size not known".to_owned(), |size| size.show(units));
            format!("{} of {} {size}", length.show(units), material.short())
        });
        let words = format!(
            "Run the new pipe: {}. Ream cut ends, clean threads, support it as the code's table has it, and keep its ends \
             covered until they are joined.",
            pipe.collect::<Vec<_>>().join(", ")
        );
        step("run", "Run the pipe", self.runs_where(|_| true), PRACTICE, words)
    }

    fn penetrate(&self) -> Option<Step> {
        let passes = |run: &Run| {
            run.penetrations
                .iter()
                .any(|passage| passage.barrier != Barrier::Ground)
        };
        let places = self.runs_where(passes);
        if places.is_empty() {
            return None;
        }
        let passages = self.new_runs().flat_map(|run| &run.penetrations);
        let sleeved = passages.filter(|passage| passage.sleeved).count();
        let sleeves = match sleeved {
            0 => String::new(),
            1 => " Set the sleeve that is drawn first.".to_owned(),
            many => format!(" Set the {many} sleeves that are drawn first."),
        };
        let words = format!(
            "Pass walls, floors and roofs.{sleeves} Tape or cap the end of the pipe while it is pushed through, so that no dirt \
             enters; look for wires and pipes before boring."
        );
        step("penetrate", "Penetrate, protect the end", places, PRACTICE, words)
    }

    fn bury(&self) -> Option<Step> {
        let buried = |run: &Run| run.surroundings == Surroundings::Underground;
        let places = self.runs_where(buried);
        if places.is_empty() {
            return None;
        }
        let mut words =
            "Lay pipe in the trench at the cover that is drawn; have other lines located before digging.".to_owned();
        if self
            .new_runs()
            .any(|run| buried(run) && self.job.material(run) == Material::Steel40)
        {
            words += " Buried steel is factory-coated, its joints wrapped.";
        }
        if self
            .new_runs()
            .any(|run| buried(run) && self.job.material(run) == Material::Pe)
        {
            words += " Lay tracer wire (14 AWG or larger) with plastic pipe, one end above ground.";
        }
        words += " Leave the trench open until the pipe has been tested and seen.";
        step(
            "bury",
            "Lay in the ground",
            places,
            "CPC 2013 1210.1.7.2 (tracer); Larimer County, Colorado, and Oregon State University standard 23 11 00 (coating); \
             the rest common practice, no source",
            words,
        )
    }

    fn bond(&self) -> Option<Step> {
        let places = self.runs_where(|run| self.job.material(run) == Material::Csst);
        if places.is_empty() {
            return None;
        }
        let words = "Bond corrugated tubing to the grounding electrode system (6 AWG copper); fittings and striker plates are \
                     the maker's.";
        step(
            "bond",
            "Bond",
            places,
            "fuel gas codes: CSST bonded, 6 AWG copper; clause not read",
            words,
        )
    }

    fn connect(&self) -> Option<Step> {
        let mut counts: BTreeMap<&'static str, usize> = BTreeMap::new();
        let mut places = Vec::new();
        for joint in &self.job.joints {
            let Some(placed) = joint.placed.as_ref().filter(|placed| placed.state == State::New) else {
                continue;
            };
            if matches!(
                placed.device,
                Device::Supply(_) | Device::Appliance(_) | Device::TestGauge
            ) {
                continue;
            }
            *counts.entry(placed.device.name()).or_default() += 1;
            places.push(Place::Joint(joint.id));
        }
        if counts.is_empty() {
            return None;
        }
        let counted: Vec<String> = counts.iter().map(|(name, count)| format!("{count} {name}")).collect();
        let words = format!(
            "Fit what stands in the line: {}. At each appliance in the way of the gas: shutoff valve, union, sediment trap where \
             one is needed, connector. Meters, regulators, connectors and couplings stay off until the test is over.",
            counted.join(", ")
        );
        step(
            "connect",
            "Connect",
            places,
            "CPC 2013 1211.5, 1211.8 (order at an appliance); the rest common practice, no source",
            words,
        )
    }

    fn test(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() {
            return None;
        }
        let words = "Test the new pipe by the test sheet: closed at each tie-in and at each outlet, appliances off, with air or an \
                     inert gas, never with oxygen. Mend what leaks and test again.";
        step(
            "test",
            "Test",
            places,
            "fuel gas codes (air or inert gas, never oxygen), read; the rest common practice, no source",
            words,
        )
    }

    fn show(&self) -> Option<Step> {
        let hidden = |run: &Run| matches!(run.surroundings, Surroundings::Concealed | Surroundings::Underground);
        let places = self.runs_where(hidden);
        if places.is_empty() {
            return None;
        }
        let words = "Leave pipe to be concealed or buried open until the inspector has seen it tested; then close walls and fill \
                     the trench.";
        step("show", "Have it seen", places, PRACTICE, words)
    }

    fn join(&self) -> Option<Step> {
        let outlets = self.new_appliances();
        let mut places: Vec<Place> = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
        places.extend(outlets.iter().map(|&joint| self.joint(joint)));
        places.dedup();
        if places.is_empty() {
            return None;
        }
        let words = "With the gas still shut off: let the test pressure out, take the gauge away, join the new pipe where it was \
                     closed at old pipe or supply, put in what stayed off, and connect the new appliances by their makers' \
                     instructions.";
        step("join", "Join", places, PRACTICE, words)
    }

    /// Joints of new appliances that gas reaches, in flow order.
    fn new_appliances(&self) -> Vec<usize> {
        let outlets = self
            .study
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance);
        outlets
            .map(|outlet| outlet.joint)
            .filter(|&joint| self.is_new(joint))
            .collect()
    }

    fn paint(&self) -> Option<Step> {
        let steel =
            |run: &Run| run.surroundings == Surroundings::Outdoors && self.job.material(run) == Material::Steel40;
        let places = self.runs_where(steel);
        if places.is_empty() {
            return None;
        }
        let words = "Paint or coat new steel outdoors against rust, joints and fittings too, once they have been tested bare; not \
                     valve stems, vents or rating plates. The colour is the place's to say.";
        step(
            "paint",
            "Paint",
            places,
            "CPC 2013 1210.2; Oregon State University standard 23 11 00 (exposed steel painted); the rest common practice, no source",
            words,
        )
    }

    fn purge(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() && self.shut.goes_out.is_empty() {
            return None;
        }
        let words = "Let gas in slowly and purge the air out of all pipe that was opened, as the test sheet has it: to the \
                     outdoors where length or pressure asks for it, else while somebody watches and the room is aired; no flame or spark \
                     near.";
        step(
            "purge",
            "Purge",
            places,
            "fuel gas codes (NFPA 54-2012, table 8.3.1), read; the rest common practice, no source",
            words,
        )
    }

    fn leak_check(&self) -> Option<Step> {
        let mut places: Vec<Place> = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
        places.extend(self.runs_where(|_| true));
        let words = "At working pressure look for leaks at every joint that was opened or made, tie-ins and connectors too, with a \
                     leak-detection solution or a gas detector, never with a flame. See that the meter stands still while \
                     everything is off.";
        step("leak-check", "Look for leaks", places, PRACTICE, words)
    }

    fn relight(&self) -> Option<Step> {
        let relit = self.of_fate(Fate::Relit);
        let is_relit = |joint: usize| relit.iter().any(|out| Place::Joint(out.joint) == self.joint(joint));
        let mut lines = Vec::new();
        let mut places = Vec::new();
        for outlet in self
            .study
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance)
        {
            let id = self.job.joints.at(outlet.joint).id;
            let is_new = self.is_new(outlet.joint);
            let how = match (is_new, is_relit(outlet.joint)) {
                (true, _) => "start",
                (false, true) => "relight",
                (false, false) => continue,
            };
            lines.push(format!("{how} {} ({id})", outlet.called()));
            places.push(Place::Joint(id));
        }
        let cut_off = self.of_fate(Fate::CutOff);
        let mut words = match lines.is_empty() {
            true => String::new(),
            false => format!(
                "In the order of the gas: {}. Each by its maker's instructions; see that flame, draught and safeties work.",
                lines.join(", ")
            ),
        };
        if !cut_off.is_empty() {
            words += &format!(
                " No gas reaches {} after the work as drawn: leave it off, and its connection capped.",
                self.names(&cut_off)
            );
            places.extend(self.places(&cut_off));
        }
        if places.is_empty() {
            return None;
        }
        step("relight", "Relight", places, PRACTICE, words.trim().to_owned())
    }

    /// Whether what stands at a joint is new.
    fn is_new(&self, joint: usize) -> bool {
        let placed = self.job.joints.at(joint).placed.as_ref();
        placed.is_some_and(|placed| placed.state == State::New)
    }

    fn seal(&self) -> Option<Step> {
        let places = self.runs_where(|run| !run.penetrations.is_empty());
        if places.is_empty() {
            return None;
        }
        let words = "Seal the gaps around pipe in walls, floors and roofs: an outside wall at its outside face, with a sleeve both \
                     gaps; a foundation wall both gaps; where a wall or floor holds back fire, with what is listed for it.";
        step(
            "seal",
            "Seal",
            places,
            "CPC 2013 1210.2, 1210.1.5 (outside and foundation walls); the rest common practice, no source",
            words,
        )
    }
}

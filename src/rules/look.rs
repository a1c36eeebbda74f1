//! What a rule may look at, and how findings name places.

use super::walk::Walk;
use crate::codebook::{Codebook, Mark, Profile, Tables};
use crate::job::{Device, Job, Joint, JointId, Run, State};
use crate::network::Load;
use crate::sizing::{Basis, Sizing};
use crate::study::{Place, Study, served};
use crate::units::{GaugePressure, Length, Show};

/// What a rule may look at.
#[derive(Clone, Copy, Debug)]
pub struct Look<'a> {
    /// The job.
    pub job: &'a Job,
    /// What is published.
    pub book: &'a Codebook,
    /// The profile in force.
    pub profile: &'a Profile,
    /// The capacity tables that size the job.
    pub tables: &'a Tables<'a>,
    /// What follows from the job, findings apart.
    pub study: &'a Study,
    /// What was gathered for all rules.
    pub walk: &'a Walk,
}

/// How many places a sentence names before it counts the rest.
const NAMED: usize = 6;

impl<'a> Look<'a> {
    /// A joint by its position.
    pub fn joint(&self, joint: usize) -> &'a Joint {
        self.job.joints.at(joint)
    }

    /// A run by its position.
    pub fn run(&self, run: usize) -> &'a Run {
        self.job.runs.at(run)
    }

    /// Whether a run goes straight up or down.
    pub fn is_upright(&self, run: usize) -> bool {
        let Run { from, to, .. } = self.run(run);
        let at = |joint| self.job.joints.get(joint).map(|joint| joint.at);
        matches!((at(*from), at(*to)), (Some(from), Some(to)) if (from.east, from.north) == (to.east, to.north))
    }

    /// Whether a run is part of a flexible connector and no pipe.
    pub fn is_connector(&self, run: usize) -> bool {
        self.study.runs[run].is_hose
    }

    /// The clause of the code in force on a topic, in brackets behind a sentence.
    pub fn clause(&self, topic: &str) -> String {
        let clause = self.book.clause_number(topic, self.profile.family);
        clause.map_or_else(String::new, |clause| format!(" ({clause})"))
    }

    /// Where the pipe to an outlet ends: the joint at which its connector or hose begins, else the outlet itself.
    pub fn pipe_end(&self, outlet: usize) -> usize {
        let mut at = outlet;
        while let (Some(_), Some(above)) = (
            self.feed(at).filter(|&run| self.is_connector(run)),
            self.study.network.upstream(at),
        ) {
            at = above;
        }
        at
    }

    /// What stands on a joint, unless it is to be removed.
    pub fn device(&self, joint: usize) -> Option<&'a Device> {
        self.joint(joint).device()
    }

    /// Whether what stands on a joint is to be installed.
    pub fn is_new(&self, joint: usize) -> bool {
        let placed = self.joint(joint).placed.as_ref();
        placed.is_some_and(|placed| placed.state == State::New)
    }

    /// Whether what stands on a joint, or the pipe that feeds it, is to be installed. Rules on how things are set up
    /// leave alone what is there already.
    pub fn is_new_work(&self, joint: usize) -> bool {
        self.is_new(joint) || self.feed(joint).is_some_and(|run| self.run(run).state == State::New)
    }

    /// The run that feeds a joint.
    pub fn feed(&self, joint: usize) -> Option<usize> {
        self.study.network.feed.get(joint).copied().flatten()
    }

    /// Pipe length from the point of delivery; zero where no gas comes.
    pub fn distance(&self, joint: usize) -> Length {
        self.study.joints[joint].distance.unwrap_or_default()
    }

    /// The runs that meet at a joint, those to be removed left out.
    pub fn live_legs(&self, joint: usize) -> impl Iterator<Item = &'a Run> + use<'a> {
        let runs = &self.job.runs;
        let legs = self.study.network.legs(joint).map(move |run| runs.at(run));
        legs.filter(|run| run.state != State::Removed)
    }

    /// A joint as a place.
    pub fn at(&self, joint: usize) -> Place {
        Place::Joint(self.joint(joint).id)
    }

    /// A run as a place.
    pub fn on(&self, run: usize) -> Place {
        Place::Run(self.run(run).id)
    }

    /// Runs as places.
    pub fn on_all<'r>(&self, runs: &'r [usize]) -> impl Iterator<Item = Place> + use<'a, 'r> {
        let store = &self.job.runs;
        runs.iter().map(|&run| Place::Run(store.at(run).id))
    }

    /// Joints as places.
    pub fn at_each<'r>(&self, joints: &'r [usize]) -> impl Iterator<Item = Place> + use<'a, 'r> {
        let store = &self.job.joints;
        joints.iter().map(|&joint| Place::Joint(store.at(joint).id))
    }

    /// The person's own name for a joint, or its id.
    pub fn joint_name(&self, joint: usize) -> String {
        let joint = self.joint(joint);
        match joint.label.as_deref().map(str::trim) {
            Some(label) if !label.is_empty() => label.to_owned(),
            _ => joint.id.to_string(),
        }
    }

    /// A line regulator at the beginning of a sentence: "Line regulator J7", "Line regulator \"2nd stage\" (J6)".
    pub fn regulator_name(&self, joint: usize) -> String {
        let it = self.joint(joint);
        match it.label.as_deref().map(str::trim) {
            Some(label) if !label.is_empty() && !label.eq_ignore_ascii_case("regulator") => {
                format!("Line regulator \"{label}\" ({})", it.id)
            }
            _ => format!("Line regulator {}", it.id),
        }
    }

    /// The name of a run's end, whether or not there is such a joint.
    pub fn end_name(&self, end: JointId) -> String {
        match self.job.joints.position(end) {
            Some(joint) => self.joint_name(joint),
            None => end.to_string(),
        }
    }

    /// "run R7", "runs R3, R4 and R9", "runs R1, R2, R3, R4, R5, R6 and 31 more".
    pub fn runs_named(&self, runs: &[usize]) -> String {
        listed("run", "runs", runs.iter().map(|&run| self.run(run).id.to_string()))
    }

    /// "joint J7", "joints J3, J4 and J9".
    pub fn joints_named(&self, joints: &[usize]) -> String {
        listed("joint", "joints", joints.iter().map(|&joint| self.joint_name(joint)))
    }

    /// "section 4", "sections 1, 2 and 4"; `sections` are positions in `study.sections`.
    pub fn sections_named(&self, sections: &[usize]) -> String {
        let numbers = sections.iter().map(|&section| self.study.sections[section].number);
        listed("section", "sections", numbers.map(|number| number.to_string()))
    }

    /// Sections as places.
    pub fn in_sections<'r>(&self, sections: &'r [usize]) -> impl Iterator<Item = Place> + use<'a, 'r> {
        let all = &self.study.sections;
        sections.iter().map(|&section| Place::Section(all[section].number))
    }

    /// An appliance or an end left for one, with its letter and place: "Built-in grill (A) at J8".
    pub fn outlet_name(&self, joint: usize) -> String {
        let name = match self.device(joint) {
            Some(Device::Appliance(appliance)) if !appliance.name.trim().is_empty() => appliance.name.trim(),
            Some(Device::Cap(_)) => "Capped end",
            Some(Device::Appliance(_)) => "Appliance",
            _ => "End",
        };
        let place = self.joint_name(joint);
        match self
            .walk
            .outlet(joint)
            .map(|outlet| self.study.outlets[outlet].tag.as_str())
        {
            // Some name their appliances by the letters of the drawing.
            Some(tag) if tag == name => format!("Appliance {tag} at {place}"),
            Some(tag) => format!("{name} ({tag}) at {place}"),
            None => format!("{name} at {place}"),
        }
    }

    /// Outlets in a row, the first few only: "Range (A) at J4 and Fire pit (B) at J9".
    pub fn outlets_named(&self, joints: &[usize]) -> String {
        row(joints.iter().map(|&joint| self.outlet_name(joint)))
    }

    /// A distance that a rule sets, which is no dimension of the drawing: "6 ft".
    pub fn limit(&self, length: Length) -> String {
        length.show_rule(self.job.settings.units)
    }

    /// A pressure that a rule sets: "2 psig", "14 kPa".
    pub fn limit_pressure(&self, pressure: GaugePressure) -> String {
        pressure.show_rule(self.study.names.units())
    }

    /// A length along which pipe is sized: "77.6 ft".
    pub fn sizing_length(&self, length: Length) -> String {
        length.show_sizing(self.job.settings.units)
    }

    /// A quantity in the units of the job.
    pub fn show(&self, quantity: impl Show) -> String {
        quantity.show(self.study.names.units())
    }

    /// A section by its position, for the middle of a sentence: "section 4 (existing 3/4" steel, serving C–F)"; by its ends where it serves nothing.
    pub fn section_name(&self, section: usize) -> String {
        let section = &self.study.sections[section];
        let state = match section.state {
            State::Existing => "existing ",
            State::New | State::Removed => "",
        };
        let size = section
            .sizing
            .size
            .map(|size| format!("{} ", self.study.names.show(section.material, size)))
            .unwrap_or_default();
        let place = match section.serves.is_empty() {
            true => format!("{} to {}", self.joint_name(section.from), self.joint_name(section.to)),
            false => format!("serving {}", served(self.study, section)),
        };
        format!(
            "section {} ({state}{size}{}, {place})",
            section.number,
            section.material.short()
        )
    }

    /// What the capacities of a section were taken from: "table 402.4(2), row 60'-0\"".
    pub fn basis(&self, sizing: &Sizing) -> String {
        match &sizing.basis {
            Basis::Table { table, row } => format!("table {table}, row {}", self.sizing_length(*row)),
            Basis::Equation { name, length } => format!("the {name} at {}", self.sizing_length(*length)),
            Basis::Nothing(reason) => reason.clone(),
        }
    }

    /// Heat and the flow that carries it: "65,000 Btu/h (65 cfh)".
    pub fn load(&self, load: &Load) -> String {
        format!("{} ({})", self.show(load.heat), self.show(load.flow))
    }

    /// Whose figure it is and how sure: "per profile, from memory, no text found".
    pub fn by_profile(&self, mark: Mark) -> String {
        format!("per profile, {}", mark.words())
    }
}

/// Names in a row after the noun.
fn listed(one: &str, many: &str, names: impl ExactSizeIterator<Item = String>) -> String {
    let noun = if names.len() == 1 { one } else { many };
    format!("{noun} {}", row(names))
}

/// Names in a row, the first few only, with the number of the others.
fn row(names: impl ExactSizeIterator<Item = String>) -> String {
    let count = names.len();
    // Naming the last one is no longer than counting it.
    let named: Vec<String> = names.take(if count == NAMED + 1 { count } else { NAMED }).collect();
    match (named.as_slice(), count - named.len()) {
        ([], _) => "none".to_owned(),
        ([only], 0) => only.clone(),
        ([first @ .., last], 0) => format!("{} and {last}", first.join(", ")),
        (some, rest) => format!("{} and {rest} more", some.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::super::look::*;

    #[track_caller]
    fn check(count: usize, expected: &str) {
        let names: Vec<String> = (1..=count).map(|number| format!("R{number}")).collect();
        assert_eq!(listed("run", "runs", names.into_iter()), expected);
    }

    #[test]
    fn long_lists_are_counted() {
        check(1, "run R1");
        check(2, "runs R1 and R2");
        check(7, "runs R1, R2, R3, R4, R5, R6 and R7");
        check(20, "runs R1, R2, R3, R4, R5, R6 and 14 more");
    }
}

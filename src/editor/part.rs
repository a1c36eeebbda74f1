//! What a person can choose on the drawing.

use crate::job::{Job, JointId, RunId};
use std::collections::BTreeSet;
use std::fmt;

/// A thing on the drawing that can be chosen, changed or deleted by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// A joint with the device on it.
    Joint(JointId),
    /// A run of pipe.
    Run(RunId),
    /// A passage of a run, by its place in the run's list.
    Penetration(RunId, usize),
    /// A note, by its place in the job's list.
    Note(usize),
}

impl Part {
    /// Whether the job has it.
    pub fn is_in(self, job: &Job) -> bool {
        match self {
            Part::Joint(id) => job.joints.get(id).is_some(),
            Part::Run(id) => job.runs.get(id).is_some(),
            Part::Penetration(id, at) => job.runs.get(id).is_some_and(|run| at < run.penetrations.len()),
            Part::Note(at) => at < job.notes.len(),
        }
    }

    /// The run that it is or lies on.
    pub fn run(self) -> Option<RunId> {
        match self {
            Part::Run(id) | Part::Penetration(id, _) => Some(id),
            Part::Joint(_) | Part::Note(_) => None,
        }
    }
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Part::Joint(id) => write!(f, "{id}"),
            Part::Run(id) => write!(f, "{id}"),
            Part::Penetration(id, at) => write!(f, "penetration {} of {id}", at + 1),
            Part::Note(at) => write!(f, "note {}", at + 1),
        }
    }
}

/// The parts that are chosen, each once.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Selection(BTreeSet<Part>);

impl Selection {
    /// Nothing.
    pub fn none() -> Selection {
        Selection::default()
    }

    /// Every joint, run and note of a job.
    pub fn all(job: &Job) -> Selection {
        let joints = job.joints.iter().map(|joint| Part::Joint(joint.id));
        let runs = job.runs.iter().map(|run| Part::Run(run.id));
        joints.chain(runs).chain((0..job.notes.len()).map(Part::Note)).collect()
    }

    /// Adds a part, or takes it out when it is there already.
    pub fn toggle(&mut self, part: Part) {
        if !self.0.remove(&part) {
            self.0.insert(part);
        }
    }

    /// Whether a part is chosen.
    pub fn contains(&self, part: Part) -> bool {
        self.0.contains(&part)
    }

    /// The parts in a fixed order: joints, runs, passages, notes.
    pub fn iter(&self) -> impl Iterator<Item = Part> + '_ {
        self.0.iter().copied()
    }

    /// How many parts are chosen.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether nothing is chosen.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The chosen part, when it is a single one.
    pub fn single(&self) -> Option<Part> {
        self.0.first().copied().filter(|_| self.0.len() == 1)
    }

    /// The joints among the parts.
    pub fn joints(&self) -> Vec<JointId> {
        let joint = |part: &Part| match part {
            Part::Joint(id) => Some(*id),
            _ => None,
        };
        self.0.iter().filter_map(joint).collect()
    }

    /// The runs among the parts.
    pub fn runs(&self) -> Vec<RunId> {
        let run = |part: &Part| match part {
            Part::Run(id) => Some(*id),
            _ => None,
        };
        self.0.iter().filter_map(run).collect()
    }

    /// The joints among the parts and those at the ends of the runs among them: what moves when they are moved.
    pub fn places(&self, job: &Job) -> BTreeSet<JointId> {
        let mut joints: BTreeSet<JointId> = self.joints().into_iter().collect();
        for run in self.runs() {
            if let Some(run) = job.runs.get(run) {
                joints.extend([run.from, run.to]);
            }
        }
        joints
    }

    /// Leaves out what the job no longer has.
    pub fn refresh(&mut self, job: &Job) {
        self.0.retain(|part| part.is_in(job));
    }

    /// Puts the run in the place of a penetration that the job has no longer.
    pub fn fall_back(&mut self, job: &Job) {
        let there = |part: Part| match part {
            Part::Penetration(run, _) if !part.is_in(job) => Part::Run(run),
            part => part,
        };
        self.0 = self.iter().map(there).collect();
    }
}

impl FromIterator<Part> for Selection {
    fn from_iter<I: IntoIterator<Item = Part>>(parts: I) -> Self {
        Selection(parts.into_iter().collect())
    }
}

impl Extend<Part> for Selection {
    fn extend<I: IntoIterator<Item = Part>>(&mut self, parts: I) {
        self.0.extend(parts);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_chosen_twice_is_chosen_no_more() {
        let mut chosen = Selection::none();
        chosen.toggle(Part::Run(RunId(3)));
        assert_eq!(chosen.single(), Some(Part::Run(RunId(3))));
        chosen.toggle(Part::Joint(JointId(1)));
        assert_eq!(chosen.single(), None);
        chosen.toggle(Part::Run(RunId(3)));
        assert_eq!(chosen.single(), Some(Part::Joint(JointId(1))));
    }

    #[test]
    fn what_the_job_no_longer_has_is_no_longer_chosen() {
        let mut chosen: Selection = [Part::Note(0), Part::Run(RunId(1))].into_iter().collect();
        chosen.refresh(&Job::default());
        assert!(chosen.is_empty());
    }
}

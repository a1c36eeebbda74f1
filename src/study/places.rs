//! What places of a job are called on paper.

use super::words::{NONE, capital, shortened};
use super::{Place, Study};
use crate::job::{Device, Job, JointId, RunId};

/// The most characters of a name in a schedule; longer ones stand in full among the notes.
pub const LONGEST_NAME: usize = 48;

/// The device on a joint, by the joint's position.
pub fn device(job: &Job, joint: usize) -> Option<&Device> {
    let joint = (joint < job.joints.len()).then(|| job.joints.at(joint))?;
    joint.placed.as_ref().map(|placed| &placed.device)
}

/// The places of one job.
pub struct Places<'a> {
    job: &'a Job,
    study: &'a Study,
    letters: Vec<&'a str>,
}

impl<'a> Places<'a> {
    /// The places of a job.
    pub fn of(job: &'a Job, study: &'a Study) -> Places<'a> {
        let mut letters = vec![""; job.joints.len()];
        for outlet in &study.outlets {
            if let Some(letter) = letters.get_mut(outlet.joint) {
                *letter = &outlet.tag;
            }
        }
        Places { job, study, letters }
    }

    /// The job.
    pub const fn job(&self) -> &'a Job {
        self.job
    }

    /// A joint, by its position: an outlet by its letter, else the person's label, else what stands there and its id.
    pub fn joint(&self, position: usize) -> String {
        if position >= self.job.joints.len() {
            return NONE.to_owned();
        }
        let it = self.job.joints.at(position);
        if !self.letters[position].is_empty() {
            return self.letters[position].to_owned();
        }
        if let Some(label) = self.label(position) {
            return shortened(label, LONGEST_NAME);
        }
        match device(self.job, position) {
            Some(Device::Supply(supply)) if supply.meter.is_some() => "meter".to_owned(),
            Some(device @ Device::Supply(_)) => device.name().to_owned(),
            Some(device) => format!("{} {}", device.nature().short, it.id),
            None => match fitting(self.study, position) {
                Some(name) => format!("{name} {}", it.id),
                None => it.id.to_string(),
            },
        }
    }

    /// The person's label of a joint.
    pub fn label(&self, position: usize) -> Option<&'a str> {
        let label = self.job.joints.at(position).label.as_deref()?.trim();
        (!label.is_empty()).then_some(label)
    }

    /// The place of a finding.
    pub fn finding(&self, place: Place) -> String {
        match place {
            Place::Job => "Job".to_owned(),
            Place::Joint(id) => match self.job.joints.position(id) {
                Some(position) => capital(&known(&self.joint(position), id)),
                None => id.to_string(),
            },
            Place::Run(id) => self.run(id),
            Place::Section(number) => format!("Section {number}"),
        }
    }

    /// A run, with its section.
    pub fn run(&self, id: RunId) -> String {
        let position = self.job.runs.position(id);
        let section = position.and_then(|position| self.study.runs.get(position)?.section);
        match section.and_then(|section| self.study.sections.get(section)) {
            Some(section) => format!("Run {id} in section {}", section.number),
            None => format!("Run {id}"),
        }
    }
}

/// A name with the id behind it, unless it is there already.
pub fn known(name: &str, id: JointId) -> String {
    let id = id.to_string();
    if name.ends_with(&id) {
        name.to_owned()
    } else {
        format!("{name} ({id})")
    }
}

fn fitting(study: &Study, joint: usize) -> Option<&'static str> {
    let fitting = study.fittings.get(study.joints.get(joint)?.fitting?)?;
    Some(fitting.kind.noun())
}

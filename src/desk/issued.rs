//! The job as it was issued, with which the one on the desk is compared. Kept by the desk, never by the job.

use crate::changes::{Change, ChangedPart, Changes, Turn};
use crate::codebook::Codebook;
use crate::editor::Part;
use crate::job::Job;
use crate::study::Study;

/// A job that is compared with, studied once.
#[derive(Debug)]
pub struct Issued {
    /// The name of the file that it was read from.
    pub name: String,
    job: Job,
    study: Study,
}

impl Issued {
    /// Studies it.
    pub fn of(name: String, job: Job, book: &Codebook) -> Issued {
        let study = Study::of(&job, book);
        Issued { name, job, study }
    }

    /// What changed since.
    pub fn changes(&self, job: &Job, study: &Study) -> Changes {
        Changes::studied(&self.job, &self.study, job, study)
    }
}

/// The part of the job on the desk that a change is of; `None` where there is none any more.
pub fn part(change: &Change) -> Option<Part> {
    if change.turn == Turn::TakenAway {
        return None;
    }
    match change.part {
        ChangedPart::Title | ChangedPart::Settings => None,
        ChangedPart::Run(id) => Some(Part::Run(id)),
        ChangedPart::Joint(id) | ChangedPart::Device(id) => Some(Part::Joint(id)),
        ChangedPart::Passage(id, at) => Some(Part::Penetration(id, at)),
        ChangedPart::Note(at) => Some(Part::Note(at)),
    }
}

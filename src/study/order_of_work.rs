//! The order of work that follows from a job: what is shut, which appliances go out with it, and what is done in turn.
//!
//! Steps carry the places they speak of and an id that never changes, so that a person's own words can be kept beside
//! them. A step without a source says so. Local code, supplier and makers' instructions govern; a step is no clause.

mod isolation;
mod steps;

pub use isolation::{Fate, GoesOut, Isolation};

use super::{Place, Study};
use crate::job::Job;

/// The basis of a step for which no text was found.
pub const PRACTICE: &str = "common practice, no source";

/// What is shut, what goes out, and the steps in turn.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderOfWork {
    /// What parts the work from gas.
    pub isolation: Isolation,
    /// Appliances behind it that stood before, in flow order.
    pub goes_out: Vec<GoesOut>,
    /// What is done, in turn; empty where a job holds no work.
    pub steps: Vec<Step>,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Short name in kebab case, stable for ever, once in an order of work.
    pub id: &'static str,
    /// What it is, in a word or two.
    pub heading: &'static str,
    /// What is done, in sentences.
    pub words: String,
    /// The places that it speaks of.
    pub places: Vec<Place>,
    /// Where it was read, or that it is common practice without a source.
    pub note: &'static str,
}

impl OrderOfWork {
    /// The order of work of a job.
    pub fn of(job: &Job, study: &Study) -> OrderOfWork {
        let shut = isolation::find(job, study);
        OrderOfWork {
            steps: steps::all(job, study, &shut),
            isolation: shut.isolation,
            goes_out: shut.goes_out,
        }
    }

    /// A step by its id.
    pub fn step(&self, id: &str) -> Option<&Step> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// Appliances that are lit again, in flow order.
    pub fn relit(&self) -> impl Iterator<Item = &GoesOut> {
        self.goes_out.iter().filter(|out| out.fate == Fate::Relit)
    }
}

//! The order of work that follows from a job: what is shut, which appliances go out with it, and what is done in turn.
//!
//! Steps carry the places they speak of and an id that never changes, so that a person's own words can be kept beside
//! them. A step without a source says so. Local code, supplier and makers' instructions govern; a step is no clause.

mod isolation;
mod own;
mod steps;

pub use isolation::{Fate, GoesOut, Isolation};
pub use steps::how_copper_is_joined;

use crate::codebook::Codebook;
use crate::job::{Job, OwnStep};
use crate::study::{Place, Study};
use std::borrow::Cow;

/// The basis of a step for which no text was found.
pub const PRACTICE: &str = "common practice, no source";

/// What is shut, what goes out, and the steps in turn.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderOfWork {
    /// What parts the work from gas.
    pub isolation: Isolation,
    /// Appliances behind it that stood before, in flow order.
    pub goes_out: Vec<GoesOut>,
    /// What is done, in turn, with what a person left out; empty where a job holds no work.
    pub steps: Vec<Step>,
    /// What a person said of steps that are no longer in the order: kept, and shown after it.
    pub no_longer: Vec<OwnStep>,
}

/// A line of the order as it is read: a step, or a person's own line after one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OrderLine<'a> {
    /// A step that is not left out.
    Step(&'a Step),
    /// A line of the person's own.
    Own(&'a str),
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Short name in kebab case, stable for ever, once in an order of work.
    pub id: &'static str,
    /// What it is, in a word or two.
    pub heading: &'static str,
    /// What is done, in sentences: those of a person where there are any.
    pub words: String,
    /// The sentences that follow from the drawing.
    pub made: String,
    /// The places that it speaks of.
    pub places: Vec<Place>,
    /// Where it was read, or that it is common practice without a source.
    pub note: Cow<'static, str>,
    /// Lines of a person's own after it.
    pub after: Vec<String>,
    /// Whether a person left it out.
    pub left_out: bool,
}

/// What stands beside words that a person put in place of those that follow.
pub const EDITED: &str = "edited by hand";

impl Step {
    /// Whether its words are a person's.
    pub fn is_edited(&self) -> bool {
        self.words != self.made
    }

    /// Its basis, or that a person edited it.
    pub fn basis(&self) -> &str {
        if self.is_edited() { EDITED } else { &self.note }
    }
}

impl OrderOfWork {
    /// The order of work of a job.
    pub fn of(job: &Job, study: &Study, book: &Codebook) -> OrderOfWork {
        let shut = isolation::find(job, study);
        let mut order = OrderOfWork {
            steps: steps::all(job, study, book, &shut),
            isolation: shut.isolation,
            goes_out: shut.goes_out,
            no_longer: Vec::new(),
        };
        own::take_up(&mut order, &job.by_hand);
        order
    }

    /// The order as it is read: steps that are not left out, each with the person's own lines after it.
    pub fn lines(&self) -> impl Iterator<Item = OrderLine<'_>> {
        self.steps.iter().flat_map(|step| {
            let shown = (!step.left_out).then_some(OrderLine::Step(step));
            let after = step.after.iter().map(|line| OrderLine::Own(line));
            shown.into_iter().chain(after)
        })
    }

    /// What a person said of steps that are no longer in the order, each in one line.
    pub fn said_of_no_step(&self) -> impl Iterator<Item = String> {
        self.no_longer.iter().map(|own| {
            let words = own.words.iter().chain(&own.after).map(String::as_str);
            let left_out = own.left_out.then_some("left out");
            let said: Vec<&str> = words.chain(left_out).collect();
            format!("{}: {}", own.step, said.join("; "))
        })
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

//! A job's study with what the rules found in it.

use super::{Finding, Findings};
use crate::codebook::Codebook;
use crate::job::Job;
use crate::study::Study;
use std::sync::Arc;

/// A study and the findings of the rules. Who prints or shows findings asks for this: a study alone has none, and so
/// cannot be taken for one in which nothing was found.
#[derive(Clone, Debug)]
pub struct Checked {
    /// What follows from the job.
    pub study: Arc<Study>,
    /// What the rules found in it, worst first.
    pub findings: Findings,
}

impl Checked {
    /// Studies a job under the profile that it names, or the codebook's default, and lets all rules look at it.
    pub fn of(job: &Job, book: &Codebook) -> Checked {
        Checked::with(Arc::new(Study::of(job, book)), job, book)
    }

    /// The same with a study that is of this job already: the rules look anew, at its title and notes too.
    pub fn with(study: Arc<Study>, job: &Job, book: &Codebook) -> Checked {
        let findings = Findings::of(job, book, &study);
        Checked { study, findings }
    }

    /// Whether nothing was found that must be mended before work starts.
    pub fn is_clear(&self) -> bool {
        self.must_fix().next().is_none()
    }

    /// The findings that must be mended before work starts.
    pub fn must_fix(&self) -> impl Iterator<Item = &Finding> {
        self.findings.must_fix()
    }
}

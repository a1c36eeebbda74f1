//! From a draft to a step, and from a step to the job: the two doors at which everything is checked.

use super::change::{self, Side};
use super::draft::Draft;
use super::{Refusal, Step, check};
use crate::job::Job;

impl Draft<'_> {
    /// Checks the changes and makes them a step.
    ///
    /// # Errors
    /// When the changed job would be wrong in a way in which it was not wrong before.
    pub fn finish(self, name: impl Into<String>) -> Result<Step, Refusal> {
        check::check(&self)?;
        Ok(Step::new(name, self.into_changes()))
    }
}

impl Step {
    /// Changes a job, whole or not at all.
    ///
    /// # Errors
    /// When the job does not hold what the step starts from, or would be wrong afterwards in a new way.
    pub fn apply(&self, job: &mut Job) -> Result<(), Refusal> {
        if !change::holds(job, self.changes(), Side::Before) {
            return Err(Refusal::Stale);
        }
        // A variant that is shown was checked when it was drawn.
        if !self.is_of_variants() {
            check::check(&Draft::of_changes(job, self.changes()))?;
        }
        self.put(job, Side::After);
        Ok(())
    }
}

//! Everything that was done, to be taken back and done again.
//!
//! Memory grows with what was changed, not with the size of the job.

use super::change::Side;
use super::step::Step;
use crate::job::Job;

/// The steps done and taken back.
#[derive(Clone, Debug, Default)]
pub struct History {
    /// Steps done, oldest first.
    done: Vec<Step>,
    /// Steps taken back, the next to be done again last.
    undone: Vec<Step>,
    /// How many steps were done when the job was last saved; `None` when that state cannot be reached any more.
    saved: Option<usize>,
}

impl History {
    /// Nothing done to a job that lies saved as it is.
    pub fn saved() -> History {
        History {
            saved: Some(0),
            ..History::default()
        }
    }

    /// Keeps a step that has just been done. One without changes is not kept.
    pub fn record(&mut self, step: Step) {
        if step.is_empty() {
            return;
        }
        if self.saved.is_some_and(|saved| saved > self.done.len()) {
            self.saved = None;
        }
        self.undone.clear();
        self.done.push(step);
    }

    /// Takes the last step back. Says whether the job has changed.
    pub fn undo(&mut self, job: &mut Job) -> bool {
        let Some(step) = self.done.pop() else { return false };
        step.put(job, Side::Before);
        self.undone.push(step);
        true
    }

    /// Does the step again that was taken back last. Says whether the job has changed.
    pub fn redo(&mut self, job: &mut Job) -> bool {
        let Some(step) = self.undone.pop() else { return false };
        step.put(job, Side::After);
        self.done.push(step);
        true
    }

    /// The step done last.
    pub fn last(&self) -> Option<&Step> {
        self.done.last()
    }

    /// The name of the step that undo takes back.
    pub fn next_undo(&self) -> Option<&str> {
        self.done.last().map(Step::name)
    }

    /// The name of the step that redo does again.
    pub fn next_redo(&self) -> Option<&str> {
        self.undone.last().map(Step::name)
    }

    /// How many steps are done.
    pub fn depth(&self) -> usize {
        self.done.len()
    }

    /// Notes that the job lies saved as it is now.
    pub fn mark_saved(&mut self) {
        self.saved = Some(self.done.len());
    }

    /// Notes that no state that can be reached lies saved.
    pub fn mark_unsaved(&mut self) {
        self.saved = None;
    }

    /// Whether the job is as it was when last saved.
    pub fn is_saved(&self) -> bool {
        self.saved == Some(self.done.len())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::edit;
    use crate::editor::fixture::house;
    use crate::job::{Job, TitleBlock};

    fn rename(history: &mut History, job: &mut Job, name: &str) {
        let title = TitleBlock {
            job: name.to_owned(),
            ..job.title.clone()
        };
        let step = edit::set_title(job, title).unwrap();
        step.apply(job).unwrap();
        history.record(step);
    }

    #[test]
    fn the_saved_state_is_known_until_it_cannot_be_reached() {
        let (mut job, mut history) = (house(), History::saved());
        rename(&mut history, &mut job, "a");
        history.mark_saved();
        history.undo(&mut job);
        assert!(!history.is_saved());
        history.redo(&mut job);
        assert!(history.is_saved());
        history.undo(&mut job);
        rename(&mut history, &mut job, "b");
        history.undo(&mut job);
        history.redo(&mut job);
        assert!(!history.is_saved(), "another way was taken");
    }
}

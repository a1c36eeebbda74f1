//! Everything that was done, to be taken back and done again.
//!
//! Memory grows with what was changed, not with the size of the job. While a gesture is open its steps lie apart; it
//! ends as one step or as none.

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
    /// Steps of the open gesture.
    gesture: Option<Vec<Step>>,
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
        match &mut self.gesture {
            Some(steps) => steps.push(step),
            None => self.keep(step),
        }
    }

    fn keep(&mut self, step: Step) {
        if self.saved.is_some_and(|saved| saved > self.done.len()) {
            self.saved = None;
        }
        self.undone.clear();
        self.done.push(step);
    }

    /// Opens a gesture; one that is open already goes on.
    pub fn begin(&mut self) {
        self.gesture.get_or_insert_default();
    }

    /// Ends the gesture: all that was done in it is one step from now on, under this name.
    pub fn end(&mut self, name: &str) {
        let step = Step::merged(name, self.gesture.take().unwrap_or_default());
        if !step.is_empty() {
            self.keep(step);
        }
    }

    /// Breaks the gesture off and takes back all that was done in it. Says whether the job has changed.
    pub fn cancel(&mut self, job: &mut Job) -> bool {
        let steps = self.gesture.take().unwrap_or_default();
        for step in steps.iter().rev() {
            step.put(job, Side::Before);
        }
        !steps.is_empty()
    }

    /// Takes the last step back; an open gesture is broken off instead. Says whether the job has changed.
    pub fn undo(&mut self, job: &mut Job) -> bool {
        if self.gesture.is_some() {
            return self.cancel(job);
        }
        let Some(step) = self.done.pop() else { return false };
        step.put(job, Side::Before);
        self.undone.push(step);
        true
    }

    /// Does the step again that was taken back last, unless a gesture is open. Says whether the job has changed.
    pub fn redo(&mut self, job: &mut Job) -> bool {
        if self.gesture.is_some() {
            return false;
        }
        let Some(step) = self.undone.pop() else { return false };
        step.put(job, Side::After);
        self.done.push(step);
        true
    }

    /// The step done last, in the open gesture or before.
    pub fn last(&self) -> Option<&Step> {
        self.gesture
            .as_ref()
            .and_then(|steps| steps.last())
            .or(self.done.last())
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
        let open = self.gesture.as_ref().is_some_and(|steps| !steps.is_empty());
        !open && self.saved == Some(self.done.len())
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
    fn a_gesture_is_one_step_and_a_cancelled_one_is_none() {
        let (start, mut history) = (house(), History::saved());
        let mut job = start.clone();
        history.begin();
        for name in ["P", "Pa", "Pat"] {
            rename(&mut history, &mut job, name);
        }
        assert!(!history.is_saved());
        history.end("Name the job");
        assert_eq!((history.depth(), history.next_undo()), (1, Some("Name the job")));
        assert!(history.undo(&mut job));
        assert!(history.is_saved() && job == start);

        history.begin();
        rename(&mut history, &mut job, "X");
        assert!(history.cancel(&mut job));
        assert_eq!(job, start);
        assert_eq!(
            history.next_redo(),
            Some("Name the job"),
            "a cancelled gesture leaves everything as it was"
        );
        history.redo(&mut job);
        assert_eq!(job.title.job, "Pat");
    }

    #[test]
    fn a_gesture_that_ends_where_it_began_leaves_nothing() {
        let (start, mut history) = (house(), History::saved());
        let mut job = start.clone();
        history.begin();
        rename(&mut history, &mut job, "X");
        rename(&mut history, &mut job, &start.title.job);
        history.end("Name the job");
        assert!(history.is_saved() && history.next_undo().is_none());
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

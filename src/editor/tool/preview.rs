//! A change of the whole drawing that is shown before it is done: Enter or a click does it, Escape leaves all as it is.

use super::{CLICK_OR_ENTER, Choose, Effect, Tool};
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::input::{Input, Key};
use crate::editor::look::Look;
use crate::editor::{Refusal, Step};

/// A change of the whole drawing, not done yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Preview {
    step: Step,
    /// What it does, after "Click or Enter: ".
    words: String,
}

impl Preview {
    /// Shows a step that was made of the job as it is.
    pub fn new(step: Step, words: String) -> Preview {
        Preview { step, words }
    }

    /// The state after an input, and what is to be done.
    pub fn transition(self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        let idle = Tool::Choose(Choose::default());
        match input {
            Input::Press | Input::Key(Key::Enter) => match self.plan(look) {
                Ok(step) => (idle, vec![Effect::Apply(step)]),
                Err(refusal) => (idle, vec![Effect::Say(refusal)]),
            },
            Input::Key(Key::Escape) => (idle, Vec::new()),
            _ => (Tool::Preview(self), Vec::new()),
        }
    }

    /// The step, if the job is still the one of which it was made.
    fn plan(&self, look: &Look) -> Result<Step, Refusal> {
        let mut job = look.job.clone();
        self.step.apply(&mut job).map(|()| self.step.clone())
    }

    /// What would be done next.
    pub fn hint(&self, look: &Look) -> Hint {
        Hint {
            words: format!("{CLICK_OR_ENTER}: {}; Esc leaves the drawing as it is", self.words),
            ghost: Ghost {
                lines: Ghost::lines_of(look.job, &self.step),
                ..Ghost::default()
            },
            step: Some(Ok(self.step.clone())),
        }
    }
}

//! Putting down what was copied: the copy follows the pointer or the direction keys, held by its anchor.

use super::{CLICK_OR_ENTER, Choose, ENTER, Effect, Tool};
use crate::editor::edit::{Clipboard, paste};
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::input::{Input, Key};
use crate::editor::look::Look;
use crate::editor::{Refusal, Spot, Step};
use crate::job::LatticePoint;

/// Putting down what was copied.
#[derive(Clone, Debug, PartialEq)]
pub struct Put {
    what: Clipboard,
    /// Where the anchor goes, when the keys say so.
    at: Option<LatticePoint>,
}

impl Put {
    /// Holds a copy; without a pointer it starts where it came from.
    pub fn new(what: Clipboard, look: &Look) -> Put {
        let at = look.pointer.is_none().then(|| what.anchor());
        Put { what, at }
    }

    fn place(&self, look: &Look) -> LatticePoint {
        let pointed = || Some(look.spot()?.at);
        self.at.or_else(pointed).unwrap_or(self.what.anchor())
    }

    /// The state after an input, and what is to be done.
    pub fn transition(mut self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        match input {
            Input::Pointer(_) => self.at = None,
            Input::Press | Input::Key(Key::Enter) => {
                if *input == Input::Press {
                    self.at = None;
                }
                return match self.plan(look) {
                    Ok(step) if look.held.add => (Tool::Put(self), vec![Effect::Apply(step)]),
                    Ok(step) => {
                        let done = Tool::Choose(Choose::default());
                        (done, vec![Effect::Apply(step), Effect::SelectNew])
                    }
                    Err(refusal) => (Tool::Put(self), vec![Effect::Say(refusal)]),
                };
            }
            Input::Key(Key::Way(toward)) => self.at = Some(self.place(look) + toward.way()),
            Input::Key(Key::Escape) => return (Tool::Choose(Choose::default()), Vec::new()),
            _ => {}
        }
        (Tool::Put(self), Vec::new())
    }

    fn plan(&self, look: &Look) -> Result<Step, Refusal> {
        paste(look.job, &self.what, self.place(look))
    }

    /// What would be done next.
    pub fn hint(&self, look: &Look) -> Hint {
        let (at, plan) = (self.place(look), self.plan(look));
        let (by, standing) = (at - self.what.anchor(), Spot::at(at).standing(look.job));
        let ghost = Ghost {
            lines: self.what.lines().map(|ends| ends.map(|end| end + by)).collect(),
            refused: plan.is_err(),
            ..Ghost::default().at(at, standing)
        };
        let does = if self.at.is_none() { CLICK_OR_ENTER } else { ENTER };
        let words = match &plan {
            Ok(_) => format!("{does}: put the copy at {standing}"),
            Err(refusal) => refusal.to_string(),
        };
        Hint {
            words,
            ghost,
            step: Some(plan),
        }
    }
}

//! The tools: each a state that an input turns into the next state and a list of effects.
//!
//! A tool changes nothing by itself. It keeps places and ids, never indexes into the job, so that the job may change
//! under it: what is gone is refused in words when it is used.

mod choose;
mod draw;
mod place;
mod preview;
mod put;

pub use choose::Choose;
pub use draw::{Draw, Laid, Pencil, Start};
pub use place::{Place, Target};
pub use preview::Preview;
pub use put::Put;

use super::edit::Pen;
use super::ghost::Hint;
use super::input::Input;
use super::look::Look;
use super::{Item, Refusal, Selection, Step};
use crate::job::LatticePoint;

/// What is in the hand.
#[derive(Clone, Debug, PartialEq)]
pub enum Tool {
    /// Choosing and moving what is drawn.
    Choose(Choose),
    /// Drawing pipe.
    Draw(Draw),
    /// Placing a thing of the palette.
    Place(Place),
    /// Putting down what was copied.
    Put(Put),
    /// A change of the whole drawing, shown before it is done.
    Preview(Preview),
}

impl Default for Tool {
    fn default() -> Tool {
        Tool::Choose(Choose::default())
    }
}

/// What a tool wants done.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// Do a step.
    Apply(Step),
    /// Choose this and nothing else.
    Select(Selection),
    /// Choose the joints and runs that the step before brought into being.
    SelectNew,
    /// Choose the device, passage or note that the step before put down.
    SelectPlaced,
    /// Choose the run that the step before laid between two places.
    SelectLaid([LatticePoint; 2]),
    /// Draw with this pen from now on.
    Take(Pen),
    /// Say why nothing is done.
    Say(Refusal),
    /// Tell what was done, where that is not plain.
    Tell(String),
    /// Lead the plane through a place.
    Through(LatticePoint),
    /// Take the last step back.
    TakeBack,
}

impl Tool {
    /// A fresh tool for drawing pipe, which starts where something is chosen.
    pub fn draw(look: &Look) -> Tool {
        Tool::Draw(Draw::new(look))
    }

    /// A fresh tool for placing an item, which goes where something is chosen or the pencil stands.
    pub fn place(item: Item, back: Tool, look: &Look) -> Tool {
        Tool::Place(Place::new(item, back, look))
    }

    /// The state after an input, and what is to be done.
    pub fn transition(self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        match self {
            Tool::Choose(state) => state.transition(input, look),
            Tool::Draw(state) => state.transition(input, look),
            Tool::Place(state) => state.transition(input, look),
            Tool::Put(state) => state.transition(input, look),
            Tool::Preview(state) => state.transition(input, look),
        }
    }

    /// What would be done next, in words, as a ghost and as a step.
    pub fn hint(&self, look: &Look) -> Hint {
        match self {
            Tool::Choose(state) => state.hint(look),
            Tool::Draw(state) => state.hint(look),
            Tool::Place(state) => state.hint(look),
            Tool::Put(state) => state.hint(look),
            Tool::Preview(state) => state.hint(look),
        }
    }

    /// The state after the step at this depth was taken back by whatever way.
    pub fn taken_back(self, depth: usize) -> Tool {
        match self {
            Tool::Draw(state) => Tool::Draw(state.taken_back(depth)),
            other => other,
        }
    }

    /// The state after a step was done again.
    pub fn done_again(self, step: &Step, look: &Look) -> Tool {
        match self {
            Tool::Draw(state) => Tool::Draw(state.done_again(step, look)),
            other => other,
        }
    }

    /// Whether what is typed over the paper is for it.
    pub fn takes_text(&self, look: &Look) -> bool {
        match self {
            Tool::Draw(Draw::Drawing(_)) => true,
            Tool::Place(state) => state.takes_text(look),
            Tool::Draw(Draw::Seeking(_)) | Tool::Choose(_) | Tool::Put(_) | Tool::Preview(_) => false,
        }
    }

    /// What was typed so far.
    pub fn typed(&self) -> &str {
        match self {
            Tool::Draw(state) => state.typed(),
            Tool::Place(state) => state.typed(),
            Tool::Choose(_) | Tool::Put(_) | Tool::Preview(_) => "",
        }
    }
}

/// What does a thing where the pointer is, in words for the status line.
const CLICK_OR_ENTER: &str = "Click or Enter";
/// What does it where keys have led: a click goes to the pointer.
const ENTER: &str = "Enter";

/// Takes one more character onto what is typed. Enough is enough.
fn type_on(typed: &mut String, character: char) {
    const MOST: usize = 200;
    if !character.is_control() && typed.chars().count() < MOST {
        typed.push(character);
    }
}

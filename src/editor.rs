//! Everything of the drawing window that needs no window.

mod change;
mod check;
mod draft;
pub mod edit;
#[cfg(test)]
mod fixture;
mod history;
mod legs;
mod line;
mod part;
mod refusal;
mod spot;
mod step;

pub use change::{Change, Swap};
pub use check::FARTHEST;
pub use history::History;
pub use legs::Flow;
pub use part::{Part, Selection};
pub use refusal::Refusal;
pub use spot::{Spot, Standing};
pub use step::Step;

//! The editor driven as a person drives it, by inputs and commands only.

#[path = "../support/dice.rs"]
mod dice;
mod hand;
mod random;
mod redraw;
mod stories;

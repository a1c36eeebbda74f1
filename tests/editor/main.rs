//! The editor driven as a person drives it, by inputs and commands only.

#[path = "../support/apart_from_ids.rs"]
mod apart_from_ids;
#[path = "../support/dice.rs"]
mod dice;
mod hand;
#[path = "../support/item.rs"]
mod item;
mod random;
mod redraw;
#[path = "../support/rules.rs"]
mod rules;
mod stories;

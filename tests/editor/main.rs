//! The editor driven as a person drives it, by inputs and commands only.

#[path = "../support/apart_from_ids.rs"]
mod apart_from_ids;
#[path = "../support/dice.rs"]
mod dice;
#[path = "../support/draft.rs"]
mod draft;
mod fixes;
mod hand;
#[path = "../support/item.rs"]
mod item;
#[path = "../support/old_house.rs"]
mod old_house;
mod random;
#[path = "../support/random_job.rs"]
mod random_job;
mod redraw;
mod remedies;
#[path = "../support/rules.rs"]
mod rules;
mod stories;

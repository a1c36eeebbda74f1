//! The real window without a display: a person's mouse and keyboard, and what is then to be seen.
//!
//! `LOOK=/tmp/look cargo test --test window` saves the pictures that stories look at.
#![cfg(feature = "window")]

#[path = "../support/apart_from_ids.rs"]
mod apart_from_ids;
mod by_hand;
mod carry;
mod chance;
mod choosing;
mod compare;
mod counted;
#[path = "../support/dice.rs"]
mod dice;
#[path = "../support/draft.rs"]
mod draft;
mod drawing;
mod fields;
mod files;
mod form;
mod hand;
#[path = "../support/item.rs"]
mod item;
mod large;
mod menus;
#[path = "../support/old_house.rs"]
mod old_house;
mod own;
mod painter;
mod panels;
mod pictures;
mod redraw;
#[path = "../support/rules.rs"]
mod rules;
mod sheet;
mod start_up;
#[path = "../support/street.rs"]
mod street;
mod typed;
mod variants;
mod views;

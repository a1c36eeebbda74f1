//! The real window without a display: a person's mouse and keyboard, and what is then to be seen.
//!
//! `LOOK=/tmp/look cargo test --test window` saves the pictures that stories look at.
#![cfg(feature = "window")]

#[path = "../support/apart_from_ids.rs"]
mod apart_from_ids;
mod choosing;
mod drawing;
mod files;
mod form;
mod hand;
mod menus;
mod painter;
mod redraw;
mod sheet;
mod views;

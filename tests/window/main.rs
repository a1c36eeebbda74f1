//! The real window without a display: a person's mouse and keyboard, and what is then to be seen.
//!
//! `LOOK=/tmp/look cargo test --test window` saves the pictures that stories look at.
#![cfg(feature = "window")]

mod choosing;
mod drawing;
mod files;
mod hand;
mod menus;
mod painter;
mod sheet;
mod views;

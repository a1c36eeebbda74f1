//! Stubout: isometric sketches of fuel-gas piping, drawn, sized and checked.
//!
//! One way through the house: a [`job`] is what a person drew; a `study` is what follows from it; a `scene` is what it
//! looks like; `export` is where it goes. Floors are held by `tests/floors.rs`.
#![cfg_attr(
    not(test),
    deny(
        clippy::disallowed_methods,
        clippy::expect_used,
        clippy::panic,
        clippy::print_stdout,
        clippy::unwrap_used
    )
)]

pub mod advice;
#[cfg(feature = "window")]
pub mod app;
pub mod arrange;
pub mod changes;
pub mod cli;
pub mod codebook;
#[cfg(feature = "window")]
pub mod desk;
#[cfg(feature = "window")]
pub mod details;
pub mod disk;
pub mod drawing;
pub mod editor;
pub mod export;
pub mod file;
#[cfg(feature = "window")]
pub mod filing;
pub mod fittings;
pub mod floor_plan;
pub mod gas;
pub mod job;
pub mod lesson;
pub mod licenses;
#[cfg(feature = "window")]
pub mod look;
pub mod nearest;
pub mod network;
pub mod permit_list;
pub mod pressure;
pub mod projection;
pub mod rules;
pub mod scene;
pub mod sheet;
pub mod sizing;
pub mod study;
pub mod units;
#[cfg(feature = "window")]
pub mod view;
pub mod work;

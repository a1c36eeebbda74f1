//! Files on the disk: read whole, written whole or not at all.
//!
//! What is written goes to a file beside it first and takes its place when every byte lies there, so that a full disk or a
//! pulled plug leaves the old file. Every failure is a [`Trouble`] with its place and what to do. The calls of the system
//! by which a file is written are a [`layer`], so that tests can let each of them fail. Knows job files, no commands and
//! no window.

mod jobs;
mod layer;
mod trouble;
mod whole;

pub use jobs::{Print, Source, bytes, read, save, text};
pub use layer::{About, Layer, System, What};
pub use trouble::{Trouble, capital};
pub use whole::{write, write_by};

//! The size of every section and the figures that decide it: the length that is read, the table or equation, what each
//! size carries.
//!
//! It says nothing of what is to be bought or mended.

pub(crate) mod carrier;
mod figures;
mod section;
pub(crate) mod settle;
mod size;

pub(crate) use carrier::{carries, sentence};
pub(crate) use figures::Figures;
pub use section::{DesignLength, LengthRule, Section};
pub(crate) use settle::Capacities;
pub use size::{Basis, Origin, SizeCapacity, Sizing, Verdict};

//! Quantities of gas piping, one type per meaning.
//!
//! What people type is read by `parse`, what a fitter writes is printed by `Show`; inside the program a quantity is
//! never a bare number. Constructors and getters name the unit; the nonsense operators are left out (two gauge
//! pressures do not add, their difference is a [`PressureDrop`]). Knows nothing of pipes, jobs or files.

mod angle;
mod clocked;
mod designation;
mod heat;
mod length;
mod nominal;
mod parse;
mod pressure;
mod show;
mod system;

pub use angle::Angle;
pub use clocked::Clocked;
pub use designation::Designation;
pub use heat::{Flow, HeatRate, HeatingValue};
pub use length::{InsideDiameter, Length};
pub use nominal::NominalSize;
pub use parse::{Parse, UnitError};
pub use pressure::{AbsolutePressure, GaugePressure, PressureDrop};
pub use show::{Fraction, PSI_FROM, Show, grouped, in_units, ranges};
pub use system::UnitSystem;

//! What stands at every joint: fittings and devices with their ports, and what pipe takes out of them.
//!
//! The one account of fittings, read by counts, take-off, cut list, labels and legend. It knows sizes, but not why.

mod assembly;
pub(crate) mod fitting;
pub(crate) mod making;
mod port;
pub(crate) mod take_out;

pub use assembly::{Assembly, Owner};
pub(crate) use fitting::to_tubing;
pub use fitting::{Fitting, FittingCount, FittingKind};
pub use port::{Port, PortKind, Takes};
pub(crate) use take_out::Ends;
pub use take_out::{End, Taken, take_out};

//! Who is fed, from where, with what load: the piping as a tree with flow direction, its pressure zones, its stretches
//! and outlets, and how runs meet at joints.
//!
//! Only what the drawing and the fuel say. It knows no size, no capacity and no loss.

mod gas_facts;
mod lie;
pub(crate) mod load;
pub(crate) mod meeting;
pub(crate) mod outlet;
mod remote;
pub(crate) mod stretch;
mod survey;
mod tree;
pub(crate) mod zone;

pub use gas_facts::GasFacts;
pub(crate) use lie::Lie;
pub use load::Load;
pub(crate) use meeting::{Meeting, Passage, Way};
pub use outlet::{Hose, Outlet, OutletKind, by_letter};
pub(crate) use outlet::{is_lettered, kind, letters};
pub(crate) use remote::Ends;
pub(crate) use stretch::{Course, Stretch};
pub(crate) use survey::Survey;
pub(crate) use tree::Closing;
pub use tree::Network;
pub use zone::{DropFrom, Zone};

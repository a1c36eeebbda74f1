//! What one run loses, and the pressure from the point of delivery to every outlet.
//!
//! Equivalent lengths of what stands in the way, losses of rated devices, the march down the tree, rings. Sizes are given to
//! it: it chooses none.

pub(crate) mod device;
mod flowing;
mod inlet;
pub(crate) mod leg;
mod march;
mod obstacle;
mod rating;
mod ring;
mod roughness;

pub use device::{DeviceStudy, RatedPart, RatingVerdict};
pub use flowing::Flowing;
pub(crate) use leg::{Around, Leg, Sent};
pub(crate) use march::March;
pub(crate) use obstacle::{Bores, Obstacles};
pub use ring::{Ring, Unsolved};
pub(crate) use roughness::roughness;

//! Fittings that the geometry implies.

mod words;

use crate::job::{Material, State};
use crate::units::NominalSize;

/// A fitting at a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitting {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// What it is.
    pub kind: FittingKind,
    /// Sizes of its ends: elbow and coupling inlet first; tee and cross larger run, other run, outlets (ASME B16.3).
    pub sizes: Vec<NominalSize>,
    /// Material of the pipe that it joins; the upstream one at a transition.
    pub material: Material,
    /// New when any pipe that it joins is new.
    pub state: State,
    /// The section upstream of it, to which it is counted.
    pub section: Option<usize>,
}

/// Kinds of fittings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FittingKind {
    /// A turn of 90°.
    Elbow90,
    /// A turn of 90° with one male end.
    StreetElbow90,
    /// A turn of 45°.
    Elbow45,
    /// A turn of another angle, in whole degrees: no such stock fitting.
    OddElbow(u16),
    /// A bend in the tubing itself, no fitting.
    Bend,
    /// Three ways.
    Tee,
    /// Four ways.
    Cross,
    /// More ways than any stock fitting has.
    ManyWays(u16),
    /// Two lengths in line of one size.
    Coupling,
    /// Two lengths in line, or a device end, of two sizes.
    ReducingCoupling,
    /// One material to another.
    Transition,
    /// The capped nipple of a sediment trap.
    TrapNipple,
    /// A cap at a person's cap device.
    Cap,
}

/// Like fittings together.
#[derive(Clone, Debug, PartialEq)]
pub struct FittingCount {
    /// What they are.
    pub kind: FittingKind,
    /// Sizes of their ends.
    pub sizes: Vec<NominalSize>,
    /// Their material.
    pub material: Material,
    /// New, existing or removed.
    pub state: State,
    /// How many.
    pub count: usize,
    /// Where they are, positions in `job.joints`.
    pub joints: Vec<usize>,
}

/// Counts like fittings together, in the order of kind, sizes, material and state.
pub fn count(fittings: &[Fitting]) -> Vec<FittingCount> {
    let _ = fittings;
    Vec::new()
}

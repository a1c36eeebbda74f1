//! Pipe between two branchings: one load, one material, one size.

use super::{Load, Sizing};
use crate::job::{Material, State};
use crate::units::Length;
use std::ops::Range;

/// A chain of runs of one load, material, state and given size, within one zone.
#[derive(Clone, Debug)]
pub struct Section {
    /// Its number on drawing and schedules, from 1, in flow order.
    pub number: usize,
    /// Joint at its upstream end.
    pub from: usize,
    /// Joint at its downstream end.
    pub to: usize,
    /// Its runs in flow order.
    pub runs: Vec<usize>,
    /// The section that feeds it.
    pub fed_by: Option<usize>,
    /// Its zone.
    pub zone: usize,
    /// Its material.
    pub material: Material,
    /// Its state: existing or new.
    pub state: State,
    /// Its own measured length.
    pub measured: Length,
    /// What it carries.
    pub load: Load,
    /// The outlets that it serves, a range of `study.outlets`.
    pub serves: Range<usize>,
    /// The length that sizes it.
    pub design: DesignLength,
    /// Its size and the reason for it.
    pub sizing: Sizing,
}

/// The length that enters the table or the equation.
#[derive(Clone, Debug)]
pub struct DesignLength {
    /// Why this length.
    pub rule: LengthRule,
    /// Joint of the outlet or regulator that it leads to.
    pub to: usize,
    /// Pipe as measured along the way.
    pub measured: Length,
    /// Equivalent length of fittings added under the profile.
    pub fittings: Length,
}

impl DesignLength {
    /// Measured and added length together.
    pub fn total(&self) -> Length {
        self.measured + self.fittings
    }
}

/// Why a length was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LengthRule {
    /// The longest length of the zone, for every section.
    Longest,
    /// The length to the section's own most remote outlet.
    Branch,
}

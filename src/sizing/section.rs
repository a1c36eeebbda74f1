//! Pipe between two branchings: one load, one material, one size.

use super::{Origin, Sizing};
use crate::codebook::Marked;
use crate::job::{Material, State};
use crate::network::Load;
use crate::units::Length;
use std::ops::Range;

/// A chain of runs of one load, material, state and given size, within one zone.
///
/// Elbows, valves, unions, meters and traps do not end it; a tee does, even one whose other way carries nothing. What
/// leads on from a connector or a quick-disconnect coupling is a section of its own and no pipe: the connector itself.
#[derive(Clone, Debug)]
pub struct Section {
    /// Its number on drawing and schedules, from 1, in flow order. Hoses and connectors are counted after all pipe: a
    /// drawing and its schedule do not number them.
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

impl Section {
    /// Whether it is pipe, which a table or an equation judges: not a hose or connector, which its own rating does.
    pub fn is_pipe(&self) -> bool {
        self.sizing.origin != Origin::Connector
    }

    /// The length that sizes it; none of a hose or connector, which its own rating judges.
    pub fn sizing_length(&self) -> Option<Length> {
        self.is_pipe().then(|| self.design.total())
    }

    /// What it is made of, short: its material, or "hose" of a hose or connector, which is no pipe.
    pub fn made_of(&self) -> &'static str {
        match self.sizing.origin {
            Origin::Connector => "hose",
            Origin::Known | Origin::Fixed | Origin::Found | Origin::Unknown => self.material.short(),
        }
    }
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
    /// Length added for fittings under the profile, and for bends of corrugated tubing under its tables.
    pub fittings: Length,
    /// The row of the code's tables that the way goes up to, where the profile names rows.
    pub row: Option<Marked<Length>>,
    /// Length added to reach that row.
    pub rounding: Length,
}

impl DesignLength {
    /// Measured and all added length together.
    pub fn total(&self) -> Length {
        self.measured + self.rounding + self.fittings
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

//! What holds for the whole job.

use super::{CopperJoints, Material, OwnTable};
use crate::units::{Length, PressureDrop, UnitSystem};

/// Choices that hold for the whole job.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// Units in which the drawing speaks.
    pub units: UnitSystem,
    /// True length of one lattice step of a run whose length was not typed.
    pub step: Length,
    /// Material of runs that do not name their own.
    pub material: Material,
    /// How all copper tube is joined.
    pub copper: CopperJoints,
    /// Name of the profile of local practice.
    pub profile: String,
    /// Capacity tables of the person's own by which the job is sized, before the published ones; the first goes first.
    pub tables: Vec<OwnTable>,
    /// Sizing method, when it is not the profile's.
    pub method: Option<Method>,
    /// Allowed drop from the point of delivery, when it is not the profile's.
    pub allowed_drop: Option<PressureDrop>,
    /// Height above sea level, where it matters.
    pub altitude: Option<Length>,
    /// True height of the lattice's zero above the drawing's stated zero of elevations.
    pub datum: Length,
    /// What the stated zero of elevations is: "finished floor".
    pub datum_name: String,
    /// Which way on the lattice is true north.
    pub north: NorthAxis,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            units: UnitSystem::Us,
            step: Length::from_feet(1.0),
            material: Material::Steel40,
            copper: CopperJoints::Brazed,
            profile: "us-ifgc".to_owned(),
            tables: Vec::new(),
            method: None,
            allowed_drop: None,
            altitude: None,
            datum: Length::ZERO,
            datum_name: "finished floor".to_owned(),
            north: NorthAxis::North,
        }
    }
}

/// How lengths for sizing are taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Method {
    /// One length, from the point of delivery to the most remote outlet, sizes every section.
    LongestLength,
    /// Sections off the longest run use the length to their own most remote outlet.
    #[default]
    BranchLength,
}

impl Method {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Method::LongestLength => "longest length",
            Method::BranchLength => "branch length",
        }
    }
}

/// Which way of the lattice points north.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum NorthAxis {
    /// The lattice's own north.
    #[default]
    North,
    /// The lattice's east.
    East,
    /// The lattice's south.
    South,
    /// The lattice's west.
    West,
}

impl NorthAxis {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            NorthAxis::North => "grid north",
            NorthAxis::East => "grid east",
            NorthAxis::South => "grid south",
            NorthAxis::West => "grid west",
        }
    }
}

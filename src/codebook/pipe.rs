//! Pipe and tube: sizes, bores, outsides, weights and volumes.

use super::{Codebook, Marked};
use crate::job::Material;
use crate::units::{InsideDiameter, Length, NominalSize};

/// What is known of one size of one material. What nobody published is `None`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeSize {
    /// The nominal size.
    pub size: NominalSize,
    /// Bore. Corrugated tubing has none: its EHD is a number for comparing, not a diameter in inches.
    pub inside: Option<Marked<InsideDiameter>>,
    /// Outside diameter.
    pub outside: Option<Marked<Length>>,
    /// Wall thickness.
    pub wall: Option<Marked<Length>>,
    /// Standard dimension ratio, outside diameter to wall, of plastic pipe.
    pub sdr: Option<f64>,
    /// Weight in pounds per foot.
    pub pounds_per_foot: Option<Marked<f64>>,
    /// Volume within, in cubic feet per foot.
    pub cubic_feet_per_foot: Option<Marked<f64>>,
}

/// Sizes of every material, small to large, in the order of [`Material::ALL`].
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PipeSizes {
    pub(super) steel40: Vec<PipeSize>,
    pub(super) copper_k: Vec<PipeSize>,
    pub(super) copper_l: Vec<PipeSize>,
    pub(super) csst: Vec<PipeSize>,
    pub(super) pe: Vec<PipeSize>,
}

impl Codebook {
    /// The sizes of a material, small to large.
    pub fn sizes(&self, material: Material) -> &[PipeSize] {
        match material {
            Material::Steel40 => &self.pipe.steel40,
            Material::CopperK => &self.pipe.copper_k,
            Material::CopperL => &self.pipe.copper_l,
            Material::Csst => &self.pipe.csst,
            Material::Pe => &self.pipe.pe,
        }
    }

    /// What is known of a size of a material; `None` when it is not made.
    pub fn pipe(&self, material: Material, size: NominalSize) -> Option<&PipeSize> {
        let sizes = self.sizes(material);
        sizes
            .binary_search_by_key(&size, |pipe| pipe.size)
            .ok()
            .map(|at| &sizes[at])
    }

    /// The bore of a size; `None` when it is not made, and for corrugated tubing.
    pub fn inside_diameter(&self, material: Material, size: NominalSize) -> Option<Marked<InsideDiameter>> {
        self.pipe(material, size)?.inside
    }
}

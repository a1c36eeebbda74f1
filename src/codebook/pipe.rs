//! Pipe and tube: sizes, bores, outsides, weights and volumes.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Marked};
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
    pub sdr: Option<Marked<f64>>,
    /// Weight in pounds per foot.
    pub pounds_per_foot: Option<Marked<f64>>,
    /// Volume within, in cubic feet per foot.
    pub cubic_feet_per_foot: Option<Marked<f64>>,
}

/// The sizes of one material, small to large.
pub(super) type Sizes = Vec<PipeSize>;

/// The sizes of every material.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PipeSizes {
    pub(super) steel40: Sizes,
    pub(super) copper_k: Sizes,
    pub(super) copper_l: Sizes,
    pub(super) csst: Sizes,
    pub(super) pe: Sizes,
}

impl PipeSize {
    pub(super) fn read_all(asset: Asset) -> Result<Sizes, CodebookError> {
        let sheet = Sheet::of_figures(asset)?;
        sheet.records().map(|record| PipeSize::read(&sheet, record)).collect()
    }

    fn read(sheet: &Sheet, record: Record<'_>) -> Result<PipeSize, CodebookError> {
        let figure = |column| match sheet.figures().contains(&column) {
            true => record.figure(column),
            false => Ok(None),
        };
        let length = |column| Ok::<_, CodebookError>(figure(column)?.map(|inches| inches.map(Length::from_inches)));
        Ok(PipeSize {
            size: record.typed("size")?,
            inside: figure("bore_in")?.map(|inches| inches.map(InsideDiameter::from_inches)),
            outside: length("outside_in")?,
            wall: length("wall_in")?,
            sdr: figure("sdr")?,
            pounds_per_foot: figure("lb_per_ft")?,
            cubic_feet_per_foot: figure("ft3_per_ft")?,
        })
    }
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
        let at = sizes.binary_search_by_key(&size, |pipe| pipe.size).ok()?;
        Some(&sizes[at])
    }

    /// The bore of a size; `None` when it is not made, and for corrugated tubing.
    pub fn inside_diameter(&self, material: Material, size: NominalSize) -> Option<Marked<InsideDiameter>> {
        self.pipe(material, size)?.inside
    }
}

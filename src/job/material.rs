//! What pipe and tube is made of.

/// A kind of pipe or tube. Diameters and capacities are the codebook's matter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Material {
    /// Steel pipe, Schedule 40, threaded (ASTM A53, ASME B36.10M).
    #[default]
    Steel40,
    /// Copper tube type K (ASTM B88).
    CopperK,
    /// Copper tube type L (ASTM B88).
    CopperL,
    /// Corrugated stainless steel tubing (ANSI LC 1), sized by its equivalent hydraulic diameter.
    Csst,
    /// Polyethylene pipe (ASTM D2513), outdoors and underground only.
    Pe,
}

impl Material {
    /// All of them.
    pub const ALL: [Material; 5] = [
        Material::Steel40,
        Material::CopperK,
        Material::CopperL,
        Material::Csst,
        Material::Pe,
    ];

    /// The name on drawings and lists.
    pub const fn name(self) -> &'static str {
        match self {
            Material::Steel40 => "steel, Schedule 40",
            Material::CopperK => "copper tube, type K",
            Material::CopperL => "copper tube, type L",
            Material::Csst => "CSST",
            Material::Pe => "polyethylene",
        }
    }

    /// The short name beside a size on the drawing.
    pub const fn short(self) -> &'static str {
        match self {
            Material::Steel40 => "steel",
            Material::CopperK => "copper K",
            Material::CopperL => "copper L",
            Material::Csst => "CSST",
            Material::Pe => "PE",
        }
    }

    /// Whether a turn is bent into the line instead of made with a fitting.
    pub const fn bends(self) -> bool {
        matches!(self, Material::Csst)
    }
}

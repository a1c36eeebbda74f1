//! What things are made of, in the words of a counter.

use crate::codebook::PipeKind;
use crate::job::Material;

/// What a material comes as, in a word of the trade.
pub const fn pipe_word(material: Material) -> &'static str {
    match PipeKind::of(material) {
        PipeKind::Steel | PipeKind::Pe => "pipe",
        PipeKind::Copper | PipeKind::Csst => "tube",
    }
}

/// Material of pipe, tube and nipples.
pub const fn of_pipe(material: Material) -> &'static str {
    match material {
        Material::Steel40 => "black steel, Schedule 40",
        Material::CopperK => "copper, type K",
        Material::CopperL => "copper, type L",
        Material::Csst => "CSST",
        Material::Pe => "polyethylene",
    }
}

/// Material of the fittings that join it.
pub const fn of_fittings(material: Material) -> &'static str {
    match PipeKind::of(material) {
        PipeKind::Steel => "malleable iron, class 150",
        PipeKind::Copper => "copper, to be brazed",
        PipeKind::Csst => "CSST",
        PipeKind::Pe => "polyethylene",
    }
}

/// The short word on drawings, for either.
pub fn short(material: &str) -> &str {
    let all = Material::ALL.into_iter();
    all.filter(|&known| material == of_pipe(known) || material == of_fittings(known))
        .map(Material::short)
        .next()
        .unwrap_or(material)
}

#[cfg(test)]
mod tests {
    use super::super::words::*;

    #[test]
    fn every_material_has_a_short_word() {
        for material in Material::ALL {
            assert_eq!(short(of_pipe(material)), material.short());
        }
        assert_eq!(short(of_fittings(Material::Steel40)), "steel");
        assert_eq!(short("bronze"), "bronze");
    }
}

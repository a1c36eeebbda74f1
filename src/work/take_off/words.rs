//! What things are made of, in the words of a counter.

use crate::job::{CopperJoints, Material};

/// The short word on drawings, for either.
pub fn short(material: &str) -> &str {
    let all = Material::ALL.into_iter();
    let of_fittings = |known| CopperJoints::Brazed.joining(known).of_fittings();
    all.filter(|&known| material == known.at_counter() || material == of_fittings(known))
        .map(Material::short)
        .next()
        .unwrap_or(material)
}

#[cfg(test)]
mod tests {
    use super::super::words::*;
    use crate::job::Joining;

    #[test]
    fn every_material_has_a_short_word() {
        for material in Material::ALL {
            assert_eq!(short(material.at_counter()), material.short());
        }
        assert_eq!(short(Joining::Threaded.of_fittings()), "steel");
        assert_eq!(short("bronze"), "bronze");
    }
}

//! What things are made of, in the words of a counter.

use crate::job::Material;

/// The short word on drawings, for either.
pub fn short(material: &str) -> &str {
    let all = Material::ALL.into_iter();
    all.filter(|&known| material == known.at_counter() || material == known.of_fittings())
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
            assert_eq!(short(material.at_counter()), material.short());
        }
        assert_eq!(short(Material::Steel40.of_fittings()), "steel");
        assert_eq!(short("bronze"), "bronze");
    }
}

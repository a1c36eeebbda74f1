//! How rough the inside of pipe is.

use crate::gas::Roughness;
use crate::job::Material;

/// The roughness of a material; corrugated tubing has none that is known.
pub(crate) fn roughness(material: Material) -> Option<Roughness> {
    match material {
        Material::Steel40 => Some(Roughness::STEEL),
        Material::CopperK | Material::CopperL => Some(Roughness::COPPER),
        Material::Pe => Some(Roughness::POLYETHYLENE),
        Material::Csst => None,
    }
}

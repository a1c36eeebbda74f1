//! By what names the sizes of a job go.

use super::Profile;
use crate::job::{Material, Settings};
use crate::units::{NominalSize, Show, UnitSystem};

/// By what names the sizes of a job go: in its units, and copper tube by its outside diameter where the tables of the
/// profile's code do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SizeNames {
    units: UnitSystem,
    copper_by_outside: bool,
}

impl SizeNames {
    pub(crate) fn of(settings: &Settings, profile: &Profile) -> SizeNames {
        SizeNames {
            units: profile.units(settings.units),
            copper_by_outside: !profile.copper_outside.is_empty(),
        }
    }

    /// The plain names of a job whose profile nobody has looked up: all sizes are nominal.
    pub const fn nominal(units: UnitSystem) -> SizeNames {
        SizeNames {
            units,
            copper_by_outside: false,
        }
    }

    /// The units of all that is told beside sizes.
    pub const fn units(self) -> UnitSystem {
        self.units
    }

    /// Whether copper tube goes by its outside diameter.
    pub fn copper_by_outside(self) -> bool {
        self.copper_by_outside
    }

    /// A size of a material: `3/4"`, `DN 20`, `EHD 18`; `7/8" OD` for copper tube of nominal 3/4 in that goes by its
    /// outside diameter.
    pub fn show(self, material: Material, size: NominalSize) -> String {
        match size.outside_of_tube() {
            Some(outside) if self.copper_by_outside && material.goes_by_outside() => {
                format!("{} OD", outside.show(UnitSystem::Us))
            }
            _ => size.show(self.units),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::size_names::*;
    use crate::codebook::Codebook;
    use crate::units::Parse;

    #[track_caller]
    fn check(profile: &str, material: Material, size: &str, expected: &str) {
        let profile = Codebook::published().profile(profile).unwrap();
        let names = SizeNames::of(&Settings::default(), profile);
        assert_eq!(names.show(material, NominalSize::parse(size).unwrap()), expected);
    }

    #[test]
    fn copper_tube_goes_by_its_outside_diameter_in_canada() {
        check("ca-b149", Material::CopperL, "3/4", "7/8\" OD");
        check("ca-b149", Material::CopperK, "1/4", "3/8\" OD");
        check("ca-b149", Material::CopperK, "2", "2-1/8\" OD");
        check("ca-b149", Material::Steel40, "3/4", "3/4\"");
        check("us-ifgc", Material::CopperL, "3/4", "3/4\"");
    }

    #[test]
    fn the_name_is_that_of_the_tube_as_it_is_made() {
        let book = Codebook::published();
        for material in [Material::CopperK, Material::CopperL] {
            for pipe in book.sizes(material) {
                let NominalSize::Inch(outside) = pipe.size.outside_of_tube().unwrap() else {
                    panic!("{:?}", pipe.size)
                };
                let made = pipe.outside.unwrap().value.inches();
                assert!((f64::from(outside) / 16.0 - made).abs() < 1e-6, "{:?}", pipe.size);
            }
        }
    }
}

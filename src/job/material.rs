//! What pipe and tube is made of, and all that follows from that alone.
//!
//! Nobody asks which material it is where they want to know what it does: each question is a method here, and a new
//! material answers them all in this file. Diameters, roughness and capacities are the codebook's matter.

use super::listed::listed;

listed! {
    /// A kind of pipe or tube.
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
}

/// How pipe or tube is joined to its fittings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Joining {
    /// Screwed into female threads.
    Threaded,
    /// Brazed into sockets.
    Brazed,
    /// Flared, and held by a nut on the tube.
    Flared,
    /// Held by the nut of an end fitting of the maker's own.
    Nut,
    /// Fused.
    Fused,
}

impl Joining {
    /// The material of what is joined so, where no pipe beside it tells another: that of fittings, nipples and sleeves.
    pub const fn material(self) -> Material {
        match self {
            Joining::Threaded => Material::Steel40,
            Joining::Brazed | Joining::Flared => Material::CopperL,
            Joining::Nut => Material::Csst,
            Joining::Fused => Material::Pe,
        }
    }

    /// The name at a counter of what such fittings are made of; that those for a flare are brass is common practice, no source.
    pub const fn of_fittings(self) -> &'static str {
        match self {
            Joining::Threaded => "malleable iron, class 150",
            Joining::Brazed => "copper, to be brazed",
            Joining::Flared => "brass, for flared copper",
            Joining::Nut => "CSST",
            Joining::Fused => "polyethylene",
        }
    }

    /// Whether a nut holds it that turns by itself, so that it comes apart where it is joined, as at a union.
    pub const fn has_nut(self) -> bool {
        match self {
            Joining::Flared | Joining::Nut => true,
            Joining::Threaded | Joining::Brazed | Joining::Fused => false,
        }
    }
}

/// How all copper tube of a job is joined.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum CopperJoints {
    /// Brazed into sockets.
    #[default]
    Brazed,
    /// Flared, with nuts.
    Flared,
}

impl CopperJoints {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            CopperJoints::Brazed => "brazed",
            CopperJoints::Flared => "flared",
        }
    }

    /// How a material is joined to its fittings: copper as it is here, any other as it always is.
    pub const fn joining(self, material: Material) -> Joining {
        match (material.joining(), self) {
            (Joining::Brazed, CopperJoints::Flared) => Joining::Flared,
            (own, _) => own,
        }
    }
}

impl Material {
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

    /// The word for machines, as in job files.
    pub const fn key(self) -> &'static str {
        match self {
            Material::Steel40 => "steel",
            Material::CopperK => "copper_k",
            Material::CopperL => "copper_l",
            Material::Csst => "csst",
            Material::Pe => "pe",
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

    /// The name of pipe, tube and nipples at a counter.
    pub const fn at_counter(self) -> &'static str {
        match self {
            Material::Steel40 => "black steel, Schedule 40",
            Material::CopperK => "copper, type K",
            Material::CopperL => "copper, type L",
            Material::Csst => "CSST",
            Material::Pe => "polyethylene",
        }
    }

    /// What it comes as, in a word of the trade: pipe or tube.
    pub const fn comes_as(self) -> &'static str {
        match self {
            Material::Steel40 | Material::Pe => "pipe",
            Material::CopperK | Material::CopperL | Material::Csst => "tube",
        }
    }

    /// The metal of which it is made; none of plastic.
    pub const fn metal(self) -> Option<&'static str> {
        match self {
            Material::Steel40 => Some("steel"),
            Material::CopperK | Material::CopperL => Some("copper"),
            Material::Csst => Some("stainless steel"),
            Material::Pe => None,
        }
    }

    /// How it is joined to its fittings where the job says nothing else: [`CopperJoints::joining`] is to be asked.
    const fn joining(self) -> Joining {
        match self {
            Material::Steel40 => Joining::Threaded,
            Material::CopperK | Material::CopperL => Joining::Brazed,
            Material::Csst => Joining::Nut,
            Material::Pe => Joining::Fused,
        }
    }

    /// Whether it is screwed into its fittings.
    pub const fn is_threaded(self) -> bool {
        matches!(self.joining(), Joining::Threaded)
    }

    /// Whether it is copper tube, which is brazed or flared as the job says.
    pub const fn is_copper(self) -> bool {
        matches!(self.joining(), Joining::Brazed)
    }

    /// Whether it is rigid pipe, that gives no way to turn or part a fitting and stops a nail; copper tube is not.
    pub const fn is_rigid(self) -> bool {
        match self {
            Material::Steel40 => true,
            Material::CopperK | Material::CopperL | Material::Csst | Material::Pe => false,
        }
    }

    /// Whether it is corrugated tubing: of no one bore, to be bonded, its losses and its fittings the maker's own.
    pub const fn is_corrugated(self) -> bool {
        match self {
            Material::Csst => true,
            Material::Steel40 | Material::CopperK | Material::CopperL | Material::Pe => false,
        }
    }

    /// Whether it is plastic: for the soil alone, where only a tracer wire finds it again.
    pub const fn is_plastic(self) -> bool {
        self.metal().is_none()
    }

    /// Whether a turn is bent into the line instead of made with a fitting.
    pub const fn bends(self) -> bool {
        match self {
            Material::Csst => true,
            Material::Steel40 | Material::CopperK | Material::CopperL | Material::Pe => false,
        }
    }

    /// Whether it always comes from a coil; copper does so only where it is laid in the soil.
    pub const fn is_coiled(self) -> bool {
        match self {
            Material::Csst | Material::Pe => true,
            Material::Steel40 | Material::CopperK | Material::CopperL => false,
        }
    }

    /// Whether it rusts where it is bare outdoors or in the soil.
    pub const fn rusts(self) -> bool {
        match self {
            Material::Steel40 => true,
            Material::CopperK | Material::CopperL | Material::Csst | Material::Pe => false,
        }
    }

    /// Whether its sizes may go by the outside diameter, as those of tube do in some tables.
    pub const fn goes_by_outside(self) -> bool {
        match self {
            Material::CopperK | Material::CopperL => true,
            Material::Steel40 | Material::Csst | Material::Pe => false,
        }
    }

    /// The material whose bore its capacity tables have: those of copper are made for type K, the narrower, and serve
    /// types K and L alike.
    pub const fn as_tabled(self) -> Material {
        match self {
            Material::CopperK | Material::CopperL => Material::CopperK,
            Material::Steel40 | Material::Csst | Material::Pe => self,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn materials_stand_where_dense_tables_look_for_them() {
        for (at, material) in Material::ALL.into_iter().enumerate() {
            assert_eq!(material as usize, at);
        }
    }

    #[test]
    fn what_stands_for_a_joining_is_joined_so() {
        for material in Material::ALL {
            let joining = material.joining();
            assert_eq!(joining.material().joining(), joining);
        }
    }

    #[test]
    fn no_two_materials_have_one_name() {
        for name in [Material::name, Material::short] {
            let names: std::collections::BTreeSet<&str> = Material::ALL.into_iter().map(name).collect();
            assert_eq!(names.len(), Material::ALL.len());
        }
    }

    #[test]
    fn what_bends_is_not_rigid_and_only_metal_rusts() {
        for material in Material::ALL {
            assert!(!(material.is_rigid() && (material.bends() || material.is_coiled())));
            assert!(!material.rusts() || material.metal().is_some());
            assert_eq!(material.as_tabled().joining(), material.joining());
        }
    }
}

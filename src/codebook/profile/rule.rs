//! The parts of a profile that set figures and switches.

use super::read;
use crate::codebook::Marked;
use crate::job::Fuel;
use crate::units::{GaugePressure, Length, NominalSize, PressureDrop};
use serde::Deserialize;

/// How much pressure may be lost at some delivery pressures.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AllowedDrop {
    /// The fuel.
    #[serde(with = "read::FuelText")]
    pub fuel: Fuel,
    /// The least delivery pressure of this line.
    #[serde(deserialize_with = "read::typed")]
    pub from: GaugePressure,
    /// The greatest delivery pressure of this line; `None`: no end.
    #[serde(default, deserialize_with = "read::typed_option")]
    pub to: Option<GaugePressure>,
    /// The loss allowed.
    pub drop: Marked<PressureDrop>,
}

impl AllowedDrop {
    pub(super) fn fits(&self, fuel: Fuel, delivery: GaugePressure) -> bool {
        // A pressure typed in kPa or mbar is a rounded one.
        const NEAR: f64 = 1e-3;
        let (delivery, from) = (delivery.pa(), self.from.pa());
        let starts = delivery > 0.0 && delivery >= from * (1.0 - NEAR);
        fuel == self.fuel && starts && self.to.is_none_or(|to| delivery <= to.pa() * (1.0 + NEAR))
    }
}

/// Whether an equation may size pipe.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Deserialize)]
pub enum Equations {
    /// Only published tables size.
    #[default]
    Never,
    /// An equation sizes where no published table serves, and says so.
    WhereNoTable,
    /// An equation sizes everything but what a table of a person's own serves; no published table stands behind it.
    Always,
}

/// An equation that sizes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Deserialize)]
pub enum Equation {
    /// The equations printed in the fuel gas codes (IFGC A.4), by low or high pressure.
    #[default]
    FuelGasCode,
    /// Darcy–Weisbach with the friction of Colebrook and White.
    DarcyColebrook,
}

/// How fittings count into the length that sizes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
pub enum Allowance {
    /// Not at all: tables allow for a usual number.
    #[default]
    Never,
    /// Their equivalent lengths, in a section that has so many or more.
    SectionHas(usize),
    /// The measured length times this factor.
    Factor(#[serde(deserialize_with = "read::factor")] f64),
}

impl Allowance {
    /// By what it makes a length greater: 1 where fittings count otherwise.
    pub fn factor(self) -> f64 {
        match self {
            Allowance::Factor(factor) => factor.max(1.0),
            Allowance::Never | Allowance::SectionHas(_) => 1.0,
        }
    }
}

/// How deep pipe is buried: least cover above it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Burial {
    /// Usually.
    pub usual: Marked<Length>,
    /// Where damage from outside is likely.
    pub damage_likely: Marked<Length>,
    /// A line to one outdoor light, grill or other appliance.
    pub single_appliance: Marked<Length>,
}

/// Whether a kind of fitting may be used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Deserialize)]
pub enum FittingSwitch {
    /// It may.
    #[default]
    Allowed,
    /// It may not.
    Barred,
}

/// Where the length of pipe that enters a threaded fitting is taken from.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
pub enum ThreadMakeUp {
    /// Hand-tight and wrench make-up of ASME B1.20.1, L1 + L3.
    #[default]
    Standard,
    /// The figures of pipe-fitting handbooks, from memory.
    Handbook,
    /// Figures of the profile's own, by size.
    #[serde(deserialize_with = "read::pairs")]
    Own(Vec<(NominalSize, Length)>),
}

/// How inputs are lowered at altitude.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AltitudeRule {
    /// Percent less for each 1,000 ft above sea level.
    pub percent_per_1000_feet: Marked<f64>,
    /// The altitude from which inputs are lowered; from there, all feet above sea level count.
    pub from: Marked<Length>,
}

/// What a profile makes of a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
pub enum RuleSetting {
    /// The rule does not look.
    Off,
    /// Its findings are notes.
    #[serde(alias = "Remark")]
    Note,
    /// Its findings are to be checked.
    #[serde(alias = "Caution")]
    Check,
    /// Its findings must be fixed.
    #[serde(alias = "Blocking")]
    MustFix,
}

//! Profiles of local practice: what a place or an office decides, as files that a person can copy and amend.
//!
//! A profile says which method sizes, how much pressure may be lost, which figures and switches the findings go by.
//! It never holds capacities. Every key is required unless its text says otherwise; an unknown key is an error.

mod fault;
mod read;
mod rule;
mod tables;
mod test;

pub use rule::{
    Allowance, AllowedDrop, AltitudeRule, Burial, Equation, Equations, FittingSwitch, RuleSetting, ThreadMakeUp,
};
pub use tables::ProfileTables;
pub use test::{TestAbove, TestRule, TestTime};

pub(super) use fault::place_of;

use super::{CodeFamily, Mark, Marked};
use crate::job::{Fuel, Material, Method};
use crate::units::{GaugePressure, Length, NominalSize, PressureDrop, UnitSystem};
use serde::Deserialize;
use std::collections::BTreeMap;

/// A profile of local practice.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Profile {
    /// Short name by which jobs ask for it: `us-ifgc`.
    pub name: String,
    /// Name for people.
    pub title: String,
    /// The code that it follows.
    pub code: String,
    /// The edition of that code.
    pub edition: String,
    /// The family of that code, whose clauses findings cite; `None` when the profile follows none.
    #[serde(default)]
    pub family: Option<CodeFamily>,
    /// A sentence printed on every sheet: what was checked against what, and what was not.
    pub disclaimer: String,
    /// In which unit metric jobs tell pressures.
    #[serde(default)]
    pub metric_pressure: MetricPressure,
    /// How lengths for sizing are taken, unless the job says otherwise.
    #[serde(with = "read::MethodText")]
    pub method: Method,
    /// How much pressure may be lost, by fuel and delivery pressure; the first line that fits counts.
    pub allowed_drops: Vec<AllowedDrop>,
    /// Which capacity tables size.
    #[serde(default)]
    pub tables: ProfileTables,
    /// Whether an equation may size pipe.
    pub equations: Equations,
    /// Which equation sizes, where one may.
    pub equation: Equation,
    /// The least size of an outlet in steel pipe (tubing goes by its tables); `None` when nothing is set.
    #[serde(default)]
    pub least_size: Option<Marked<NominalSize>>,
    /// The lengths for which the code's tables are printed, short to long: a way goes up to the next of them before
    /// [`Allowance::Factor`] counts, and past the last nothing is sized by an equation. Empty: ways count as they are.
    #[serde(default, deserialize_with = "read::rising")]
    pub rows: Vec<Marked<Length>>,
    /// Outside diameters of the copper tube in the code's tables, small to large, by which they name it; no other is found
    /// by an equation. Empty: all copper tube, by its nominal size.
    #[serde(default, deserialize_with = "read::rising")]
    pub copper_outside: Vec<Marked<Length>>,
    /// How fittings count into the length that sizes.
    pub fittings: Allowance,
    /// Materials that may be used.
    #[serde(deserialize_with = "read::materials")]
    pub materials: Vec<Material>,
    /// The greatest pressure indoors; `None` when nothing is set.
    #[serde(default)]
    pub indoor_limit: Option<Marked<GaugePressure>>,
    /// How deep pipe is buried; `None` when nothing is set.
    #[serde(default)]
    pub burial: Option<Burial>,
    /// How pipe is tested; `None` when nothing is set.
    #[serde(default)]
    pub test: Option<TestRule>,
    /// Whether bushings may be used.
    pub bushings: FittingSwitch,
    /// Whether street elbows may be used.
    pub street_elbows: FittingSwitch,
    /// Whether close nipples may be used.
    pub close_nipples: FittingSwitch,
    /// Whether galvanized pipe and fittings may be used; the take-off says so where they may not.
    #[serde(default)]
    pub galvanized: FittingSwitch,
    /// Where the length of pipe that enters a fitting is taken from.
    pub thread_make_up: ThreadMakeUp,
    /// What the saw takes at each cut; [`Profile::kerf`] says what counts when nothing is set.
    #[serde(default)]
    pub kerf: Option<Marked<Length>>,
    /// How inputs are lowered at altitude; `None`: not at all.
    #[serde(default)]
    pub altitude: Option<AltitudeRule>,
    /// Findings switched off, or given another weight, by the short name of the rule.
    #[serde(default)]
    pub rules: BTreeMap<String, RuleSetting>,
    /// Sentences of local practice, printed among the notes of the sheet by [`crate::units::in_units`].
    #[serde(default)]
    pub notes: Vec<String>,
}

/// In which unit metric jobs tell pressures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
pub enum MetricPressure {
    /// Millibar.
    #[default]
    Millibar,
    /// Kilopascals.
    Kilopascal,
}

impl Profile {
    /// Whether its sizes are computed and the profile asks to check every one: no drawing goes out as if that were done.
    pub fn sizes_want_checking(&self) -> bool {
        self.equations == Equations::Always && !self.disclaimer.trim().is_empty()
    }

    /// The units of a job that goes by this profile.
    pub const fn units(&self, of_job: UnitSystem) -> UnitSystem {
        match (of_job, self.metric_pressure) {
            (UnitSystem::Us, _) => UnitSystem::Us,
            (UnitSystem::Metric | UnitSystem::MetricKpa, MetricPressure::Millibar) => UnitSystem::Metric,
            (UnitSystem::Metric | UnitSystem::MetricKpa, MetricPressure::Kilopascal) => UnitSystem::MetricKpa,
        }
    }

    /// How much pressure may be lost from the point of delivery (or a regulator) at this pressure; `None` when the
    /// profile sets nothing for it.
    pub fn allowed_drop(&self, fuel: Fuel, delivery: GaugePressure) -> Option<Marked<PressureDrop>> {
        let mut lines = self.allowed_drops.iter();
        lines.find(|line| line.fits(fuel, delivery)).map(|line| line.drop)
    }

    /// The first of its rows that is not shorter than a way; `None` past the last, and where it has none.
    pub fn row_for(&self, way: Length) -> Option<Marked<Length>> {
        self.rows.iter().find(|row| way <= row.value).copied()
    }

    /// Whether a length that sizes, with what counts for fittings, is more than any row gives.
    pub fn is_past_rows(&self, design: Length) -> bool {
        let factor = self.fittings.factor();
        self.rows.last().is_some_and(|last| design > last.value.times(factor))
    }

    /// Whether the code's tables have copper tube of an outside diameter.
    pub fn lists_copper(&self, outside: Length) -> bool {
        let near = |row: &Marked<Length>| (row.value.inches() - outside.inches()).abs() < 1e-3;
        self.copper_outside.is_empty() || self.copper_outside.iter().any(near)
    }

    /// What the saw takes at each cut: 1/8 in where the profile does not say, common practice from memory, no source.
    pub fn kerf(&self) -> Marked<Length> {
        self.kerf
            .unwrap_or(Marked::new(Length::from_inches(0.125), Mark::Memory))
    }

    /// Code and edition as a drawing names them; an edition that was not read is left to be filled in.
    pub fn code_and_edition(&self) -> String {
        match (self.code.trim(), self.edition.trim()) {
            ("", edition) => edition.to_owned(),
            ("none", _) => "none".to_owned(),
            (code, "") => format!("{code}, edition: ________"),
            (code, edition) => format!("{code} {edition}"),
        }
    }

    /// Whether its code is of a family, in an edition of this year or a later one.
    pub fn follows(&self, family: CodeFamily, year: u16) -> bool {
        self.family == Some(family) && self.edition.trim().parse::<u16>().is_ok_and(|edition| edition >= year)
    }

    /// Whether a material may be used.
    pub fn allows(&self, material: Material) -> bool {
        self.materials.contains(&material)
    }
}

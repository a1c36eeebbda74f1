//! The pipe that is tested and what it holds.

use crate::codebook::{Codebook, Mark, Marked};
use crate::job::{Job, Material, RunId, State};
use crate::study::Study;
use crate::units::{Length, NominalSize, UnitSystem};
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// Tested pipe of one material and size.
#[derive(Clone, Debug, PartialEq)]
pub struct TestedPipe {
    /// Its material.
    pub material: Material,
    /// Its size, where it is known.
    pub size: Option<NominalSize>,
    /// Its length together.
    pub length: Length,
    /// What a foot of it holds, cubic feet; `None` where no bore is published.
    pub per_foot: Option<Marked<f64>>,
    /// Its runs.
    pub runs: Vec<RunId>,
}

/// What pipe holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Volume {
    /// Cubic feet of all pipe whose volume is known.
    pub cubic_feet: f64,
    /// The weakest mark of the figures in it; `None` where none is known.
    pub mark: Option<Mark>,
    /// Runs whose size, bore or length is not known.
    pub unknown: Vec<RunId>,
}

impl Volume {
    /// Whether the volume of all tested pipe is known.
    pub fn is_known(&self) -> bool {
        self.unknown.is_empty()
    }

    /// What is known of it, in a person's units.
    pub fn show(&self, units: UnitSystem) -> String {
        volume_said(self.cubic_feet, units)
    }
}

/// Litres in a cubic foot (NIST SP 811, app. B.8: 1 ft³ = 0.028 316 85 m³; the foot of 0.3048 m cubed, exactly).
const LITRES: f64 = 28.316_846_592;

/// A volume in words: cubic feet to a hundredth, without zeros at the end, or liters to a tenth, whole from 1,000
/// on: one unit for all volumes of a sheet.
pub fn volume_said(cubic_feet: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{} ft³", (cubic_feet * 100.0).round() / 100.0),
        UnitSystem::Metric | UnitSystem::MetricKpa if cubic_feet * LITRES >= 1000.0 => {
            format!("{:.0} L", cubic_feet * LITRES)
        }
        UnitSystem::Metric | UnitSystem::MetricKpa => format!("{} L", (cubic_feet * LITRES * 10.0).round() / 10.0),
    }
}

/// New runs, without the flexible lines behind connectors and couplings, which are never under test pressure.
pub(super) fn tested_runs(job: &Job, study: &Study) -> Vec<usize> {
    let is_tested = |&run: &usize| job.runs.at(run).state == State::New && !study.runs[run].is_hose;
    (0..job.runs.len()).filter(is_tested).collect()
}

/// What a foot of pipe holds: as published, else by its bore.
fn per_foot(book: &Codebook, material: Material, size: NominalSize) -> Option<Marked<f64>> {
    let pipe = book.pipe(material, size)?;
    let by_bore = |bore: Marked<crate::units::InsideDiameter>| {
        let feet = bore.value.inches() / 12.0;
        Marked::new(PI / 4.0 * feet * feet, bore.mark.max(Mark::Computed))
    };
    pipe.cubic_feet_per_foot.or(pipe.inside.map(by_bore))
}

pub(super) fn measured(job: &Job, study: &Study, book: &Codebook, runs: &[usize]) -> (Vec<TestedPipe>, Volume) {
    let mut pipe: BTreeMap<(Material, Option<NominalSize>), TestedPipe> = BTreeMap::new();
    let mut volume = Volume::default();
    for &run in runs {
        let drawn = job.runs.at(run);
        let (material, size) = (job.material(drawn), study.size(job, run));
        let line = pipe.entry((material, size)).or_insert_with(|| TestedPipe {
            material,
            size,
            length: Length::ZERO,
            per_foot: size.and_then(|size| per_foot(book, material, size)),
            runs: Vec::new(),
        });
        let length = study.runs[run].length;
        line.runs.push(drawn.id);
        match line.per_foot.filter(|_| length > Length::ZERO) {
            Some(per_foot) => {
                volume.cubic_feet += per_foot.value * length.feet();
                volume.mark = volume.mark.max(Some(per_foot.mark));
            }
            None => volume.unknown.push(drawn.id),
        }
        line.length += length;
    }
    (pipe.into_values().collect(), volume)
}

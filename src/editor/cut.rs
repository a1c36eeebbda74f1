//! Where a run is cut in two, by true length.

use crate::job::LatticePoint;
use crate::units::{Length, UnitSystem};

/// How the true length of a split run is shared out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// As the drawn lengths are.
    InProportion,
    /// So much from the run's `from` end to the split, the rest beyond it.
    First(Length),
}

/// The true length from the first end of a run to a place in it, as the drawn lengths are.
pub fn in_proportion([from, to]: [LatticePoint; 2], at: LatticePoint, whole: Length, units: UnitSystem) -> Length {
    let share = (at - from).steps() / (to - from).steps();
    readable(whole.times(share), whole, units)
}

/// A length that a fitter can read off a tape: to whole inches or centimetres, else to 1/16 in or 1 mm, as long as it
/// stays within the whole. Nobody measured it: it only shares out what was typed.
fn readable(length: Length, whole: Length, units: UnitSystem) -> Length {
    let tape = match units {
        UnitSystem::Us => [Length::from_inches(1.0), Length::from_inches(1.0 / 16.0)],
        UnitSystem::Metric | UnitSystem::MetricKpa => [Length::from_mm(10.0), Length::from_mm(1.0)],
    };
    let rounded = tape.into_iter().map(|unit| {
        let unit = unit.eighths_of_um();
        Length::from_eighths_of_um((length.eighths_of_um() + unit / 2) / unit * unit)
    });
    let within = |length: &Length| Length::ZERO < *length && *length < whole;
    rounded.into_iter().find(within).unwrap_or(length)
}

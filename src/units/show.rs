//! Quantities as a fitter writes them.

use super::{Flow, GaugePressure, HeatRate, HeatingValue, Length, NominalSize, PressureDrop};

/// Which units a drawing speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum UnitSystem {
    /// Feet and inches, inches of water, Btu/h, cubic feet per hour, NPS.
    #[default]
    Us,
    /// Metres and millimetres, millibar or pascals, kilowatts, cubic metres per hour, DN.
    Metric,
}

/// A quantity that can be printed.
pub trait Show {
    /// As written on a drawing, rounded the usual way, with its unit: `12'-6"`, `7 in w.c.`, `75,000 Btu/h`, `3/4"`.
    fn show(&self, units: UnitSystem) -> String;

    /// As written into a file: short, in plain ASCII, in the unit in which the value is roundest; reading it gives the
    /// same value again, bit for bit.
    fn exact(&self) -> String;
}

macro_rules! not_yet {
    ($($name:ident),*) => { $(impl Show for $name {
        fn show(&self, _units: UnitSystem) -> String {
            format!("{self:?}")
        }
        fn exact(&self) -> String {
            format!("{self:?}")
        }
    })* };
}
not_yet!(
    Length,
    GaugePressure,
    PressureDrop,
    HeatRate,
    Flow,
    HeatingValue,
    NominalSize
);

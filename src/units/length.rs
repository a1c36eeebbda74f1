//! Lengths along pipe, kept exactly, and the inside diameter of pipe.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Neg, Sub};

/// A length, held as a whole number of eighths of a micrometre.
///
/// In this unit 1/64 in is 3,175 and 1 mm is 8,000, so that what a person types in feet, inches or millimetres is
/// stored without rounding, sums are exact, and equal lengths are equal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

const PER_INCH: f64 = 203_200.0;
const PER_MM: f64 = 8_000.0;

impl Length {
    /// No length at all.
    pub const ZERO: Length = Length(0);

    /// 100 km: no job holds a longer one, for no reader takes it.
    pub const LONGEST: Length = Length(100_000_000 * 8_000);

    /// The length of so many eighths of a micrometre, the inner unit.
    pub const fn from_eighths_of_um(eighths: i64) -> Length {
        Length(eighths)
    }

    /// The length nearest to so many inches.
    pub fn from_inches(inches: f64) -> Length {
        Length((inches * PER_INCH).round() as i64)
    }

    /// The length nearest to so many feet.
    pub fn from_feet(feet: f64) -> Length {
        Length::from_inches(feet * 12.0)
    }

    /// The length nearest to so many millimetres.
    pub fn from_mm(mm: f64) -> Length {
        Length((mm * PER_MM).round() as i64)
    }

    /// The length nearest to so many metres.
    pub fn from_metres(metres: f64) -> Length {
        Length::from_mm(metres * 1000.0)
    }

    /// Eighths of a micrometre, the inner unit.
    pub const fn eighths_of_um(self) -> i64 {
        self.0
    }

    /// Inches.
    pub fn inches(self) -> f64 {
        self.0 as f64 / PER_INCH
    }

    /// Feet.
    pub fn feet(self) -> f64 {
        self.inches() / 12.0
    }

    /// Millimetres.
    pub fn mm(self) -> f64 {
        self.0 as f64 / PER_MM
    }

    /// Metres.
    pub fn metres(self) -> f64 {
        self.mm() / 1000.0
    }

    /// This length so many times over, rounded to the inner unit.
    pub fn times(self, factor: f64) -> Length {
        Length((self.0 as f64 * factor).round() as i64)
    }

    /// The same length without its sign.
    pub fn magnitude(self) -> Length {
        Length(self.0.saturating_abs())
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Length) {
        *self = *self + other;
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(self.0.saturating_neg())
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(lengths: I) -> Length {
        lengths.fold(Length::ZERO, Add::add)
    }
}

/// The inside diameter of a pipe or tube.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct InsideDiameter(f64);

impl InsideDiameter {
    /// The diameter of so many inches.
    pub const fn from_inches(inches: f64) -> InsideDiameter {
        InsideDiameter(inches)
    }

    /// Inches.
    pub const fn inches(self) -> f64 {
        self.0
    }

    /// Metres.
    pub fn metres(self) -> f64 {
        self.0 * 0.0254
    }
}

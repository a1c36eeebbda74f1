//! The angle by which a line turns.

/// An angle, held as a whole number of thousandths of a degree, so that what is typed is stored without rounding.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Angle(i32);

const PER_DEGREE: f64 = 1000.0;

impl Angle {
    /// The angle nearest to so many degrees.
    pub fn from_degrees(degrees: f64) -> Angle {
        Angle((degrees * PER_DEGREE).round() as i32)
    }

    /// Degrees.
    pub fn degrees(self) -> f64 {
        f64::from(self.0) / PER_DEGREE
    }
}

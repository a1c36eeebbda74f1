//! The two systems of units that a drawing can speak.

/// Which units a drawing speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum UnitSystem {
    /// Feet and inches, inches of water, Btu/h, cubic feet per hour, NPS.
    #[default]
    Us,
    /// Metres and millimetres, millibar or pascals, kilowatts, cubic metres per hour, DN.
    Metric,
}

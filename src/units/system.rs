//! The two systems of units that a drawing can speak.

/// Which units a drawing speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum UnitSystem {
    /// Feet and inches, inches of water, Btu/h, cubic feet per hour, NPS.
    #[default]
    Us,
    /// Millimetres, millibar, kilowatts, cubic metres per hour, DN.
    Metric,
    /// The same with kilopascals, where the profile says that its place gauges so.
    MetricKpa,
}

impl UnitSystem {
    /// Whether lengths are in millimeters.
    pub const fn is_metric(self) -> bool {
        match self {
            UnitSystem::Us => false,
            UnitSystem::Metric | UnitSystem::MetricKpa => true,
        }
    }
}

//! What fittings are called.

use super::FittingKind;
use std::fmt;

impl fmt::Display for FittingKind {
    /// The trade's name in lower case: `90° elbow`, `tee`, `reducing coupling`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FittingKind::Elbow90 => f.write_str("90° elbow"),
            FittingKind::StreetElbow90 => f.write_str("90° street elbow"),
            FittingKind::Elbow45 => f.write_str("45° elbow"),
            FittingKind::OddElbow(degrees) => write!(f, "turn of {degrees}°, no stock fitting"),
            FittingKind::Bend => f.write_str("bend in the tubing"),
            FittingKind::Tee => f.write_str("tee"),
            FittingKind::Cross => f.write_str("cross"),
            FittingKind::ManyWays(ways) => write!(f, "{ways} ways, no stock fitting"),
            FittingKind::Coupling => f.write_str("coupling"),
            FittingKind::ReducingCoupling => f.write_str("reducing coupling"),
            FittingKind::Transition => f.write_str("transition fitting"),
            FittingKind::TrapNipple => f.write_str("capped nipple of a sediment trap"),
            FittingKind::Cap => f.write_str("cap"),
        }
    }
}

//! What temperature does to a pressure test.

use super::Temperature;
use crate::units::{AbsolutePressure, GaugePressure};

/// The gauge pressure that closed-in test gas shows after its temperature changed, with nothing leaking.
///
/// `P2 = (P1 + A) T2 / T1 − A`: P gauge, A pressure of the surrounding air, T absolute temperature (Gay-Lussac's law;
/// IFGC 2018, Appendix A, example of the temperature effect on a test). Exact for an ideal gas in rigid pipe.
pub fn pressure_at_temperature(
    before: GaugePressure,
    at: Temperature,
    then: Temperature,
    air: AbsolutePressure,
) -> GaugePressure {
    AbsolutePressure::from_pa(before.above(air).pa() * then.kelvin() / at.kelvin()).gauge(air)
}

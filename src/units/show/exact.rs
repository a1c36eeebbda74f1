//! The unit in which a value is roundest.
//!
//! A value that a person typed is round in the unit in which it was typed: the shortest text that is read back to
//! the same bits finds that unit again.

use super::grouped;
use crate::units::Parse;

/// Figures of a number that a person would type.
const FIGURES: usize = 6;

/// The text whose number, of up to six figures, is shortest among those that are read back to the `same` value, the
/// first of `units` among equals; else all figures of `held`, in the unit that the type holds.
pub fn roundest<T: Parse>(units: &[(f64, &str)], held: (f64, &str), same: impl Fn(T) -> bool) -> String {
    let round = units.iter().filter_map(|&(value, unit)| {
        let value: f64 = format!("{value:.*e}", FIGURES - 1).parse().ok()?;
        let number = written(value);
        let text = format!("{number} {unit}");
        T::parse(&text).is_ok_and(&same).then_some((number.len(), text))
    });
    let shortest = round.min_by_key(|(length, _)| *length);
    shortest.map_or_else(|| format!("{} {}", written(held.0), held.1), |(_, text)| text)
}

/// All figures of a number, with a power of ten only where there would be long rows of zeros.
pub fn written(number: f64) -> String {
    if number == 0.0 || (1e-5..1e12).contains(&number.abs()) {
        grouped(&number.to_string())
    } else {
        format!("{number:e}")
    }
}

#[cfg(test)]
mod tests {
    use crate::units::{Flow, GaugePressure, HeatRate, HeatingValue, Parse, PressureDrop, Show};
    use proptest::prelude::*;

    #[track_caller]
    fn check<T: Parse + Show>(value: T, inside: fn(T) -> f64) {
        let text = value.exact();
        assert!(text.is_ascii() && !text.contains('"'), "{text}");
        match T::parse(&text) {
            Ok(again) => assert_eq!(inside(again).to_bits(), inside(value).to_bits(), "{text}"),
            Err(error) => panic!("{error}"),
        }
    }

    /// Every finite number from nothing up to `limit`, the tiniest too.
    fn up_to(limit: f64) -> impl Strategy<Value = f64> {
        let bits = (0..=limit.to_bits()).prop_map(f64::from_bits);
        prop_oneof![bits, 0.0..=limit, Just(0.0), Just(limit)]
    }

    proptest! {
        #[test]
        fn pressures_are_read_back(pa in up_to(1e7), inches in 0.0..40_000.0) {
            check(GaugePressure::from_pa(pa), GaugePressure::pa);
            check(PressureDrop::from_pa(pa), PressureDrop::pa);
            check(PressureDrop::from_pa(-pa), PressureDrop::pa);
            check(GaugePressure::from_inches_wc(inches), GaugePressure::pa);
            check(GaugePressure::from_psi(inches / 400.0), GaugePressure::pa);
        }

        #[test]
        fn heat_is_read_back(btuh in up_to(1e9), kw in 0.0..290_000.0) {
            check(HeatRate::from_btuh(btuh), HeatRate::btuh);
            check(HeatRate::from_kw(kw), HeatRate::btuh);
        }

        #[test]
        fn flows_are_read_back(cfh in up_to(1e7), m3h in 0.0..280_000.0) {
            check(Flow::from_cfh(cfh), Flow::cfh);
            check(Flow::from_m3h(m3h), Flow::cfh);
        }

        #[test]
        fn heating_values_are_read_back(value in up_to(1e4), mj in 0.001..370.0) {
            prop_assume!(value > 0.0);
            check(HeatingValue::from_btu_per_ft3(value), HeatingValue::btu_per_ft3);
            check(HeatingValue::from_mj_per_m3(mj), HeatingValue::btu_per_ft3);
        }

        #[test]
        fn what_was_typed_round_comes_back_as_typed(tenths in 1u32..2_000) {
            for unit in ["in w.c.", "psi", "mbar"] {
                let typed = format!("{} {unit}", f64::from(tenths) / 10.0);
                let exact = PressureDrop::parse(&typed).unwrap().exact();
                prop_assert!(exact == typed || exact.ends_with(" Pa"), "{} {}", typed, exact);
            }
        }
    }
}

//! What a meter passed in a time, as people type it: `2 ft3 in 58 s`.

use super::scalar::{Kind, Unit};
use super::{Parse, UnitError};
use crate::units::Clocked;

/// Cubic feet in one cubic meter (a foot is 0.3048 m, exactly).
const FT3_PER_M3: f64 = 1.0 / (0.3048 * 0.3048 * 0.3048);

const VOLUME: Kind<f64> = Kind {
    wanted: "a volume by the dial of a meter",
    examples: "2 ft3 or 0.05 m3",
    units: &[
        Unit {
            spellings: &["ft3", "cf"],
            ten: 0,
            make: |ft3| ft3,
        },
        Unit {
            spellings: &["m3"],
            ten: 0,
            make: |m3| m3 * FT3_PER_M3,
        },
        Unit {
            spellings: &["l", "liter", "liters", "dm3"],
            ten: -3,
            make: |m3| m3 * FT3_PER_M3,
        },
    ],
    others: None,
    fault: |ft3| fault(*ft3, 1e5, "it is more than 100,000 ft3"),
};

const TIME: Kind<f64> = Kind {
    wanted: "a time",
    examples: "58 s or 1.5 min",
    units: &[
        Unit {
            spellings: &["s", "sec", "second", "seconds"],
            ten: 0,
            make: |seconds| seconds,
        },
        Unit {
            spellings: &["min", "minute", "minutes"],
            ten: 0,
            make: |minutes| minutes * 60.0,
        },
    ],
    others: None,
    fault: |seconds| fault(*seconds, 86_400.0, "it is more than a day"),
};

fn fault(value: f64, most: f64, beyond: &'static str) -> Option<&'static str> {
    match value {
        value if value > most || value.is_nan() => Some(beyond),
        // What is less than a millionth is no reading, and its flow would be beyond all bounds.
        value if value < 1e-6 => Some("it must be more than zero"),
        _ => None,
    }
}

impl Parse for Clocked {
    fn parse(text: &str) -> Result<Clocked, UnitError> {
        let parts = text.split_once(" in ").or_else(|| text.split_once(" IN "));
        let (volume, time) = parts.ok_or_else(|| {
            UnitError::new(
                text,
                "what a meter passed in a time",
                "it does not say in how long".to_owned(),
                "2 ft3 in 58 s or 0.05 m3 in 71 s",
            )
        })?;
        Ok(Clocked::from_ft3_and_seconds(VOLUME.read(volume)?, TIME.read(time)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{HeatingValue, Show, UnitSystem};
    use proptest::prelude::*;

    /// The example of the trade's rule: 3,600 × dial × heating value ÷ seconds; 2 ft³ in 58 s of gas of 1,025 Btu/ft³ are
    /// 3600 × 2 × 1025 / 58 = 127,241 Btu/h (worked by hand).
    #[test]
    fn what_is_clocked_is_a_flow_and_an_input() {
        for text in [
            "2 ft3 in 58 s",
            "2 cu ft in 58 sec",
            "2 ft³ in 58 seconds",
            "2 cf IN 58 s",
        ] {
            let clocked = Clocked::parse(text).unwrap_or_else(|error| panic!("{error}"));
            let heat = clocked.flow().heat(HeatingValue::from_btu_per_ft3(1025.0));
            assert!((heat.btuh() - 127_241.0).abs() < 1.0, "{text}: {}", heat.btuh());
        }
        let metric = Clocked::parse("0.05 m3 in 1.5 min").unwrap();
        assert!((metric.flow().m3h() - 2.0).abs() < 1e-9);
        assert_eq!(metric.show(UnitSystem::Metric), "0.05 m³ in 90 s");
        assert_eq!(
            Clocked::parse("2 ft3 in 58 s").unwrap().show(UnitSystem::Us),
            "2 ft³ in 58 s"
        );
    }

    #[test]
    fn what_is_no_reading_is_refused() {
        for text in [
            "2 ft3",
            "58 s",
            "2 in 58",
            "0 ft3 in 58 s",
            "2 ft3 in 0 s",
            "-2 ft3 in 9 s",
            "",
            " in ",
        ] {
            assert!(Clocked::parse(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn readings_are_read_back(ft3 in 1e-6..1e5f64, seconds in 1e-6..86_400.0f64) {
            let clocked = Clocked::from_ft3_and_seconds(ft3, seconds);
            let text = clocked.exact();
            prop_assert!(text.is_ascii());
            prop_assert_eq!(Clocked::parse(&text), Ok(clocked), "{}", text);
        }
    }
}

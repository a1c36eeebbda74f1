//! Lengths as fitters type them: feet and inches in every fashion, metric with its unit.
//!
//! Feet, inches and fractions are added as ratios; the only rounding is the last, to the inner unit of [`Length`].

use super::number::{Number, Scan};
use super::plain::plain;
use super::{Parse, UnitError};
use crate::units::{Length, UnitSystem};

/// Inner units in 100 km, more than any piping job.
const LIMIT: i128 = 100_000_000 * PER_MM;
const PER_MM: i128 = 8_000;
const PER_INCH: i128 = 203_200;
const PER_FOOT: i128 = 12 * PER_INCH;
const PER_METRE: i128 = 1_000 * PER_MM;

const EXAMPLES: &str = "12'-6 1/2, 12-6, 150 in, 3.8 m or 3800 mm";

impl Parse for Length {
    fn parse(text: &str) -> Result<Length, UnitError> {
        read(text, None)
    }
}

impl Length {
    /// Reads `text` where the units of the drawing are known: a bare number is feet, or metres in a metric drawing.
    ///
    /// # Errors
    /// As [`Parse::parse`], a bare number apart.
    pub fn parse_in(text: &str, units: UnitSystem) -> Result<Length, UnitError> {
        read(text, Some(units))
    }
}

fn read(text: &str, units: Option<UnitSystem>) -> Result<Length, UnitError> {
    plain(text)
        .and_then(|plain| measure(Scan::new(&plain), units))
        .map_err(|reason| UnitError::new(text, "a length", reason, EXAMPLES))
}

/// `-`? number unit, or feet with inches after them.
fn measure(mut scan: Scan, units: Option<UnitSystem>) -> Result<Length, String> {
    let minus = scan.minus();
    let first = scan.number()?;
    let total = match unit(&mut scan) {
        Some(PER_FOOT) => feet_and_inches(first, scan),
        Some(unit) => finish(scan).and_then(|()| count(&first, unit)),
        None if scan.rest().starts_with('-') => feet_and_inches(first, scan),
        None if scan.rest().is_empty() => match units {
            Some(UnitSystem::Us) => count(&first, PER_FOOT),
            Some(UnitSystem::Metric | UnitSystem::MetricKpa) => count(&first, PER_METRE),
            None => Err("it has no unit".into()),
        },
        None => unknown(scan),
    }?;
    if total > LIMIT {
        return Err("it is more than 100 km".into());
    }
    let total = total as i64;
    Ok(Length::from_eighths_of_um(if minus { -total } else { total }))
}

/// The inches that may follow `feet`, with or without a dash and their mark.
fn feet_and_inches(feet: Number, mut scan: Scan) -> Result<i128, String> {
    scan.space();
    let dash = scan.eat('-');
    scan.space();
    if scan.rest().is_empty() && !dash {
        return count(&feet, PER_FOOT);
    }
    if !feet.is_whole() {
        return Err("feet with inches after them must be whole".into());
    }
    let inches = scan.number()?;
    if !matches!(unit(&mut scan), None | Some(PER_INCH)) {
        return Err("only inches can follow feet".into());
    }
    finish(scan)?;
    let inches = count(&inches, PER_INCH)?;
    if inches >= PER_FOOT {
        return Err("the inches after feet must be less than 12".into());
    }
    count(&feet, PER_FOOT)?.checked_add(inches).ok_or_else(too_long)
}

/// Inner units in so many of a unit, rounded half up.
fn count(number: &Number, unit: i128) -> Result<i128, String> {
    let (over, under) = number.to_ratio().ok_or_else(too_long)?;
    let twice = over.checked_mul(2 * unit).ok_or_else(too_long)?;
    Ok((twice.checked_add(under).ok_or_else(too_long)?) / (under * 2))
}

fn too_long() -> String {
    "the number has too many figures".into()
}

/// Steps over a unit of length: inner units in one of it.
fn unit(scan: &mut Scan) -> Option<i128> {
    let mut ahead = *scan;
    ahead.space();
    let unit = if ahead.eat('\'') {
        PER_FOOT
    } else if ahead.eat('"') {
        PER_INCH
    } else {
        let unit = match ahead.letters() {
            "ft" | "foot" | "feet" => PER_FOOT,
            "in" | "inch" | "inches" => PER_INCH,
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => PER_MM,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => 10 * PER_MM,
            "m" | "metre" | "metres" | "meter" | "meters" => PER_METRE,
            _ => return None,
        };
        ahead.eat('.');
        unit
    };
    *scan = ahead;
    Some(unit)
}

fn finish(scan: Scan) -> Result<(), String> {
    if scan.rest().is_empty() { Ok(()) } else { unknown(scan) }
}

fn unknown<T>(mut scan: Scan) -> Result<T, String> {
    scan.space();
    let word = scan.letters();
    Err(if word.is_empty() {
        format!("`{}` has no meaning there", super::printable(scan.rest()))
    } else {
        format!("the unit `{word}` is not known here")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const INCH: i64 = 203_200;

    #[track_caller]
    fn check(text: &str, expected: i64) {
        match Length::parse(text) {
            Ok(length) => assert_eq!(length.eighths_of_um(), expected, "{text}"),
            Err(error) => panic!("{error}"),
        }
    }

    #[test]
    fn feet_and_inches_in_every_fashion() {
        for text in [
            "12'6\"",
            "12-6",
            "12'-6\"",
            "12' 6\"",
            "12 ft 6 in",
            "12ft6in",
            "12 FT. 6 IN.",
            "12′6″",
            "12’ 6”",
            "12'6",
            "12' - 6''",
            "12-6\"",
            "150 in",
            "150\"",
            "12.5 ft",
            "12 1/2 ft",
            "12½'",
            "3.81 m",
            "3810mm",
            "381 cm",
            "+12'-6",
            "  12'-6\u{a0}",
            "3,810 mm",
            "12‑6",
        ] {
            check(text, 150 * INCH);
        }
        for text in [
            "12' 6 1/2\"",
            "12'-6½\"",
            "12-6 1/2",
            "12-6-1/2",
            "12'6.5\"",
            "150.5 in",
            "150-1/2\"",
            "150½ in",
        ] {
            check(text, 150 * INCH + INCH / 2);
        }
        check("6\"", 6 * INCH);
        check("6 inches", 6 * INCH);
        check("1/2\"", INCH / 2);
        check("1/64 in", 3_175);
        check("1/3 ft", 4 * INCH);
        check("0'-0", 0);
        check("3'", 36 * INCH);
        check("-3'-6", -42 * INCH);
        check("−3′", -36 * INCH);
    }

    #[test]
    fn metric_with_its_unit() {
        check("3.8 m", 30_400_000);
        check("3800mm", 30_400_000);
        check("40 cm", 3_200_000);
        check("0.000125 mm", 1);
        check("-0.5 Metres", -4_000_000);
        check("100000 m", 800_000_000_000);
    }

    #[test]
    fn what_can_mean_two_things_is_refused() {
        for (text, reason) in [
            ("", "nothing"),
            ("   ", "nothing"),
            ("12", "no unit"),
            ("1/2", "no unit"),
            ("0", "no unit"),
            ("3,8 m", "point"),
            ("12,5'", "point"),
            ("12-18", "less than 12"),
            ("12' 12\"", "less than 12"),
            ("12.5' 6\"", "whole"),
            ("12'-", "number"),
            ("12--6", "number"),
            ("12' 6 mm", "inches"),
            ("12 6", "no meaning"),
            ("12'6\"7", "no meaning"),
            ("3 m 20", "no meaning"),
            ("6\" x", "unit `x`"),
            ("1/0 in", "zero"),
            ("NaN m", "number"),
            ("inf mm", "number"),
            ("∞", "number"),
            ("m", "number"),
            ("'", "number"),
            ("100001 m", "100 km"),
            ("-100001 m", "100 km"),
            ("999999999999999999999999 m", "100 km"),
            ("1e999 m", "figures"),
            ("0.000000000000000000000000001 m", "figures"),
        ] {
            let error = Length::parse(text).expect_err(text);
            assert!(error.reason.contains(reason), "{text}: {error}");
        }
    }

    #[test]
    fn a_bare_number_is_read_in_the_units_of_the_drawing() {
        let us = Length::parse_in("12", UnitSystem::Us);
        assert_eq!(us, Length::parse("12'"));
        assert_eq!(Length::parse_in("3.8", UnitSystem::Metric), Length::parse("3.8 m"));
        assert_eq!(Length::parse_in("12-6", UnitSystem::Metric), Length::parse("12'-6"));
        assert_eq!(Length::parse_in("400 mm", UnitSystem::Us), Length::parse("40 cm"));
        assert!(Length::parse_in("twelve", UnitSystem::Us).is_err());
    }
}

//! Lengths in feet, inches and fractions, or in millimeters.

use super::{Show, UnitSystem, grouped, rounded, two_figures};
use crate::units::Length;

/// To which part of an inch a length is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fraction {
    /// To 1/8 in.
    Eighth,
    /// To 1/16 in.
    Sixteenth,
    /// To 1/32 in: how far two lengths are apart.
    ThirtySecond,
}

const PER_MM: i64 = 8_000;
const PER_INCH: i64 = 203_200;

impl Show for Length {
    fn show(&self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us => self.show_to(Fraction::Sixteenth),
            UnitSystem::Metric | UnitSystem::MetricKpa => metric(*self),
        }
    }

    fn exact(&self) -> String {
        let total = self.eighths_of_um();
        if total % (PER_INCH / 64) == 0 {
            return feet_and_inches(total);
        }
        let (sign, total) = (sign(total), total.unsigned_abs());
        let millionths = u128::from(total) * 125;
        let mm = format!("{}.{:06}", millionths / 1_000_000, millionths % 1_000_000);
        let mm = mm.trim_end_matches('0').trim_end_matches('.');
        let per_cm = 10 * PER_MM.unsigned_abs();
        if total >= 100 * per_cm && total % per_cm == 0 {
            let cm = total / per_cm;
            let metres = format!("{}.{:02}", cm / 100, cm % 100);
            return format!("{sign}{} m", metres.trim_end_matches('0').trim_end_matches('.'));
        }
        format!("{sign}{mm} mm")
    }
}

impl Length {
    /// How far two lengths are apart, twice as fine as lengths are shown: to 1/32 in, or to 0.1 mm under a metre.
    pub fn show_fine(self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us => self.show_to(Fraction::ThirtySecond),
            UnitSystem::Metric | UnitSystem::MetricKpa if self.mm().abs() < 1000.0 => {
                format!("{} mm", rounded(self.mm(), 1))
            }
            UnitSystem::Metric | UnitSystem::MetricKpa => metric(self),
        }
    }

    /// Feet and inches to the nearest part of an inch, halves rounded away from zero: `12'-6 1/2"`, `3'-0"`, `6 3/16"`.
    ///
    /// Fractions are written out: the figures of a one-character fraction are half as high as the lettering, too small
    /// to be read from a print.
    pub fn show_to(self, fraction: Fraction) -> String {
        let parts: i64 = match fraction {
            Fraction::Eighth => 8,
            Fraction::Sixteenth => 16,
            Fraction::ThirtySecond => 32,
        };
        let step = (PER_INCH / parts).unsigned_abs();
        let total = (self.eighths_of_um().unsigned_abs() + step / 2) / step;
        let sign = if total == 0 { "" } else { sign(self.eighths_of_um()) };
        let (inches, over) = (total / parts.unsigned_abs(), total % parts.unsigned_abs());
        let (feet, inches) = (inches / 12, inches % 12);
        let fraction = ascii(over, parts.unsigned_abs());
        let inches = match (feet + inches, fraction.as_str()) {
            (_, "") => inches.to_string(),
            (0, fraction) => fraction.into(),
            (_, fraction) => format!("{inches} {fraction}"),
        };
        match feet {
            0 => format!("{sign}{inches}\""),
            feet => format!("{sign}{feet}'-{inches}\""),
        }
    }
}

impl Length {
    /// As a short piece is asked for at a counter, never in feet: `12 in`, `3 1/2 in`, `300 mm`.
    pub fn show_short(self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Metric | UnitSystem::MetricKpa => metric(self),
            UnitSystem::Us => {
                let step = (PER_INCH / 16).unsigned_abs();
                let total = (self.eighths_of_um().unsigned_abs() + step / 2) / step;
                let sign = if total == 0 { "" } else { sign(self.eighths_of_um()) };
                let inches = match (total / 16, ascii(total % 16, 16).as_str()) {
                    (inches, "") => inches.to_string(),
                    (0, fraction) => fraction.to_owned(),
                    (inches, fraction) => format!("{inches} {fraction}"),
                };
                format!("{sign}{inches} in")
            }
        }
    }
}

impl Length {
    /// A distance that a rule sets, as its code says it, not as a dimension on a drawing: `6 ft`, `3 in`; in metric to two
    /// figures, for it is round in feet or inches: `1.8 m`, `300 mm`. What is not in whole feet or whole inches is written like
    /// any other length.
    pub fn show_rule(self, units: UnitSystem) -> String {
        let (feet, inches) = (PER_INCH * 12, PER_INCH);
        match (units, self.eighths_of_um()) {
            (UnitSystem::Us, length) if length >= feet && length % feet == 0 => {
                format!("{} ft", grouped(&(length / feet).to_string()))
            }
            (UnitSystem::Us, length) if length < feet || length % inches == 0 => self.show_short(units),
            (UnitSystem::Us, _) => self.show(units),
            (UnitSystem::Metric | UnitSystem::MetricKpa, _) => match two_figures(self.metres()) {
                metres if metres.abs() < 1.0 => format!("{} mm", (metres * 1e3).round()),
                metres => format!("{metres} m"),
            },
        }
    }
}

impl Length {
    /// An elevation with its sign: `+8'-0"`, `−1'-6"`; `±0` for whatever would be written as zero.
    pub fn show_elevation(self, units: UnitSystem) -> String {
        let size = self.magnitude().show(units);
        if size == Length::ZERO.show(units) {
            return "±0".to_owned();
        }
        let sign = if self < Length::ZERO { '−' } else { '+' };
        format!("{sign}{size}")
    }
}

impl Length {
    /// A length along which pipe is sized, or a row of a table: feet to a tenth, `77.6 ft`, `80 ft`; meters to a
    /// hundredth, `21.95 m`, for many rows of tables are feet, and what is added up before the eyes of a reader has to add up.
    pub fn show_sizing(self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us => {
                let text = format!("{:.1}", self.feet());
                let text = text.strip_suffix(".0").unwrap_or(&text);
                format!("{} ft", grouped(if text == "-0" { "0" } else { text }))
            }
            UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.2} m", self.metres()),
        }
    }
}

/// Whole millimeters, whatever the length: one unit for all lengths of a drawing, as ISO 129-1 has it.
fn metric(length: Length) -> String {
    format!("{} mm", length.mm().round() as i64)
}

/// `12'-6 1/2`, `3'`, `6 1/2 in`: a multiple of 1/64 in without the inch mark, which a job file would have to escape.
fn feet_and_inches(total: i64) -> String {
    let sign = sign(total);
    let sixty_fourths = total.unsigned_abs() / (PER_INCH / 64).unsigned_abs();
    let (inches, over) = (sixty_fourths / 64, sixty_fourths % 64);
    let (feet, inches) = (inches / 12, inches % 12);
    let part = ascii(over, 64);
    let written = match (inches, over) {
        (0, 0) => "0".into(),
        (0, _) if feet == 0 => part,
        (inches, 0) => inches.to_string(),
        (inches, _) => format!("{inches} {part}"),
    };
    match (feet, written.as_str()) {
        (0, inches) => format!("{sign}{inches} in"),
        (feet, "0") => format!("{sign}{feet}'"),
        (feet, inches) => format!("{sign}{feet}'-{inches}"),
    }
}

fn sign(total: i64) -> &'static str {
    if total < 0 { "-" } else { "" }
}

/// A fraction in lowest terms in plain ASCII; nothing for none. `under` is a power of two.
pub fn ascii(over: u64, under: u64) -> String {
    match (over, under) {
        (0, _) => String::new(),
        (over, under) if over % 2 == 0 => ascii(over / 2, under / 2),
        (over, under) => format!("{over}/{under}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Parse;
    use proptest::prelude::*;

    #[test]
    fn short_pieces_are_named_in_inches_or_millimetres_alone() {
        let short = |inches: f64, units| Length::from_inches(inches).show_short(units);
        assert_eq!(
            [12.0, 3.5, 0.25, 0.0, -1.5].map(|inches| short(inches, UnitSystem::Us)),
            ["12 in", "3 1/2 in", "1/4 in", "0 in", "-1 1/2 in"]
        );
        assert_eq!(short(12.0, UnitSystem::Metric), "305 mm");
    }

    #[test]
    fn a_distance_of_a_rule_is_no_dimension() {
        let rule = |inches: f64, units| Length::from_inches(inches).show_rule(units);
        assert_eq!(
            [72.0, 12.0, 18.0, 1.5, 12_000.0, 12.5].map(|inches| rule(inches, UnitSystem::Us)),
            ["6 ft", "1 ft", "18 in", "1 1/2 in", "1,000 ft", "1'-0 1/2\""]
        );
        assert_eq!(rule(72.0, UnitSystem::Metric), "1.8 m");
        assert_eq!(
            [3.0, 4.0, 12.0, 120.0].map(|inches| rule(inches, UnitSystem::Metric)),
            ["76 mm", "100 mm", "300 mm", "3 m"]
        );
    }

    #[test]
    fn a_length_that_sizes_is_no_dimension() {
        let said = |feet: f64, units| Length::from_feet(feet).show_sizing(units);
        assert_eq!(
            [77.6, 80.0, 1_250.04].map(|feet| said(feet, UnitSystem::Us)),
            ["77.6 ft", "80 ft", "1,250 ft"]
        );
        assert_eq!(said(72.0, UnitSystem::MetricKpa), "21.95 m");
    }

    #[track_caller]
    fn check(text: &str, us: &str, metric: &str, exact: &str) {
        let length = Length::parse(text).unwrap();
        assert_eq!(length.show(UnitSystem::Us), us, "{text}");
        assert_eq!(length.show(UnitSystem::Metric), metric, "{text}");
        assert_eq!(length.exact(), exact, "{text}");
    }

    #[test]
    fn as_a_fitter_writes() {
        check("12.5 ft", "12'-6\"", "3810 mm", "12'-6");
        check("12' 6 1/2\"", "12'-6 1/2\"", "3823 mm", "12'-6 1/2");
        check("12' 6 3/16\"", "12'-6 3/16\"", "3815 mm", "12'-6 3/16");
        check("12' 0 1/2\"", "12'-0 1/2\"", "3670 mm", "12'-0 1/2");
        check("3 ft", "3'-0\"", "914 mm", "3'");
        check("6\"", "6\"", "152 mm", "6 in");
        check("6 1/2\"", "6 1/2\"", "165 mm", "6 1/2 in");
        check("1/2\"", "1/2\"", "13 mm", "1/2 in");
        check("3/16\"", "3/16\"", "5 mm", "3/16 in");
        check("1/64\"", "0\"", "0 mm", "1/64 in");
        check("-1/64\"", "0\"", "0 mm", "-1/64 in");
        check("0 in", "0\"", "0 mm", "0 in");
        check("11 31/32 in", "1'-0\"", "304 mm", "11 31/32 in");
        check("11' 11 63/64\"", "12'-0\"", "3657 mm", "11'-11 63/64");
        check("-3' 6\"", "-3'-6\"", "-1067 mm", "-3'-6");
        check("3.8 m", "12'-5 5/8\"", "3800 mm", "3.8 m");
        check("350 mm", "1'-1 3/4\"", "350 mm", "350 mm");
        check("999.6 mm", "3'-3 3/8\"", "1000 mm", "999.6 mm");
        check("3805 mm", "12'-5 13/16\"", "3805 mm", "3805 mm");
        check("-0.000125 mm", "0\"", "0 mm", "-0.000125 mm");
    }

    #[test]
    fn eighths_where_sixteenths_are_too_fine() {
        let length = Length::parse("6 3/16 in").unwrap();
        assert_eq!(length.show_to(Fraction::Sixteenth), "6 3/16\"");
        assert_eq!(length.show_to(Fraction::Eighth), "6 1/4\"");
        assert_eq!(
            Length::parse("11 15/16 in").unwrap().show_to(Fraction::Eighth),
            "1'-0\""
        );
    }

    proptest! {
        #[test]
        fn exact_is_read_back(eighths in -800_000_000_000i64..=800_000_000_000) {
            let length = Length::from_eighths_of_um(eighths);
            prop_assert_eq!(Length::parse(&length.exact()), Ok(length));
        }

        #[test]
        fn exact_is_read_back_in_round_figures(count in -100_000i64..=100_000, unit in prop::sample::select(vec![3_175, 8_000, 80_000, 203_200])) {
            let length = Length::from_eighths_of_um(count * unit);
            let exact = length.exact();
            prop_assert_eq!(Length::parse(&exact), Ok(length));
            prop_assert!(exact.is_ascii() && !exact.contains('"') && exact.len() < 24, "{}", exact);
        }

        #[test]
        fn what_is_shown_is_read_back_within_half_a_step(eighths in -800_000_000_000i64..=800_000_000_000) {
            let length = Length::from_eighths_of_um(eighths);
            let us = Length::parse(&length.show(UnitSystem::Us)).unwrap();
            prop_assert!((us - length).magnitude() <= Length::from_inches(1.0 / 32.0));
            let metric = Length::parse(&length.show(UnitSystem::Metric)).unwrap();
            prop_assert!((metric - length).magnitude() <= Length::from_mm(0.5));
        }

        #[test]
        fn no_length_panics(eighths: i64) {
            let length = Length::from_eighths_of_um(eighths);
            length.exact();
            length.show(UnitSystem::Us);
            length.show(UnitSystem::Metric);
        }
    }
}

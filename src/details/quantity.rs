//! What can be typed into a field: quantities of the job, and bare numbers.

use crate::units::{
    Angle, Clocked, Flow, GaugePressure, HeatRate, HeatingValue, Length, NominalSize, Parse, PressureDrop, Show,
    UnitSystem,
};

/// A quantity that is typed and shown in a field.
pub trait Quantity: Sized + Copy + 'static {
    /// What is typed.
    ///
    /// # Errors
    /// In words, what is wrong with the text and how to write it.
    fn read(text: &str, units: UnitSystem) -> Result<Self, String>;

    /// What the field shows.
    fn written(self, units: UnitSystem) -> String;

    /// The unit of a plain number; empty where a plain number has none, or is not to be typed.
    fn unit(units: UnitSystem) -> &'static str;
}

/// A text with its unit: that of the job, where only a number is typed.
fn with_unit(text: &str, unit: &str) -> String {
    let text = text.trim();
    let is_plain = text.chars().any(|character| character.is_ascii_digit())
        && text
            .chars()
            .all(|character| character.is_ascii_digit() || " .,+-/".contains(character));
    match is_plain && !unit.is_empty() {
        true => format!("{text} {unit}"),
        false => text.to_owned(),
    }
}

macro_rules! parsed {
    ($($name:ident: $us:literal, $metric:literal, $kpa:literal;)+) => { $(
        impl Quantity for $name {
            fn read(text: &str, units: UnitSystem) -> Result<Self, String> {
                let whole = with_unit(text, Self::unit(units));
                <$name as Parse>::parse(&whole).map_err(|error| error.to_string())
            }

            fn unit(units: UnitSystem) -> &'static str {
                match units {
                    UnitSystem::Us => $us,
                    UnitSystem::Metric => $metric,
                    UnitSystem::MetricKpa => $kpa,
                }
            }

            fn written(self, units: UnitSystem) -> String {
                self.show(units)
            }
        }
    )+ };
}
parsed! {
    GaugePressure: "in w.c.", "mbar", "kPa";
    PressureDrop: "in w.c.", "mbar", "kPa";
    HeatRate: "Btu/h", "kW", "kW";
    Flow: "cfh", "m³/h", "m³/h";
    HeatingValue: "Btu/ft³", "MJ/m³", "MJ/m³";
    NominalSize: "", "", "";
    Angle: "°", "°", "°";
    Clocked: "", "", "";
}

impl Quantity for Length {
    fn read(text: &str, units: UnitSystem) -> Result<Self, String> {
        Length::parse_in(text, units).map_err(|error| error.to_string())
    }

    fn unit(units: UnitSystem) -> &'static str {
        match units {
            UnitSystem::Us => "ft",
            UnitSystem::Metric | UnitSystem::MetricKpa => "m",
        }
    }

    fn written(self, units: UnitSystem) -> String {
        self.show(units)
    }
}

/// A bare number, as a specific gravity is.
impl Quantity for f64 {
    fn read(text: &str, _units: UnitSystem) -> Result<Self, String> {
        let number = text.trim().parse::<f64>().ok().filter(|number| number.is_finite());
        number.ok_or_else(|| format!("`{}` is not a number; write it like 0.60", text.trim()))
    }

    fn unit(_units: UnitSystem) -> &'static str {
        ""
    }

    fn written(self, _units: UnitSystem) -> String {
        self.to_string()
    }
}

/// A text as a value that may be left out: nothing typed is none.
///
/// # Errors
/// As [`Quantity::read`].
pub fn optional<T: Quantity>(text: &str, units: UnitSystem) -> Result<Option<T>, String> {
    match text.trim() {
        "" => Ok(None),
        text => T::read(text, units).map(Some),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fmt::Debug;

    #[track_caller]
    fn check<T: Quantity + PartialEq + Debug>(typed: &str, shown: &str, units: UnitSystem) {
        let value = T::read(typed, units).unwrap();
        assert_eq!(value.written(units), shown);
        assert_eq!(
            T::read(shown, units).unwrap().written(units),
            shown,
            "what is shown is read again"
        );
    }

    #[test]
    fn what_a_fitter_writes_is_read_and_shown_so_that_it_can_be_typed_again() {
        let us = UnitSystem::Us;
        check::<Length>("12-6", "12'-6\"", us);
        check::<Length>("12", "12'-0\"", us);
        check::<Length>("3.8 m", "12'-5 5/8\"", us);
        check::<HeatRate>("75 MBH", "75,000 Btu/h", us);
        check::<GaugePressure>("7 in wc", "7 in w.c.", us);
        check::<GaugePressure>("2 psi", "2 psig", us);
        check::<PressureDrop>("0.5 in wc", "0.5 in w.c.", us);
        check::<NominalSize>("3/4", "3/4\"", us);
        check::<NominalSize>("EHD 18", "EHD 18", us);
        check::<Flow>("75 cfh", "75 cfh", us);
        check::<HeatingValue>("1000 Btu/ft3", "1,000 Btu/ft³", us);
        check::<f64>(" 0.6", "0.6", us);
        check::<HeatRate>("40000", "40,000 Btu/h", us);
        check::<HeatRate>("40,000", "40,000 Btu/h", us);
        check::<GaugePressure>("7", "7 in w.c.", us);
        check::<PressureDrop>("0.5", "0.5 in w.c.", us);
        check::<Flow>("250", "250 cfh", us);
        check::<HeatingValue>("1000", "1,000 Btu/ft³", us);
        let metric = UnitSystem::Metric;
        check::<Length>("3.8", "3800 mm", metric);
        check::<Length>("450 mm", "450 mm", metric);
        check::<HeatRate>("22 kW", "22.0 kW", metric);
        check::<GaugePressure>("20 mbar", "20 mbar", metric);
        check::<PressureDrop>("125 Pa", "1.25 mbar", metric);
        check::<NominalSize>("3/4", "DN 20", metric);
        check::<Flow>("2.1 m3/h", "2.10 m³/h", metric);
        check::<HeatingValue>("38.5 MJ/m3", "38.5 MJ/m³", metric);
        check::<HeatRate>("22", "22.0 kW", metric);
        check::<GaugePressure>("20", "20 mbar", metric);
        check::<PressureDrop>("1.25", "1.25 mbar", metric);
        check::<Flow>("2.1", "2.10 m³/h", metric);
        check::<HeatingValue>("38.5", "38.5 MJ/m³", metric);
    }

    #[test]
    fn nothing_is_none_and_nonsense_is_told() {
        assert_eq!(optional::<Length>("  ", UnitSystem::Us), Ok(None));
        let error = optional::<HeatRate>("75 x", UnitSystem::Us).unwrap_err();
        assert!(error.contains("`75 x` is not"), "{error}");
        assert!(f64::read("inf", UnitSystem::Us).is_err());
    }
}

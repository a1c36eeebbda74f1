//! What people type, read into quantities.
//!
//! Every text that [`crate::units::Show::exact`] prints is read back to the same value. A text is read only when it
//! can mean one thing: a number without its unit is refused, as is a comma that could be a decimal point. What is not
//! finite, or beyond any piping job, is refused too; no text panics.

mod angle;
mod clocked;
mod heat;
mod length;
mod nominal;
mod number;
mod plain;
mod pressure;
mod scalar;

/// Why a text is not the quantity that was asked for. The message names the text and shows what can be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("`{text}` is not {wanted}: {reason}; write it like {examples}")]
pub struct UnitError {
    /// The offending text, shortened when long, its unprintable characters escaped.
    pub text: String,
    /// What was asked for, with its article: "a length".
    pub wanted: &'static str,
    /// What is wrong with the text, as a clause: "it has no unit".
    pub reason: String,
    /// Accepted ways to write it.
    pub examples: &'static str,
}

impl UnitError {
    fn new(text: &str, wanted: &'static str, reason: String, examples: &'static str) -> UnitError {
        UnitError {
            text: printable(text),
            wanted,
            reason,
            examples,
        }
    }
}

/// A quantity that can be read from what a person types.
pub trait Parse: Sized {
    /// Reads `text`.
    ///
    /// # Errors
    /// When the text is not such a quantity, or is not finite, or is beyond any piping job.
    fn parse(text: &str) -> Result<Self, UnitError>;
}

/// Characters of a text that are repeated in a message.
const SHOWN: usize = 40;

/// `text` fit for a message of one line: shortened, its unprintable characters escaped.
fn printable(text: &str) -> String {
    let mut shown = String::new();
    for (count, symbol) in text.chars().enumerate() {
        if count == SHOWN {
            shown.push('…');
            break;
        }
        match symbol {
            '"' | '\'' => shown.push(symbol),
            _ => shown.extend(symbol.escape_debug()),
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{
        Angle, Flow, GaugePressure, HeatRate, HeatingValue, Length, NominalSize, PressureDrop, UnitSystem,
    };
    use proptest::prelude::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        match Length::parse(text) {
            Ok(length) => panic!("{text:?} was read as {length:?}"),
            Err(error) => assert_eq!(error.to_string(), expected),
        }
    }

    #[test]
    fn a_message_says_what_was_typed_what_was_wanted_and_how_to_write_it() {
        check(
            "12",
            "`12` is not a length: it has no unit; write it like 12'-6 1/2, 12-6, 150 in, 3.8 m or 3800 mm",
        );
        check(
            "3 furlongs",
            "`3 furlongs` is not a length: the unit `furlongs` is not known here; \
             write it like 12'-6 1/2, 12-6, 150 in, 3.8 m or 3800 mm",
        );
    }

    #[test]
    fn a_message_is_one_short_line_whatever_was_typed() {
        let typed = "6\u{1b}[31m\n\u{202e}".to_owned() + &"x".repeat(10_000);
        let message = Length::parse(&typed).unwrap_err().to_string();
        assert!(message.starts_with("`6\\u{1b}[31m\\n\\u{202e}xxx"), "{message}");
        assert!(message.chars().all(|symbol| !symbol.is_control()), "{message}");
        assert!(message.len() < 300, "{message}");
    }

    /// Reads `text` as everything.
    fn read_all(text: &str) {
        let errors = [
            Length::parse(text).err(),
            Length::parse_in(text, UnitSystem::Us).err(),
            Length::parse_in(text, UnitSystem::Metric).err(),
            GaugePressure::parse(text).err(),
            PressureDrop::parse(text).err(),
            HeatRate::parse(text).err(),
            Flow::parse(text).err(),
            HeatingValue::parse(text).err(),
            NominalSize::parse(text).err(),
            Angle::parse(text).err(),
        ];
        for error in errors.into_iter().flatten() {
            let message = error.to_string();
            assert!(message.len() < 600 && !message.contains('\n'), "{message}");
        }
    }

    proptest! {
        #[test]
        fn no_text_panics(text: String) {
            read_all(&text);
        }

        #[test]
        fn no_text_of_the_right_signs_panics(text in "[-+0-9,./'\"½¾⅛′″ eNabfhinmtwcpsDE³]{0,24}") {
            read_all(&text);
        }

        #[test]
        fn no_number_panics(whole in "[0-9]{0,90}", over in "[0-9]{1,30}", unit in "( in|'|'-6| m| psi|e99 Pa|)") {
            read_all(&format!("{whole}/{over}{unit}"));
            read_all(&format!("{whole}.{over}{unit}"));
            read_all(&format!("{whole} {over}/{over}{unit}"));
            read_all(&format!("{whole}-{whole}/{over}{unit}"));
        }
    }
}

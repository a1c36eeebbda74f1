//! What people type, read into quantities.
//!
//! Every text that [`crate::units::Show::exact`] prints is read back to the same value.

use super::{Flow, GaugePressure, HeatRate, HeatingValue, Length, NominalSize, PressureDrop};

/// Why a text is not the quantity that was asked for. The message names the text and shows what can be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{text:?} is not {wanted}: write it like {examples}")]
pub struct UnitError {
    /// The offending text, shortened when long.
    pub text: String,
    /// What was asked for, with its article: "a length".
    pub wanted: &'static str,
    /// Accepted ways to write it.
    pub examples: &'static str,
}

/// A quantity that can be read from what a person types.
pub trait Parse: Sized {
    /// Reads `text`.
    ///
    /// # Errors
    /// When the text is not such a quantity, or is not finite, or is beyond any piping job.
    fn parse(text: &str) -> Result<Self, UnitError>;
}

macro_rules! not_yet {
    ($($name:ident),*) => { $(impl Parse for $name {
        fn parse(text: &str) -> Result<Self, UnitError> {
            Err(UnitError { text: text.into(), wanted: stringify!($name), examples: "" })
        }
    })* };
}
not_yet!(
    Length,
    GaugePressure,
    PressureDrop,
    HeatRate,
    Flow,
    HeatingValue,
    NominalSize
);

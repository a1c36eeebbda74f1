//! The text of a profile, read with the place of every fault.

use super::Profile;
use crate::codebook::{CodebookError, Mark, Marked};
use crate::job::{Fuel, Material, Method};
use crate::units::{GaugePressure, Length, NominalSize, Parse, PressureDrop};
use serde::de::Error as _;
use serde::{Deserialize, Deserializer};

impl Profile {
    /// Reads a profile. `file` is the name by which errors call the text.
    ///
    /// # Errors
    /// When the text is no profile: with line, column, what is wrong and what to do.
    pub fn read(file: &str, text: &str) -> Result<Profile, CodebookError> {
        let options = ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        options.from_str(text).map_err(|fault| CodebookError {
            file: file.to_owned(),
            line: fault.span.start.line,
            column: fault.span.start.col,
            what: fault.code.to_string(),
            remedy: "compare with the profiles that come with the program".to_owned(),
        })
    }
}

/// A value that stands in a profile: a number, or a quantity in quotes.
pub(super) trait Written: Sized {
    fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error>;
}

impl Written for f64 {
    fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        f64::deserialize(from)
    }
}

macro_rules! quoted {
    ($($name:ident),*) => { $(impl Written for $name {
        fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
            $name::parse(&String::deserialize(from)?).map_err(D::Error::custom)
        }
    })* };
}
quoted!(Length, GaugePressure, PressureDrop, NominalSize);

struct Typed<T>(T);

impl<'de, T: Written> Deserialize<'de> for Typed<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        T::read(from).map(Typed)
    }
}

/// A figure as written, in the letter of its mark: `F("12 in")`.
#[derive(Deserialize)]
enum Lettered<T> {
    F(T),
    C(T),
    D(T),
    M(T),
    L(T),
}

impl<'de, T: Written> Deserialize<'de> for Marked<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let (Typed(value), mark) = match Lettered::deserialize(from)? {
            Lettered::F(value) => (value, Mark::Found),
            Lettered::C(value) => (value, Mark::Computed),
            Lettered::D(value) => (value, Mark::Derived),
            Lettered::M(value) => (value, Mark::Memory),
            Lettered::L(value) => (value, Mark::Local),
        };
        Ok(Marked::new(value, mark))
    }
}

pub(super) fn typed<'de, T: Written, D: Deserializer<'de>>(from: D) -> Result<T, D::Error> {
    T::read(from)
}

pub(super) fn typed_option<'de, T: Written, D: Deserializer<'de>>(from: D) -> Result<Option<T>, D::Error> {
    Ok(Option::<Typed<T>>::deserialize(from)?.map(|Typed(value)| value))
}

pub(super) fn pairs<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<(NominalSize, Length)>, D::Error> {
    let written = Vec::<(Typed<NominalSize>, Typed<Length>)>::deserialize(from)?;
    Ok(written.into_iter().map(|(size, length)| (size.0, length.0)).collect())
}

#[derive(Deserialize)]
#[serde(remote = "Method")]
pub(super) enum MethodText {
    LongestLength,
    BranchLength,
}

#[derive(Deserialize)]
#[serde(remote = "Fuel")]
pub(super) enum FuelText {
    Natural,
    Propane,
}

#[derive(Deserialize)]
#[serde(remote = "Material")]
enum MaterialText {
    Steel40,
    CopperK,
    CopperL,
    Csst,
    Pe,
}

#[derive(Deserialize)]
struct OneMaterial(#[serde(with = "MaterialText")] Material);

pub(super) fn materials<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Material>, D::Error> {
    Ok(Vec::<OneMaterial>::deserialize(from)?
        .into_iter()
        .map(|one| one.0)
        .collect())
}

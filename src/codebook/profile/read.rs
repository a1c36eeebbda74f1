//! The values that stand in a profile: marked figures, quantities in quotes, words.

use crate::codebook::{Mark, Marked};
use crate::job::{Fuel, Material, Method};
use crate::units::{GaugePressure, Length, NominalSize, Parse, PressureDrop};
use serde::de::Error as _;
use serde::{Deserialize, Deserializer};

/// A value that stands in a profile: a number, or a quantity in quotes. None is ever less than nothing.
pub(super) trait Written: Sized {
    fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error>;
}

impl Written for f64 {
    fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let number = f64::deserialize(from)?;
        match number.is_finite() && number >= 0.0 {
            true => Ok(number),
            false => Err(D::Error::custom(format!(
                "{number} is not a figure for a profile; write a number that is zero or more"
            ))),
        }
    }
}

macro_rules! quoted {
    ($($name:ident >= $least:expr),*) => { $(impl Written for $name {
        fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
            let text = String::deserialize(from)?;
            match $name::parse(&text) {
                Ok(value) if value >= $least => Ok(value),
                Ok(_) => Err(D::Error::custom(format!("`{text}` is less than zero; leave the minus out"))),
                Err(error) => Err(D::Error::custom(error)),
            }
        }
    })* };
}
quoted!(
    Length >= Length::ZERO,
    GaugePressure >= GaugePressure::from_pa(0.0),
    PressureDrop >= PressureDrop::ZERO,
    NominalSize >= NominalSize::Inch(1)
);

/// A quantity alone.
struct Typed<T>(T);

impl<'de, T: Written> Deserialize<'de> for Typed<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        T::read(from).map(Typed)
    }
}

/// A figure in the letter of its mark: `F("12 in")`.
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

/// A factor that never makes less: of a length, of a test pressure.
pub(super) fn factor<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    let factor = f64::read(from)?;
    match factor >= 1.0 {
        true => Ok(factor),
        false => Err(D::Error::custom(format!(
            "the factor {factor} would reduce; write a factor of 1 or more"
        ))),
    }
}

/// Lengths that grow from one to the next.
pub(super) fn rising<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Marked<Length>>, D::Error> {
    let lengths = Vec::<Marked<Length>>::deserialize(from)?;
    let rise = lengths
        .iter()
        .zip(lengths.iter().skip(1))
        .all(|(one, next)| one.value < next.value);
    match rise && lengths.first().is_none_or(|first| first.value > Length::ZERO) {
        true => Ok(lengths),
        false => Err(D::Error::custom(
            "the lengths do not grow from one to the next; write them short to long, each once, all above zero",
        )),
    }
}

pub(super) fn marked_factor<'de, D: Deserializer<'de>>(from: D) -> Result<Marked<f64>, D::Error> {
    let factor = Marked::<f64>::deserialize(from)?;
    match factor.value >= 1.0 {
        true => Ok(factor),
        false => Err(D::Error::custom(format!(
            "the factor {} would reduce; write a factor of 1 or more",
            factor.value
        ))),
    }
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
#[serde(transparent)]
struct OneMaterial(#[serde(with = "MaterialText")] Material);

pub(super) fn materials<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Material>, D::Error> {
    Ok(Vec::<OneMaterial>::deserialize(from)?
        .into_iter()
        .map(|one| one.0)
        .collect())
}

//! Quantities, written as texts in the words of the trade.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::units::{Parse, Show};

/// A quantity as a text: `"12'-6 1/2"`, `"7 in w.c."`.
#[derive(Clone, Copy, PartialEq)]
pub struct Text<T>(pub T);

impl<T: Show> Serialize for Text<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0.exact())
    }
}

impl<'de, T: Parse> Deserialize<'de> for Text<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Quantity<T>(PhantomData<T>);

        impl<T: Parse> Visitor<'_> for Quantity<T> {
            type Value = Text<T>;

            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("a quantity in quotes")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Text<T>, E> {
                T::parse(text).map(Text).map_err(E::custom)
            }
        }

        deserializer.deserialize_str(Quantity(PhantomData))
    }
}

/// The quantity of a key that may be left out.
pub fn known<T>(text: Option<Text<T>>) -> Option<T> {
    text.map(|text| text.0)
}

/// The key of a quantity that may not be known.
pub fn written<T: Copy>(quantity: &Option<T>) -> Option<Text<T>> {
    quantity.map(Text)
}

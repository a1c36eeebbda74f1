//! Lists in square brackets, of bounded length.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{Error, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

/// The longest list that is read: joints, runs, notes and whatever else is listed.
pub const LONGEST: usize = 200_000;

/// Things in square brackets.
#[derive(PartialEq, Serialize)]
#[serde(transparent)]
pub struct List<T>(pub Vec<T>);

impl<T> Default for List<T> {
    fn default() -> Self {
        List(Vec::new())
    }
}

impl<T> FromIterator<T> for List<T> {
    fn from_iter<I: IntoIterator<Item = T>>(parts: I) -> Self {
        List(parts.into_iter().collect())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for List<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Items<T>(PhantomData<T>);

        impl<'de, T: Deserialize<'de>> Visitor<'de> for Items<T> {
            type Value = List<T>;

            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("a list in square brackets")
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<List<T>, A::Error> {
                let mut list = Vec::new();
                while let Some(item) = items.next_element()? {
                    if list.len() == LONGEST {
                        return Err(A::Error::custom(
                            "there are more than 200,000 of these; split the job into several files",
                        ));
                    }
                    list.push(item);
                }
                Ok(List(list))
            }
        }

        deserializer.deserialize_seq(Items(PhantomData))
    }
}

//! One field over many parts: all say the same, or several things.

/// What many parts say in one field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shared<T> {
    /// All say this.
    Same(T),
    /// They differ.
    Several,
}

impl<T: PartialEq> Shared<T> {
    /// What all of them say; several things when there are none.
    pub fn of(values: impl IntoIterator<Item = T>) -> Shared<T> {
        let mut values = values.into_iter();
        match values.next() {
            Some(first) if values.all(|value| value == first) => Shared::Same(first),
            Some(_) | None => Shared::Several,
        }
    }

    /// What all say, if they agree.
    pub fn same(self) -> Option<T> {
        match self {
            Shared::Same(value) => Some(value),
            Shared::Several => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_that_differs_makes_several() {
        assert_eq!(Shared::of([2, 2, 2]), Shared::Same(2));
        assert_eq!(Shared::of([2, 2, 3]), Shared::Several);
        assert_eq!(Shared::<u8>::of([]), Shared::Several);
    }
}

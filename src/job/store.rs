//! Joints and runs by number, found fast.

use std::fmt;
use std::hash::Hash;

/// A number by which a job names one of its parts.
pub trait Id: Copy + Ord + Hash + fmt::Debug {
    /// The id of this number.
    fn new(number: u32) -> Self;
    /// The number of this id.
    fn number(self) -> u32;
}

macro_rules! id {
    ($(#[$doc:meta])* $name:ident, $letter:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u32);

        impl Id for $name {
            fn new(number: u32) -> Self {
                $name(number)
            }
            fn number(self) -> u32 {
                self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!($letter, "{}"), self.0)
            }
        }
    };
}

id!(
    /// Names a joint of a job; printed `J7`.
    JointId, "J"
);
id!(
    /// Names a run of a job; printed `R7`.
    RunId, "R"
);

/// A part that carries its own id.
pub trait Named {
    /// The kind of its id.
    type Id: Id;
    /// Its id.
    fn id(&self) -> Self::Id;
}

/// Parts in the order of their ids, each id once.
#[derive(Clone, Debug, PartialEq)]
pub struct Store<T> {
    parts: Vec<T>,
}

impl<T> Default for Store<T> {
    fn default() -> Self {
        Store { parts: Vec::new() }
    }
}

impl<T: Named> Store<T> {
    /// Finds a part.
    pub fn get(&self, id: T::Id) -> Option<&T> {
        self.position(id).map(|at| &self.parts[at])
    }

    /// Finds a part, to change it. Its id must stay what it is.
    pub fn get_mut(&mut self, id: T::Id) -> Option<&mut T> {
        self.position(id).map(|at| &mut self.parts[at])
    }

    /// The place of a part in [`Store::iter`], the index that dense tables over this store use.
    pub fn position(&self, id: T::Id) -> Option<usize> {
        // Ids are mostly 1, 2, 3 …: look there first.
        let guess = (id.number() as usize).saturating_sub(1);
        match self.parts.get(guess) {
            Some(part) if part.id() == id => Some(guess),
            _ => self.parts.binary_search_by_key(&id, T::id).ok(),
        }
    }

    /// Puts a part in its place; gives back the part that had its id before.
    pub fn insert(&mut self, part: T) -> Option<T> {
        match self.parts.binary_search_by_key(&part.id(), T::id) {
            Ok(at) => Some(std::mem::replace(&mut self.parts[at], part)),
            Err(at) => {
                self.parts.insert(at, part);
                None
            }
        }
    }

    /// Takes a part out.
    pub fn remove(&mut self, id: T::Id) -> Option<T> {
        self.position(id).map(|at| self.parts.remove(at))
    }

    /// Takes out every part that is not to be kept, in one pass.
    pub fn retain(&mut self, keep: impl FnMut(&T) -> bool) {
        self.parts.retain(keep);
    }

    /// The part at a dense index.
    pub fn at(&self, index: usize) -> &T {
        &self.parts[index]
    }

    /// All parts in the order of their ids.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.parts.iter()
    }

    /// How many parts there are.
    pub fn len(&self) -> usize {
        self.parts.len()
    }

    /// Whether there is no part at all.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }

    /// An id that no part has yet: one more than the largest, or the first gap when there is none larger.
    pub fn free_id(&self) -> T::Id {
        let last = self.parts.last().map_or(0, |part| part.id().number());
        let free = |number: &u32| self.position(T::Id::new(*number)).is_none();
        let number = last.checked_add(1).or_else(|| (1..=u32::MAX).find(free));
        T::Id::new(number.unwrap_or(u32::MAX))
    }
}

impl<'a, T> IntoIterator for &'a Store<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.parts.iter()
    }
}

impl<T: Named> Extend<T> for Store<T> {
    /// Puts many parts in their places, in one pass; of two with one id the later stays.
    fn extend<I: IntoIterator<Item = T>>(&mut self, parts: I) {
        self.parts.extend(parts);
        // A stable sort takes what is in order already as it is; turned round, the later of two comes first.
        self.parts.reverse();
        self.parts.sort_by_key(|part| std::cmp::Reverse(part.id()));
        self.parts.dedup_by_key(|part| part.id());
        self.parts.reverse();
    }
}

impl<T: Named> FromIterator<T> for Store<T> {
    /// Gathers parts; of two with one id the later stays.
    fn from_iter<I: IntoIterator<Item = T>>(parts: I) -> Self {
        let mut store = Store::default();
        for part in parts {
            store.insert(part);
        }
        store
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Debug, PartialEq)]
    struct Part(u32, &'static str);
    impl Named for Part {
        type Id = JointId;
        fn id(&self) -> JointId {
            JointId(self.0)
        }
    }

    #[test]
    fn parts_are_found_whatever_their_numbers() {
        let store: Store<Part> = [Part(900, "c"), Part(1, "a"), Part(40, "b")].into_iter().collect();
        assert_eq!(store.get(JointId(900)), Some(&Part(900, "c")));
        assert_eq!(store.get(JointId(40)), Some(&Part(40, "b")));
        assert_eq!(store.get(JointId(2)), None);
        assert_eq!(store.free_id(), JointId(901));
    }

    #[test]
    fn a_free_id_is_free_even_when_the_largest_number_is_taken() {
        let store: Store<Part> = [Part(1, "a"), Part(3, "b"), Part(u32::MAX, "c")].into_iter().collect();
        assert_eq!(store.free_id(), JointId(2));
    }

    #[test]
    fn many_parts_come_and_go_at_once() {
        let mut store: Store<Part> = [Part(5, "old"), Part(2, "b"), Part(9, "d")].into_iter().collect();
        store.extend([Part(7, "c"), Part(5, "new"), Part(1, "a")]);
        let words: String = store.iter().map(|part| part.1).collect();
        assert_eq!(words, "abnewcd");
        store.retain(|part| part.0 % 2 == 1);
        assert_eq!(store.len(), 4);
        assert_eq!(store.get(JointId(7)), Some(&Part(7, "c")));
    }

    #[test]
    fn an_id_is_held_once() {
        let mut store: Store<Part> = [Part(3, "old")].into_iter().collect();
        assert_eq!(store.insert(Part(3, "new")), Some(Part(3, "old")));
        assert_eq!(store.len(), 1);
        assert_eq!(store.remove(JointId(3)), Some(Part(3, "new")));
        assert!(store.is_empty());
    }
}

//! Where a figure comes from, and how sure it is.

use std::fmt;

/// How sure a figure is.
///
/// In the order of trust: the weakest of several figures is their `max`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// Read in a published text.
    Found,
    /// Computed from a named equation that reproduces the published cells.
    Computed,
    /// Derived from published figures by a stated rule.
    Derived,
    /// From memory; no text was found.
    Memory,
    /// Set by whoever wrote or amended the profile, or wrote a table of their own.
    Local,
}

impl Mark {
    /// Every mark, in the order of trust.
    pub const ALL: [Mark; 5] = [Mark::Found, Mark::Computed, Mark::Derived, Mark::Memory, Mark::Local];

    /// All five marks in one sentence, for wherever one is printed.
    pub const EXPLAINED: &str = "Marks: F read in print; C computed from the code's equation; D derived from printed figures; \
                                 M from memory, no text found; L set locally, by the profile or a table of your own.";

    /// The letter beside the figure on drawings and lists.
    pub const fn letter(self) -> char {
        match self {
            Mark::Found => 'F',
            Mark::Computed => 'C',
            Mark::Derived => 'D',
            Mark::Memory => 'M',
            Mark::Local => 'L',
        }
    }

    /// The mark in words.
    pub const fn words(self) -> &'static str {
        match self {
            Mark::Found => "read in print",
            Mark::Computed => "computed from the code's equation",
            Mark::Derived => "derived from printed figures",
            Mark::Memory => "from memory, no text found",
            Mark::Local => "set locally, by the profile or a table of your own",
        }
    }

    /// Letter and words, for a sentence: "F, read in print".
    pub fn told(self) -> String {
        format!("{}, {}", self.letter(), self.words())
    }

    /// The mark of a letter.
    pub const fn from_letter(letter: char) -> Option<Mark> {
        match letter {
            'F' => Some(Mark::Found),
            'C' => Some(Mark::Computed),
            'D' => Some(Mark::Derived),
            'M' => Some(Mark::Memory),
            'L' => Some(Mark::Local),
            _ => None,
        }
    }
}

/// As it stands beside its figure, where a bare letter would read as a unit: "486 cfh (F)".
impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({})", self.letter())
    }
}

/// A figure and how sure it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Marked<T> {
    /// The figure.
    pub value: T,
    /// How sure it is.
    pub mark: Mark,
}

impl<T> Marked<T> {
    /// A figure with its mark.
    pub const fn new(value: T, mark: Mark) -> Marked<T> {
        Marked { value, mark }
    }

    /// Another figure that follows from this one alone, as sure as it.
    pub fn map<U>(self, follow: impl FnOnce(T) -> U) -> Marked<U> {
        Marked::new(follow(self.value), self.mark)
    }
}

/// The text in which figures stand; `T` is how its words are kept.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Source<T = &'static str> {
    /// The document, with its edition.
    pub document: T,
    /// Where in it, and how it came here; may be empty in a file of a person's own.
    pub detail: T,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_leads_back_to_its_mark() {
        for mark in Mark::ALL {
            assert_eq!(Mark::from_letter(mark.letter()), Some(mark));
        }
        assert_eq!(Mark::from_letter('f'), None);
    }

    #[test]
    fn the_sentence_explains_every_mark_in_its_own_words() {
        let said = Mark::ALL.map(|mark| format!("{} {}", mark.letter(), mark.words()));
        assert_eq!(format!("Marks: {}.", said.join("; ")), Mark::EXPLAINED);
        assert!(Mark::ALL.is_sorted());
    }

    #[test]
    fn the_weakest_mark_is_the_greatest() {
        assert_eq!(Mark::Found.max(Mark::Memory).max(Mark::Computed), Mark::Memory);
    }
}

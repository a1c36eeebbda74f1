//! What a worksheet asks: figures that are ruled lines on it and stand on its key.

use crate::scene::{answer, answer_room};

/// A kind of figure that can be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Blank {
    /// Sizes of new pipe.
    Sizes,
    /// Lengths that size a section, and the rows of the table that they read.
    SizingLengths,
    /// Loads of sections, flows of outlets and their totals.
    Loads,
    /// Capacities of sections.
    Capacities,
    /// How many fittings of each kind.
    FittingCounts,
    /// What must be fixed.
    Findings,
    /// Lengths to which pipe is cut.
    CutLengths,
    /// Computed pressures.
    Pressures,
}

impl Blank {
    /// Every kind.
    pub const ALL: [Blank; 8] = [
        Blank::Sizes,
        Blank::SizingLengths,
        Blank::Loads,
        Blank::Capacities,
        Blank::FittingCounts,
        Blank::Findings,
        Blank::CutLengths,
        Blank::Pressures,
    ];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Blank::Sizes => "sizes",
            Blank::SizingLengths => "sizing lengths",
            Blank::Loads => "loads",
            Blank::Capacities => "capacities",
            Blank::FittingCounts => "fitting counts",
            Blank::Findings => "findings",
            Blank::CutLengths => "cut lengths",
            Blank::Pressures => "pressures",
        }
    }

    /// The room of an answer in figures, so that its line does not tell how long it is, and whether it stands at the right.
    const fn room(self) -> (usize, bool) {
        match self {
            Blank::Sizes => (6, false),
            Blank::SizingLengths | Blank::Loads | Blank::Capacities | Blank::Pressures => (5, true),
            Blank::FittingCounts => (3, true),
            Blank::CutLengths => (10, false),
            Blank::Findings => (15, false),
        }
    }
}

/// What is asked: nothing on any sheet but a worksheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Asked(u8);

impl Asked {
    /// What is asked where nothing is chosen.
    pub const USUAL: [Blank; 2] = [Blank::Sizes, Blank::Findings];

    /// These kinds, and those that would give them away: with a size its capacity.
    pub fn of(blanks: &[Blank]) -> Asked {
        let with = |asked: Asked, blank: &Blank| Asked(asked.0 | 1 << *blank as u8);
        let asked = blanks.iter().fold(Asked::default(), with);
        match asked.asks(Blank::Sizes) {
            true => with(asked, &Blank::Capacities),
            false => asked,
        }
    }

    /// Whether a kind is asked.
    pub const fn asks(self, blank: Blank) -> bool {
        self.0 & 1 << blank as u8 != 0
    }

    /// Whether nothing is asked.
    pub const fn is_nothing(self) -> bool {
        self.0 == 0
    }

    /// The kinds that are asked.
    pub fn blanks(self) -> impl Iterator<Item = Blank> {
        Blank::ALL.into_iter().filter(move |blank| self.asks(*blank))
    }

    /// A figure: an answer where its kind is asked. One that is empty stays empty.
    pub fn put(self, blank: Blank, words: impl Into<String>) -> String {
        let words = words.into();
        if !self.asks(blank) || words.is_empty() {
            return words;
        }
        let (room, is_at_right) = blank.room();
        let rest = answer_room(room.saturating_sub(words.chars().count()));
        let words = answer(&words);
        match is_at_right {
            true => rest + &words,
            false => words + &rest,
        }
    }
}

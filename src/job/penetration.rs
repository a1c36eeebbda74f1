//! Where pipe passes through a part of the building.

use super::WordsAt;
use super::listed::listed;
use crate::units::Length;

/// A passage of a run, uncut, through a wall, floor, roof, slab or the ground line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Penetration {
    /// What is passed through.
    pub barrier: Barrier,
    /// True distance from the run's `from` end; half way when not given.
    pub at: Option<Length>,
    /// How it is built, in the person's words: "2x6 frame", "8 in block".
    pub construction: Option<String>,
    /// Its thickness.
    pub thickness: Option<Length>,
    /// Whether the pipe lies in a sleeve.
    pub sleeved: bool,
    /// How the gap is closed.
    pub seal: Seal,
    /// Where a person put its words; `None` where they find their own place.
    pub words_at: Option<WordsAt>,
}

listed! {
    /// What is passed through.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Barrier {
        /// An exterior wall.
        #[default]
        ExteriorWall,
        /// An interior wall.
        InteriorWall,
        /// A foundation wall.
        Foundation,
        /// A floor.
        Floor,
        /// A roof.
        Roof,
        /// A concrete slab.
        Slab,
        /// Grade, where pipe goes below ground or comes up.
        Ground,
    }
}

impl Barrier {
    /// The name at the head of a line.
    pub const fn title(self) -> &'static str {
        match self {
            Barrier::ExteriorWall => "Exterior wall",
            Barrier::InteriorWall => "Interior wall",
            Barrier::Foundation => "Foundation wall",
            Barrier::Floor => "Floor",
            Barrier::Roof => "Roof",
            Barrier::Slab => "Slab",
            Barrier::Ground => "Grade",
        }
    }

    /// The name in a sentence, with its article.
    pub const fn with_article(self) -> &'static str {
        match self {
            Barrier::ExteriorWall => "an exterior wall",
            Barrier::InteriorWall => "an interior wall",
            Barrier::Foundation => "a foundation wall",
            Barrier::Floor => "a floor",
            Barrier::Roof => "a roof",
            Barrier::Slab => "a slab",
            Barrier::Ground => "grade",
        }
    }

    /// What it is, in words.
    pub const fn name(self) -> &'static str {
        match self {
            Barrier::ExteriorWall => "exterior wall",
            Barrier::InteriorWall => "interior wall",
            Barrier::Foundation => "foundation wall",
            Barrier::Floor => "floor",
            Barrier::Roof => "roof",
            Barrier::Slab => "slab",
            Barrier::Ground => "grade",
        }
    }
}

/// How the gap around the pipe is closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Seal {
    /// Not said, or open.
    #[default]
    Open,
    /// Sealed at the outside face.
    Outside,
    /// Sealed at both faces.
    BothFaces,
}

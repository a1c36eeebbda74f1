//! What a person does, without saying on which device.

use super::{Part, Toward};
use crate::job::WordsAt;
use crate::scene::{Point, Rect, Vector};

/// One thing that a person does over the canvas.
#[derive(Clone, Debug, PartialEq)]
pub enum Input {
    /// The pointer is at a point of paper now.
    Pointer(Pointer),
    /// The main button goes down where the pointer is.
    Press,
    /// The main button goes up where the pointer is.
    Release,
    /// A key that is no letter.
    Key(Key),
    /// A character is typed.
    Text(char),
    /// Other keys are held down from now on.
    Held(Held),
}

/// Where the pointer is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pointer {
    /// Its point on paper, mm.
    pub at: Point,
    /// What is drawn there, nearest first.
    pub hits: Vec<Part>,
    /// The words that lie there.
    pub words: Option<Words>,
}

impl Pointer {
    /// The words that lie there, unless something else is meant that lies there too.
    pub fn words_meant(&self) -> Option<Words> {
        let is_meant = |words: &Words| self.hits.first().is_none_or(|first| *first == words.part);
        self.words.filter(is_meant)
    }
}

/// Words on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Words {
    /// What they speak of.
    pub part: Part,
    /// The box around them on paper.
    pub room: Rect,
    /// From where their place is counted: see [`WordsAt`].
    pub anchor: Point,
}

impl Words {
    /// The same words moved on paper.
    pub fn moved(self, by: Vector) -> Words {
        let room = Rect::new(self.room.min + by, self.room.max + by);
        Words { room, ..self }
    }

    /// Where they stand, as the job keeps it.
    pub fn at(self) -> WordsAt {
        let way = self.room.center() - self.anchor;
        WordsAt::from_mm(way.x, way.y)
    }
}

/// Keys held down while something is done.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Held {
    /// Add to what is chosen; go on placing.
    pub add: bool,
    /// Allow directions off the axes; a direction key leads the end of the run one step.
    pub skew: bool,
}

/// An arrow key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Arrow {
    /// To the left on paper.
    Left,
    /// To the right on paper.
    Right,
    /// Up the paper.
    Up,
    /// Down the paper.
    Down,
}

/// A key by what it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// Do what the status line says.
    Enter,
    /// Take back the last character, else the last run.
    Backspace,
    /// End or give up.
    Escape,
    /// A way along an axis.
    Way(Toward),
    /// An arrow: a way in the plane in hand. Tools are given the way.
    Arrow(Arrow),
    /// One step longer.
    Longer,
    /// One step shorter.
    Shorter,
    /// The next part along the pipe.
    Next,
    /// The part before.
    Previous,
    /// Another of the things that lie under the pointer.
    Other,
}

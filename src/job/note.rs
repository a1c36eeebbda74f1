//! Texts that point at a place on the drawing.

use super::{JointId, WordsAt};

/// A text of the person's own, led to a joint.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Note {
    /// Where it points.
    pub at: JointId,
    /// What it says.
    pub text: String,
    /// Where a person put it; `None` where it finds its own place.
    pub words_at: Option<WordsAt>,
}

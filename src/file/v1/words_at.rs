//! Where a person put words, in the file: `words_at: (6.0, -4.5)`, mm of paper to the right and down.

use crate::job;

/// Millimetres to the right and down.
pub type WordsAt = Option<(f64, f64)>;

/// The key of words that a person put somewhere.
pub fn written(at: Option<job::WordsAt>) -> WordsAt {
    at.map(|at| (at.right_mm(), at.down_mm()))
}

/// Where the words stand that have the key.
pub fn known(at: WordsAt) -> Option<job::WordsAt> {
    at.map(|(right, down)| job::WordsAt::from_mm(right, down))
}

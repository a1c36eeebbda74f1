//! What is answered to a word that is none of those that can be written.

use crate::nearest::nearest;

/// The word that was meant, or all that can be written.
pub(super) fn choose(found: &str, expected: &[&str]) -> String {
    match nearest(found, expected) {
        Some(word) => format!("did you mean `{word}`?"),
        None => format!("write one of: {}", expected.join(", ")),
    }
}

//! Which word was meant.

use strsim::levenshtein;

/// The word that was meant, or all that can be written.
pub(super) fn choose(found: &str, expected: &[&str]) -> String {
    /// Of a word that goes on only so much is read.
    const LONGEST: usize = 64;
    let found: String = found.chars().take(LONGEST).collect();
    let found = found.to_ascii_lowercase();
    let near = expected
        .iter()
        .map(|word| (levenshtein(&found, &word.to_ascii_lowercase()), word))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, word)| *distance <= 1 + word.len() / 3);
    match near {
        Some((_, word)) => format!("did you mean `{word}`?"),
        None => format!("write one of: {}", expected.join(", ")),
    }
}

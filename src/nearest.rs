//! The word that was meant by one that nobody knows. Knows no file and no table.

use strsim::osa_distance;

/// The word of `known` that is nearest to `typed`, if it is near: the one with the fewest letters changed, added, left
/// out or exchanged with their neighbour, at most one in three.
pub fn nearest<'a>(typed: &str, known: &[&'a str]) -> Option<&'a str> {
    let typed: String = typed.to_lowercase().chars().take(40).collect();
    let near = known
        .iter()
        .map(|word| (osa_distance(&typed, &word.to_lowercase()), *word));
    near.filter(|(distance, word)| *distance * 3 <= typed.chars().count().max(word.len()))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, word)| word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_mended_and_another_word_is_not() {
        let known = ["id", "from", "to", "length", "size", "lies"];
        for (typed, meant) in [
            ("lenght", Some("length")),
            ("len", None),
            ("Length", Some("length")),
            ("form", Some("from")),
            ("sise", Some("size")),
            ("ot", None),
            ("pressure", None),
            ("", None),
        ] {
            assert_eq!(nearest(typed, &known), meant, "{typed}");
        }
    }
}

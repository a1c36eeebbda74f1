//! The word that was meant.

/// The word of `known` that is nearest to `typed`, if it is near: the one with the fewest letters changed, added, left
/// out or exchanged with their neighbour, at most one in three.
pub fn nearest(typed: &str, known: &[&'static str]) -> Option<&'static str> {
    let typed: Vec<char> = typed.to_lowercase().chars().take(40).collect();
    let near = known.iter().map(|word| (distance(&typed, word), *word));
    near.filter(|(distance, word)| *distance * 3 <= typed.len().max(word.len()))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, word)| word)
}

/// Letters to change, add, leave out or exchange (Damerau's distance, each place changed once).
fn distance(typed: &[char], word: &str) -> usize {
    let word: Vec<char> = word.chars().collect();
    let mut rows: Vec<Vec<usize>> = vec![(0..=word.len()).collect()];
    for (i, letter) in typed.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, other) in word.iter().enumerate() {
            let change = rows[i][j] + usize::from(letter != other);
            let mut least = change.min(rows[i][j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && typed[i - 1] == *other && word[j - 1] == *letter {
                least = least.min(rows[i - 1][j - 1] + 1);
            }
            row.push(least);
        }
        rows.push(row);
    }
    rows[typed.len()][word.len()]
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

//! Words as lists and sheets have them.

use super::how_many;

/// Stands where a list has nothing to say.
pub const NONE: &str = "–";

/// The first so many characters of a text, the last of them an ellipsis where more follow; whole words where that costs
/// little.
pub fn shortened(text: &str, most: usize) -> String {
    let text = text.trim();
    if text.chars().nth(most).is_none() {
        return text.to_owned();
    }
    let mut short: String = text.chars().take(most.saturating_sub(1)).collect();
    if let Some((whole, broken)) = short.rsplit_once(' ')
        && broken.chars().count() <= most / 4
    {
        short.truncate(whole.len());
    }
    format!("{}…", short.trim_end())
}

/// Names with how often each comes, in the order in which they come first: "2 unions", "1 meter".
pub fn counted(names: &[&str]) -> Vec<String> {
    let mut counted: Vec<(&str, usize)> = Vec::new();
    for name in names {
        match counted.iter_mut().find(|(known, _)| known == name) {
            Some((_, count)) => *count += 1,
            None => counted.push((name, 1)),
        }
    }
    counted.into_iter().map(|(name, count)| how_many(count, name)).collect()
}

/// The words with a capital at their head.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_too_long_ends_in_an_ellipsis() {
        assert_eq!(shortened("furnace", 7), "furnace");
        assert_eq!(shortened("furnaces", 7), "furnac…");
        assert_eq!(shortened("a furnace for the hall", 18), "a furnace for…");
    }
}

//! The name that a maker gives a size of tubing or pipe.

use std::cmp::Ordering;
use std::fmt;

/// A maker's own name for a size: `20A`, `3/4`, `1-1/4`. Up to twelve letters, figures and the signs `-`, `/` and `.`.
///
/// Order is by the first number in the name, fractions read as such, then letter by letter: 3/8, 1/2, 1-1/4; 15A, 20A.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Designation {
    letters: [u8; Designation::LONGEST],
}

impl Designation {
    /// Letters of the longest name.
    pub const LONGEST: usize = 12;

    /// A name, in capitals; `None` when it is empty, too long, or holds anything but letters, figures, `-`, `/`, `.`.
    pub fn new(name: &str) -> Option<Designation> {
        let allowed = |letter: u8| letter.is_ascii_alphanumeric() || b"-/.".contains(&letter);
        if name.is_empty() || name.len() > Designation::LONGEST || !name.bytes().all(allowed) {
            return None;
        }
        let mut letters = [0; Designation::LONGEST];
        for (place, letter) in letters.iter_mut().zip(name.bytes()) {
            *place = letter.to_ascii_uppercase();
        }
        Some(Designation { letters })
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        let end = self.letters.iter().position(|letter| *letter == 0);
        let letters = &self.letters[..end.unwrap_or(Designation::LONGEST)];
        // Only plain letters come in.
        std::str::from_utf8(letters).unwrap_or_default()
    }

    /// The first number in the name, nothing where there is none.
    fn number(&self) -> f64 {
        let name = self.as_str();
        let start = name.find(|letter: char| letter.is_ascii_digit()).unwrap_or(name.len());
        let (first, rest) = figures(&name[start..]);
        if let Some(under) = rest.strip_prefix('/') {
            return ratio(first, figures(under).0).unwrap_or(first);
        }
        let fraction = rest.strip_prefix('-').and_then(|rest| {
            let (over, rest) = figures(rest);
            ratio(over, figures(rest.strip_prefix('/')?).0)
        });
        first + fraction.unwrap_or(0.0)
    }
}

/// The number at the head of a text, nothing where there is none, and what follows it.
fn figures(text: &str) -> (f64, &str) {
    let end = text.find(|letter: char| !letter.is_ascii_digit() && letter != '.');
    let (number, rest) = text.split_at(end.unwrap_or(text.len()));
    (number.parse().unwrap_or(0.0), rest)
}

fn ratio(over: f64, under: f64) -> Option<f64> {
    (under > 0.0).then(|| over / under)
}

impl Ord for Designation {
    fn cmp(&self, other: &Designation) -> Ordering {
        let by_number = self.number().total_cmp(&other.number());
        by_number.then_with(|| self.letters.cmp(&other.letters))
    }
}

impl PartialOrd for Designation {
    fn partial_cmp(&self, other: &Designation) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Debug for Designation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.as_str())
    }
}

impl fmt::Display for Designation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(text: &str) -> Designation {
        Designation::new(text).unwrap()
    }

    #[test]
    fn names_sort_as_a_maker_lists_them() {
        for listed in [
            &["3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2"][..],
            &["8A", "15A", "20A", "100A"],
            &["CT-9.5", "CT-13", "CT-110"],
            &["DN12", "DN15", "DN40"],
            &["A", "B"],
        ] {
            let mut names: Vec<Designation> = listed.iter().rev().map(|text| name(text)).collect();
            names.sort();
            let names: Vec<&str> = names.iter().map(Designation::as_str).collect();
            assert_eq!(names, listed);
        }
    }

    #[test]
    fn a_name_is_short_and_plain() {
        assert_eq!(name("ct-20a").as_str(), "CT-20A");
        assert_eq!(name("ABCDEFGHIJKL").as_str(), "ABCDEFGHIJKL");
        for text in ["", "ABCDEFGHIJKLM", "a b", "20µ", "a\tb", "1/0"] {
            assert_eq!(Designation::new(text).is_some(), text == "1/0", "{text}");
        }
        assert!(name("1/0") < name("2"));
    }
}

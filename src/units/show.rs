//! Quantities as a fitter writes them, and as a file keeps them.

mod angle;
mod clocked;
mod exact;
mod length;
mod nominal;
mod quantities;
mod scalar;

pub use length::Fraction;
pub use quantities::in_units;
pub use scalar::PSI_FROM;

use super::UnitSystem;

/// A quantity that can be printed.
pub trait Show {
    /// As written on a drawing, rounded the usual way, with its unit: `12'-6"`, `7 in w.c.`, `75,000 Btu/h`, `3/4"`.
    fn show(&self, units: UnitSystem) -> String;

    /// As written into a file: short, in plain ASCII without the double quote, in the unit in which the value is
    /// roundest; reading it gives the same value again, bit for bit.
    fn exact(&self) -> String;
}

/// Whole figures in groups of three parted by commas, decimals as they are.
pub fn grouped(number: &str) -> String {
    let start = usize::from(number.starts_with('-'));
    let end = number.find(['.', 'e']).unwrap_or(number.len());
    let mut grouped = String::new();
    for (place, symbol) in number.char_indices() {
        if place > start && place < end && (end - place).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(symbol);
    }
    grouped
}

/// `number` rounded to so many decimals, without zeros at its end, thousands parted.
fn rounded(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    grouped(if text == "-0" { "0" } else { text })
}

/// A number to two significant figures, as a figure that is round in another unit is said.
fn two_figures(number: f64) -> f64 {
    format!("{number:.1e}").parse().unwrap_or(number)
}

/// Ascending numbers, neighbors joined: `1, 3–6, 9`.
pub fn ranges(numbers: impl IntoIterator<Item = usize>) -> String {
    let mut said: Vec<(usize, usize)> = Vec::new();
    for number in numbers {
        match said.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => said.push((number, number)),
        }
    }
    let words: Vec<String> = said
        .into_iter()
        .map(|(first, last)| match last - first {
            0 => first.to_string(),
            1 => format!("{first}, {last}"),
            _ => format!("{first}–{last}"),
        })
        .collect();
    words.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_parted_from_the_point_outward() {
        for (number, expected) in [
            ("0", "0"),
            ("999", "999"),
            ("1000", "1,000"),
            ("-100000", "-100,000"),
            ("1234567.8912", "1,234,567.8912"),
            ("1.5e-7", "1.5e-7"),
        ] {
            assert_eq!(grouped(number), expected);
        }
    }

    #[test]
    fn neighbors_are_joined() {
        assert_eq!(ranges([1, 3, 4, 5, 6, 9, 11, 12]), "1, 3–6, 9, 11, 12");
        assert_eq!(ranges([]), "");
    }

    #[test]
    fn no_zeros_at_the_end_and_no_negative_nothing() {
        assert_eq!(rounded(100.0, 0), "100");
        assert_eq!(rounded(6.80, 2), "6.8");
        assert_eq!(rounded(-0.001, 2), "0");
        assert_eq!(rounded(1999.996, 2), "2,000");
    }
}

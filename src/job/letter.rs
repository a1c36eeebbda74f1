//! The letter that an outlet has on drawing and schedules.

use std::fmt;
use std::str::FromStr;

/// A letter of an outlet, counted from 0: A, B … Z, AA, AB …
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Letter(pub u32);

/// So many letters one is written with at most.
const LONGEST: usize = 4;

impl fmt::Display for Letter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut letters = Vec::new();
        let mut number = self.0;
        loop {
            letters.push(char::from(b'A' + (number % 26) as u8));
            number /= 26;
            if number == 0 {
                return f.pad(&letters.iter().rev().collect::<String>());
            }
            number -= 1;
        }
    }
}

impl FromStr for Letter {
    type Err = String;

    /// Reads `A`, `B` … `ZZZZ`.
    ///
    /// # Errors
    /// When it is anything else, with how it is written.
    fn from_str(text: &str) -> Result<Letter, String> {
        let is_one = (1..=LONGEST).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_uppercase());
        if !is_one {
            return Err("this is no letter of an outlet; write it in capitals, like \"B\" or \"AC\"".to_owned());
        }
        let number = text
            .bytes()
            .fold(0, |number, byte| number * 26 + u32::from(byte - b'A') + 1);
        Ok(Letter(number - 1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_past_z_and_are_read_as_they_are_written() {
        let written: Vec<String> = [0, 25, 26, 51, 52, 701, 702]
            .map(|number| Letter(number).to_string())
            .into();
        assert_eq!(written, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
        for number in 0..30_000 {
            assert_eq!(Letter(number).to_string().parse(), Ok(Letter(number)));
        }
        for wrong in ["", "a", "A1", "Ä", "AAAAA", " B"] {
            assert!(wrong.parse::<Letter>().is_err(), "{wrong}");
        }
    }
}

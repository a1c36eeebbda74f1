//! Words as the text of a DXF holds them: letters of Windows code page 1252, everything else by its number, and none of
//! the signs by which the format would read something else.

use std::fmt::Write;

/// Stands for a character that the format cannot name.
const UNKNOWN: char = '?';

/// What code page 1252 has in place of the control characters from 0x80 on; spaces stand where it has nothing.
const HIGH: &str = "€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ";

/// Words as they are written.
pub fn written(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    let mut letters = words.chars().peekable();
    while let Some(letter) = letters.next() {
        let is_doubled = out.ends_with('%') || letters.peek() == Some(&'%');
        match letter {
            // Two of them begin a sign of the format, three are one that is meant.
            '%' if is_doubled => out.push_str("%%%"),
            // Before any letter it is a control character, before a space itself.
            '^' => out.push_str("^ "),
            // It would name a character by its number.
            '\\' => out.push_str("\\U+005C"),
            // A true minus is in few fonts and looks like a hyphen.
            '−' => out.push('-'),
            _ if byte(letter).is_some() => out.push(letter),
            // Writing to a string has no way to fail.
            _ => match u16::try_from(u32::from(letter)) {
                Ok(number) if !letter.is_control() => drop(write!(out, "\\U+{number:04X}")),
                Ok(_) | Err(_) => out.push(UNKNOWN),
            },
        }
    }
    out
}

/// A whole file in code page 1252.
pub fn encoded(text: &str) -> Vec<u8> {
    let byte = |letter| match letter {
        '\n' => b'\n',
        _ => byte(letter).unwrap_or(b'?'),
    };
    text.chars().map(byte).collect()
}

/// The byte of a character in code page 1252.
fn byte(letter: char) -> Option<u8> {
    match letter {
        ' '..='~' | '\u{a0}'..='\u{ff}' => u8::try_from(u32::from(letter)).ok(),
        _ => {
            let place = HIGH.chars().position(|high| high == letter)?;
            u8::try_from(0x80 + place).ok()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_mean_themselves() {
        for (words, expected) in [
            ("12'-6 1/2\" steel", "12'-6 1/2\" steel"),
            ("50 % of 100%", "50 % of 100%"),
            ("70%%d %%%", "70%%%%%%d %%%%%%%%%"),
            ("½ ± 3 °, −2", "½ ± 3 °, -2"),
            ("C:\\U+0041 ^I", "C:\\U+005CU+0041 ^ I"),
            ("漢 ≥ \u{1F525}\n\u{81}", "\\U+6F22 \\U+2265 ???"),
        ] {
            assert_eq!(written(words), expected);
        }
    }

    #[test]
    fn letters_have_their_bytes() {
        assert_eq!(encoded("A½€Ÿ–\n漢"), b"A\xbd\x80\x9f\x96\n?");
        let high: Vec<u8> = HIGH.chars().filter(|letter| *letter != ' ').filter_map(byte).collect();
        assert_eq!((high.len(), high[0], high[26]), (27, 0x80, 0x9f));
    }
}

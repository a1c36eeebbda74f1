//! What people and their keyboards put into a text, brought to plain signs.

/// Characters of the longest text that is looked at.
const LONGEST: usize = 80;

/// `text` in lower case and plain signs: typographic primes, quotes, dashes, spaces, fractions and raised figures
/// become the ones of the keyboard.
///
/// # Errors
/// When there is nothing in it, or far too much.
pub fn plain(text: &str) -> Result<String, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err("nothing is entered".into());
    }
    if text.chars().take(LONGEST + 1).count() > LONGEST {
        return Err("it is too long".into());
    }
    let mut plain = String::new();
    for symbol in text.chars() {
        match symbol {
            '′' | '’' | '‘' | 'ʹ' | '´' | '`' => plain.push('\''),
            '″' | '”' | '“' | 'ʺ' => plain.push('"'),
            '−' | '–' | '—' | '‐' | '‑' => plain.push('-'),
            '⁄' | '∕' => plain.push('/'),
            '³' => plain.push('3'),
            space if space.is_whitespace() => plain.push(' '),
            other => match fraction(other) {
                Some(written) => {
                    if plain.ends_with(|before: char| before.is_ascii_digit()) {
                        plain.push(' ');
                    }
                    plain.push_str(written);
                }
                None => plain.push(other.to_ascii_lowercase()),
            },
        }
    }
    Ok(plain.replace("''", "\""))
}

/// The fraction that is one character.
fn fraction(symbol: char) -> Option<&'static str> {
    Some(match symbol {
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '⅓' => "1/3",
        '⅔' => "2/3",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typographic_signs_become_those_of_the_keyboard() {
        for (text, expected) in [
            (" 12′ 6½″ ", "12' 6 1/2\""),
            ("12’-6”", "12'-6\""),
            ("6''", "6\""),
            ("½ PSI", "1/2 psi"),
            ("−3–4", "-3-4"),
            ("3⁄4", "3/4"),
            ("7\u{a0}m³/h", "7 m3/h"),
        ] {
            assert_eq!(plain(text).as_deref(), Ok(expected));
        }
    }

    #[test]
    fn nothing_and_far_too_much_are_refused() {
        assert!(plain(" \t").is_err());
        assert!(plain(&"1".repeat(81)).is_err());
        assert!(plain(&"½".repeat(80)).is_ok());
    }
}

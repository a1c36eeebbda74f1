//! How words are broken into lines, on drawing and sheet alike, whatever tells how long they are.

/// What becomes of a piece that is longer than a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooLong {
    /// It stands on a line of its own.
    Stays,
    /// It is broken between letters.
    IsSpelled,
}

/// Words in lines of up to `room`, each filled before the next; none is empty. `measure` tells how long words are.
pub fn lines(
    words: &str,
    room: f64,
    too_long: TooLong,
    measure: impl Fn(&str) -> f64 + Copy,
) -> impl Iterator<Item = String> {
    let space = measure(" ");
    let mut rest = pieces(words)
        .flat_map(move |piece| {
            let long = measure(&piece);
            let parts = match too_long {
                TooLong::Stays => vec![(piece, long)],
                TooLong::IsSpelled => spelled(&piece, room, measure),
            };
            parts.into_iter().map(move |part| (part, long))
        })
        .peekable();
    std::iter::from_fn(move || {
        let ((mut line, mut filled), _) = rest.next()?;
        while let Some(((piece, _), long)) = rest.next_if(|(_, long)| filled + space + long <= room) {
            line.push(' ');
            line.push_str(&piece);
            filled += space + long;
        }
        Some(line)
    })
}

/// A word letter by letter on as many lines as it takes, each with its length.
fn spelled(word: &str, room: f64, measure: impl Fn(&str) -> f64) -> Vec<(String, f64)> {
    let mut lines: Vec<(String, f64)> = Vec::new();
    for letter in word.chars() {
        let long = measure(letter.encode_utf8(&mut [0; 4]));
        match lines.last_mut().filter(|(_, filled)| filled + long <= room) {
            Some((line, filled)) => {
                line.push(letter);
                *filled += long;
            }
            None => lines.push((letter.to_string(), long)),
        }
    }
    lines
}

/// The pieces of a text between which a line may be broken: words, but a number with its unit and a length whole.
pub fn pieces(words: &str) -> impl Iterator<Item = String> {
    let mut rest = words.split_whitespace().peekable();
    std::iter::from_fn(move || {
        let mut piece = rest.next()?.to_owned();
        while let Some(next) = rest.peek() {
            let last = piece.rsplit(' ').next().unwrap_or_default();
            if !clings(last, next) {
                break;
            }
            piece.push(' ');
            piece.push_str(next);
            rest.next();
        }
        Some(piece)
    })
}

fn clings(word: &str, next: &str) -> bool {
    const UNITS: [&str; 19] = [
        "in", "ft", "psi", "psig", "Btu/h", "Btu/ft³", "cfh", "mm", "m", "m³/h", "MJ/m³", "mbar", "Pa", "bar", "kW",
        "min", "ft³", "L", "m³",
    ];
    let unit = next.trim_end_matches([',', '.', ';', ':', ')']);
    let number = word.trim_start_matches('(').starts_with(|c: char| c.is_ascii_digit());
    number && UNITS.contains(&unit) || word == "in" && next.starts_with("w.c.") || is_part_of_an_inch(word, next)
}

/// Whether two words are whole inches and a fraction of one: `1'-2` and `1/4"`.
fn is_part_of_an_inch(word: &str, next: &str) -> bool {
    let digit = |c: char| c.is_ascii_digit();
    let feet_off = word.rsplit_once("'-").map_or(word, |(_, inches)| inches);
    let inches = feet_off.trim_start_matches(['(', '−', '-']);
    let fraction = next
        .split_once('/')
        .is_some_and(|(over, under)| !over.is_empty() && over.chars().all(digit) && under.starts_with(digit));
    fraction && !inches.is_empty() && inches.chars().all(digit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(words: &str, expected: &[&str]) {
        assert_eq!(pieces(words).collect::<Vec<_>>(), expected);
    }

    #[test]
    fn lengths_and_numbers_with_units_stay_whole() {
        check("P3 1'-2 1/4\", left", &["P3", "1'-2 1/4\",", "left"]);
        check("tee −1 1/16\"; 2 in w.c.", &["tee", "−1 1/16\";", "2 in w.c."]);
        check(
            "below 283.2 L or 14.16 m³; 10 ft³",
            &["below", "283.2 L", "or", "14.16 m³;", "10 ft³"],
        );
        check("(3 1/2\" over)", &["(3 1/2\"", "over)"]);
        // A size is no part of the name before it.
        check("J14 1/2\" pipe", &["J14", "1/2\"", "pipe"]);
        check("1-1/4\" 1/2\"", &["1-1/4\"", "1/2\""]);
    }
}

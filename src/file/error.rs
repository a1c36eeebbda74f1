//! Why a file is not a job: what is wrong, where, and what to do.

use std::fmt;
use std::ops::Range;

/// Why a text is not a job. Printed on several lines: place and problem, the line with the offending part marked, the
/// remedy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileError {
    /// Where it is; `None` when the file as a whole is meant.
    pub place: Option<Place>,
    /// What is wrong, as a clause.
    pub problem: String,
    /// What to do, as a clause.
    pub remedy: String,
}

/// A part of one line of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The line, or the part of it around the place, unprintable characters replaced.
    pub excerpt: String,
    /// Which characters of `excerpt` are meant.
    pub marked: Range<usize>,
}

impl std::error::Error for FileError {}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(place) = &self.place else {
            return write!(f, "{}\n{}", self.problem, self.remedy);
        };
        let number = place.line.to_string();
        let margin = " ".repeat(number.len());
        let before = " ".repeat(place.marked.start);
        let mark = "^".repeat(place.marked.len().max(1));
        writeln!(f, "line {}, column {}: {}", place.line, place.column, self.problem)?;
        writeln!(f, "{number} | {}", place.excerpt)?;
        writeln!(f, "{margin} | {before}{mark}")?;
        write!(f, "{}", self.remedy)
    }
}

impl FileError {
    /// An error of the file as a whole.
    pub(super) fn whole(problem: impl Into<String>, remedy: impl Into<String>) -> FileError {
        FileError {
            place: None,
            problem: problem.into(),
            remedy: remedy.into(),
        }
    }

    /// An error of a part of `text`, given by its bytes.
    pub(super) fn at(
        text: &str,
        part: Range<usize>,
        problem: impl Into<String>,
        remedy: impl Into<String>,
    ) -> FileError {
        FileError {
            place: Some(Place::new(text, part)),
            problem: problem.into(),
            remedy: remedy.into(),
        }
    }

    /// The same error, of a job that an SVG carries inside.
    pub(super) fn inside(self) -> FileError {
        FileError {
            problem: format!("in the job inside this SVG, {}", self.problem),
            ..self
        }
    }

    /// The error of a file of more bytes than are read.
    pub(super) fn too_long() -> FileError {
        FileError::whole(
            "the file is larger than 64 MB",
            "so large a job is not read; split it into several files",
        )
    }

    /// The error of bytes that are UTF-8 only up to an offset.
    pub(super) fn not_utf8(bytes: &[u8], valid: usize) -> FileError {
        let byte = bytes.get(valid).copied().unwrap_or_default();
        // Up to that byte the replaced text is the same as the file.
        let text = String::from_utf8_lossy(bytes);
        let place = Place::new(&text, valid..valid + '\u{fffd}'.len_utf8());
        let remedy = match bytes {
            [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => "this looks like UTF-16: save the file as UTF-8",
            _ => "save the file as UTF-8 text",
        };
        FileError {
            place: Some(place),
            problem: format!("byte {valid} of the file (hex {byte:02X}) is not UTF-8"),
            remedy: remedy.to_owned(),
        }
    }
}

/// Characters of a line that are shown before the place and after its start.
const BEFORE: usize = 80;
const AFTER: usize = 50;

impl Place {
    fn new(text: &str, part: Range<usize>) -> Place {
        let start = floor(text, part.start);
        let end = floor(text, part.end).max(start);
        let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
        let before: Vec<char> = text[line_start..start].chars().map(printable).collect();
        let shown = before.len().min(BEFORE);
        let cut = before.len() - shown;
        let after = text[start..line_end].trim_end_matches('\r');
        let tail = after.chars().count() > AFTER;
        let mut excerpt: String = if cut > 0 { "…".into() } else { String::new() };
        excerpt.extend(&before[cut..]);
        let mark = shown + usize::from(cut > 0);
        excerpt.extend(after.chars().take(AFTER).map(printable));
        if tail {
            excerpt.push('…');
        }
        let length = text[start..end.min(start + after.len())].chars().take(AFTER).count();
        Place {
            line: text[..start].matches('\n').count() + 1,
            column: before.len() + 1,
            excerpt,
            marked: mark..mark + length,
        }
    }
}

/// The start of the character at a byte of `text`, or its end.
fn floor(text: &str, mut at: usize) -> usize {
    at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// One column for one character: what would move the mark or hide the text is replaced.
fn printable(symbol: char) -> char {
    match symbol {
        '\t' => ' ',
        '\'' | '"' => symbol,
        _ if symbol.escape_debug().count() > 1 && symbol != '\\' => '·',
        _ => symbol,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, part: Range<usize>, expected: &str) {
        let error = FileError::at(text, part, "wrong", "mend it");
        assert_eq!(error.to_string(), expected);
    }

    #[test]
    fn the_mark_stands_under_the_part() {
        check(
            "a: 1,\r\n\tbé: xyz,\r\n",
            13..16,
            "line 2, column 6: wrong\n2 |  bé: xyz,\n  |      ^^^\nmend it",
        );
        check("", 0..0, "line 1, column 1: wrong\n1 | \n  | ^\nmend it");
        check("ab", 99..200, "line 1, column 3: wrong\n1 | ab\n  |   ^\nmend it");
        check(
            "a\u{1b}[\u{202e}b",
            6..7,
            "line 1, column 5: wrong\n1 | a·[·b\n  |     ^\nmend it",
        );
    }

    #[test]
    fn a_part_of_several_lines_is_marked_on_its_first() {
        check("ab\ncd", 1..5, "line 1, column 2: wrong\n1 | ab\n  |  ^\nmend it");
    }

    #[test]
    fn a_long_line_is_cut_around_the_place() {
        let text = format!("{}here{}", "x".repeat(1000), "y".repeat(1000));
        let place = Place::new(&text, 1000..1004);
        assert_eq!(place.column, 1001);
        assert_eq!(place.excerpt.chars().count(), 1 + BEFORE + AFTER + 1);
        let marked: String = place
            .excerpt
            .chars()
            .skip(place.marked.start)
            .take(place.marked.len())
            .collect();
        assert_eq!(marked, "here");
    }
}

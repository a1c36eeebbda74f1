//! Letters of an answer: they take their room on paper, and are left out of one copy of a sheet ([`super::copy`]).
//!
//! Each letter of an answer is marked by itself (moved into a private plane of Unicode), so that
//! no wrapping, cutting or joining of words can lose the mark: on the blank copy nothing marked is left, neither as ink nor
//! as a label in words.

/// Where marked letters begin: those of answers, and those that stand on the written copy alone.
const ANSWER: u32 = 0xF_0000;
const WRITTEN: u32 = 0x10_0000;
/// Past this no letter can be marked; it is marked as a box.
const LAST: u32 = 0xFFFD;
/// Room without ink, as wide as a figure.
pub(super) const ROOM: char = '\u{2007}';
/// What a letter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Plain,
    Answer,
    Written,
}

/// Words as an answer.
pub fn answer(words: &str) -> String {
    marked(words, ANSWER)
}

/// Words that stand on the answered copy alone.
pub fn answered_only(words: &str) -> String {
    marked(words, WRITTEN)
}

/// Room for an answer, so many figures wide.
pub fn answer_room(figures: usize) -> String {
    answer(&ROOM.to_string().repeat(figures))
}

fn marked(words: &str, plane: u32) -> String {
    let mark = |letter: char| {
        let code = if u32::from(letter) <= LAST {
            u32::from(letter)
        } else {
            0x25A1
        };
        char::from_u32(plane + code).unwrap_or(letter)
    };
    words.chars().map(mark).collect()
}

/// A letter without its mark, as the font knows it.
pub(super) fn plain(letter: char) -> char {
    match told(letter).1 {
        ROOM => '0',
        plain => plain,
    }
}

/// A letter without its mark, and what it is.
pub(super) fn told(letter: char) -> (Kind, char) {
    let code = u32::from(letter);
    let (kind, plane) = match code {
        WRITTEN.. => (Kind::Written, WRITTEN),
        ANSWER.. => (Kind::Answer, ANSWER),
        _ => return (Kind::Plain, letter),
    };
    (kind, char::from_u32(code - plane).unwrap_or(letter))
}

//! Errors of the RON reader in plain words, each at its place.
//!
//! The reader stops somewhere near what is wrong: just behind it, just before it, or inside it, by the kind of error.
//! The outline of the text finds the word or bracket that is meant.

use std::ops::Range;

use ron::error::{Error, Position, SpannedError};

use super::error::FileError;
use super::outline::{open_at, token_after, token_at, token_before};
use super::token::{Kind, Token, Tokens};
use super::v1::old::is_old;
use crate::nearest::nearest;

/// The error, in words of a job file.
pub fn explain(text: &str, error: SpannedError) -> FileError {
    let stop = Stop {
        text,
        at: offset(text, error.span.end),
    };
    let (part, problem, remedy) = stop.meaning(error.code);
    FileError::at(text, part, problem, remedy)
}

/// Part of the text, problem, remedy.
type Meaning = (Range<usize>, String, String);

fn meaning(part: Range<usize>, problem: impl Into<String>, remedy: impl Into<String>) -> Meaning {
    (part, problem.into(), remedy.into())
}

/// Where the reader stopped.
struct Stop<'a> {
    text: &'a str,
    at: usize,
}

impl Stop<'_> {
    fn meaning(&self, error: Error) -> Meaning {
        match error {
            Error::Message(message) => {
                let (problem, remedy) = message.rsplit_once("; ").unwrap_or((&message, ""));
                meaning(self.before(), problem, remedy)
            }
            Error::NoSuchStructField { expected, found, outer } => meaning(
                self.before(),
                format!("`{}` is not a key of {}", shortened(&found), thing(outer.clone())),
                meant(&found, &of_today(outer.as_deref(), expected), "the keys are"),
            ),
            Error::MissingStructField { field, outer } => meaning(
                self.open(),
                format!("the key `{field}` of {} is missing", thing(outer)),
                format!("write `{field}: …` in these brackets"),
            ),
            Error::DuplicateStructField { field, .. } => meaning(
                self.before(),
                format!("the key `{field}` is given twice"),
                "leave one of them out",
            ),
            Error::NoSuchEnumVariant { expected, found, .. } => meaning(
                self.before(),
                format!("`{}` is not known here", shortened(&found)),
                meant(&found, &of_today(None, expected), "the words are"),
            ),
            Error::IntegerOutOfBounds => self.number(self.inside()),
            Error::InvalidEscape(_) => {
                let start = self.text[..self.at].rfind('\\').unwrap_or(self.at);
                meaning(
                    start..self.at,
                    "this escape is not known",
                    "write `\\\\` for a backslash",
                )
            }
            Error::ExpectedStringEnd => meaning(
                self.inside(),
                "this text is not closed",
                "write a double quote at its end",
            ),
            Error::UnclosedBlockComment => {
                let last = Tokens::of(self.text).last().map_or(0, |token| token.at.end);
                let start = self.text[last..].find("/*").map_or(last, |at| last + at);
                meaning(start..start + 2, "this comment is not closed", "write `*/` at its end")
            }
            Error::UnexpectedChar(_) => meaning(
                self.before(),
                "this character has no meaning here",
                "a comment starts with two slashes",
            ),
            Error::ExceededRecursionLimit => meaning(
                self.after(),
                "brackets are nested too deep",
                "a job needs no more than six levels",
            ),
            other => match token_after(self.text, self.at) {
                Some(next) => self.wanted(other, next),
                None => meaning(
                    self.open(),
                    "the file ends before this bracket is closed",
                    "close the bracket; if the file was cut short, take it from a copy",
                ),
            },
        }
    }

    /// Something else is wanted in the place of the token `next`.
    fn wanted(&self, error: Error, next: Token) -> Meaning {
        let part = next.at.clone();
        match error {
            Error::ExpectedComma => self.comma(next),
            Error::ExpectedInteger => self.number(part),
            Error::ExpectedFloat => meaning(part, "a number is needed here", "write it like 0.60, without quotes"),
            Error::ExpectedBoolean => meaning(part, "yes or no is needed here", "write `true` or `false`"),
            Error::ExpectedString => meaning(
                part,
                "text is needed here",
                "write it in straight double quotes, a quantity with its unit: \"12'-6\", \"3.8 m\"",
            ),
            Error::ExpectedArray => meaning(part, "a list is needed here", "write it in square brackets: `[…, …]`"),
            Error::ExpectedMapColon => meaning(part, "a colon is missing before this", "write `key: value`"),
            Error::ExpectedDifferentLength { .. } | Error::ExpectedStructLikeEnd => meaning(
                self.open().start..part.end,
                "there are too many or too few numbers here",
                "write `at: (east, north, up)` and `words_at: (right, down)`",
            ),
            Error::ExpectedStructLike if self.token_before().kind == Kind::Word => {
                let word = shortened(&self.text[self.before()]);
                meaning(
                    self.before(),
                    format!("`{word}` needs brackets"),
                    format!("write `{word}()`"),
                )
            }
            Error::ExpectedStructLike => meaning(
                part,
                "numbers in round brackets are needed here",
                "write `at: (east, north, up)` and `words_at: (right, down)`",
            ),
            Error::ExpectedNamedStructLike(name) => meaning(
                part,
                format!("{} in round brackets is needed here", thing(Some(name.to_owned()))),
                "write it as `(key: value, …)`",
            ),
            Error::TrailingCharacters => meaning(
                part,
                "this comes after the end of the job",
                "the job ends where its first bracket is closed; remove what follows",
            ),
            _ if self.token_before().kind == Kind::Colon && next.kind == Kind::Quoted => {
                let word = shortened(self.text[part.clone()].trim_matches('"'));
                let remedy = format!("leave the quotes out: {word}");
                meaning(part, "a word without quotes is needed here", remedy)
            }
            _ if self.token_before().kind == Kind::Colon => meaning(
                part,
                "a word is needed here",
                "write one, or leave the key out to use its default",
            ),
            _ => meaning(
                part,
                "a key is needed here",
                "write `key: value`, the key without quotes",
            ),
        }
    }

    /// A comma is wanted before `next`: what was forgotten shows in what stands there.
    fn comma(&self, next: Token) -> Meaning {
        let before = self.token_before();
        let cut = token_at(self.text, self.at).filter(|token| token.at.start < self.at);
        if let Some(number) = cut {
            return self.number(number.at);
        }
        if next.kind == Kind::Close {
            let open = self.open();
            let line = self.text[..open.start].matches('\n').count() + 1;
            let bracket = &self.text[open.end.saturating_sub(1)..open.end];
            return meaning(
                next.at,
                format!("this bracket does not match the `{bracket}` of line {line}"),
                "close that one first, or leave this one out",
            );
        }
        if before.kind == Kind::Quoted && self.text[before.at.clone()].contains('\n') {
            return meaning(
                before.at,
                "this text continues on the next line and ends at a quote there",
                "write a double quote at its end",
            );
        }
        if before.kind == Kind::Quoted && before.at.end == next.at.start {
            return meaning(
                next.at,
                "the text has ended at the quote before this",
                "inches need no mark: \"12'-6\"; for a double quote inside text write `\\\"`",
            );
        }
        meaning(
            next.at,
            "a comma is missing before this",
            "write a comma between two entries",
        )
    }

    fn number(&self, part: Range<usize>) -> Meaning {
        let written = &self.text[part.clone()];
        let problem = match written.starts_with(|first: char| first.is_ascii_digit() || first == '-') {
            true => format!("`{}` is not a number that can be here", shortened(written)),
            false => "a whole number is needed here".to_owned(),
        };
        meaning(
            part,
            problem,
            "write a whole number, without quotes, decimals or thousands commas",
        )
    }

    fn token_before(&self) -> Token {
        token_before(self.text, self.at).unwrap_or(Token {
            kind: Kind::Other,
            at: self.at..self.at,
        })
    }

    fn before(&self) -> Range<usize> {
        self.token_before().at
    }

    fn after(&self) -> Range<usize> {
        token_after(self.text, self.at).map_or(self.text.len()..self.text.len(), |token| token.at)
    }

    /// The token that the reader was in, or had just read.
    fn inside(&self) -> Range<usize> {
        token_at(self.text, self.at.saturating_sub(1)).map_or(self.before(), |token| token.at)
    }

    fn open(&self) -> Range<usize> {
        open_at(self.text, self.at).unwrap_or(self.at..self.at)
    }
}

/// A word of the file on one short line.
fn shortened(word: &str) -> String {
    let mut symbols = word.chars();
    let mut short: String = symbols.by_ref().take(40).flat_map(char::escape_debug).collect();
    if symbols.next().is_some() {
        short.push('…');
    }
    short
}

/// What a shape of the file stands for.
fn thing(shape: Option<String>) -> String {
    match shape.as_deref() {
        None => "this",
        Some("Job") => "the file",
        Some("Title") => "the title",
        Some("Settings") => "the settings",
        Some("Gas") => "the gas",
        Some("Revision") => "a revision",
        Some("Joint") => "a joint",
        Some("Run") => "a run",
        Some("Penetration") => "a penetration",
        Some("Note") => "a note",
        Some("Rating") => "a rating",
        Some("Variant") => "a variant",
        Some(device) => return format!("`{device}`"),
    }
    .to_owned()
}

/// Keys of a shape, or words of a choice, without those of older files.
fn of_today(shape: Option<&str>, known: &[&'static str]) -> Vec<&'static str> {
    known.iter().copied().filter(|name| !is_old(shape, name)).collect()
}

fn meant(found: &str, known: &[&'static str], list: &str) -> String {
    match (nearest(found, known), known) {
        (Some(word), _) => format!("did you mean `{word}`?"),
        (None, []) => "there are none here".to_owned(),
        (None, _) => format!("{list} {}", known.join(", ")),
    }
}

/// The byte of `text` at a line and a column.
fn offset(text: &str, position: Position) -> usize {
    let mut start = 0;
    for _ in 1..position.line {
        start += text[start..].find('\n').map_or(0, |at| at + 1);
    }
    let mut symbols = text[start..].char_indices();
    symbols
        .nth(position.col.saturating_sub(1))
        .map_or(text.len(), |(at, _)| start + at)
}

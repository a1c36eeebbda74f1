//! Errors of the RON reader in plain words, each at its place.

use ron::error::{Error, Position, SpannedError};

use super::error::FileError;
use super::outline::{open_at, token_after, token_before};
use super::suggest::nearest;

/// The error, in words of a job file.
pub fn explain(text: &str, error: SpannedError) -> FileError {
    let stop = offset(text, error.span.end);
    let before = || token_before(text, stop).map_or(stop..stop, |token| token.at);
    let after = || token_after(text, stop).map_or(text.len()..text.len(), |token| token.at);
    let open = || open_at(text, stop).unwrap_or(stop..stop);
    let (part, problem, remedy) = match error.code {
        Error::Message(message) => {
            let (problem, remedy) = message.rsplit_once("; ").unwrap_or((&message, ""));
            (before(), problem.to_owned(), remedy.to_owned())
        }
        Error::NoSuchStructField { expected, found, outer } => {
            let problem = format!("`{found}` is no key {}", of(outer));
            (before(), problem, meant(&found, expected, "the keys are"))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            let problem = format!("`{found}` is not a word for this");
            (before(), problem, meant(&found, expected, "the words are"))
        }
        Error::MissingStructField { field, outer } => {
            let problem = format!("the key `{field}` {} is missing", of(outer));
            (open(), problem, format!("write `{field}: …` in these brackets"))
        }
        Error::DuplicateStructField { field, .. } => {
            let problem = format!("the key `{field}` is given twice");
            (before(), problem, "leave one of them out".to_owned())
        }
        Error::Eof => (
            open(),
            "the file ends before this bracket is closed".to_owned(),
            "close the bracket; was the file cut short?".to_owned(),
        ),
        other => (after(), format!("{other:?}"), String::new()),
    };
    FileError::at(text, part, problem, remedy)
}
fn of(outer: Option<String>) -> String {
    outer.map(|o| format!("of {o}")).unwrap_or_default()
}
fn meant(found: &str, known: &[&'static str], list: &str) -> String {
    match nearest(found, known) {
        Some(word) => format!("did you mean `{word}`?"),
        None => format!("{list} {}", known.join(", ")),
    }
}

/// The byte of `text` at a line and a column.
fn offset(text: &str, position: Position) -> usize {
    let mut start = 0;
    for _ in 1..position.line {
        start += text[start..].find('\n').map_or(0, |at| at + 1);
    }
    let line = &text[start..];
    line.char_indices()
        .nth(position.col.saturating_sub(1))
        .map_or(text.len(), |(at, _)| start + at)
}

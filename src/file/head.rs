//! The head of a file: that it is a job file at all, and of which version.

use super::error::FileError;
use super::token::{Kind, Token, Tokens};
use super::v1;

/// What to write first.
const START: &str = "a job file starts with `(version: 1,`";

/// Looks at the first words of `text`.
pub fn check(text: &str) -> Result<(), FileError> {
    let mut tokens = Tokens::of(text);
    let Some(first) = tokens.next() else {
        return Err(FileError::whole("the file is empty", START));
    };
    let open = match first.kind {
        Kind::Word if tokens.text(&first) == "Job" => tokens.next(),
        _ => Some(first.clone()),
    };
    if open.is_none_or(|open| tokens.text(&open) != "(") {
        return Err(no_job(text, &tokens, first));
    }
    let key = tokens.next();
    let colon = tokens.next();
    let named = key.as_ref().is_some_and(|key| tokens.text(key) == "version");
    if !named || colon.is_none_or(|colon| colon.kind != Kind::Colon) {
        let part = key.map_or(text.len()..text.len(), |key| key.at);
        return Err(FileError::at(text, part, "the version is missing", START));
    }
    let Some(number) = tokens.next() else {
        return Err(FileError::at(
            text,
            text.len()..text.len(),
            "the version is missing",
            START,
        ));
    };
    let written = tokens.text(&number);
    match written.parse::<u64>() {
        Ok(version) if version == u64::from(v1::VERSION) => Ok(()),
        Ok(version) if version > u64::from(v1::VERSION) => Err(FileError::at(
            text,
            number.at,
            format!(
                "the file was made by a newer Stubout: it is of version {version}, this program reads version {}",
                v1::VERSION
            ),
            "update Stubout",
        )),
        _ => Err(FileError::at(text, number.at, "there is no such version", START)),
    }
}

fn no_job(text: &str, tokens: &Tokens, first: Token) -> FileError {
    let problem = match tokens.text(&first) {
        "{" => "this is not a job file; it looks like JSON",
        "<" => "this is not a job file; it looks like HTML or XML",
        _ => "this is not a job file",
    };
    FileError::at(text, first.at, problem, START)
}

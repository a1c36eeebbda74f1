//! Text ↔ job: RON, versioned, to be read and written by hand.
//!
//! Reading gives a job or one [`FileError`] that shows the place and the remedy; it never panics, and the time and
//! memory it takes are bounded by the length of the text. What [`write`] writes, [`read`] reads back to an equal job.
//! Only what a person could not have drawn is an error here (an unknown key, a run to a joint that is not there); what
//! is drawn wrongly (a loop, two supplies) is a finding of the study. Knows texts only: files are opened elsewhere.

mod check;
mod error;
mod explain;
mod head;
mod outline;
mod suggest;
mod token;
mod v1;

pub use error::{FileError, Place};

use ron::Options;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;

use crate::job::Job;

/// Bytes of the longest file that is read: 64 MB.
pub const LONGEST: usize = 64 << 20;

/// What a file starts with.
const HEAD: &str = "\
// A job for Stubout: gas piping, as drawn. Keys left out have their usual value; notes of your own go after two
// slashes. Places are steps east, north and up; true lengths are typed: \"12'-6 1/2\", \"150 in\", \"3.8 m\".
";

/// Reads a job.
///
/// # Errors
/// One, the first that is met, with its place in the text.
pub fn read(text: &str) -> Result<Job, FileError> {
    if text.len() > LONGEST {
        return Err(FileError::too_long(text.len()));
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    head::check(text)?;
    let file: v1::Job = ron().from_str(text).map_err(|error| explain::explain(text, error))?;
    match check::fault(&file) {
        Some(fault) => Err(fault.error(text)),
        None => Ok(file.into()),
    }
}

/// Reads a job from the bytes of a file.
///
/// # Errors
/// As [`read`]; and when the bytes are not UTF-8.
pub fn read_bytes(bytes: &[u8]) -> Result<Job, FileError> {
    if bytes.len() > LONGEST {
        return Err(FileError::too_long(bytes.len()));
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read(text),
        Err(error) => Err(FileError::not_utf8(bytes, error.valid_up_to())),
    }
}

/// Whether a text holds notes of a person's own, after two slashes or between slash and star. A job does not keep them,
/// so that they are gone when it is written.
pub fn has_notes(text: &str) -> bool {
    let is_noted = |gap: &str| gap.contains("//") || gap.contains("/*");
    let mut end = if text.starts_with(HEAD) { HEAD.len() } else { 0 };
    for token in token::Tokens::of(text) {
        if is_noted(&text[end..token.at.start]) {
            return true;
        }
        end = token.at.end;
    }
    is_noted(&text[end..])
}

/// Writes a job: one joint or run a line, in the order of their ids, usual values left out.
pub fn write(job: &Job) -> String {
    let layout = PrettyConfig::new().depth_limit(2).new_line("\n");
    // Serializing these plain shapes into memory has no way to fail.
    let body = ron().to_string_pretty(&v1::Job::from(job), layout).unwrap_or_default();
    format!("{HEAD}{}\n", plain_apostrophes(&body))
}

/// `ron` without the backslash before an apostrophe, which a text in double quotes does not need: `12'-6`.
fn plain_apostrophes(ron: &str) -> String {
    let mut plain = String::with_capacity(ron.len());
    let mut symbols = ron.chars();
    while let Some(symbol) = symbols.next() {
        if symbol != '\\' {
            plain.push(symbol);
            continue;
        }
        match symbols.next() {
            Some('\'') => plain.push('\''),
            escaped => plain.extend([symbol].into_iter().chain(escaped)),
        }
    }
    plain
}

/// RON with optional values written plainly.
fn ron() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

//! Text ↔ job: RON, versioned, to be read and written by hand.
//!
//! Reading gives a job or one [`FileError`] that shows the place and the remedy; it never panics, and the time and
//! memory it takes are bounded by the length of the text. What [`write`] writes, [`read`] reads back to an equal job.
//! Only what a person could not have drawn is an error here (an unknown key, a run to a joint that is not there); what
//! is drawn wrongly (a loop, two supplies) is a finding of the study. An SVG may carry the text inside, and is
//! read as well. Knows texts only: files are opened elsewhere.

mod carried;
mod check;
mod crowd;
mod error;
mod explain;
mod head;
mod outline;
mod parts;
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
// A Stubout job: gas piping, as drawn. Keys left out have their default; notes of your own go after two slashes.
// Places are grid steps east, north and up; true lengths are entered: \"12'-6 1/2\", \"150 in\", \"3.8 m\".
";

/// Reads a job: the text of a job file, or of an SVG that carries one inside.
///
/// # Errors
/// One, the first that is met, with its place in the text.
pub fn read(text: &str) -> Result<Job, FileError> {
    if text.len() > LONGEST {
        return Err(FileError::too_long());
    }
    if is_svg(text.as_bytes()) {
        read_plain(&carried::text(text)?).map_err(FileError::inside)
    } else {
        read_plain(text)
    }
}

/// Reads the text of a job file.
fn read_plain(text: &str) -> Result<Job, FileError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    head::check(text)?;
    let file: v1::Job = ron().from_str(text).map_err(|error| explain::explain(text, error))?;
    match check::fault(&file).or_else(|| crowd::fault(&file)) {
        Some(fault) => Err(fault.error(text)),
        None => crowd::long_text(text).map_or_else(|| Ok(file.into()), Err),
    }
}

/// Reads a job from the bytes of a file.
///
/// # Errors
/// As [`read`]; and when the bytes of a job file are not UTF-8.
pub fn read_bytes(bytes: &[u8]) -> Result<Job, FileError> {
    if bytes.len() > LONGEST {
        return Err(FileError::too_long());
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => read(text),
        // The job inside an SVG is in letters that are the same in the other encodings of XML.
        Err(_) if is_svg(bytes) => read(&String::from_utf8_lossy(bytes)),
        Err(error) => Err(FileError::not_utf8(bytes, error.valid_up_to())),
    }
}

/// Whether a file is an SVG, which may carry a job inside, and no job file.
pub fn is_svg(bytes: &[u8]) -> bool {
    carried::is_svg(bytes)
}

/// A job as an element of XML, for an SVG that is to carry it inside. [`read`] finds it there, whatever else the SVG
/// holds and whatever has saved it again.
pub fn element(job: &Job) -> String {
    carried::element(&write(job))
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

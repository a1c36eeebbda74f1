//! Why something was not done with a file, in plain words with a remedy.

use crate::file;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Why something was not done with a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// What was to be done: "Open the job".
    pub task: &'static str,
    /// Which file.
    pub path: PathBuf,
    /// What is wrong.
    pub what: String,
    /// The place in the text, when the text is at fault.
    pub place: Option<Box<file::Place>>,
    /// What to do.
    pub remedy: String,
}

impl Trouble {
    /// A trouble that no system reported.
    pub fn new(task: &'static str, path: &Path, what: impl Into<String>, remedy: impl Into<String>) -> Trouble {
        Trouble {
            task,
            path: path.to_owned(),
            what: what.into(),
            place: None,
            remedy: remedy.into(),
        }
    }

    /// What the system reported.
    pub fn of(task: &'static str, path: &Path, error: &io::Error) -> Trouble {
        let (what, remedy) = explain(error);
        Trouble::new(task, path, what, remedy)
    }

    /// What is wrong and what to do, on one line.
    pub fn words(&self) -> String {
        format!("{}: {}", capital(&self.what), self.remedy)
    }
}

/// The words with a capital at their head.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// What the system says, in plain words, and what to do.
fn explain(error: &io::Error) -> (String, &'static str) {
    let (what, remedy) = match error.kind() {
        ErrorKind::NotFound => ("there is no such file or folder", "check the path"),
        ErrorKind::PermissionDenied => (
            "you have no permission to read or write there",
            "choose another folder, or ask your administrator",
        ),
        ErrorKind::NotADirectory => ("part of the path is a file, not a folder", "check the path"),
        ErrorKind::IsADirectory => ("this is a folder", "add the name of a file"),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => {
            ("the disk is full", "make room, or choose a folder on another disk")
        }
        ErrorKind::ReadOnlyFilesystem => ("this disk is read-only", "choose a folder on another disk"),
        ErrorKind::InvalidFilename | ErrorKind::InvalidInput => (
            "the system accepts no file of this name",
            "choose a shorter or simpler name",
        ),
        ErrorKind::FileTooLarge => ("the file is too large for this disk", "choose a folder on another disk"),
        _ => {
            let what = format!("the system reports: {error}");
            return (what, "try again, or choose another folder");
        }
    };
    (what.to_owned(), remedy)
}

//! Files on the disk: read whole, written whole or not at all.
//!
//! What is written goes to a file beside it first and takes its place when every byte lies there, so that a full disk
//! or a pulled plug leaves the old file. Every failure is a [`Trouble`] with its place and what to do.

use crate::file;
use crate::job::Job;
use std::fs::{self, File, OpenOptions};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

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

/// What a file held when it was last read or written here, to be told from what it holds later.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Print {
    bytes: usize,
    hash: u64,
    has_notes: bool,
}

impl Print {
    fn of(bytes: &[u8]) -> Print {
        let mut hasher = DefaultHasher::new();
        bytes.hash(&mut hasher);
        Print {
            bytes: bytes.len(),
            hash: hasher.finish(),
            has_notes: std::str::from_utf8(bytes).is_ok_and(file::has_notes),
        }
    }

    /// Whether it held notes of a person's own, which the window does not keep.
    pub fn has_notes(&self) -> bool {
        self.has_notes
    }

    /// What a file holds now; `None` when it is not there or cannot be read.
    pub fn now(path: &Path) -> Option<Print> {
        bytes(path).ok().map(|bytes| Print::of(&bytes))
    }
}

const OPEN: &str = "Open the job";
const SAVE: &str = "Save the job";

/// The bytes of a plain file, and not many more than a job may have.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let about = fs::metadata(path)?;
    if about.is_dir() {
        return Err(ErrorKind::IsADirectory.into());
    }
    if !about.is_file() {
        return Err(io::Error::other("this is a device or the like, not a plain file"));
    }
    let mut bytes = Vec::new();
    let most = file::LONGEST as u64 + 1;
    File::open(path)?.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The text of a plain file.
pub fn text(task: &'static str, path: &Path) -> Result<String, Trouble> {
    let bytes = bytes(path).map_err(|error| Trouble::of(task, path, &error))?;
    String::from_utf8(bytes).map_err(|_| {
        let remedy = "save it as plain text in UTF-8";
        Trouble::new(task, path, "this is not plain text", remedy)
    })
}

/// What a job was read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A job file, which the job can be saved to.
    JobFile(Print),
    /// A drawing that carries the job inside, and is no place to save it to.
    Drawing,
}

/// Reads a job out of its file, or out of a drawing that carries it.
pub fn read(path: &Path) -> Result<(Job, Source), Trouble> {
    let bytes = bytes(path).map_err(|error| Trouble::of(OPEN, path, &error))?;
    match file::read_bytes(&bytes) {
        Ok(job) if file::is_svg(&bytes) => Ok((job, Source::Drawing)),
        Ok(job) => Ok((job, Source::JobFile(Print::of(&bytes)))),
        Err(error) => Err(Trouble {
            task: OPEN,
            path: path.to_owned(),
            what: error.problem,
            place: error.place.map(Box::new),
            remedy: error.remedy,
        }),
    }
}

/// Writes a job file, if the job can be read again from what is written.
pub fn save(path: &Path, job: &Job) -> Result<Print, Trouble> {
    let text = file::write(job);
    match file::read(&text) {
        Ok(again) if again == *job => {}
        Ok(_) => {
            let remedy = "nothing was written; undo the last steps, save, and report the job that shows it";
            return Err(Trouble::new(
                SAVE,
                path,
                "the job would not be the same when read again",
                remedy,
            ));
        }
        Err(error) => {
            let what = format!("the job could not be read again ({})", error.problem);
            let remedy = format!("nothing was written; {}", error.remedy);
            return Err(Trouble::new(SAVE, path, what, remedy));
        }
    }
    write(path, text.as_bytes()).map_err(|error| Trouble::of(SAVE, path, &error))?;
    Ok(Print::of(text.as_bytes()))
}

/// Writes a file whole or not at all. What is there is replaced and keeps its permissions; a link stays a link.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let there = match fs::metadata(path) {
        Ok(about) if about.is_dir() => return Err(ErrorKind::IsADirectory.into()),
        Ok(about) if about.permissions().readonly() => {
            return Err(io::Error::new(
                ErrorKind::PermissionDenied,
                "the file is write-protected",
            ));
        }
        Ok(about) => Some(about.permissions()),
        Err(error) if error.kind() == ErrorKind::NotFound => None,
        Err(error) => return Err(error),
    };
    let beside = beside(path)?;
    let written = fill(&beside, bytes, there).and_then(|()| fs::rename(&beside, path));
    if written.is_err() {
        // The file beside it is of no use to anybody; if it cannot be taken away either, it does no harm.
        let _ = fs::remove_file(&beside);
        return written;
    }
    if let Some(folder) = path.parent()
        && let Ok(folder) = File::open(folder)
    {
        // Not every system can flush a folder.
        let _ = folder.sync_all();
    }
    Ok(())
}

/// The path of the file that is filled first: in the same folder, so that it can be renamed.
fn beside(path: &Path) -> io::Result<PathBuf> {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let name = path.file_name().ok_or(ErrorKind::InvalidFilename)?;
    let count = COUNT.fetch_add(1, Ordering::Relaxed);
    // Short, so that the longest name of a file is no reason to fail.
    let short: String = name.to_string_lossy().chars().take(20).collect();
    Ok(path.with_file_name(format!(".{short}.{}-{count}.part", std::process::id())))
}

fn fill(path: &Path, bytes: &[u8], permissions: Option<fs::Permissions>) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    if let Some(permissions) = permissions {
        file.set_permissions(permissions)?;
    }
    file.write_all(bytes)?;
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job() -> Job {
        let mut job = Job::default();
        job.title.job = "Invented house".to_owned();
        job
    }

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap();
        let mut names: Vec<String> = entries
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn what_is_saved_is_read_again_and_nothing_is_left_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("house.ron");
        let print = save(&path, &job()).unwrap();
        assert_eq!(read(&path).unwrap(), (job(), Source::JobFile(print)));
        assert_eq!(Print::now(&path), Some(print));
        save(&path, &Job::default()).unwrap();
        assert_ne!(Print::now(&path), Some(print));
        assert_eq!(names(folder.path()), ["house.ron"]);
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_stay() {
        use std::os::unix::fs::{PermissionsExt, symlink};
        let folder = tempfile::tempdir().unwrap();
        let (path, link) = (folder.path().join("house.ron"), folder.path().join("link.ron"));
        fs::write(&path, "old").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        symlink(&path, &link).unwrap();
        write(&link, b"new").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"new");
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).unwrap();
        let error = write(&path, b"never").unwrap_err();
        assert_eq!(error.kind(), ErrorKind::PermissionDenied);
        assert_eq!(fs::read(&path).unwrap(), b"new");
    }

    #[test]
    fn a_job_that_would_not_come_back_the_same_is_not_written() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("house.ron");
        fs::write(&path, "old").unwrap();
        let mut job = job();
        // A run between joints that are not there.
        job.runs.insert(crate::job::Run::default());
        let trouble = save(&path, &job).unwrap_err();
        assert!(trouble.remedy.contains("nothing was written"), "{trouble:?}");
        assert_eq!(fs::read(&path).unwrap(), b"old");
    }

    #[test]
    fn troubles_name_the_place_and_what_to_do() {
        let folder = tempfile::tempdir().unwrap();
        let said = |path: &Path| read(path).unwrap_err().words();
        assert!(said(&folder.path().join("none.ron")).starts_with("There is no such file"));
        assert!(said(folder.path()).starts_with("This is a folder: add"));
        let path = folder.path().join("broken.ron");
        fs::write(&path, "(\n  version: 1,\n  runz: [],\n)").unwrap();
        let trouble = read(&path).unwrap_err();
        assert_eq!(trouble.place.map(|place| place.line), Some(3));
        let nowhere = folder.path().join("gone/house.ron");
        assert!(save(&nowhere, &job()).unwrap_err().what.contains("no such"));
    }
}

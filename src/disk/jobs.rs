//! Jobs on the disk: read out of a job file or a drawing, written to a job file.

use super::trouble::Trouble;
use super::whole::write;
use crate::file;
use crate::job::Job;
use std::fs::{self, File};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{self, ErrorKind, Read};
use std::path::Path;

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
///
/// # Errors
/// What the system reports, and where the path is a folder, a device or the like.
pub fn bytes(path: &Path) -> io::Result<Vec<u8>> {
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
///
/// # Errors
/// When it cannot be read, or is no UTF-8.
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
///
/// # Errors
/// When the file cannot be read, or is no job.
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
///
/// # Errors
/// When it cannot, or the file cannot be written; then what was there is as it was.
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

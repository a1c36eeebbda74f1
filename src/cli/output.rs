//! Files that a command writes: whole or not at all, in the folder that is named, and never over what is not ours.

use super::input::is_same;
use crate::disk::{self, Trouble};
use crate::export::packet;
use std::ffi::{OsStr, OsString};
use std::fs;
use std::path::{Path, PathBuf};

/// What files are written for, said by what goes wrong.
const TASK: &str = "Write the sheet";

/// Where the files of one job go: a folder, and what their names begin with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Target {
    /// The folder.
    pub folder: PathBuf,
    /// What names begin with: one name, never a way to another folder.
    pub stem: OsString,
}

impl Target {
    /// Beside a job, or in a folder that is named, called like the job's file.
    pub fn of(job: &Path, into: Option<&Path>) -> Target {
        let beside = job.parent().unwrap_or(Path::new(""));
        Target {
            folder: into.unwrap_or(beside).to_owned(),
            stem: job.file_stem().unwrap_or(OsStr::new("job")).to_owned(),
        }
    }

    /// The path of one of its files. Put together by hand: a stem may be `.` or `..`, of a job called `..ron`.
    pub fn path(&self, name: &OsStr) -> PathBuf {
        self.folder.join(name)
    }

    /// Sheets that lie there under this name beside the `written` ones: of an earlier, longer set, or of another job.
    pub fn others(&self, ending: &str, written: &[PathBuf]) -> Vec<PathBuf> {
        let Ok(entries) = fs::read_dir(if self.folder.as_os_str().is_empty() {
            Path::new(".")
        } else {
            &self.folder
        }) else {
            return Vec::new();
        };
        let names = entries.flatten().map(|entry| entry.file_name());
        let alike = names.filter(|name| is_numbered(name, &self.stem, ending));
        let mut others: Vec<PathBuf> = alike.map(|name| self.path(&name)).collect();
        others.retain(|path| !written.contains(path) && disk::bytes(path).is_ok_and(|bytes| packet::is_ours(&bytes)));
        others.sort_by_key(|path| (path.as_os_str().len(), path.clone()));
        others
    }
}

/// Whether a name is the stem, perhaps a number behind it, and the ending.
fn is_numbered(name: &OsStr, stem: &OsStr, ending: &str) -> bool {
    let bytes = name.as_encoded_bytes();
    let middle = bytes
        .strip_prefix(stem.as_encoded_bytes())
        .and_then(|rest| rest.strip_suffix(ending.as_bytes())?.strip_suffix(b"."));
    match middle {
        Some([]) => true,
        Some([b'-', digits @ ..]) => !digits.is_empty() && digits.iter().all(u8::is_ascii_digit),
        _ => false,
    }
}

/// What is written over.
#[derive(Clone, Copy, Debug)]
pub struct Over<'a> {
    /// What this call reads, which is never written over.
    pub read: &'a [PathBuf],
    /// Whether a file may be written over that this program did not write.
    pub force: bool,
}

/// Writes one file whole or not at all.
///
/// # Errors
/// When the call reads that file, when it is not ours and nobody said that it may go, or when it cannot be written: then it
/// is as it was.
pub fn write(path: &Path, bytes: &[u8], over: Over<'_>) -> Result<(), String> {
    let name = path.display();
    if over.read.iter().any(|read| is_same(path, read)) {
        return Err(format!(
            "{name}: the sheet would be written over the job; choose a folder with --into"
        ));
    }
    if !over.force
        && let Ok(there) = disk::bytes(path)
        && !there.is_empty()
        && !packet::is_ours(&there)
    {
        return Err(format!(
            "{name}: a file is there that this program did not write; choose another folder, or write over it with --force"
        ));
    }
    disk::write(path, bytes).map_err(|error| {
        let trouble = Trouble::of(TASK, path, &error);
        format!("{name}: can't be written: {}; {}", trouble.what, trouble.remedy)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_target_never_leaves_its_folder() {
        for (job, stem) in [
            ("a/..ron", "."),
            ("a/...ron", ".."),
            ("a/.ron", ".ron"),
            ("..ron", "."),
            ("a/b.c.ron", "b.c"),
        ] {
            let into = Path::new("out");
            let target = Target::of(Path::new(job), Some(into));
            assert_eq!(target.stem, stem, "{job}");
            for name in packet::Format::Pdf.names(&target.stem, 1) {
                let path = target.path(&name);
                assert_eq!(path.parent(), Some(into), "{job}: {}", path.display());
                assert_eq!(path.file_name(), Some(name.as_os_str()));
            }
        }
    }

    #[test]
    fn numbered_sheets_of_a_job_are_known_by_their_names() {
        let is = |name: &str| is_numbered(name.as_ref(), "house".as_ref(), "svg");
        assert!(is("house.svg") && is("house-1.svg") && is("house-120.svg"));
        assert!(
            !is("house-.svg")
                && !is("house-a.svg")
                && !is("house2.svg")
                && !is("house-1.pdf")
                && !is("house-1.svg.bak")
        );
        assert!(!is("housesvg"));
    }
}

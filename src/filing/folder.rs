//! What lies in a folder: folders first, then files of one ending, by name.

use crate::disk::Trouble;
use std::fs;
use std::path::{Path, PathBuf};

/// So many entries are looked at; a folder with more is seldom one of jobs.
const MOST: usize = 20_000;

/// What an entry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A folder.
    Folder,
    /// A file.
    File,
}

/// One entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What it is.
    pub kind: Kind,
    /// Its name, to be read.
    pub name: String,
    /// Where it is.
    pub path: PathBuf,
}

/// A folder as it was when it was looked at.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Folder {
    /// Where it is.
    pub path: PathBuf,
    /// What lies in it.
    pub entries: Vec<Entry>,
    /// Why it could not be looked at, or that not all is shown.
    pub remark: Option<String>,
}

impl Folder {
    /// Looks into a folder. Hidden entries, and files of other endings, are left out.
    pub fn look(path: &Path, endings: &[&str]) -> Folder {
        let mut folder = Folder {
            path: path.to_owned(),
            ..Folder::default()
        };
        let found = match fs::read_dir(path) {
            Ok(found) => found,
            Err(error) => {
                folder.remark = Some(Trouble::of("Look into the folder", path, &error).words());
                return folder;
            }
        };
        let mut looked = 0;
        for entry in found.flatten() {
            looked += 1;
            if looked > MOST {
                folder.remark = Some(format!("Only the first {MOST} entries are shown: type the path"));
                break;
            }
            let (name, path) = (entry.file_name().to_string_lossy().into_owned(), entry.path());
            if name.starts_with('.') {
                continue;
            }
            let ends = || {
                let own = path.extension();
                own.is_some_and(|own| endings.iter().any(|ending| own.eq_ignore_ascii_case(ending)))
            };
            // A link counts as what it leads to.
            let is_folder = match entry.file_type() {
                Ok(kind) if kind.is_symlink() => path.is_dir(),
                Ok(kind) => kind.is_dir(),
                Err(_) => false,
            };
            let kind = match is_folder {
                true => Kind::Folder,
                false if ends() => Kind::File,
                false => continue,
            };
            folder.entries.push(Entry { kind, name, path });
        }
        folder
            .entries
            .sort_by_cached_key(|entry| (entry.kind, entry.name.to_lowercase(), entry.name.clone()));
        folder
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders_come_first_and_other_files_are_left_out() {
        let root = tempfile::tempdir().unwrap();
        for folder in ["zoo", "attic", ".hidden"] {
            fs::create_dir(root.path().join(folder)).unwrap();
        }
        for file in ["b.ron", "A.RON", "note.txt", ".c.ron", "ron"] {
            fs::write(root.path().join(file), "").unwrap();
        }
        let folder = Folder::look(root.path(), &["ron"]);
        let names: Vec<&str> = folder.entries.iter().map(|entry| entry.name.as_str()).collect();
        assert_eq!(names, ["attic", "zoo", "A.RON", "b.ron"]);
        assert_eq!(folder.remark, None);
        let gone = Folder::look(&root.path().join("gone"), &["ron"]);
        assert!(gone.remark.is_some_and(|words| words.starts_with("There is no such")));
    }
}

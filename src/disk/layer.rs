//! The calls of the system by which a file is written.

use std::fs::{self, File, OpenOptions, Permissions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// What is at a path.
#[derive(Clone, Debug)]
pub struct About {
    /// What it is.
    pub what: What,
    /// Whether it may not be written.
    pub is_protected: bool,
    /// What a file in its place gets; `None` for what a new file has.
    pub permissions: Option<Permissions>,
}

/// What can be at a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A plain file.
    File,
    /// A folder.
    Folder,
    /// A device, a pipe, a socket.
    Special,
}

/// The calls of the system by which a file is written. Each may fail as the system's do, and be interrupted.
pub trait Layer {
    /// A file that is being written.
    type Open;

    /// Where a path leads, links followed; the path itself where nothing is there.
    fn target(&self, path: &Path) -> PathBuf;
    /// What is at a path; `None` where nothing is.
    fn about(&self, path: &Path) -> io::Result<Option<About>>;
    /// A new file, which must not be there yet.
    fn create(&self, path: &Path) -> io::Result<Self::Open>;
    /// Gives it the permissions of another.
    fn permit(&self, file: &mut Self::Open, permissions: &Permissions) -> io::Result<()>;
    /// Writes some of the bytes, and tells how many.
    fn write(&self, file: &mut Self::Open, bytes: &[u8]) -> io::Result<usize>;
    /// Waits until what was written lies on the disk.
    fn sync(&self, file: &mut Self::Open) -> io::Result<()>;
    /// Puts a file in the place of another.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Takes a file away.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Waits until the names in a folder lie on the disk.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;
}

/// The system itself.
#[derive(Clone, Copy, Debug, Default)]
pub struct System;

impl Layer for System {
    type Open = File;

    fn target(&self, path: &Path) -> PathBuf {
        fs::canonicalize(path).unwrap_or_else(|_| path.to_owned())
    }

    fn about(&self, path: &Path) -> io::Result<Option<About>> {
        let about = match fs::metadata(path) {
            Ok(about) => about,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(error),
        };
        let what = if about.is_file() {
            What::File
        } else if about.is_dir() {
            What::Folder
        } else {
            What::Special
        };
        Ok(Some(About {
            what,
            is_protected: about.permissions().readonly(),
            permissions: Some(about.permissions()),
        }))
    }

    fn create(&self, path: &Path) -> io::Result<File> {
        OpenOptions::new().write(true).create_new(true).open(path)
    }

    fn permit(&self, file: &mut File, permissions: &Permissions) -> io::Result<()> {
        file.set_permissions(permissions.clone())
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<usize> {
        file.write(bytes)
    }

    fn sync(&self, file: &mut File) -> io::Result<()> {
        file.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        // A bare name lies in the folder where the program runs.
        let here = folder.as_os_str().is_empty();
        File::open(if here { Path::new(".") } else { folder })?.sync_all()
    }
}

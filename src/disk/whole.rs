//! A file written whole or not at all.

use super::layer::{Layer, System, What};
use std::fs::Permissions;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// Writes a file whole or not at all. What is there is replaced and keeps its permissions; a link stays a link.
///
/// # Errors
/// What the system reports, and where the path is a folder, a protected file, a device or the like: then what was there is
/// as it was.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    write_by(&System, path, bytes)
}

/// The same by other calls.
///
/// # Errors
/// As [`write`].
pub fn write_by<L: Layer>(layer: &L, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = &layer.target(path);
    let there = again(|| layer.about(path))?;
    if let Some(there) = &there {
        match there.what {
            What::Folder => return Err(ErrorKind::IsADirectory.into()),
            What::Special => return Err(io::Error::other("this is a device or the like, not a plain file")),
            What::File if there.is_protected => {
                return Err(io::Error::new(
                    ErrorKind::PermissionDenied,
                    "the file is write-protected",
                ));
            }
            What::File => {}
        }
    }
    let beside = beside(path)?;
    let permissions = there.and_then(|there| there.permissions);
    let written =
        fill(layer, &beside, bytes, permissions.as_ref()).and_then(|()| again(|| layer.rename(&beside, path)));
    if written.is_err() {
        // The file beside it is of no use to anybody; if it cannot be taken away either, it does no harm.
        let _ = again(|| layer.remove(&beside));
        return written;
    }
    if let Some(folder) = path.parent() {
        // Not every system can flush a folder.
        let _ = again(|| layer.sync_folder(folder));
    }
    Ok(())
}

/// Calls until it is not interrupted.
fn again<T>(mut call: impl FnMut() -> io::Result<T>) -> io::Result<T> {
    loop {
        match call() {
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            outcome => return outcome,
        }
    }
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

fn fill<L: Layer>(layer: &L, path: &Path, bytes: &[u8], permissions: Option<&Permissions>) -> io::Result<()> {
    let mut file = again(|| layer.create(path))?;
    if let Some(permissions) = permissions {
        again(|| layer.permit(&mut file, permissions))?;
    }
    let mut left = bytes;
    while !left.is_empty() {
        match again(|| layer.write(&mut file, left))? {
            0 => return Err(ErrorKind::WriteZero.into()),
            count => left = &left[count.min(left.len())..],
        }
    }
    again(|| layer.sync(&mut file))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

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
    fn what_is_no_plain_file_is_refused_and_a_bare_name_is_one() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(write(folder.path(), b"x").unwrap_err().kind(), ErrorKind::IsADirectory);
        if cfg!(target_os = "linux") {
            assert!(
                write(Path::new("/dev/full"), b"x")
                    .unwrap_err()
                    .to_string()
                    .contains("device")
            );
        }
        let path = folder.path().join(".");
        assert!(write(&path, b"x").is_err());
    }
}

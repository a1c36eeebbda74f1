//! A file or folder opened by whatever the system has for it.

use std::path::Path;
use std::process::{Command, Stdio};

/// What opens a file on this system.
const OPENER: &str = if cfg!(target_os = "macos") {
    "open"
} else if cfg!(target_os = "windows") {
    "explorer"
} else {
    "xdg-open"
};

/// Opens a file or folder in the system's own program for it.
///
/// # Errors
/// When the system has nothing that opens it, in words.
pub fn open(path: &Path) -> Result<(), String> {
    let mut command = Command::new(OPENER);
    command
        .arg(path)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    match command.spawn() {
        Ok(mut child) => {
            // Somebody must hear that it has ended; nobody waits for it.
            std::thread::spawn(move || drop(child.wait()));
            Ok(())
        }
        Err(error) => Err(format!(
            "{OPENER} could not be started ({error}): open {} yourself",
            path.display()
        )),
    }
}

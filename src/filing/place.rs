//! What a typed path means: which file or folder, and whether it will do. Asks the disk, changes nothing.

use crate::export;
use std::ffi::OsString;
use std::path::{Component, MAIN_SEPARATOR, Path, PathBuf};

/// The ending of job files.
pub const ENDING: &str = "ron";

/// The ending of drawings that may carry a job inside.
pub const DRAWING: &str = "svg";

/// What a typed path turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub enum Meant {
    /// A folder: go there.
    Folder(PathBuf),
    /// A file that is there.
    Old(PathBuf),
    /// A file that can come to be there.
    New(PathBuf),
    /// Nothing that will do, and why.
    Nothing(String),
}

/// The home of whoever works here.
pub fn home() -> Option<PathBuf> {
    std::env::home_dir().filter(|home| home.is_absolute())
}

/// A typed path in full, as seen from a folder. Quotation marks around it and spaces at its ends are passed over; `~`
/// is home.
pub fn full(typed: &str, folder: &Path) -> PathBuf {
    let typed = typed.trim();
    let quoted = typed.len() > 1 && typed.starts_with(['"', '\'']) && typed.ends_with(['"', '\'']);
    let typed = if quoted { &typed[1..typed.len() - 1] } else { typed };
    let path = match (typed.strip_prefix('~'), home()) {
        (Some(rest), Some(home)) if rest.is_empty() || rest.starts_with(['/', MAIN_SEPARATOR]) => {
            home.join(rest.trim_start_matches(['/', MAIN_SEPARATOR]))
        }
        _ => folder.join(typed),
    };
    plain(&path)
}

/// A path without `.`, and with each `..` taken with what stands before it.
fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir => {
                plain.pop();
            }
            Component::Prefix(_) | Component::RootDir | Component::Normal(_) => plain.push(part),
        }
    }
    plain
}

/// What a typed path means for reading.
pub fn to_open(typed: &str, folder: &Path) -> Meant {
    if typed.trim().is_empty() {
        return Meant::Nothing("Type the path of a file, or choose one below".to_owned());
    }
    let path = full(typed, folder);
    if path.is_dir() {
        return Meant::Folder(path);
    }
    if path.exists() {
        return Meant::Old(path);
    }
    // The ending may be left out.
    let ended = [ENDING, DRAWING].map(|ending| with_ending(&path, ending));
    if let Some(ended) = ended.into_iter().find(|path| path.is_file()) {
        return Meant::Old(ended);
    }
    Meant::Nothing(match no_folder(&path) {
        Some(words) => words,
        None => format!("There is no file {} in this folder", shown_name(&path)),
    })
}

/// What a typed path means for writing; a name without an ending gets this one.
pub fn to_save(typed: &str, folder: &Path, ending: &str) -> Meant {
    let trimmed = typed.trim();
    if trimmed.is_empty() {
        return Meant::Nothing("Enter a name for the file".to_owned());
    }
    let path = full(typed, folder);
    if path.is_dir() {
        return Meant::Folder(path);
    }
    if trimmed.ends_with(['/', MAIN_SEPARATOR]) {
        return Meant::Nothing(format!("There is no folder {}", path.display()));
    }
    if let Some(words) = no_folder(&path) {
        return Meant::Nothing(words);
    }
    let path = with_ending(&path, ending);
    if path.is_dir() {
        return Meant::Nothing(format!("{} is a folder: choose another name", path.display()));
    }
    if path.exists() {
        Meant::Old(path)
    } else {
        Meant::New(path)
    }
}

/// Whether two paths lead to one file that is there, or are the same.
pub fn is_same(one: &Path, other: &Path) -> bool {
    let there = |path: &Path| path.canonicalize().ok();
    one == other || there(one).is_some_and(|file| there(other) == Some(file))
}

/// The path with an ending, unless it has that one. What stands after a point in a name stays: `house 1.2`.
pub fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let has = path.extension().is_some_and(|own| own.eq_ignore_ascii_case(ending));
    if has {
        return path.to_owned();
    }
    let mut name: OsString = path.file_name().unwrap_or_default().to_owned();
    name.push(".");
    name.push(ending);
    path.with_file_name(name)
}

/// Why nothing can lie under a path: the first folder on the way that is not there.
fn no_folder(path: &Path) -> Option<String> {
    let folder = path.parent()?;
    if folder.is_dir() {
        return None;
    }
    let missing = folder.ancestors().take_while(|one| !one.exists()).last();
    Some(match missing {
        Some(missing) => format!("There is no folder {}", missing.display()),
        None => format!("{} is a file, not a folder", folder.display()),
    })
}

/// The last part of a path, to be read.
pub fn shown_name(path: &Path) -> String {
    path.file_name()
        .unwrap_or(path.as_os_str())
        .to_string_lossy()
        .into_owned()
}

/// A path as text with home cut short, for lists.
pub fn short(path: &Path) -> String {
    match home().and_then(|home| path.strip_prefix(home).map(Path::to_owned).ok()) {
        Some(rest) if rest.as_os_str().is_empty() => "~".to_owned(),
        Some(rest) => format!("~{MAIN_SEPARATOR}{}", rest.display()),
        None => path.display().to_string(),
    }
}

/// The name under which a job is saved or handed over first: its file's, else made of its title.
pub fn stem(file: Option<&Path>, title: &str) -> OsString {
    match file.and_then(Path::file_stem) {
        Some(stem) => stem.to_owned(),
        None => export::packet::stem(title)
            .unwrap_or_else(|| "gas piping".to_owned())
            .into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn a_path_is_seen_from_the_folder_that_is_shown() {
        let folder = Path::new("/jobs/north");
        for (typed, expected) in [
            ("house.ron", "/jobs/north/house.ron"),
            ("  ./a/../house.ron ", "/jobs/north/house.ron"),
            ("\"/else/my house.ron\"", "/else/my house.ron"),
            ("../../../..", "/"),
            ("'", "/jobs/north/'"),
        ] {
            assert_eq!(full(typed, folder), Path::new(expected), "{typed}");
        }
        let home = home().unwrap();
        assert_eq!(full("~/x", folder), home.join("x"));
        assert_eq!(full("~", folder), home);
        assert_eq!(full("~x", folder), folder.join("~x"));
    }

    #[test]
    fn what_is_typed_for_reading() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path();
        fs::create_dir(root.join("plans")).unwrap();
        fs::write(root.join("house.ron"), "").unwrap();
        fs::write(root.join("house.svg"), "").unwrap();
        fs::write(root.join("sheet.svg"), "").unwrap();
        assert_eq!(to_open("sheet", root), Meant::Old(root.join("sheet.svg")));
        assert!(is_same(&root.join("house.ron"), &root.join("plans/../house.ron")));
        assert!(!is_same(&root.join("house.ron"), &root.join("house.svg")));
        assert_eq!(to_open("plans", root), Meant::Folder(root.join("plans")));
        assert_eq!(to_open("house", root), Meant::Old(root.join("house.ron")));
        let nothing = |typed: &str| match to_open(typed, root) {
            Meant::Nothing(words) => words,
            other => panic!("{other:?}"),
        };
        assert!(nothing("barn.ron").starts_with("There is no file barn.ron"));
        assert!(
            nothing("old/deep/barn.ron").ends_with("old"),
            "the first folder that is missing"
        );
        assert!(nothing("house.ron/barn.ron").ends_with("is a file, not a folder"));
        assert!(nothing("  ").starts_with("Type"));
    }

    #[test]
    fn what_is_typed_for_writing() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path();
        fs::create_dir(root.join("plans")).unwrap();
        fs::create_dir(root.join("odd.ron")).unwrap();
        fs::write(root.join("house.ron"), "").unwrap();
        let meant = |typed: &str| to_save(typed, root, ENDING);
        assert_eq!(meant("barn"), Meant::New(root.join("barn.ron")));
        assert_eq!(meant("barn 1.2"), Meant::New(root.join("barn 1.2.ron")));
        assert_eq!(meant("house.RON"), Meant::New(root.join("house.RON")));
        assert_eq!(meant("house"), Meant::Old(root.join("house.ron")));
        assert_eq!(meant("plans"), Meant::Folder(root.join("plans")));
        assert!(matches!(meant("odd"), Meant::Nothing(words) if words.contains("is a folder")));
        assert!(matches!(meant("none/"), Meant::Nothing(words) if words.contains("no folder")));
        assert!(matches!(meant("none/barn"), Meant::Nothing(words) if words.contains("no folder")));
        assert!(matches!(meant(""), Meant::Nothing(_)));
    }

    #[test]
    fn a_first_name_comes_from_file_or_title() {
        assert_eq!(stem(Some(Path::new("/a/house.v2.ron")), "other"), "house.v2");
        assert_eq!(stem(None, "Patio: kitchen"), "Patio kitchen");
        assert_eq!(stem(None, " "), "gas piping");
    }
}

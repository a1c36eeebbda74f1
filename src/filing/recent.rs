//! Files worked on last, and whether they are still there.

use super::place;
use std::path::{Path, PathBuf};

/// So many are remembered.
pub const MOST: usize = 10;

/// Puts a file at the head of the list.
pub fn remember(list: &mut Vec<PathBuf>, path: &Path) {
    let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    list.retain(|known| *known != path);
    list.insert(0, path);
    list.truncate(MOST);
}

/// One line of the menu.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The file.
    pub path: PathBuf,
    /// What the line says.
    pub words: String,
    /// Why it cannot be opened.
    pub missing: Option<&'static str>,
}

/// The list as lines. Files of one name are told apart by their folders.
pub fn lines(list: &[PathBuf]) -> Vec<Line> {
    let name = |path: &Path| place::shown_name(path);
    list.iter()
        .take(MOST)
        .map(|path| {
            let twin = list.iter().any(|other| other != path && name(other) == name(path));
            let folder = path.parent().filter(|_| twin).map(place::shown_name);
            let missing = match path.try_exists() {
                Ok(true) => None,
                Ok(false) => Some("This file no longer exists"),
                Err(_) => Some("This file cannot be reached now"),
            };
            let mut words = name(path);
            if let Some(folder) = folder {
                words = format!("{words} in {folder}");
            }
            if missing.is_some() {
                words += " (missing)";
            }
            Line {
                path: path.clone(),
                words,
                missing,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_latest_comes_first_and_each_once() {
        let mut list = Vec::new();
        for number in 0..15 {
            remember(&mut list, Path::new(&format!("/jobs/{number}.ron")));
        }
        assert_eq!(list.len(), MOST);
        remember(&mut list, Path::new("/jobs/9.ron"));
        assert_eq!((list.len(), list[0].as_path()), (MOST, Path::new("/jobs/9.ron")));
        assert_eq!(list.iter().filter(|path| path.ends_with("9.ron")).count(), 1);
    }

    #[test]
    fn lines_tell_twins_apart_and_say_what_is_missing() {
        let folder = tempfile::tempdir().unwrap();
        let here = folder.path().join("house.ron");
        std::fs::write(&here, "").unwrap();
        let list = [
            here,
            folder.path().join("gone/house.ron"),
            folder.path().join("barn.ron"),
        ];
        let lines = lines(&list);
        assert!(lines[0].missing.is_none() && lines[0].words.starts_with("house.ron in "));
        assert_eq!(lines[1].words, "house.ron in gone (missing)");
        assert_eq!(lines[2].words, "barn.ron (missing)");
        assert_eq!(lines[2].missing, Some("This file no longer exists"));
    }
}

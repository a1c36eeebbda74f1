//! Holds the plan of the house (DEVELOPERS.md, "Floors"): a file imports only from lower floors, rooms on one floor do
//! not know each other, and the knows-nothing rules.

use std::fs;
use std::path::{Path, PathBuf};

/// Floor and room. `lib.rs` stands outside: it names every room and uses none.
const FLOORS: &[(&str, u8)] = &[
    ("units", 0),
    ("job", 1),
    ("gas", 1),
    ("scene", 1),
    ("codebook", 2),
    ("file", 2),
    ("network", 3),
    ("pressure", 4),
    ("sizing", 5),
    ("fittings", 5),
    ("study", 6),
    ("work", 7),
    ("changes", 7),
    ("rules", 8),
    ("advice", 9),
    ("permit_list", 9),
    ("drawing", 10),
    ("sheet", 11),
    ("editor", 11),
    ("export", 11),
    ("cli", 12),
    ("app", 12),
    ("main", 13),
];

struct Source {
    /// Path below `src`, with forward slashes.
    path: String,
    room: String,
    /// The text without its tests: a test may look anywhere.
    code: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut waiting = vec![root.clone()];
    let mut found = Vec::new();
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path: PathBuf = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let below = path.strip_prefix(&root).unwrap().to_str().unwrap().replace('\\', "/");
                let room = below.split('/').next().unwrap().trim_end_matches(".rs").to_owned();
                let text = fs::read_to_string(&path).unwrap();
                let code = text.split("#[cfg(test)]").next().unwrap().to_owned();
                found.push(Source {
                    path: below,
                    room,
                    code,
                });
            }
        }
    }
    assert!(found.len() > 20, "the sources were not found");
    found
}

/// Lines of code, comments left out, each with its number.
fn lines(source: &Source) -> impl Iterator<Item = (usize, &str)> {
    source
        .code
        .lines()
        .enumerate()
        .map(|(at, line)| (at + 1, line))
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
}

/// Rooms that a line names by path, whether in a `use` or inline.
fn rooms_named(line: &str) -> Vec<String> {
    let mut rooms = Vec::new();
    for prefix in ["crate::", "stubout::"] {
        for (at, _) in line.match_indices(prefix) {
            let rest = &line[at + prefix.len()..];
            if let Some(list) = rest.strip_prefix('{') {
                // `use crate::{a::X, b::{Y, Z}}`: the names at the list's own level.
                let mut depth = 0;
                let mut word = String::new();
                for letter in list.chars() {
                    match letter {
                        '{' => depth += 1,
                        '}' if depth == 0 => break,
                        '}' => depth -= 1,
                        ',' if depth == 0 => rooms.push(std::mem::take(&mut word)),
                        letter if depth == 0 => word.push(letter),
                        _ => {}
                    }
                }
                rooms.push(word);
            } else {
                rooms.push(rest.to_owned());
            }
        }
    }
    rooms
        .iter()
        .map(|path| {
            path.trim()
                .chars()
                .take_while(|letter| letter.is_alphanumeric() || *letter == '_')
                .collect::<String>()
        })
        .filter(|room| FLOORS.iter().any(|(name, _)| name == room))
        .collect()
}

fn floor(room: &str) -> Option<u8> {
    FLOORS.iter().find(|(name, _)| *name == room).map(|(_, floor)| *floor)
}

#[test]
fn every_room_has_a_floor() {
    for source in sources() {
        assert!(
            source.path == "lib.rs" || floor(&source.room).is_some(),
            "src/{} stands on no floor",
            source.path
        );
    }
}

#[test]
fn imports_go_down() {
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|source| source.path != "lib.rs") {
        let own = floor(&source.room).unwrap();
        for (number, line) in lines(source) {
            for room in rooms_named(line) {
                if room != source.room && floor(&room).unwrap() >= own {
                    wrong.push(format!("src/{}:{number} uses {room}: {}", source.path, line.trim()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "imports that do not go down:\n{}", wrong.join("\n"));
}

/// Asserts that `word` is used in no file but those that `allowed` lets pass.
#[track_caller]
fn only_in(word: &str, allowed: impl Fn(&Source) -> bool) {
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|source| !allowed(source)) {
        for (number, line) in lines(source) {
            if line.contains(word) {
                wrong.push(format!("src/{}:{number}: {}", source.path, line.trim()));
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "`{word}` where it has no business:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn egui_is_known_to_the_window_only() {
    only_in("egui", |source| source.room == "app");
    only_in("eframe", |source| source.room == "app");
}

#[test]
fn files_are_opened_by_the_window_and_the_commands_only() {
    only_in("std::fs", |source| source.room == "app" || source.room == "cli");
    only_in("File::open", |source| source.room == "app" || source.room == "cli");
}

#[test]
fn serde_derives_stand_where_text_is_read() {
    let allowed =
        |source: &Source| source.room == "file" || source.room == "codebook" || source.path == "app/settings.rs";
    only_in("Serialize", allowed);
    only_in("Deserialize", allowed);
}

#[test]
fn scene_and_export_know_no_pipes() {
    for source in sources()
        .iter()
        .filter(|source| ["scene", "export"].contains(&source.room.as_str()))
    {
        for (number, line) in lines(source) {
            for room in rooms_named(line) {
                assert!(
                    !["job", "gas", "codebook", "study", "drawing"].contains(&room.as_str())
                        || source.path == "export/csv.rs",
                    "src/{}:{number} knows {room}",
                    source.path
                );
            }
        }
    }
}

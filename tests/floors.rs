//! Holds the plan of the house (DEVELOPERS.md, "Floors"): a file imports only from lower floors, rooms on one floor do
//! not know each other, no files import each other in a circle, and the knows-nothing rules. What is there in tests only
//! may look anywhere.

#[path = "floors/house.rs"]
mod house;

use house::{House, Import, Place};
use std::sync::LazyLock;

/// Floor and room. `lib.rs` stands outside: it names every room and uses none.
const FLOORS: &[(&str, u8)] = &[
    ("units", 0),
    ("licenses", 0),
    ("nearest", 0),
    ("job", 1),
    ("gas", 1),
    ("scene", 1),
    ("codebook", 2),
    ("file", 2),
    ("projection", 2),
    ("network", 3),
    ("arrange", 3),
    ("disk", 3),
    ("pressure", 4),
    ("sizing", 5),
    ("fittings", 5),
    ("study", 6),
    ("work", 7),
    ("changes", 7),
    ("rules", 8),
    ("advice", 9),
    ("permit_list", 9),
    ("lesson", 9),
    ("drawing", 10),
    ("floor_plan", 10),
    ("sheet", 11),
    ("editor", 11),
    ("export", 11),
    ("cli", 12),
    ("desk", 12),
    ("look", 13),
    ("details", 14),
    ("view", 15),
    ("filing", 16),
    ("app", 17),
    ("main", 18),
];

/// Every source, read once.
static HOUSE: LazyLock<House> = LazyLock::new(House::of_this_crate);

fn floor(place: &Place) -> Option<u8> {
    FLOORS
        .iter()
        .find(|(name, _)| *name == place[0])
        .map(|(_, floor)| *floor)
}

/// Uses that do not go down.
fn upward(house: &House) -> Vec<Import> {
    let imports = house.imports().into_iter();
    let goes_up = |import: &Import| import.by[0] != import.of[0] && floor(&import.of) >= floor(&import.by);
    imports.filter(goes_up).collect()
}

#[test]
fn every_room_has_a_floor() {
    let house = &HOUSE;
    for place in house.places() {
        assert!(floor(place).is_some(), "src/{} stands on no floor", place.join("/"));
    }
    assert!(house.places().count() > 400, "the sources were not found");
}

#[test]
fn imports_go_down() {
    let wrong = upward(&HOUSE);
    assert!(wrong.is_empty(), "imports that do not go down: {wrong:#?}");
}

#[test]
fn no_files_import_each_other_in_a_circle() {
    let circles = HOUSE.circles();
    assert!(circles.is_empty(), "circles: {circles:#?}");
}

/// The house with further files in it.
fn planted(files: &[(&str, &str)]) -> House {
    let usual = [
        ("units", "pub struct Length;"),
        ("job", "mod run;\npub use run::Run;"),
        ("job/run", "use crate::units::Length;\npub struct Run(Length);"),
        ("study", "mod size;\npub use size::Size;"),
        ("study/size", "use crate::job::Run;\npub struct Size(Run);"),
    ];
    let kept = usual
        .iter()
        .filter(|(path, _)| files.iter().all(|(new, _)| new != path));
    let all = kept.chain(files);
    House::of(all.map(|(path, text)| (path.split('/').map(str::to_owned).collect(), (*text).to_owned())))
}

#[test]
fn what_is_planted_is_found() {
    let house = planted(&[]);
    assert_eq!((upward(&house), house.circles()), (Vec::new(), Vec::new()));
    let up = "use crate::units::Length;\npub struct Run(Length, crate::study::Size);";
    // In a type, through a name that the room hands on, in the words of a macro, and after what is there in tests only.
    for text in [
        up.to_owned(),
        "pub struct Run;\nfn told() { println!(\"{:?}\", crate::study::Size) }".to_owned(),
        format!("#[cfg(test)]\nfn in_tests() {{}}\n#[cfg(test)]\nmod tests {{}}\n{up}"),
    ] {
        let found = upward(&planted(&[("job/run", &text)]));
        assert_eq!(found.len(), 1, "{text}: {found:?}");
        assert_eq!(
            (found[0].by.join("/"), found[0].of.join("/")),
            ("job/run".into(), "study/size".into())
        );
    }
    let in_tests = "pub struct Run;\n#[cfg(test)]\nmod tests { use crate::study::Size; }";
    assert_eq!(upward(&planted(&[("job/run", in_tests)])), []);
    // A circle of three in one room, one use of it in a folder of its own.
    let circle = planted(&[
        (
            "job",
            "mod run;\nmod joint;\nmod place;\npub use run::Run;\npub use joint::Joint;",
        ),
        ("job/run", "use super::Joint;\npub struct Run(Joint);"),
        ("job/joint", "mod inner;\npub struct Joint;"),
        (
            "job/joint/inner",
            "use crate::job::place::Place;\npub struct Inner(Place);",
        ),
        (
            "job/place",
            "#[cfg(test)]\nfn sample() {}\nuse super::run::Run;\npub struct Place(Run);",
        ),
    ]);
    let circles = circle.circles();
    assert_eq!(circles.iter().map(Vec::len).collect::<Vec<_>>(), [3], "{circles:?}");
}

/// Holds that paths with such a part are named in no file but those that `allowed` lets pass.
#[track_caller]
fn only_in(part: &[&str], allowed: impl Fn(&Place) -> bool) {
    let house = &HOUSE;
    let names = |path: &[String]| path.windows(part.len()).any(|window| window == part);
    let wrong: Vec<String> = house
        .places()
        .filter(|place| !allowed(place) && house.named(place).any(names))
        .map(|place| place.join("/"))
        .collect();
    assert!(wrong.is_empty(), "{part:?} where it has no business: {wrong:?}");
}

#[test]
fn egui_is_known_to_the_window_only() {
    let rooms = ["look", "details", "view", "filing", "app"];
    only_in(&["egui"], |place| rooms.contains(&place[0].as_str()));
    only_in(&["eframe"], |place| place[0] == "app");
}

#[test]
fn files_are_opened_on_the_disk_by_the_window_and_by_the_commands_only() {
    let doors = |place: &Place| ["filing", "app", "cli", "disk"].contains(&place[0].as_str());
    only_in(&["std", "fs"], doors);
    only_in(&["File", "open"], doors);
}

#[test]
fn serde_derives_stand_where_text_is_read() {
    let readers = |place: &Place| ["file", "codebook"].contains(&place[0].as_str()) || *place == ["desk", "settings"];
    only_in(&["Serialize"], readers);
    only_in(&["Deserialize"], readers);
}

#[test]
fn scene_and_export_know_no_pipes() {
    let house = &HOUSE;
    let pipes = FLOORS
        .iter()
        .map(|(room, _)| *room)
        .filter(|room| !["units", "scene", "export"].contains(room));
    let pipes: Vec<&str> = pipes.collect();
    for import in house.imports() {
        if ["scene", "export"].contains(&import.by[0].as_str()) && import.by != ["export", "csv"] {
            assert!(!pipes.contains(&import.of[0].as_str()), "{import:?}");
        }
    }
}

//! Tables and profiles of one's own, opened in the window.

use crate::hand::{Hand, Opening};
use egui::{Key, Modifiers};
use std::fs;
use std::path::Path;
use stubout::desk::settings::Settings;
use stubout::editor::CommandId;
use stubout::job::Job;
use stubout::sizing::Basis;
use stubout::units::NominalSize;

const TABLE: &str = include_str!("../tables/invented-csst.tsv");

/// 45 ft of tubing to a heater of 40,000 Btu/h.
const TUBE: &str = r#"(
    version: 1,
    settings: (step: "1'", material: csst),
    gas: (fuel: natural, heating_value: "1000 Btu/ft3"),
    joints: [
        (id: 1, at: (0, 0, 0), device: supply(pressure: "7 in w.c.")),
        (id: 2, at: (45, 0, 0), device: appliance(name: "Invented heater", input: "40,000 Btu/h")),
    ],
    runs: [(id: 1, from: 1, to: 2, bonded: true)],
)"#;

fn tube() -> Job {
    stubout::file::read(TUBE).unwrap()
}

fn type_path(hand: &mut Hand, path: &Path) {
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text(path.to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
}

fn size(hand: &Hand) -> Option<NominalSize> {
    hand.desk().shown().checked.study.sections[0].sizing.size
}

fn told(hand: &Hand, rule: &str) -> bool {
    hand.desk()
        .shown()
        .checked
        .findings
        .iter()
        .any(|finding| finding.rule == rule)
}

fn opening(own: &[&Path]) -> Opening {
    let usual = Opening::default();
    let own = own.iter().map(|path| path.to_path_buf()).collect();
    Opening {
        settings: Settings { own, ..usual.settings },
        ..Opening::default()
    }
}

#[test]
fn a_table_is_opened_used_and_given_up_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("maker.tsv");
    fs::write(&path, TABLE.replace("\n50\t15\t38", "\n50\t15\t83")).unwrap();
    let mut hand = Hand::on(tube());
    assert_eq!(size(&hand), Some(NominalSize::Ehd(19)));
    assert!(told(&hand, "csst-by-ehd"));
    hand.command(CommandId::OwnFiles);
    hand.rest();
    assert!(hand.reads("No file has been opened yet"), "{:?}", hand.all_words());
    hand.push("Open a file…");
    hand.rest();
    type_path(&mut hand, &path);
    assert!(
        hand.reads("maker.tsv, line 38, column 3: 83 under `EHD 18` cannot be"),
        "{:?}",
        hand.all_words()
    );
    assert!(hand.app().settings().own.is_empty());
    hand.look("own-table-broken");
    fs::write(&path, TABLE).unwrap();
    type_path(&mut hand, &path);
    assert!(hand.reads("Use in this job: Example CT 0.5"), "{:?}", hand.all_words());
    assert_eq!(hand.app().settings().own, [path]);
    assert_eq!(
        size(&hand),
        Some(NominalSize::Ehd(19)),
        "nothing is used that was not ticked"
    );
    let tick = "Use in this job: Example CT 0.5, invented tubing of nobody's, natural gas, inlet under 2 psi, drop 0.5 in w.c.";
    hand.push(tick);
    hand.rest();
    hand.look("own-table");
    assert_eq!(size(&hand), Some(NominalSize::Ehd(23)));
    assert!(!told(&hand, "csst-by-ehd"));
    hand.push("Close");
    hand.rest();
    assert!(!hand.reads("Use in this job"));
    let sheet = format!("{:?}", hand.desk().shown().checked.study.sections[0].sizing.basis);
    assert!(sheet.contains("Example CT 0.5"), "{sheet}");
    // It is a step like any other, and the job keeps it.
    assert_eq!(
        stubout::file::read(&hand.written()).unwrap().settings.tables[0].id,
        "Example CT 0.5"
    );
    hand.command(CommandId::Undo);
    assert_eq!(size(&hand), Some(NominalSize::Ehd(19)));
}

#[test]
fn what_was_opened_is_remembered_and_what_has_gone_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (there, gone) = (folder.path().join("maker.tsv"), folder.path().join("gone.tsv"));
    fs::write(&there, TABLE).unwrap();
    let hand = Hand::opening(opening(&[&there]));
    assert!(
        !hand.reads("Your tables and profiles"),
        "nothing is wrong, nothing is said"
    );
    assert!(hand.desk().book().table("Example CT 0.5").is_some());
    let mut hand = Hand::opening(opening(&[&gone, &there]));
    assert!(hand.reads("There is no such file or folder"), "{:?}", hand.all_words());
    hand.look("own-table-gone");
    assert!(hand.desk().book().table("Example CT 0.5").is_some(), "the others serve");
    hand.key(Key::Escape);
    hand.rest();
    assert!(!hand.reads("There is no such file"));
    hand.command(CommandId::OwnFiles);
    hand.rest();
    let forget = hand.widgets("Stop using");
    hand.click_screen(forget[0].rect.center());
    hand.rest();
    assert_eq!(hand.app().settings().own, [there]);
    assert!(!hand.reads("There is no such file"));
}

#[test]
fn a_job_sized_by_a_table_that_is_not_at_hand_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("maker.tsv");
    fs::write(&path, TABLE).unwrap();
    let mut elsewhere = stubout::codebook::Codebook::published().clone();
    let mut job = tube();
    job.settings
        .tables
        .push(elsewhere.add_table("maker.tsv", TABLE).unwrap());
    let mut hand = Hand::on(job);
    assert!(told(&hand, "own-table-missing"));
    hand.command(CommandId::OwnFiles);
    hand.rest();
    assert!(
        hand.reads("This job is sized by Example CT 0.5, which is not loaded"),
        "{:?}",
        hand.all_words()
    );
    hand.push("Open a file…");
    hand.rest();
    type_path(&mut hand, &path);
    assert!(!hand.reads("not loaded") && !told(&hand, "own-table-missing"));
    assert_eq!(size(&hand), Some(NominalSize::Ehd(23)));
    // Other figures under the same name are told, and taken on only when it is said.
    fs::write(&path, TABLE.replace("\n50\t15\t38\t80", "\n50\t15\t41\t80")).unwrap();
    hand.push("Read again");
    hand.rest();
    assert!(
        hand.reads("This job was sized by an earlier version of Example CT 0.5"),
        "{:?}",
        hand.all_words()
    );
    assert!(told(&hand, "own-table-changed"));
}

#[test]
fn a_profile_is_opened_with_its_tables() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("office.ron");
    let profile = include_str!("../../assets/profiles/us-ifgc.ron");
    let profile = profile
        .replace("name: \"us-ifgc\"", "name: \"office\"")
        .replace("tables: (families: [\"402.4\"])", "tables: (files: [\"maker.tsv\"])");
    fs::write(&path, &profile).unwrap();
    let mut hand = Hand::on(tube());
    hand.command(CommandId::OwnFiles);
    hand.rest();
    hand.push("Open a file…");
    hand.rest();
    type_path(&mut hand, &path);
    assert!(
        hand.reads("the table file `maker.tsv` cannot be read"),
        "{:?}",
        hand.all_words()
    );
    fs::write(&path, profile.replace("equations: Never", "equation: Never")).unwrap();
    fs::write(folder.path().join("maker.tsv"), TABLE).unwrap();
    type_path(&mut hand, &path);
    assert!(hand.reads("office.ron, line "), "{:?}", hand.all_words());
    fs::write(&path, &profile).unwrap();
    type_path(&mut hand, &path);
    hand.push("Use in this job: profile office, United States, International Fuel Gas Code");
    hand.rest();
    hand.look("own-profile");
    assert_eq!(hand.job().settings.profile, "office");
    let basis = &hand.desk().shown().checked.study.sections[0].sizing.basis;
    assert!(
        matches!(basis, Basis::Table { table, .. } if &**table == "Example CT 0.5"),
        "{basis:?}"
    );
    assert!(!told(&hand, "profile-unknown"));
}

#[test]
fn a_table_or_profile_that_is_dropped_is_taken_in_and_a_job_is_opened() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("maker.tsv");
    fs::write(&path, TABLE.replace("\n50\t15\t38", "\n50\t15\t83")).unwrap();
    let mut hand = Hand::on(tube());
    let job = hand.job().clone();
    hand.drop_file(&path);
    hand.rest();
    assert!(
        hand.reads("maker.tsv, line 38, column 3: 83 under `EHD 18` cannot be"),
        "{:?}",
        hand.all_words()
    );
    assert!(hand.app().settings().own.is_empty() && *hand.job() == job);
    hand.look("own-table-dropped-broken");
    // Mended, it is read again from where it is refused.
    fs::write(&path, TABLE).unwrap();
    hand.key(Key::Enter);
    hand.rest();
    assert!(hand.reads("Use in this job: Example CT 0.5"), "{:?}", hand.all_words());
    assert_eq!(hand.app().settings().own, [path]);
    // What is dropped on the list of tables joins it; nothing is used that was not ticked.
    let lengths = folder.path().join("truck.csv");
    fs::write(&lengths, "ball valve; 1/2; 2-1/8 in\n").unwrap();
    hand.drop_file(&lengths);
    hand.rest();
    assert!(hand.reads("1 length of your own parts"), "{:?}", hand.all_words());
    assert!(hand.reads("Use in this job: Example CT 0.5") && *hand.job() == job);
    hand.look("own-table-dropped");
    hand.key(Key::Escape);
    hand.rest();
    let profile = folder.path().join("office.ron");
    let text = include_str!("../../assets/profiles/us-ifgc.ron");
    fs::write(&profile, text.replace("name: \"us-ifgc\"", "name: \"office\"")).unwrap();
    hand.drop_file(&profile);
    hand.rest();
    assert!(hand.reads("Use in this job: profile office"), "{:?}", hand.all_words());
    assert_eq!((hand.app().settings().own.len(), hand.job() == &job), (3, true));
    hand.key(Key::Escape);
    hand.rest();
    let house = folder.path().join("house.ron");
    fs::write(&house, stubout::file::write(Hand::elbow().job())).unwrap();
    hand.drop_file(&house);
    hand.rest();
    assert_eq!(hand.job(), Hand::elbow().job());
}

//! Own tables and profiles with tables, as a user calls the commands.

use crate::INVENTED;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const TUBE: &str = r#"(
    version: 1,
    settings: (step: "1'", material: csst),
    joints: [
        (id: 1, at: (0, 0, 0), device: supply(pressure: "7 in w.c.")),
        (id: 2, at: (45, 0, 0), device: appliance(name: "Invented heater", input: "40,000 Btu/h")),
    ],
    runs: [(id: 1, from: 1, to: 2, bonded: true)],
)"#;

fn call(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_stubout"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tube.ron"), TUBE).unwrap();
    fs::create_dir(folder.path().join("lists")).unwrap();
    fs::write(folder.path().join("lists/maker.tsv"), INVENTED).unwrap();
    folder
}

#[test]
fn every_command_takes_tables() {
    let folder = folder();
    for command in [
        "size",
        "check",
        "carry",
        "permit-checklist",
        "test",
        "count",
        "take-off",
        "cut",
        "draw",
    ] {
        let output = call(folder.path(), &[command, "--table", "lists/maker.tsv", "tube.ron"]);
        let words = said(&output);
        assert!(output.status.code() != Some(2), "{command}: {words}");
    }
    let words = said(&call(
        folder.path(),
        &["size", "--table", "lists/maker.tsv", "tube.ron"],
    ));
    assert!(
        words.contains("Table Example CT 0.5") && words.contains("(L, "),
        "{words}"
    );
}

#[test]
fn a_sheet_cites_the_table_with_its_source_and_its_mark() {
    let folder = folder();
    let output = call(
        folder.path(),
        &["draw", "--table", "lists/maker.tsv", "--as", "svg", "tube.ron"],
    );
    assert!(output.status.code() != Some(2), "{}", said(&output));
    let sheet = fs::read_to_string(folder.path().join("tube.svg"))
        .or_else(|_| fs::read_to_string(folder.path().join("tube-1.svg")))
        .unwrap();
    // The job travels in the drawing, with the table that it names.
    let job = stubout::file::read_bytes(sheet.as_bytes()).unwrap();
    assert_eq!(job.settings.tables.len(), 1);
    assert_eq!(job.settings.tables[0].id, "Example CT 0.5");
}

#[test]
fn a_broken_table_is_told_with_file_line_and_remedy() {
    let folder = folder();
    fs::write(
        folder.path().join("bad.tsv"),
        INVENTED.replace("\n50\t15\t38", "\n50\t15\t83"),
    )
    .unwrap();
    let output = call(folder.path(), &["size", "--table", "bad.tsv", "tube.ron"]);
    assert_eq!(output.status.code(), Some(2));
    let words = said(&output);
    assert!(
        words.starts_with("bad.tsv, line 38, column 3: 83 under `EHD 18` cannot be"),
        "{words}"
    );
    let output = call(folder.path(), &["size", "--table", "gone.tsv", "tube.ron"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        said(&output).contains("gone.tsv: there is no such file"),
        "{}",
        said(&output)
    );
}

#[test]
fn a_profile_names_its_tables_beside_itself() {
    let folder = folder();
    let profile = include_str!("../../assets/profiles/us-ifgc.ron").replace("name: \"us-ifgc\"", "name: \"office\"");
    let with = |tables: &str| profile.replace("tables: (families: [\"402.4\"])", &format!("tables: {tables}"));
    fs::write(folder.path().join("lists/office.ron"), with("(files: [\"maker.tsv\"])")).unwrap();
    let words = said(&call(
        folder.path(),
        &["size", "--profile", "lists/office.ron", "tube.ron"],
    ));
    assert!(words.contains("Table Example CT 0.5"), "{words}");
    // Its own tables alone: a published one would size steel.
    fs::write(
        folder.path().join("lists/office.ron"),
        with("(families: [], files: [\"maker.tsv\"])"),
    )
    .unwrap();
    fs::write(folder.path().join("steel.ron"), TUBE.replace("csst", "steel")).unwrap();
    let words = said(&call(
        folder.path(),
        &["check", "--profile", "lists/office.ron", "steel.ron"],
    ));
    assert!(words.contains("the profile names none"), "{words}");
    fs::write(folder.path().join("lists/office.ron"), with("(files: [\"gone.tsv\"])")).unwrap();
    let output = call(folder.path(), &["size", "--profile", "lists/office.ron", "tube.ron"]);
    assert_eq!(output.status.code(), Some(2));
    let words = said(&output);
    assert!(
        words.contains("lists/office.ron, line ") && words.contains("the table file `gone.tsv` cannot be read"),
        "{words}"
    );
}

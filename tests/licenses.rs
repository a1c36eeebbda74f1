//! What the program is made of may be handed on, and its licenses go with it: `assets/third-party.txt`, which
//! `stubout licenses` prints and *About Stubout* shows.
//!
//! `BLESS=1 cargo test --test licenses` writes it anew, for Linux, Windows and macOS, from what lies in the crates
//! (`cargo fetch --locked` brings those of the other systems).

#[path = "licenses/linked.rs"]
mod linked;
#[path = "licenses/spdx.rs"]
mod spdx;

use linked::{Linked, host, linked};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::process::Command;
use stubout::licenses::{OWN, THIRD_PARTY};

/// The systems that the text is written for.
const TARGETS: [&str; 3] = [
    "x86_64-unknown-linux-gnu",
    "x86_64-pc-windows-msvc",
    "aarch64-apple-darwin",
];

const HEAD: &str = "\
Software of others in Stubout

Stubout itself is under the MIT license. The program holds the libraries and fonts that are listed here; each text is
followed by what it holds for, with the copyright notices that stand above the text there. Where authors leave a choice
of licenses, the first of these is taken:\n";

/// Of one text: its first writing, and the notices by which it is handed on.
type Texts = BTreeMap<String, (String, BTreeMap<String, BTreeSet<String>>)>;

/// What the text of a license says, without the notices above it, and those notices.
fn parted(text: &str) -> (String, BTreeSet<String>) {
    let is_notice = |line: &str| {
        let line = line.trim().to_lowercase();
        (line.starts_with("copyright ") || line.starts_with("(c) ") || line.starts_with('©'))
            && !line.starts_with("copyright notice")
            && !line.contains("[yyyy]")
            && line.contains(|letter: char| letter.is_ascii_digit() || letter == '(')
    };
    let first = text.lines().take(12).filter(|line| is_notice(line));
    let notices: BTreeSet<String> = first.map(|line| line.trim().to_owned()).collect();
    let rest: Vec<&str> = text
        .lines()
        .map(str::trim_end)
        .filter(|line| !notices.contains(line.trim()))
        .collect();
    (rest.join("\n").trim_matches('\n').to_owned(), notices)
}

/// By what two texts are the same: their words, whatever their lines and titles.
fn words(text: &str) -> String {
    let lower = text.to_lowercase();
    let from = [
        "permission is hereby granted",
        "apache license",
        "redistribution and use",
    ]
    .iter()
    .find_map(|start| lower.find(start));
    let kept = lower[from.filter(|at| *at < 200).unwrap_or(0)..].chars();
    let kept: String = kept
        .map(|letter| if letter.is_alphanumeric() { letter } else { ' ' })
        .collect();
    kept.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn written(crates: &BTreeSet<Linked>) -> String {
    let mut texts = Texts::new();
    let mut add = |text: &str, name: String| {
        let (text, notices) = parted(text);
        let (_, users) = texts.entry(words(&text)).or_insert((text, BTreeMap::new()));
        users.entry(name).or_default().extend(notices);
    };
    for one in crates {
        for text in one.texts() {
            add(&text, format!("{} ({})", one.name, one.version));
        }
    }
    let std = include_str!("licenses/mit.txt");
    add(
        &format!("Copyright (c) The Rust Project Contributors\n\n{std}"),
        "Rust standard library".to_owned(),
    );
    add(
        include_str!("../assets/fonts/OFL.txt"),
        "IBM Plex Sans Condensed (lettering of the sheets)".to_owned(),
    );

    let mut file = format!("{HEAD}{}.\n\nLibraries:\n", spdx::ALLOWED.join(", "));
    for one in crates {
        let chosen = spdx::chosen(&one.license).unwrap().join(" and ");
        writeln!(file, "  {} ({}): {chosen}", one.name, one.version).unwrap();
    }
    let mut texts: Vec<_> = texts.into_values().collect();
    texts.sort_by_key(|(text, users)| (usize::MAX - users.len(), text.clone()));
    for (number, (text, users)) in texts.iter().enumerate() {
        write!(
            file,
            "\n{}\nText {}\n\n{text}\n\nHolds for:\n",
            "=".repeat(80),
            number + 1
        )
        .unwrap();
        for (name, notices) in users {
            let notices: Vec<&str> = notices.iter().map(String::as_str).collect();
            writeln!(
                file,
                "  {name}{}{}",
                if notices.is_empty() { "" } else { ": " },
                notices.join("; ")
            )
            .unwrap();
        }
    }
    file
}

#[test]
fn every_crate_in_the_program_is_named_with_its_license() {
    let host = linked(&host());
    if std::env::var_os("BLESS").is_some() {
        let all: BTreeSet<Linked> = TARGETS.into_iter().flat_map(linked).chain(host).collect();
        std::fs::write("assets/third-party.txt", written(&all)).unwrap();
        return;
    }
    let lines: BTreeSet<&str> = THIRD_PARTY.lines().collect();
    for one in &host {
        let chosen = spdx::chosen(&one.license);
        let chosen = chosen.unwrap_or_else(|| panic!("{} is under {}", one.name, one.license));
        let line = format!("  {} ({}): {}", one.name, one.version, chosen.join(" and "));
        assert!(lines.contains(line.as_str()), "BLESS=1 writes {line:?}");
        let user = format!("  {} ({})", one.name, one.version);
        let listed = THIRD_PARTY.split("\nHolds for:\n").skip(1).flat_map(str::lines);
        let holds = listed.filter(|line| {
            line.strip_prefix(&user)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(':'))
        });
        assert!(holds.count() > 0, "no text holds for{user}");
    }
}

/// No text is lost on the way to the file.
#[test]
fn every_license_text_of_a_crate_is_there_whole() {
    let there = words(THIRD_PARTY);
    for one in linked(&host()) {
        for text in one.texts() {
            let (text, notices) = parted(&text);
            assert!(there.contains(&words(&text)), "{} {}", one.name, one.version);
            for notice in notices {
                assert!(THIRD_PARTY.contains(&notice), "{} {}: {notice}", one.name, one.version);
            }
        }
    }
}

#[test]
fn the_command_prints_all_of_it() {
    let output = Command::new(env!("CARGO_BIN_EXE_stubout"))
        .arg("licenses")
        .output()
        .unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && said.contains(OWN) && said.contains(THIRD_PARTY));
}

/// What the check of the supply chain allows is what is chosen here.
#[test]
fn the_check_allows_the_same_licenses() {
    let deny = include_str!("../.ci/deny.toml");
    let list = deny
        .split("allow = [")
        .nth(1)
        .and_then(|rest| rest.split(']').next())
        .unwrap();
    let allowed: BTreeSet<&str> = list.split('"').skip(1).step_by(2).collect();
    assert_eq!(allowed, spdx::ALLOWED.into_iter().collect());
}

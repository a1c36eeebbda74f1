//! The crates that are in the program, asked of cargo, with what each says of its license.

use super::spdx;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// One crate in the program.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Linked {
    pub name: String,
    pub version: String,
    /// As its author writes it: an SPDX expression.
    pub license: String,
    /// Its authors, in one line.
    authors: String,
    folder: PathBuf,
}

/// Those of a target, in the order of their names; without those that are there while it is built only.
pub fn linked(target: &str) -> Vec<Linked> {
    let tree = cargo(&[
        "tree",
        "-e",
        "normal,no-proc-macro",
        "--prefix",
        "none",
        "-f",
        "{p}",
        "--target",
        target,
    ]);
    let known = cargo(&["metadata", "--format-version", "1", "--filter-platform", target]);
    let known: Value = serde_json::from_str(&known).unwrap();
    let mut packages: BTreeMap<(String, String), &Value> = BTreeMap::new();
    for package in known["packages"].as_array().unwrap() {
        let of = |key: &str| package[key].as_str().unwrap().to_owned();
        packages.insert((of("name"), of("version")), package);
    }
    let mut found: Vec<Linked> = tree
        .lines()
        .filter_map(|line| {
            let mut words = line.split(' ');
            let (name, version) = (words.next()?, words.next()?.strip_prefix('v')?);
            (name != env!("CARGO_PKG_NAME")).then(|| of(packages[&(name.to_owned(), version.to_owned())]))
        })
        .collect();
    found.sort();
    found.dedup();
    assert!(found.len() > 100, "{target}: {} crates", found.len());
    found
}

/// The target that this test is built for.
pub fn host() -> String {
    let said = Command::new("rustc").arg("-vV").output().unwrap();
    let said = String::from_utf8(said.stdout).unwrap();
    let host = said.lines().find_map(|line| line.strip_prefix("host: "));
    host.unwrap().to_owned()
}

fn cargo(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO"))
        .args(arguments)
        .args(["--locked", "--offline"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn of(package: &Value) -> Linked {
    let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
    let authors = package["authors"].as_array().unwrap();
    let names = authors.iter().filter_map(|author| author.as_str()?.split(" <").next());
    Linked {
        name: text("name"),
        version: text("version"),
        license: text("license"),
        authors: names.collect::<Vec<_>>().join(", "),
        folder: Path::new(&text("manifest_path")).parent().unwrap().to_owned(),
    }
}

impl Linked {
    /// The texts of the licenses under which it is taken, as they lie in the crate; of one that lies there nowhere the usual
    /// text with its authors.
    pub fn texts(&self) -> Vec<String> {
        let chosen = spdx::chosen(&self.license).unwrap_or_else(|| panic!("{self:?}"));
        let mut files = Vec::new();
        gather(&self.folder, 2, &mut files);
        files.sort();
        let is_meant = |path: &PathBuf| match family(path) {
            Some(family) => chosen.iter().any(|name| name.starts_with(family)),
            None => true,
        };
        let texts: Vec<String> = files
            .into_iter()
            .filter(is_meant)
            .map(|path| fs::read_to_string(path).unwrap().replace('\r', ""))
            .collect();
        match texts.is_empty()
            || !texts.iter().any(|text| {
                ["ermission", "icense", "edistribution"]
                    .iter()
                    .any(|word| text.contains(word))
            }) {
            true => chosen.iter().map(|name| self.usual(name)).collect(),
            false => texts,
        }
    }

    fn usual(&self, license: &str) -> String {
        let by = match self.authors.as_str() {
            "" => format!("The authors of {}", self.name),
            authors => authors.to_owned(),
        };
        let text = match license {
            "MIT" => include_str!("mit.txt"),
            "Apache-2.0" => include_str!("apache-2.0.txt"),
            "BSL-1.0" => include_str!("bsl-1.0.txt"),
            other => panic!("{} {}: no text of {other} lies in it", self.name, self.version),
        };
        format!("Copyright (c) {by}\n\n{text}")
    }
}

/// Files that tell a license: in the crate's folder, and of fonts beside them.
fn gather(folder: &Path, depth: usize, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap().flatten() {
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().to_lowercase();
        let is_told = [
            "license",
            "licence",
            "copying",
            "notice",
            "copyright",
            "ofl.txt",
            "ufl.txt",
        ]
        .iter()
        .any(|word| name.contains(word));
        let is_of_font = folder.ends_with("fonts") && name.ends_with(".txt");
        if path.is_dir() && depth > 1 && (is_told || name == "fonts") {
            gather(&path, depth - 1, into);
        } else if path.is_file() && (is_told || is_of_font) && !name.ends_with(".rs") {
            into.push(path);
        }
    }
}

/// What the name of a file says of which license it holds.
fn family(path: &Path) -> Option<&'static str> {
    let name = path.file_name()?.to_string_lossy().to_lowercase();
    let families = [
        ("unlicense", "Unlicense"),
        ("apache", "Apache-2.0"),
        ("mit", "MIT"),
        ("zlib", "Zlib"),
        ("0bsd", "0BSD"),
        ("bsd", "BSD"),
        ("bsl", "BSL"),
        ("boost", "BSL"),
        ("gpl", "GPL"),
        ("unicode", "Unicode"),
    ];
    families
        .iter()
        .find(|(word, _)| name.contains(word))
        .map(|(_, family)| *family)
}

//! A file of the person's own, a capacity table, a profile or lengths of parts, read into what is published. Knows no widgets.

use super::place::{ENDING, shown_name};
use crate::codebook::{Codebook, OwnLengths};
use crate::disk;
use crate::job::OwnTable;
use std::path::{Path, PathBuf};

/// The endings of such files: tables as text with tabs, lengths with semicolons, profiles.
pub const ENDINGS: [&str; 4] = ["tsv", "txt", LENGTHS, ENDING];

/// The ending of a file of lengths.
const LENGTHS: &str = "csv";

const TASK: &str = "Open the file";

/// A file that the settings remember.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnFile {
    /// Where it is.
    pub path: PathBuf,
    /// What stands in it, or what is wrong with it and what to do.
    pub read: Result<OwnPart, String>,
}

/// What such a file brings.
#[derive(Clone, Debug, PartialEq)]
pub enum OwnPart {
    /// A capacity table, by what a job keeps of it.
    Table(OwnTable),
    /// A profile, by its name.
    Profile(String),
    /// Lengths of the person's own valves and fittings, how many.
    Lengths(usize),
}

/// Whether a file is one of these and no job: by its ending, and by how it begins, for a profile ends like a job.
pub fn is_own(path: &Path) -> bool {
    let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    if !ENDINGS.iter().any(|own| own.eq_ignore_ascii_case(ending)) {
        return false;
    }
    let text = disk::text(TASK, path).unwrap_or_default();
    let told = text.trim_start_matches('\u{feff}').lines().map(str::trim);
    let mut told = told.filter(|line| !line.is_empty() && !line.starts_with("//"));
    let head = told.by_ref().take(2).collect::<Vec<_>>().join(" ");
    match head
        .strip_prefix("Profile")
        .unwrap_or(&head)
        .trim_start()
        .strip_prefix('(')
    {
        Some(keys) => !keys.trim_start().starts_with("version"),
        None => !ending.eq_ignore_ascii_case(ENDING),
    }
}

/// What is published, with all that files bring, and what each of them brings.
pub fn read_all(paths: &[PathBuf]) -> (Codebook, Vec<OwnFile>) {
    let mut book = Codebook::published().clone();
    let files = paths.iter().map(|path| OwnFile {
        path: path.clone(),
        read: read(&mut book, path),
    });
    let files = files.collect();
    (book, files)
}

/// Reads one file into a codebook, which stays as it was when something is wrong.
///
/// # Errors
/// What is wrong, with file, line and cell, and what to do.
pub fn read(book: &mut Codebook, path: &Path) -> Result<OwnPart, String> {
    let told = |path: &Path| disk::text(TASK, path).map_err(|trouble| trouble.words());
    let (name, text) = (shown_name(path), told(path)?);
    let ends_in = |ending: &str| path.extension().is_some_and(|own| own.eq_ignore_ascii_case(ending));
    if ends_in(LENGTHS) {
        return lengths(book, &name, &text).map(OwnPart::Lengths);
    }
    if !ends_in(ENDING) {
        let table = book.add_table(&name, &text);
        return table.map(OwnPart::Table).map_err(|fault| fault.to_string());
    }
    let folder = path.parent().unwrap_or(Path::new(""));
    let beside = |named: &str| {
        let path = folder.join(named);
        told(&path).map(|text| (shown_name(&path), text))
    };
    let profile = book.add_profile(&name, &text, beside);
    profile.map(OwnPart::Profile).map_err(|fault| fault.to_string())
}

/// Takes in lengths, how many.
fn lengths(book: &mut Codebook, name: &str, text: &str) -> Result<usize, String> {
    let lengths = OwnLengths::read(text);
    if let Some((number, fault)) = lengths.faults.first() {
        return Err(format!("{name}, line {number}: {fault}"));
    }
    if !book.own_lengths().is_empty() {
        return Err(format!(
            "{name}: another file of lengths is open already: remove one of them, or put all into one"
        ));
    }
    let many = lengths.len();
    *book = book.with_lengths(lengths);
    Ok(many)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    const TABLE: &str = "id\tTube A\ntitle\tinvented\nfuel\tnatural\npipe\tcsst\ninlet\tunder 2 psi\ndrop\t0.5 in w.c.\nunit\tcfh\n\
                         document\tinvented\n\nlength_ft\tEHD 18\n10\t40\n";

    #[test]
    fn a_profile_is_told_from_a_job_by_how_it_begins() {
        let folder = tempfile::tempdir().unwrap();
        let profile = include_str!("../../assets/profiles/us-ifgc.ron");
        let job = "// a house\n\n(\n    version: 1,\n)\n";
        for (name, text, own) in [
            ("a.tsv", TABLE, true),
            ("a.csv", "ball valve; 1/2; 2 in\n", true),
            ("a.RON", profile, true),
            ("b.ron", "(name: \"office\")", true),
            ("c.ron", job, false),
            ("d.txt", job, false),
            ("e.ron", "", false),
            ("f.ron", "Job(version: 1)", false),
            ("g.svg", "<svg/>", false),
        ] {
            let path = folder.path().join(name);
            fs::write(&path, text).unwrap();
            assert_eq!(is_own(&path), own, "{name}");
        }
        assert!(is_own(&folder.path().join("gone.tsv")));
    }

    #[test]
    fn what_is_wrong_with_one_file_leaves_the_others() {
        let folder = tempfile::tempdir().unwrap();
        let put = |name: &str, text: &str| {
            let path = folder.path().join(name);
            fs::write(&path, text).unwrap();
            path
        };
        let profile = include_str!("../../assets/profiles/us-ifgc.ron");
        let office = profile
            .replace("name: \"us-ifgc\"", "name: \"office\"")
            .replace("tables: (families: [\"402.4\"])", "tables: (files: [\"b.tsv\"])");
        let lengths = [
            put("own.csv", "ball valve; 1/2; 2-1/8 in\nunion; 1/2; 2 in\n"),
            put("more.csv", "ball valve; 3/4; 2-1/2 in\n"),
            put("faulty.csv", "bal valve; 3/4; 2-1/2 in\n"),
        ];
        let (book, files) = read_all(&lengths);
        assert_eq!(
            (&files[0].read, book.own_lengths().len()),
            (&Ok(OwnPart::Lengths(2)), 2)
        );
        assert!(
            files[1]
                .read
                .as_ref()
                .is_err_and(|words| words.contains("another file of lengths"))
        );
        let words = files[2].read.as_ref().unwrap_err();
        assert!(words.starts_with("faulty.csv, line 1: `bal valve`"), "{words}");
        let paths = [
            put("a.tsv", TABLE),
            folder.path().join("gone.tsv"),
            put("broken.tsv", &TABLE.replace("10\t40", "10\tmuch")),
            put("office.ron", &office),
        ];
        put("b.tsv", &TABLE.replace("Tube A", "Tube B"));
        let (book, files) = read_all(&paths);
        let [first, gone, broken, office] = files.as_slice() else {
            panic!()
        };
        assert!(matches!(&first.read, Ok(OwnPart::Table(table)) if table.id == "Tube A"));
        assert_eq!(
            gone.read,
            Err("There is no such file or folder: check the path".to_owned())
        );
        let words = broken.read.as_ref().unwrap_err();
        assert!(
            words.starts_with("broken.tsv, line 11, column 2: `much` is not a number; "),
            "{words}"
        );
        assert_eq!(office.read, Ok(OwnPart::Profile("office".to_owned())));
        assert!(book.table("Tube A").is_some() && book.table("Tube B").is_some());
    }
}

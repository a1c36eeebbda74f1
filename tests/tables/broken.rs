//! Broken table files: each gets one clear error. `broken.txt` holds the messages; BLESS=1 writes it anew.

use crate::{INVENTED, METRIC};
use std::fmt::Write;
use std::fs;
use std::path::Path;
use stubout::codebook::CapacityTable;

/// What the case is, the words of the example to replace, and the words to put there.
const REPLACED: &[(&str, &str, &str)] = &[
    // The head.
    ("a misspelled key", "\nfuel\t", "\nfeul\t"),
    ("a key of no kind", "\nfuel\tnatural", "\nfuel\tnatural\ncolor\tred"),
    ("a key twice", "\nfuel\tnatural", "\nfuel\tnatural\nfuel\tpropane"),
    ("a key without its value", "\nunit\tcfh", "\nunit"),
    ("a space in place of the tab", "\nunit\tcfh", "\nunit cfh"),
    ("two cells after a key", "\nunit\tcfh", "\nunit\tcfh\tMBH"),
    ("no unit", "\nunit\tcfh", ""),
    ("no source", "\ndocument\tInvented tubing list", ""),
    ("a unit that is not known", "unit\tcfh", "unit\tliters"),
    ("a gas that is not known", "fuel\tnatural", "fuel\tbutane"),
    ("a pipe that is not known", "pipe\tcsst", "pipe\ttubing"),
    ("an inlet without its unit", "inlet\tunder 2 psi", "inlet\t7"),
    ("an inlet that is none", "inlet\tunder 2 psi", "inlet\t-3 psi"),
    ("a drop without its unit", "drop\t0.5 in w.c.", "drop\t0.5"),
    ("a drop of nothing", "drop\t0.5 in w.c.", "drop\t0 in w.c."),
    ("a drop beyond the inlet", "drop\t0.5 in w.c.", "drop\t3 psi"),
    (
        "a name that is too long",
        "Example CT 0.5",
        "Example of a name that is too long",
    ),
    ("a title that is too long", "invented tubing of nobody's", LONG),
    // The sizes.
    ("no line of sizes", "length_ft\tEHD 13", "feet\tEHD 13"),
    ("no unit of length", "\nlength_ft", "\nlength"),
    ("feet and meters at once", "\nlength_ft", "\nlength_yd"),
    ("a size that is none", "\tEHD 18", "\tEHD eighteen"),
    ("an inch size of corrugated tubing", "\tEHD 18", "\t1/2"),
    ("a size twice", "\tEHD 23", "\tEHD 18"),
    ("sizes out of order", "\tEHD 18", "\tEHD 31"),
    ("sizes of two kinds", "\tEHD 18", "\ttype 20A"),
    ("a maker's name with a space", "EHD 13\tEHD 18", "type 15 A\ttype 20 A"),
    // The figures.
    ("a figure too few", "\n50\t15\t38", "\n50\t38"),
    ("a figure too many", "\n50\t15\t38", "\n50\t15\t15\t38"),
    ("an empty cell", "\n50\t15\t38", "\n50\t\t38"),
    ("a comma in a figure", "1180", "1,180"),
    ("a letter for a figure", "\n50\t15", "\n50\tl5"),
    ("no number", "\n50\t15", "\n50\tNaN"),
    ("a figure beyond all numbers", "\n50\t15", "\n50\t1e999"),
    ("a figure below nothing", "\n50\t15", "\n50\t-15"),
    ("a figure of nothing", "\n50\t15", "\n50\t0"),
    ("a figure that rises with length", "\n50\t15\t38", "\n50\t15\t83"),
    ("a figure that falls as the size grows", "\n50\t15\t38", "\n50\t15\t9"),
    ("a length that is none", "\n50\t15", "\nfifty\t15"),
    ("a length of nothing", "\n10\t37", "\n0\t37"),
    ("a length twice", "\n50\t15", "\n40\t15"),
    ("lengths out of order", "\n50\t15", "\n35\t15"),
    ("a character that is not text", "\n50\t15", "\n50\u{0}\t15"),
];

/// More letters than a line of the head may have.
const LONG: &str = "a title that goes on and on and on and on and on and on and on and on and on and on and on and on and on \
                    and on and on and on and on and on and on and on and on and on and on and on and on and on and on and on \
                    and on and on and on and on and on and on and on and on and on and on and on and on and on and on and on \
                    and on and on and on and on and on and on and on and on and on and on and on and on and on and on and on \
                    and on and on and on and on and on and on and on and on and on and on and on and on and on and on and on";

fn cases() -> Vec<(String, String)> {
    let mut cases: Vec<(String, String)> = REPLACED
        .iter()
        .map(|(name, right, wrong)| {
            assert!(INVENTED.contains(right), "{name}");
            ((*name).to_owned(), INVENTED.replacen(right, wrong, 1))
        })
        .collect();
    let rows = INVENTED.find("\n10\t").unwrap();
    let mut others = vec![
        ("nothing at all", String::new()),
        (
            "a head alone",
            INVENTED[..INVENTED.find("length_ft\t").unwrap()].to_owned(),
        ),
        ("no rows", INVENTED[..=rows].to_owned()),
        (
            "a job file",
            include_str!("../../examples/patio-kitchen.ron").to_owned(),
        ),
        (
            "sizes alone in their line",
            INVENTED.replace("length_ft\tEHD 13\tEHD 18\tEHD 23\tEHD 30\tEHD 37\tEHD 46", "length_ft"),
        ),
        (
            "far too many rows",
            format!("{}{}", &INVENTED[..=rows], "10\t1\t2\t3\t4\t5\t6\n".repeat(2_001)),
        ),
        (
            "far too many columns",
            INVENTED.replace("\tEHD 46", &"\tEHD 46".repeat(200)),
        ),
        ("far too large", "#".repeat(2 << 20)),
    ];
    others.extend([
        ("a mark that is none", METRIC.replace("FFFM", "FFFX")),
        ("too few marks", METRIC.replace("FFFM", "FF")),
        ("an EHD of plastic pipe", METRIC.replace("25 mm", "EHD 25")),
        (
            "a pressure in no unit of pressure",
            METRIC.replace("20 mbar\ndrop", "20 mm\ndrop"),
        ),
    ]);
    cases.extend(others.into_iter().map(|(name, text)| (name.to_owned(), text)));
    cases
}

#[test]
fn every_fault_is_told_with_its_place_and_what_to_do() {
    let mut told = String::new();
    for (name, text) in cases() {
        let fault = CapacityTable::read_own("mine.tsv", &text).err();
        let fault = fault.unwrap_or_else(|| panic!("{name} is read"));
        assert!(
            fault.line >= 1 && fault.line <= text.lines().count().max(1),
            "{name}: {fault}"
        );
        assert!(!fault.remedy.contains("report it"), "{name}: {fault}");
        writeln!(told, "== {name}\n{fault}").unwrap();
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tables/broken.txt");
    if std::env::var_os("BLESS").is_some() {
        fs::write(&path, &told).unwrap();
    }
    assert_eq!(told, fs::read_to_string(&path).unwrap());
}

/// Whatever is cut off or overwritten is one error or a table, never a panic.
#[test]
fn no_mutilated_file_panics() {
    for text in [INVENTED, METRIC] {
        for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
            let _ = CapacityTable::read_own("cut.tsv", &text[..end]);
            for sign in ["\t", "\n", "\"", "9", "-", "#", "é"] {
                let overwritten = format!("{}{sign}{}", &text[..end], &text[(end + 1).min(text.len())..]);
                let _ = CapacityTable::read_own("overwritten.tsv", &overwritten);
            }
        }
    }
}

/// What spreadsheets do to a table of text changes nothing.
#[test]
fn what_a_spreadsheet_writes_is_the_same_table() {
    let plain = CapacityTable::read_own("plain.tsv", INVENTED).unwrap();
    for (how, text) in [
        ("line ends of Windows", INVENTED.replace('\n', "\r\n")),
        ("a mark of its order of bytes", format!("\u{feff}{INVENTED}")),
        (
            "cells to its right",
            INVENTED.replace("\nunit\tcfh", "\nunit\tcfh\t\t\t"),
        ),
        ("empty lines", INVENTED.replace("\n50\t", "\n\n\t\t\n50\t")),
        (
            "quotes",
            INVENTED
                .replace("\tunder 2 psi", "\t\"under 2 psi\"")
                .replace("\tEHD 18", "\t\"EHD 18\""),
        ),
        ("no end of the last line", INVENTED.trim_end().to_owned()),
    ] {
        assert_eq!(
            CapacityTable::read_own("saved.tsv", &text).as_ref(),
            Ok(&plain),
            "{how}"
        );
    }
}

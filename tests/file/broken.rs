//! Broken files: each gets one clear error. `broken.txt` holds the texts; BLESS=1 writes it anew.

use std::fmt::Write;
use std::fs;
use std::path::Path;

use stubout::file::{LONGEST, read, read_bytes};

/// A sound file, from which most broken ones are made.
const SOUND: &str = r#"(
    version: 1,
    title: (job: "Patio grill"),
    settings: (step: "1'", allowed_drop: "0.5 in w.c."),
    gas: (fuel: natural, specific_gravity: 0.6),
    joints: [
        (id: 1, at: (0, 0, 0), device: supply(pressure: "7 in w.c.")),
        (id: 2, at: (4, 0, 0), device: valve(kind: plug), state: existing),
        (id: 3, at: (4, 0, 2), device: appliance(name: "Grill", input: "60,000 Btu/h")),
    ],
    runs: [
        (id: 1, from: 1, to: 2, length: "12'-6", size: "3/4"),
        (id: 2, from: 2, to: 3, lies: outdoors, penetrations: [(through: exterior_wall)]),
    ],
    notes: [
        (at: 3, text: "Cap until the grill comes."),
    ],
)
"#;

/// Bytes of deep nesting.
const DEEP: usize = 10_000_000;

/// What the case is, the words of [`SOUND`] to replace, and the words to put there.
const REPLACED: &[(&str, &str, &str)] = &[
    // The head.
    ("no version", "version: 1,", ""),
    (
        "version not first",
        "version: 1,\n    title: (job: \"Patio grill\"),",
        "title: (), version: 1,",
    ),
    ("a newer version", "version: 1", "version: 2"),
    ("version nought", "version: 1", "version: 0"),
    ("version as a text", "version: 1", "version: \"1\""),
    ("version without a comma", "version: 1,", "version: 1"),
    // Keys.
    ("misspelled key of a run", "length:", "lenght:"),
    ("misspelled key of the file", "joints:", "joint:"),
    ("misspelled key of a device", "input:", "inputs:"),
    ("a key of another device", "kind: plug", "vented: true"),
    ("a key of no kind", "lies: outdoors", "colour: 3"),
    ("a key twice", "to: 2,", "to: 2, to: 3,"),
    ("a key without its colon", "from: 1", "from 1"),
    ("a key with an equals sign", "from: 1", "from = 1"),
    ("a key in quotes", "from: 1", "\"from\": 1"),
    ("a missing id", "(id: 1, from", "(from"),
    ("a missing end of a run", " to: 2,", ""),
    ("a missing barrier", "through: exterior_wall", ""),
    // Words.
    ("a misspelled word", "lies: outdoors", "lies: outdoor"),
    ("a word of another kind", "lies: outdoors", "lies: attic"),
    ("a word in quotes", "lies: outdoors", "lies: \"outdoors\""),
    ("a word in capitals", "fuel: natural", "fuel: Natural"),
    ("a device of no kind", "valve(kind: plug)", "faucet()"),
    ("a device without brackets", "valve(kind: plug)", "valve"),
    ("a number for a word", "fuel: natural", "fuel: 3"),
    // Quantities.
    ("a length without a unit", "\"12'-6\"", "\"12\""),
    ("a length without quotes", "\"12'-6\"", "12"),
    ("a length with an inch mark", "\"12'-6\"", "\"12'-6\"\""),
    ("a length that is none", "\"12'-6\"", "\"about twelve feet\""),
    ("a length of one third by nought", "\"12'-6\"", "\"1/0 in\""),
    ("a length beyond all bounds", "\"12'-6\"", "\"999999999 m\""),
    ("a decimal comma", "\"12'-6\"", "\"3,8 m\""),
    ("a size that is none", "\"3/4\"", "\"DN 21\""),
    ("a pressure in tons", "\"7 in w.c.\"", "\"7 tons\""),
    ("a heat rate that is not a number", "\"60,000 Btu/h\"", "\"NaN Btu/h\""),
    ("a heat rate less than nothing", "\"60,000 Btu/h\"", "\"-60,000 Btu/h\""),
    (
        "control characters in a quantity",
        "\"0.5 in w.c.\"",
        "\"\\u{1b}[31m0.5\\u{202e}\"",
    ),
    // Numbers.
    ("a gravity that is not a number", "0.6)", "NaN)"),
    ("a gravity without end", "0.6)", "inf)"),
    ("a gravity of nothing", "0.6)", "0)"),
    ("a gravity less than nothing", "0.6)", "-0.6)"),
    ("a gravity as a text", "0.6)", "\"0.6\")"),
    ("an id less than nothing", "(id: 3,", "(id: -3,"),
    ("an id with decimals", "(id: 3,", "(id: 3.5,"),
    (
        "an id that no counter holds",
        "(id: 3,",
        "(id: 99999999999999999999999,",
    ),
    ("an id beyond all bounds", "(id: 3,", "(id: 4000000000,"),
    (
        "a coordinate that no counter holds",
        "at: (4, 0, 2)",
        "at: (4, 0, 99999999999)",
    ),
    (
        "a coordinate beyond all bounds",
        "at: (4, 0, 2)",
        "at: (4, 0, -1000001)",
    ),
    ("a coordinate with decimals", "at: (4, 0, 2)", "at: (4, 0.5, 2)"),
    ("a coordinate that is not a number", "at: (4, 0, 2)", "at: (4, NaN, 2)"),
    ("two coordinates", "at: (4, 0, 2)", "at: (4, 0)"),
    ("four coordinates", "at: (4, 0, 2)", "at: (4, 0, 2, 1)"),
    ("coordinates in square brackets", "at: (4, 0, 2)", "at: [4, 0, 2]"),
    ("one coordinate", "at: (4, 0, 2)", "at: 4"),
    // Words put somewhere.
    ("words beyond all bounds", "lies: outdoors", "words_at: (2, -2001)"),
    (
        "words at what is not a number",
        "at: (4, 0, 2)",
        "at: (4, 0, 2), words_at: (NaN, 0)",
    ),
    ("words without end", "comes.\"", "comes.\", words_at: (0, inf)"),
    (
        "words of a passage too far",
        "exterior_wall",
        "exterior_wall, words_at: (1e9, 0)",
    ),
    ("words at one figure", "lies: outdoors", "words_at: 3"),
    ("words at a text", "lies: outdoors", "words_at: \"far\""),
    // Lines by hand.
    (
        "a quantity less than nothing",
        "notes: [",
        "extra: [(what: \"Tape\", quantity: -1)], notes: [",
    ),
    (
        "a quantity that is not a number",
        "notes: [",
        "extra: [(what: \"Tape\"), (what: \"Tags\", quantity: NaN)], notes: [",
    ),
    (
        "a step of which something is said twice",
        "notes: [",
        "order: [(step: \"shut\", left_out: true), (step: \"shut\", words: \"Shut it.\")], notes: [",
    ),
    // Variants.
    (
        "no variant that is shown",
        "notes: [",
        "variants: [(name: \"A\"), (name: \"B\")], notes: [",
    ),
    (
        "two variants that are shown",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \"B\", shown: true)], notes: [",
    ),
    (
        "a variant without a name",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \" \")], notes: [",
    ),
    (
        "two variants of one name",
        "notes: [",
        "variants: [(name: \"Attic\", shown: true), (name: \"attic\")], notes: [",
    ),
    (
        "a shown variant with parts of its own",
        "notes: [",
        "variants: [(name: \"A\", shown: true, without_runs: [2])], notes: [",
    ),
    (
        "a variant without a run that is not there",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \"B\", without_runs: [7])], notes: [",
    ),
    (
        "a variant whose run lost its end",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \"B\", without_joints: [3])], notes: [",
    ),
    (
        "a run of a variant to nowhere",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \"B\", runs: [(id: 9, from: 3, to: 12)])], notes: [",
    ),
    (
        "a joint twice in a variant",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \"B\", joints: [(id: 9, at: (1, 1, 1)), (id: 9, at: (2, 2, 2))])], notes: [",
    ),
    (
        "a misspelled key of a variant",
        "notes: [",
        "variants: [(name: \"A\", shown: true), (name: \"B\", without: [7])], notes: [",
    ),
    // Ids.
    ("a joint id twice", "(id: 2, at", "(id: 1, at"),
    ("a run id twice", "(id: 2, from", "(id: 1, from"),
    ("a run from a joint that is not there", "from: 2", "from: 7"),
    ("a run to a joint that is not there", "to: 3", "to: 33"),
    ("a run to its own start", "to: 3", "to: 2"),
    ("a note at a joint that is not there", "(at: 3,", "(at: 30,"),
    ("a state without a device", "device: valve(kind: plug), ", ""),
    // Brackets, quotes, commas.
    ("a missing comma between keys", "from: 2, to", "from: 2 to"),
    ("a missing comma between runs", "\"3/4\"),", "\"3/4\")"),
    ("a semicolon", "from: 2,", "from: 2;"),
    ("a bracket too many", "notes: [", "notes: [["),
    ("a closing bracket too many", "\"3/4\"),", "\"3/4\")),"),
    ("a bracket of the wrong kind", "runs: [", "runs: ("),
    (
        "a bracket that is not closed",
        "(through: exterior_wall)",
        "(through: exterior_wall",
    ),
    (
        "a quote that is not closed",
        "\"Cap until the grill comes.\"",
        "\"Cap until the grill comes.",
    ),
    ("a quote that is not closed, far up", "\"Patio grill\"", "\"Patio grill"),
    ("curly quotes", "\"3/4\"", "“3/4”"),
    ("a wrong escape", "Patio grill", "Patio \\grill"),
    ("a comment that is not closed", "notes:", "/* notes:"),
    ("half a comment", "notes:", "/ notes:"),
    ("text after the end", "],\n)\n", "],\n)\nThat is all.\n"),
    ("a second job", "],\n)\n", "],\n)\n(version: 1)\n"),
    ("a list for a text", "\"Patio grill\"", "[\"Patio grill\"]"),
    ("a text for a list", "[(through: exterior_wall)]", "\"exterior_wall\""),
    ("a yes for a yes-or-no", "lies: outdoors", "coated: yes"),
    ("nothing for a value", "lies: outdoors", "lies:"),
    ("a unit for the title", "title: (job: \"Patio grill\")", "title: ()()"),
];

/// What the case is, and the whole file.
fn whole() -> Vec<(&'static str, Vec<u8>)> {
    let mut whole: Vec<(&str, Vec<u8>)> = vec![
        ("empty", b"".to_vec()),
        ("spaces only", b" \n\t\r\n ".to_vec()),
        ("a comment only", b"// nothing yet\n".to_vec()),
        ("a byte order mark only", "\u{feff}".into()),
        ("JSON", br#"{"version": 1, "joints": []}"#.to_vec()),
        (
            "an SVG without a job",
            b"<svg xmlns='http://www.w3.org/2000/svg'>\n<title>A</title>\n</svg>\n".to_vec(),
        ),
        ("a broken SVG", b"<svg>\n<title>A</svg>\n".to_vec()),
        ("an SVG that is cut off", b"<svg>\n<title>A</title>".to_vec()),
        (
            "an SVG whose job is broken",
            b"<svg><stubout-job>KHZlcnNpb246IDEsIHJ1bno6IFtdKQ==</stubout-job></svg>".to_vec(),
        ),
        (
            "an SVG whose job was changed",
            b"<svg><stubout-job>KHZlcnNpb246IDEsIHJ1bno</stubout-job></svg>".to_vec(),
        ),
        ("HTML", b"<!DOCTYPE html>\n<html><body>404</body></html>\n".to_vec()),
        ("CSV", b"id,from,to,length\n1,1,2,12\n".to_vec()),
        ("a list", b"[1, 2, 3]".to_vec()),
        ("an enabling line", b"#![enable(implicit_some)]\n(version: 1)".to_vec()),
        ("a name of another kind", b"House(version: 1)".to_vec()),
        ("an opening bracket only", b"(".to_vec()),
        ("a version only half written", b"(version".to_vec()),
        ("a version without its number", b"(version:".to_vec()),
        ("UTF-16", b"\xff\xfe(\0v\0e\0r\0".to_vec()),
        (
            "Latin-1",
            SOUND
                .replace("Patio", "Pati\u{1}")
                .bytes()
                .map(|b| if b == 1 { 0xf3 } else { b })
                .collect(),
        ),
        ("zeros", vec![0; 64]),
        ("noise", (0..=255).rev().collect()),
        ("more than 64 MB", vec![b' '; LONGEST + (1 << 20)]),
        ("more joints than are read", {
            let joints = "(id: 1, at: (0, 0, 0)),".repeat(200_001);
            format!("(version: 1, joints: [{joints}])").into()
        }),
        ("round brackets, 10 MB of them", "(".repeat(DEEP).into()),
        (
            "round brackets for joints",
            format!("(version: 1, joints: {}", "(".repeat(DEEP)).into(),
        ),
        (
            "square brackets for joints",
            format!("(version: 1, joints: {}", "[".repeat(DEEP)).into(),
        ),
        ("brackets for a device", {
            let deep = "(".repeat(DEEP);
            format!("(version: 1, joints: [(id: 1, at: (0, 0, 0), device: {deep}").into()
        }),
        ("brackets for a coordinate", {
            let deep = "(".repeat(DEEP);
            format!("(version: 1, joints: [(id: 1, at: (0, {deep}").into()
        }),
        ("a value in a value in a value", {
            let deep = "Some(".repeat(DEEP / 5);
            format!("(version: 1, settings: (method: {deep}").into()
        }),
        (
            "comments in comments",
            format!("(version: 1, {}", "/*".repeat(DEEP / 2)).into(),
        ),
        (
            "escapes without end",
            format!("(version: 1, title: (job: \"{}", "\\n".repeat(DEEP / 2)).into(),
        ),
        (
            "a number of 10 MB",
            format!("(version: 1, joints: [(id: {}", "9".repeat(DEEP)).into(),
        ),
        ("a key of 10 MB", format!("(version: 1, {}", "k".repeat(DEEP)).into()),
        ("a length of 10 MB", {
            let long = "9".repeat(DEEP);
            format!("(version: 1, settings: (step: \"{long}\"))").into()
        }),
    ];
    for (name, tail) in [
        ("cut in the title", "grill\"),"),
        ("cut in a joint", "4, 0, 0)"),
        ("cut in a device", "plug), state"),
        ("cut in a quantity", "'-6\", size"),
        ("cut after a run", "(id: 2, from"),
        ("cut in the notes", "the grill comes"),
        ("cut before the last bracket", "],\n)\n"),
    ] {
        let at = SOUND.find(tail).unwrap();
        whole.push((name, SOUND[..at].into()));
    }
    whole
}

fn cases() -> Vec<(&'static str, Vec<u8>)> {
    let replaced = REPLACED.iter().map(|(name, from, to)| {
        assert!(SOUND.contains(from), "{name}");
        (*name, SOUND.replacen(from, to, 1).into_bytes())
    });
    replaced.chain(whole()).collect()
}

#[test]
fn the_file_they_are_made_from_is_sound() {
    assert!(read(SOUND).is_ok(), "{}", read(SOUND).unwrap_err());
    assert!(
        read(&format!("\u{feff}{SOUND}")).is_ok(),
        "a byte order mark does no harm"
    );
    assert!(
        read(&SOUND.replace('\n', "\r\n")).is_ok(),
        "nor do line ends of another system"
    );
}

#[test]
fn every_broken_file_gets_one_clear_error() {
    let mut texts = String::new();
    for (name, bytes) in cases() {
        let error = read_bytes(&bytes).expect_err(name).to_string();
        let printable = error.chars().all(|symbol| symbol == '\n' || !symbol.is_control());
        assert!(printable, "{name}: {error:.700}");
        assert!(error.len() < 700, "{name}: {} bytes", error.len());
        write!(texts, "== {name}\n{error}\n\n").unwrap();
    }
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/file/broken.txt");
    if std::env::var_os("BLESS").is_some() {
        fs::write(&golden, &texts).unwrap();
    }
    let expected = fs::read_to_string(&golden).unwrap_or_default();
    for (found, expected) in texts.split("\n\n").zip(expected.split("\n\n")) {
        assert_eq!(found, expected, "BLESS=1 writes the texts anew");
    }
    assert_eq!(texts.len(), expected.len(), "BLESS=1 writes the texts anew");
}

//! Files with pieces cut out, put in and moved: an error or a job, never a panic.

use crate::any_job::any_job;
use proptest::prelude::*;
use stubout::file::{read, read_bytes, write};

const PIECES: &[&str] = &[
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ":",
    ",",
    "\"",
    "'",
    "\\",
    "/",
    "//",
    "/*",
    "*/",
    "r#\"",
    "\"#",
    "#![enable(x)]",
    "-",
    ".",
    "e9",
    "1",
    "0",
    "99999999999999999999",
    "-1",
    "NaN",
    "inf",
    "true",
    "None",
    "Some(",
    "()",
    "b\"",
    "0x1F",
    "1_0",
    "½",
    "\u{0}",
    "\u{202e}",
    "\r",
    "\n",
    " ",
    "id: ",
    "from: 1, ",
    "version: ",
    "device: valve(",
    "\"12'-6\"",
    "\"1/0\"",
    "..",
    "'\\u{110000}'",
];

/// A change of a text: a place, how much goes, what comes.
#[derive(Debug, Clone)]
struct Change {
    at: prop::sample::Index,
    goes: usize,
    comes: &'static str,
}

fn change() -> impl Strategy<Value = Change> {
    let comes = prop_oneof![Just(""), prop::sample::select(PIECES)];
    (any::<prop::sample::Index>(), 0usize..12, comes).prop_map(|(at, goes, comes)| Change { at, goes, comes })
}

fn changed(text: &str, change: &Change) -> String {
    let symbols: Vec<char> = text.chars().collect();
    let at = change.at.index(symbols.len() + 1);
    let after = (at + change.goes).min(symbols.len());
    let before = symbols[..at].iter();
    before
        .chain(&change.comes.chars().collect::<Vec<_>>())
        .chain(&symbols[after..])
        .collect()
}

/// Reads `text`; a job that comes of it is sound, an error is printable.
fn read_any(text: &str) {
    match read(text) {
        Ok(job) => assert_eq!(read(&write(&job)), Ok(job)),
        Err(error) => {
            let message = error.to_string();
            assert!(
                message.chars().all(|symbol| symbol == '\n' || !symbol.is_control()),
                "{message:?}"
            );
            assert!(!error.problem.is_empty() && !error.remedy.is_empty(), "{message}");
            assert!(message.len() < 1_500, "{message}");
            if let Some(place) = error.place {
                let lines = text.trim_start_matches('\u{feff}').split('\n').count();
                assert!(place.line >= 1 && place.line <= lines, "{message}");
                assert!(place.marked.end <= place.excerpt.chars().count(), "{message}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 2_000, ..ProptestConfig::default() })]

    #[test]
    fn a_changed_file_gives_a_job_or_an_error(seed in 0u64..500, changes in prop::collection::vec(change(), 1..4)) {
        let text = write(&any_job(seed, 3));
        read_any(&changes.iter().fold(text, |text, change| changed(&text, change)));
    }

    #[test]
    fn a_cut_file_gives_an_error(seed in 0u64..500, at: prop::sample::Index) {
        let text = write(&any_job(seed, 3));
        let symbols: Vec<char> = text.trim_end().chars().collect();
        let cut: String = symbols[..at.index(symbols.len())].iter().collect();
        prop_assert!(read(&cut).is_err());
        read_any(&cut);
    }

    #[test]
    fn changed_bytes_give_a_job_or_an_error(seed in 0u64..500, at: prop::sample::Index, byte: u8) {
        let mut bytes = write(&any_job(seed, 3)).into_bytes();
        let at = at.index(bytes.len());
        bytes[at] = byte;
        if let Err(error) = read_bytes(&bytes) {
            prop_assert!(!error.to_string().is_empty());
        }
    }

    #[test]
    fn any_text_gives_an_error(text: String) {
        read_any(&text);
        read_any(&format!("(version: 1, {text}"));
    }
}

//! Clauses stand in one place, `assets/clauses.tsv`, with the family whose number they are: code names topics.

use std::path::{Path, PathBuf};

/// The sources, tests at their feet left out.
fn sources() -> Vec<(PathBuf, String)> {
    let mut waiting = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
    let mut found = Vec::new();
    while let Some(folder) = waiting.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                let code = text.split("#[cfg(test)]").next().unwrap().to_owned();
                found.push((path, code));
            }
        }
    }
    found
}

/// Whether a line names a clause: a code with its edition, then a number.
fn cites(line: &str) -> bool {
    let codes = [
        "CPC 20",
        "IFGC 20",
        "IRC 20",
        "NFPA 54-20",
        "CMC 20",
        "UPC 20",
        "B149.1 ",
    ];
    codes.iter().any(|code| {
        line.match_indices(code).any(|(at, code)| {
            let rest = line[at + code.len()..].trim_start_matches(|c: char| c.is_ascii_digit());
            rest.trim_start().starts_with(|c: char| c.is_ascii_digit() || c == 'G')
        })
    })
}

#[test]
fn no_clause_stands_in_code() {
    assert!(cites("\"CPC 2013 1210.2\"") && cites("IRC 2006 G2415.3") && !cites("IFGC A.4"));
    let mut lines = 0;
    for (path, code) in sources() {
        // Comments say where code comes from.
        let spoken = code.lines().filter(|line| !line.trim_start().starts_with("//"));
        for line in spoken.map(|line| line.split(" // ").next().unwrap_or(line)) {
            lines += 1;
            assert!(!cites(line), "{}: {line}", path.display());
        }
    }
    assert!(lines > 10_000, "{lines}");
}

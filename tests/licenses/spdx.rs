//! License expressions (SPDX 2.3, annex D) as crates write them, and what is chosen where they leave a choice.

/// Licenses whose terms can be met by handing on their text, the first the one that is chosen where there is a choice.
/// `.ci/deny.toml` allows the same.
pub const ALLOWED: [&str; 11] = [
    "MIT",
    "0BSD",
    "ISC",
    "Zlib",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "Apache-2.0",
    "Unicode-3.0",
    "OFL-1.1",
    "Ubuntu-font-1.0",
];

/// The licenses under which something is taken, least trouble first; nothing where no choice of them is allowed.
pub fn chosen(expression: &str) -> Option<Vec<&str>> {
    // Some crates still write `MIT/Apache-2.0`.
    let (either, both) = (split(expression, &[" OR ", "/"]), split(expression, &[" AND "]));
    if either.len() > 1 {
        let choices = either.into_iter().filter_map(chosen);
        let trouble = |choice: &Vec<&str>| (choice.len(), choice.iter().map(|name| rank(name)).max());
        return choices.min_by_key(trouble);
    }
    if both.len() > 1 {
        let mut all = Vec::new();
        for part in both {
            all.extend(chosen(part)?);
        }
        return Some(all);
    }
    let term = expression.trim();
    if let Some(inner) = term.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')) {
        return chosen(inner);
    }
    rank(term).map(|_| vec![term])
}

fn rank(name: &str) -> Option<usize> {
    ALLOWED.iter().position(|allowed| *allowed == name)
}

/// Parts of an expression between words that stand in no brackets.
fn split<'a>(expression: &'a str, words: &[&str]) -> Vec<&'a str> {
    let (mut parts, mut depth, mut start, mut at) = (Vec::new(), 0, 0, 0);
    while at < expression.len() {
        let rest = &expression[at..];
        let word = words.iter().find(|word| depth == 0 && rest.starts_with(**word));
        if let Some(word) = word {
            parts.push(&expression[start..at]);
            start = at + word.len();
            at = start;
            continue;
        }
        depth += i32::from(rest.starts_with('(')) - i32::from(rest.starts_with(')'));
        at += 1;
    }
    parts.push(&expression[start..]);
    parts
}

#[test]
fn expressions_are_read_as_crates_write_them() {
    for (expression, expected) in [
        ("MIT", Some(vec!["MIT"])),
        ("Apache-2.0 OR MIT", Some(vec!["MIT"])),
        ("Apache-2.0/MIT", Some(vec!["MIT"])),
        ("Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT", Some(vec!["MIT"])),
        ("Apache-2.0 OR GPL-2.0-only", Some(vec!["Apache-2.0"])),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", Some(vec!["MIT", "Unicode-3.0"])),
        ("GPL-3.0-only", None),
        ("MIT AND GPL-3.0-only", None),
        ("(GPL-3.0-only OR MIT) AND (Zlib)", Some(vec!["MIT", "Zlib"])),
    ] {
        assert_eq!(chosen(expression), expected, "{expression}");
    }
}

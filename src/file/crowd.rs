//! What a file holds too much of: things at one place, letters of one text. Every part of the program works on what is
//! left in a moment.

use std::collections::HashMap;
use std::hash::Hash;

use super::check::{Fault, fault_of_parts};
use super::error::FileError;
use super::parts::Parts;
use super::token::{Kind, Tokens};
use super::v1::Job;
use crate::job::bounds::{
    MOST_JOINTS_AT_PLACE, MOST_LETTERS, MOST_NOTES_AT_JOINT, MOST_PENETRATIONS, MOST_RUNS_AT_JOINT, MOST_RUNS_BETWEEN,
};

/// The first place of which a file holds too much, if there is one.
pub fn fault(file: &Job) -> Option<Fault> {
    fault_of_parts(file, parts_fault)
}

/// The same of one drawing.
fn parts_fault(parts: &Parts<'_>) -> Option<Fault> {
    let joints = parts.joints.iter().map(|(at, joint)| (*at, joint.at));
    let runs = parts.runs.iter();
    let ends = runs
        .clone()
        .flat_map(|(at, run)| [((*at, "from"), run.from), ((*at, "to"), run.to)]);
    let notes = parts.notes.iter().map(|(at, note)| (*at, note.at));
    first_over(joints, MOST_JOINTS_AT_PLACE)
        .map(|(at, _)| Fault {
            steps: at.key("at"),
            problem: format!("there are more than {MOST_JOINTS_AT_PLACE} joints at this place"),
            remedy: "take out those that are there twice",
        })
        .or_else(|| {
            let full = runs
                .clone()
                .find(|(_, run)| run.penetrations.0.len() > MOST_PENETRATIONS);
            full.map(|(at, run)| Fault {
                steps: at.key("penetrations"),
                problem: format!("run {} has more than {MOST_PENETRATIONS} penetrations", run.id),
                remedy: "take out those that are there twice, or part the run",
            })
        })
        .or_else(|| {
            let over = first_over(ends, MOST_RUNS_AT_JOINT);
            over.map(|((at, key), joint)| Fault {
                steps: at.key(key),
                problem: format!("more than {MOST_RUNS_AT_JOINT} runs meet at joint {joint}"),
                remedy: "take the rest to joints of their own",
            })
        })
        .or_else(|| {
            let pairs = runs.map(|(at, run)| (*at, (run.from.min(run.to), run.from.max(run.to))));
            let over = first_over(pairs, MOST_RUNS_BETWEEN);
            over.map(|(at, (one, other))| Fault {
                steps: at.key("to"),
                problem: format!("more than {MOST_RUNS_BETWEEN} runs are between joints {one} and {other}"),
                remedy: "take out those that are there twice",
            })
        })
        .or_else(|| {
            let over = first_over(notes, MOST_NOTES_AT_JOINT);
            over.map(|(at, joint)| Fault {
                steps: at.key("at"),
                problem: format!("more than {MOST_NOTES_AT_JOINT} notes point at joint {joint}"),
                remedy: "put them into fewer notes, or point them at other joints",
            })
        })
}

/// The first thing of which there are more than so many at its place.
fn first_over<I, P: Hash + Eq + Copy>(all: impl Iterator<Item = (I, P)>, most: usize) -> Option<(I, P)> {
    let mut counts: HashMap<P, usize> = HashMap::new();
    for (item, place) in all {
        let count = counts.entry(place).or_default();
        *count += 1;
        if *count > most {
            return Some((item, place));
        }
    }
    None
}

/// The first text of a file that has too many letters, if there is one.
pub fn long_text(text: &str) -> Option<FileError> {
    let tokens = Tokens::of(text);
    let is_long = |token: &str| token.len() > MOST_LETTERS && letters(token) > MOST_LETTERS + 2;
    let long = tokens
        .clone()
        .find(|token| token.kind == Kind::Quoted && is_long(tokens.text(token)))?;
    Some(FileError::at(
        text,
        long.at,
        format!("this text has more than {MOST_LETTERS} letters"),
        "make it shorter, or split it",
    ))
}

/// How many letters are written, each that is written by a backslash counted as one: `\"`, `\u{e9}`.
fn letters(written: &str) -> usize {
    let mut signs = written.chars();
    let mut count = 0;
    while let Some(sign) = signs.next() {
        count += 1;
        if sign == '\\' && signs.next() == Some('u') {
            signs.by_ref().take_while(|sign| *sign != '}').for_each(drop);
        }
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_written_by_a_backslash_is_one() {
        assert_eq!(letters(r#"a\"b\\c\u{10ffff}d\n"#), 8);
        assert_eq!(letters(r"\u{"), 1);
    }
}

//! What a file holds too much of: things at one place, letters of one text. Every part of the program works on what is
//! left in a moment.

use std::collections::HashMap;
use std::hash::Hash;

use super::check::Fault;
use super::error::FileError;
use super::outline::Step;
use super::token::{Kind, Tokens};
use super::v1::Job;
use crate::job::bounds::{
    MOST_JOINTS_AT_PLACE, MOST_LETTERS, MOST_NOTES_AT_JOINT, MOST_PENETRATIONS, MOST_RUNS_AT_JOINT, MOST_RUNS_BETWEEN,
};

/// The first place of which a file holds too much, if there is one.
pub fn fault(file: &Job) -> Option<Fault> {
    let steps = |list, index, key| vec![Step::Key(list), Step::Item(index), Step::Key(key)];
    let runs = file.runs.0.iter().enumerate();
    let ends = runs
        .clone()
        .flat_map(|(index, run)| [(index, "from", run.from), (index, "to", run.to)]);
    let joints = file.joints.0.iter().enumerate();
    let notes = file.notes.0.iter().enumerate();
    first_over(joints.map(|(index, joint)| (index, joint.at)), MOST_JOINTS_AT_PLACE)
        .map(|(index, _)| Fault {
            steps: steps("joints", index, "at"),
            problem: format!("there are more than {MOST_JOINTS_AT_PLACE} joints at this place"),
            remedy: "take out those that are there twice",
        })
        .or_else(|| {
            let full = runs
                .clone()
                .find(|(_, run)| run.penetrations.0.len() > MOST_PENETRATIONS);
            full.map(|(index, run)| Fault {
                steps: steps("runs", index, "penetrations"),
                problem: format!("run {} has more than {MOST_PENETRATIONS} penetrations", run.id),
                remedy: "take out those that are there twice, or part the run",
            })
        })
        .or_else(|| {
            let over = first_over(
                ends.map(|(index, key, joint)| ((index, key), joint)),
                MOST_RUNS_AT_JOINT,
            );
            over.map(|((index, key), joint)| Fault {
                steps: steps("runs", index, key),
                problem: format!("more than {MOST_RUNS_AT_JOINT} runs meet at joint {joint}"),
                remedy: "take the rest to joints of their own",
            })
        })
        .or_else(|| {
            let pairs = runs.map(|(index, run)| (index, (run.from.min(run.to), run.from.max(run.to))));
            let over = first_over(pairs, MOST_RUNS_BETWEEN);
            over.map(|(index, (one, other))| Fault {
                steps: steps("runs", index, "to"),
                problem: format!("more than {MOST_RUNS_BETWEEN} runs are between joints {one} and {other}"),
                remedy: "take out those that are there twice",
            })
        })
        .or_else(|| {
            let over = first_over(notes.map(|(index, note)| (index, note.at)), MOST_NOTES_AT_JOINT);
            over.map(|(index, joint)| Fault {
                steps: steps("notes", index, "at"),
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

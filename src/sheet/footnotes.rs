//! Remarks that stand beside many rows of a table, or are long, said once under it.

use super::text::Paragraph;
use crate::study::words::capital;
use std::collections::BTreeMap;

/// A remark of so few letters is said in each row: its sign would be no shorter.
const SHORT: usize = 30;

/// A remark of more letters stands under the table also where one row alone has it: beside the row it would make it many
/// lines high.
const LONG: usize = 60;

/// The remarks that more than one row has, and long ones, with their signs in the order in which rows have them.
pub struct Notes<'a> {
    often: BTreeMap<&'a str, usize>,
    said: Vec<&'a str>,
}

impl<'a> Notes<'a> {
    /// Those of rows.
    pub fn of(remarks: impl Iterator<Item = &'a str>) -> Notes<'a> {
        let mut often = BTreeMap::new();
        for remark in remarks.filter(|remark| remark.chars().count() > SHORT) {
            *often.entry(remark).or_default() += 1;
        }
        Notes {
            often,
            said: Vec::new(),
        }
    }

    /// What stands in a row: the remark, or the sign of the note that says it.
    pub fn instead_of(&mut self, remark: &'a str) -> String {
        let is_long = remark.chars().count() > LONG;
        if self.often.get(remark).copied().unwrap_or_default() < 2 && !is_long {
            return remark.to_owned();
        }
        let known = self.said.iter().position(|said| *said == remark);
        let at = known.unwrap_or_else(|| {
            self.said.push(remark);
            self.said.len() - 1
        });
        sign(at)
    }

    /// The notes, each behind its sign.
    pub fn paragraphs(&self) -> Vec<Paragraph> {
        let note = |(at, words): (usize, &&str)| Paragraph::new(format!("{}.", capital(words))).signed(sign(at));
        self.said.iter().enumerate().map(note).collect()
    }
}

fn sign(at: usize) -> String {
    format!("({})", at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_many_rows_have_is_said_once() {
        let long = "measure an end first: the cut list says which";
        let rows = [
            "one coat",
            long,
            "as long as the pipe; add for the ends",
            "one coat",
            long,
        ];
        let mut notes = Notes::of(rows.into_iter());
        let said: Vec<String> = rows.iter().map(|row| notes.instead_of(row)).collect();
        assert_eq!(said, ["one coat", "(1)", rows[2], "one coat", "(1)"]);
        let notes = notes.paragraphs();
        assert_eq!((notes.len(), notes[0].sign.as_str()), (1, "(1)"));
        assert_eq!(notes[0].words, format!("M{}.", &long[1..]));
    }
}

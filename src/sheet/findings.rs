//! What blocks the drawing, boxed and bold, and how much else was found.

use super::block::{Block, Edge, Part};
use super::lettering::Hand;
use super::tags::Schedule;
use super::text::Paragraph;
use crate::rules::{Finding, Findings, Severity};
use crate::scene::{answer, answer_room};
use crate::study::{Place, Places, how_many};

/// What was found, as far as the sheet tells it.
pub struct Found<'a> {
    blocking: Vec<&'a Finding>,
    checks: usize,
    notes: usize,
}

impl<'a> Found<'a> {
    /// What the rules found.
    pub fn of(findings: &'a Findings) -> Found<'a> {
        Found {
            blocking: findings.must_fix().collect(),
            checks: findings.count(Severity::Check),
            notes: findings.count(Severity::Note),
        }
    }

    /// How many findings block.
    pub fn blocking(&self) -> usize {
        self.blocking.len()
    }

    /// The box with the first so many findings; `None` when nothing blocks.
    pub fn block(&self, most: usize, places: &Places<'_>) -> Option<Block> {
        if self.blocking.is_empty() {
            return None;
        }
        let heading = format!("NOT READY: {} must be fixed", how_many(self.blocking.len(), "finding"));
        let mut said: Vec<Paragraph> = self
            .blocking
            .iter()
            .take(most)
            .enumerate()
            .map(|(number, finding)| {
                let (what, remedy) = (sentence(&finding.what), sentence(&finding.remedy));
                let words = match tells(&what, finding.place) {
                    true => format!("{what} {remedy}"),
                    false => format!("{}: {what} {remedy}", where_found(finding, places)),
                };
                Paragraph::new(words).signed((number + 1).to_string())
            })
            .collect();
        let others = self.others().map(|others| format!("Also: {others}."));
        let more = match (most, self.blocking.len().saturating_sub(most)) {
            (_, 0) => None,
            (0, _) => Some("See the findings list on a later sheet.".to_owned()),
            (_, more) => Some(format!("{more} more: see the findings list on a later sheet.")),
        };
        match (more, others) {
            // A line less where room is short.
            (Some(more), Some(others)) if most == 0 => {
                said.push(Paragraph::new(format!("{more} {others}")).hand(Hand::STRONG));
            }
            (more, others) => {
                said.extend(more.map(|more| Paragraph::new(more).hand(Hand::STRONG)));
                said.extend(others.map(Paragraph::new));
            }
        }
        let mut block = Block::new(Schedule::Findings, heading, vec![Part::Text(said)]);
        block.edge = Edge::Bold;
        Some(block)
    }

    /// Ruled lines for what must be fixed, on a worksheet: at least so many that their number tells nothing.
    pub fn asked(&self, places: &Places<'_>) -> Block {
        const LEAST: usize = 4;
        const LINE: usize = 44;
        let line = |words: &str| {
            let rest = LINE.saturating_sub(words.chars().count());
            Paragraph::new(answer(words) + &answer_room(rest))
        };
        let said = self.blocking.iter().map(|finding| {
            let words = format!("{}: {}", where_found(finding, places), sentence(&finding.what));
            line(&words)
        });
        let none = (self.blocking.is_empty()).then(|| line("No findings from the rules."));
        let mut said: Vec<Paragraph> = said.chain(none).collect();
        while said.len() < LEAST {
            said.push(line(""));
        }
        Block::new(Schedule::Findings, "What must be fixed", vec![Part::Text(said)])
    }

    /// What is still to be checked and decided, in words; `None` for nothing.
    pub fn open(&self) -> Option<String> {
        (self.checks > 0).then(|| how_many(self.checks, Severity::Check.name()))
    }

    /// How much was found that does not block, in words; `None` for nothing.
    pub fn others(&self) -> Option<String> {
        let counts = [(self.checks, Severity::Check), (self.notes, Severity::Note)];
        let said: Vec<String> = counts
            .into_iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, severity)| how_many(count, severity.name()))
            .collect();
        (!said.is_empty()).then(|| said.join(" and "))
    }
}

/// The place of a finding and some of the further places of the same cause.
fn where_found(finding: &Finding, places: &Places<'_>) -> String {
    const MOST: usize = 4;
    let mut said = places.finding(finding.place);
    for place in finding.also.iter().take(MOST) {
        said.push_str(", ");
        said.push_str(&uncapital(&places.finding(*place)));
    }
    if finding.also.len() > MOST {
        said.push_str(&format!(" and {} more places", finding.also.len() - MOST));
    }
    said
}

/// Whether the words of a finding name its place themselves.
fn tells(what: &str, place: Place) -> bool {
    let tells = |name: String| {
        what.split(|letter: char| !letter.is_alphanumeric())
            .any(|word| word == name)
    };
    match place {
        Place::Job => true,
        Place::Joint(id) => tells(id.to_string()),
        Place::Run(id) => tells(id.to_string()),
        Place::Section(number) => what.to_lowercase().contains("section") && tells(number.to_string()),
    }
}

/// `Section 4` in the middle of a sentence; a person's own label stays as it is.
fn uncapital(words: &str) -> String {
    match words.split_once(' ') {
        Some((first @ ("Section" | "Run"), rest)) => format!("{} {rest}", first.to_lowercase()),
        _ => words.to_owned(),
    }
}

/// The words with a full stop at their end.
pub fn sentence(words: &str) -> String {
    let words = words.trim();
    let capital = crate::study::words::capital(words);
    if words.is_empty() || words.ends_with(['.', '!', '?', '…']) {
        capital
    } else {
        format!("{capital}.")
    }
}

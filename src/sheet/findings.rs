//! What blocks the drawing, boxed and bold, and how much else was found.

use super::block::{Block, Edge, Part};
use super::lettering::Hand;
use super::tags::Schedule;
use super::text::Paragraph;
use crate::rules::{Finding, Findings, Severity, rule};
use crate::scene::{answer, answer_room};
use crate::study::{Place, Places, how_many};

/// So many rules with open findings are named, each with so many places.
const MOST_OPEN: usize = 8;
const MOST_PLACES: usize = 12;

/// Rules about what this program knows, which say nothing to the reader of a permit drawing.
const OF_THE_PROGRAM: [&str; 1] = ["appliance-class-unknown"];

/// What was found, as far as the sheet tells it.
pub struct Found<'a> {
    blocking: Vec<&'a Finding>,
    open: Vec<&'a Finding>,
    checks: usize,
    notes: usize,
}

impl<'a> Found<'a> {
    /// What the rules found.
    pub fn of(findings: &'a Findings) -> Found<'a> {
        Found {
            blocking: findings.must_fix().collect(),
            open: (findings.iter())
                .filter(|finding| finding.severity == Severity::Check && !OF_THE_PROGRAM.contains(&finding.rule))
                .collect(),
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
        let heading = format!("NOT READY: {}", how_many(self.blocking.len(), "must-fix finding"));
        let mut said: Vec<Paragraph> = self
            .blocking
            .iter()
            .take(most)
            .enumerate()
            .map(|(number, finding)| {
                let (what, remedy) = (sentence(&finding.what), sentence(&finding.remedy));
                let words = match finding.names_its_place() {
                    true => format!("{what} {remedy}"),
                    false => format!("{}: {what} {remedy}", where_found(finding, places)),
                };
                Paragraph::new(words).signed((number + 1).to_string())
            })
            .collect();
        let others = self.others().map(|others| format!("Also: {others}."));
        let more = match (most, self.blocking.len().saturating_sub(most)) {
            (_, 0) => None,
            (0, _) => Some("More on the next sheet, in the findings list.".to_owned()),
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

    /// What is still to be checked and decided, each rule once with the places as the drawing names them, but for the
    /// rules of which a note has `told`; `None` for nothing.
    pub fn open(&self, places: &Places<'_>, told: &[&str]) -> Option<String> {
        let mut rules: Vec<(&str, Vec<String>)> = Vec::new();
        for finding in self.open.iter().filter(|finding| !told.contains(&finding.rule)) {
            let at = match rules.iter().position(|(rule, _)| *rule == finding.rule) {
                Some(at) => at,
                None => {
                    rules.push((finding.rule, Vec::new()));
                    rules.len() - 1
                }
            };
            let all = std::iter::once(finding.place).chain(finding.also.iter().copied());
            for name in all.filter_map(|place| on_drawing(place, places)) {
                if !rules[at].1.contains(&name) {
                    rules[at].1.push(name);
                }
            }
        }
        let named = rules.iter().take(MOST_OPEN).map(|(id, at)| {
            let title = rule(id).map_or_else(|| (*id).to_owned(), |rule| rule.titled(places.units()));
            let title = within_sentence(&title);
            match (at.len(), listed(&at[..at.len().min(MOST_PLACES)])) {
                (0, _) => title,
                (1..=MOST_PLACES, names) => format!("{title} ({names})"),
                (many, names) => format!("{title} ({names} and {} more)", many - MOST_PLACES),
            }
        });
        let named = named.collect::<Vec<_>>().join("; ");
        match rules.len() {
            0 => None,
            1..=MOST_OPEN => Some(named),
            many => Some(format!("{named}; and {} more", many - MOST_OPEN)),
        }
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

/// Places one after the other, sections under one name.
fn listed(names: &[String]) -> String {
    let number = |name: &String| name.strip_prefix("section ").map(str::to_owned);
    let numbers: Vec<String> = names.iter().filter_map(number).collect();
    let others = names.iter().filter(|name| number(name).is_none()).cloned();
    let sections = match numbers.as_slice() {
        [] => None,
        [one] => Some(format!("section {one}")),
        many => Some(format!("sections {}", many.join(", "))),
    };
    sections.into_iter().chain(others).collect::<Vec<_>>().join(", ")
}

/// A place as the drawing names it; `None` for what it has no name for.
fn on_drawing(place: Place, places: &Places<'_>) -> Option<String> {
    match place {
        Place::Job => None,
        Place::Joint(id) => {
            let name = places.joint(places.job().joints.position(id)?);
            (!name.ends_with(&id.to_string())).then_some(name)
        }
        Place::Run(id) => {
            let name = places.pipe(id);
            let is_named = !name.ends_with(&id.to_string());
            is_named.then(|| within_sentence(&name))
        }
        Place::Section(number) => Some(format!("section {number}")),
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

/// The title of a rule in the middle of a sentence.
fn within_sentence(title: &str) -> String {
    let mut letters = title.chars();
    match (letters.next(), letters.next()) {
        (Some(first), Some(second)) if !second.is_uppercase() => {
            first.to_lowercase().chain(title.chars().skip(1)).collect()
        }
        _ => title.to_owned(),
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

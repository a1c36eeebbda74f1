//! Answers of students marked: which sizes are right, and what probably went wrong with the others.

use super::answers::Paper;
use super::slip::{Slip, Slips, feet};
use crate::codebook::Codebook;
use crate::job::{Job, Material};
use crate::sizing::carries;
use crate::study::Study;
use crate::units::{NominalSize, Parse, Show};

/// An answer, judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The number of the section on the drawing.
    pub section: usize,
    /// What was answered, as typed; empty where nothing was.
    pub answer: String,
    /// The size that the method finds, as the key shows it.
    pub right: String,
    /// What it is worth.
    pub verdict: Judgment,
}

/// What an answer is worth.
#[derive(Clone, Debug, PartialEq)]
pub enum Judgment {
    /// It is the size of the key.
    Right,
    /// Nothing was answered.
    Missing,
    /// It is no size of this pipe.
    NoSize,
    /// It is another size: what must be said, and the slips that give just this size.
    Wrong {
        /// Whether it carries the load: larger than needed.
        carries: bool,
        /// What it carries in the row, against the load.
        words: String,
        /// The likely slips; none where none gives this size.
        slips: Vec<Slip>,
    },
}

/// What one student has.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkedPaper {
    /// The student, as typed.
    pub student: String,
    /// The worksheet of a set, from 1.
    pub worksheet: Option<usize>,
    /// Each section that is asked, in order.
    pub judged: Vec<Judged>,
}

impl MarkedPaper {
    /// How many are right.
    pub fn right(&self) -> usize {
        self.judged
            .iter()
            .filter(|judged| judged.verdict == Judgment::Right)
            .count()
    }
}

/// A key to mark by.
pub struct Marker<'a> {
    study: &'a Study,
    slips: Slips<'a>,
}

impl<'a> Marker<'a> {
    /// The key of a job.
    pub fn of(job: &'a Job, book: &'a Codebook, study: &'a Study) -> Marker<'a> {
        Marker {
            study,
            slips: Slips::of(job, book, study),
        }
    }

    /// Positions in `study.sections` of those that are asked: sized by a printed table.
    pub fn asked(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.study.sections.len()).filter(|at| self.slips.right(*at).is_some())
    }

    /// Marks a paper.
    pub fn mark(&self, paper: &Paper) -> MarkedPaper {
        let judged = self.asked().map(|at| {
            let number = self.study.sections[at].number;
            self.judge(at, paper.answers.get(&number).map_or("", String::as_str))
        });
        MarkedPaper {
            student: paper.student.clone(),
            worksheet: paper.worksheet,
            judged: judged.collect(),
        }
    }

    /// Numbers that a paper answers and that no section asked has.
    pub fn unasked(&self, paper: &Paper) -> Vec<usize> {
        let asked: Vec<usize> = self.asked().map(|at| self.study.sections[at].number).collect();
        paper
            .answers
            .keys()
            .copied()
            .filter(|number| !asked.contains(number))
            .collect()
    }

    /// Every slip at a section that gives another size, with that size.
    pub fn slips(&self, section: usize) -> Vec<(Slip, NominalSize)> {
        self.slips.at(section)
    }

    fn judge(&self, at: usize, answer: &str) -> Judged {
        let section = &self.study.sections[at];
        let answer = answer.trim();
        let right = self.slips.right(at);
        let named = |size: NominalSize| self.study.names.show(section.material, size);
        let verdict = match (answer, self.size(section.material, at, answer), right) {
            ("", ..) => Judgment::Missing,
            (_, Some(size), Some(right)) if size == right => Judgment::Right,
            (_, Some(size), _) => self.wrong(at, size),
            (_, None, _) => Judgment::NoSize,
        };
        Judged {
            section: section.number,
            answer: answer.to_owned(),
            right: right.map_or_else(String::new, named),
            verdict,
        }
    }

    fn wrong(&self, at: usize, size: NominalSize) -> Judgment {
        let section = &self.study.sections[at];
        let units = self.study.names.units();
        let reading = self.slips.reading(section);
        let row = reading.and_then(|reading| reading.row(section.design.total()));
        let capacity = reading.zip(row).and_then(|(reading, row)| reading.capacity(row, size));
        let load = section.load.flow;
        let is_enough = capacity.is_some_and(|capacity| carries(capacity, load));
        let named = self.study.names.show(section.material, size);
        let table = reading.zip(row).map(|(reading, row)| {
            let length = reading.table.length(row);
            format!("table {}, row {}", reading.table.id, feet(length, units))
        });
        let table = table.unwrap_or_default();
        let words = match capacity {
            Some(capacity) if is_enough => format!(
                "{named} carries {} of {} ({table}), but a smaller size does too",
                load.show(units),
                capacity.show(units)
            ),
            Some(capacity) => format!(
                "{named} carries only {} of the load of {} ({table})",
                capacity.show(units),
                load.show(units)
            ),
            None => format!("{named} is not in that row ({table})"),
        };
        let slips = self.slips.at(at).into_iter().filter(|(_, found)| *found == size);
        Judgment::Wrong {
            carries: is_enough,
            words,
            slips: slips.map(|(slip, _)| slip).collect(),
        }
    }

    /// A size as a person writes it: as the drawing names it, or as any size is typed.
    fn size(&self, material: Material, at: usize, answer: &str) -> Option<NominalSize> {
        let bare = |words: &str| words.replace(['"', '″', ' '], "").to_lowercase();
        let section = &self.study.sections[at];
        let reading = self.slips.reading(section)?;
        let mut sizes = reading.table.sizes().iter().copied();
        let named = sizes.find(|size| bare(&self.study.names.show(material, *size)) == bare(answer));
        let typed = || {
            NominalSize::parse(answer)
                .ok()
                .filter(|size| reading.table.column(*size).is_some())
        };
        named.or_else(typed)
    }
}

//! What permit offices ask for, ticked by the job itself.
//!
//! A tick says that the job holds what the item names, not that it is right nor that an office takes it. What is missing
//! leads to the field or the place where it is filled in.

mod check;

use crate::codebook::{CodeFamily, Codebook, Mark, PermitItem, PermitSource, Source};
use crate::job::Job;
use crate::study::{Place, Study};
use crate::units::{in_units, ranges};

/// The items that offices ask for, each held against a job.
#[derive(Clone, Debug, PartialEq)]
pub struct PermitList {
    /// The most asked first.
    pub lines: Vec<PermitLine>,
    /// Which kinds of requirements were read.
    pub source: Source,
    /// The requirements themselves; the items name them by their numbers.
    pub read: Vec<PermitSource>,
}

/// One item held against a job.
#[derive(Clone, Debug, PartialEq)]
pub struct PermitLine {
    /// What is asked, and by how many.
    pub item: PermitItem,
    /// How the job stands to it.
    pub tick: Tick,
    /// By what it is shown, or what is missing, in a sentence.
    pub words: String,
    /// Where it is shown; where it is missing, the places that lack it.
    pub places: Vec<Place>,
    /// The field that holds it, as the job file calls it: "title: site".
    pub field: Option<&'static str>,
}

/// How a job stands to an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tick {
    /// The job shows it.
    Shown,
    /// The job does not show it, or not everywhere.
    Missing,
    /// The job has nothing of which it could be asked.
    NotCalledFor,
    /// No job holds it: it is handed in or drawn beside.
    ByHand,
}

impl Tick {
    /// The word on lists.
    pub const fn name(self) -> &'static str {
        match self {
            Tick::Shown => "shown",
            Tick::Missing => "missing",
            Tick::NotCalledFor => "not applicable",
            Tick::ByHand => "check it yourself",
        }
    }

    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            Tick::Shown => "shown",
            Tick::Missing => "missing",
            Tick::NotCalledFor => "not_applicable",
            Tick::ByHand => "by_hand",
        }
    }
}

impl PermitLine {
    /// The numbers of the requirements that name the item: "1–3, 5".
    pub fn sources(&self) -> String {
        ranges(self.item.asked_by.iter().map(|&number| number as usize))
    }
}

impl PermitList {
    /// The list of a job.
    pub fn of(job: &Job, study: &Study, book: &Codebook) -> PermitList {
        let look = check::Look { job, study, book };
        // What offices of another country ask for says nothing of those of this one.
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let canadian = profile.family.is_some_and(CodeFamily::is_canadian);
        let all = book.permit_sources().iter();
        let read: Vec<&PermitSource> = all.filter(|source| !canadian || source.canadian).collect();
        let lines = book.permit_items().iter().map(|item| {
            let said = look.at(item.ask);
            let asked_by = item.asked_by.iter().copied();
            let asked_by: Vec<u32> = asked_by
                .filter(|number| read.iter().any(|source| source.number == *number))
                .collect();
            PermitLine {
                item: PermitItem {
                    item: in_units(&item.item, study.names.units()),
                    asked: asked_by.len() as u32,
                    read: read.len() as u32,
                    mark: if asked_by.is_empty() { Mark::Memory } else { item.mark },
                    asked_by,
                    ask: item.ask,
                },
                tick: said.tick,
                words: said.words,
                places: said.places,
                field: said.field,
            }
        });
        PermitList {
            lines: lines.collect(),
            source: book.permit_source(),
            read: read
                .iter()
                .map(|&source| PermitSource {
                    scope: in_units(&source.scope, study.names.units()),
                    ..source.clone()
                })
                .collect(),
        }
    }

    /// Who asks for the item of a line, by name.
    pub fn asked_by(&self, line: &PermitLine) -> Vec<&'static str> {
        let read = self.read.iter();
        let named = read.filter(|source| line.item.asked_by.contains(&source.number));
        named.map(|source| source.name).collect()
    }

    /// Lines whose item the job does not show.
    pub fn missing(&self) -> impl Iterator<Item = &PermitLine> {
        self.lines.iter().filter(|line| line.tick == Tick::Missing)
    }
}

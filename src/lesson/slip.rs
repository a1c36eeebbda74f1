//! The slips by which a student finds another size than the method does.

use super::reading::Reading;
use crate::codebook::Codebook;
use crate::job::{Job, Method};
use crate::sizing::Section;
use crate::study::Study;
use crate::units::{Flow, Length, NominalSize, UnitSystem};

/// A likely slip.
#[derive(Clone, Debug, PartialEq)]
pub enum Slip {
    /// The next smaller column was taken, which carries less than the load.
    NextSmaller,
    /// The row of a shorter length was read.
    ShorterRow(Length),
    /// The section's own length was read.
    OwnLength(Length),
    /// The length to the section's own farthest outlet was read where the longest length counts.
    BranchLength(Length),
    /// The longest length was read where the length to the section's own farthest outlet counts.
    LongestLength(Length),
    /// The load of an outlet downstream was left out: its letter and name.
    LoadForgotten(String),
    /// Another table was read: its number.
    WrongTable(String),
}

impl Slip {
    /// What is written in a column of a summary: the same for ever.
    pub const fn key(&self) -> &'static str {
        match self {
            Slip::NextSmaller => "next smaller capacity",
            Slip::ShorterRow(_) => "row of a shorter length",
            Slip::OwnLength(_) => "own length of the section",
            Slip::BranchLength(_) => "length to its own farthest outlet",
            Slip::LongestLength(_) => "longest length",
            Slip::LoadForgotten(_) => "load left out",
            Slip::WrongTable(_) => "wrong table",
        }
    }

    /// What was probably done, in words.
    pub fn words(&self, units: UnitSystem) -> String {
        let feet = |length: &Length| feet(*length, units);
        match self {
            Slip::NextSmaller => "the next smaller capacity was taken".to_owned(),
            Slip::ShorterRow(length) => format!(
                "the row of {} was read, which is shorter than the sizing length",
                feet(length)
            ),
            Slip::OwnLength(length) => format!(
                "the section's own length of {} was read, not the sizing length",
                feet(length)
            ),
            Slip::BranchLength(length) => {
                format!(
                    "the length to its own farthest outlet, {}, was read, not the longest length",
                    feet(length)
                )
            }
            Slip::LongestLength(length) => {
                format!(
                    "the longest length, {}, was read, not that to its own farthest outlet",
                    feet(length)
                )
            }
            Slip::LoadForgotten(outlet) => format!("the load of {outlet} was left out"),
            Slip::WrongTable(table) => format!("table {table} was read"),
        }
    }
}

/// What slips are found by: the job, and the same by the other method.
pub(super) struct Slips<'a> {
    job: &'a Job,
    book: &'a Codebook,
    study: &'a Study,
    other: Study,
}

impl<'a> Slips<'a> {
    pub(super) fn of(job: &'a Job, book: &'a Codebook, study: &'a Study) -> Slips<'a> {
        let mut turned = job.clone();
        let method = study.zones.first().map_or(Method::LongestLength, |zone| zone.method);
        turned.settings.method = Some(match method {
            Method::LongestLength => Method::BranchLength,
            Method::BranchLength => Method::LongestLength,
        });
        let other = Study::of(&turned, book);
        Slips {
            job,
            book,
            study,
            other,
        }
    }

    /// The size that a section needs by the method; `None` where no printed table gives one.
    pub(super) fn right(&self, section: usize) -> Option<NominalSize> {
        let section = self.study.sections.get(section)?;
        let reading = Reading::of(self.job, self.book, self.study, section)?;
        reading.size_at(section.design.total(), section.load.flow)
    }

    /// What a section needs to be read again; `None` where no printed table sizes it.
    pub(super) fn reading(&self, section: &Section) -> Option<Reading<'a>> {
        Reading::of(self.job, self.book, self.study, section)
    }

    /// Every slip at a section that gives another size, with that size.
    pub(super) fn at(&self, number: usize) -> Vec<(Slip, NominalSize)> {
        let known = self.study.sections.get(number).zip(self.right(number));
        let Some((section, right)) = known else {
            return Vec::new();
        };
        let Some(reading) = self.reading(section) else {
            return Vec::new();
        };
        let (length, load) = (section.design.total(), section.load.flow);
        let Some(row) = reading.row(length) else {
            return Vec::new();
        };
        let mut found: Vec<(Slip, Option<NominalSize>)> = vec![(Slip::NextSmaller, reading.smaller(row, right))];
        if let Some(shorter) = reading.shorter(row) {
            let slip = Slip::ShorterRow(reading.table.length(shorter));
            found.push((slip, reading.size(shorter, load)));
        }
        found.push((
            Slip::OwnLength(section.measured),
            reading.size_at(section.measured, load),
        ));
        if let Some(other) = self
            .other
            .sections
            .get(number)
            .filter(|other| other.runs == section.runs)
        {
            let read = other.design.total();
            let slip = match self.study.zones.get(section.zone).map(|zone| zone.method) {
                Some(Method::BranchLength) => Slip::LongestLength(read),
                Some(Method::LongestLength) | None => Slip::BranchLength(read),
            };
            found.push((slip, reading.size_at(read, load)));
        }
        let served = self.study.outlets.get(section.serves.clone()).unwrap_or_default();
        for outlet in served.iter().filter(|_| served.len() > 1) {
            let less = Flow::from_cfh((load.cfh() - outlet.flow.cfh()).max(0.0));
            found.push((Slip::LoadForgotten(outlet.lettered()), reading.size(row, less)));
        }
        let profile = self
            .book
            .profile(&self.study.profile)
            .unwrap_or(self.book.default_profile());
        let tables = self.book.tables_for(profile, &self.job.settings);
        for table in tables
            .iter()
            .filter(|table| table.pipe == reading.table.pipe && table.id != reading.table.id)
        {
            let read = reading.in_table(table).size_at(length, load);
            found.push((Slip::WrongTable(table.id.to_string()), read));
        }
        let found = found.into_iter().filter_map(|(slip, size)| Some((slip, size?)));
        found.filter(|(_, size)| *size != right).collect()
    }
}

/// A length as the schedule of sections has it: feet to a tenth, or whole millimeters.
pub(super) fn feet(length: Length, units: UnitSystem) -> String {
    length.show_sizing(units)
}

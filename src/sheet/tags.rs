//! The keys by which fields and schedules of a sheet are found again in its scene.
//!
//! | role | key | what |
//! | --- | --- | --- |
//! | `Frame` | [`Field::key`] | one field of the title block: its cell, caption and value |
//! | `Table` | [`schedule`] | a schedule as a whole, whatever lies between its rows |
//! | `Table` | [`row`] | one row of a schedule |
//!
//! A field's cell is filled with paper white, so that a click anywhere in it finds the field, empty or not. Rows count
//! as the study counts: appliances by the letters of `study.outlets`, sections by `study.sections`, findings by
//! `checked.findings`.

use super::Field;
use crate::scene::{Role, Tag};

/// A part of the sheet that is not the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Schedule {
    /// What blocks.
    Findings,
    /// What changed since the issue.
    Changes,
    /// Supply data.
    Supply,
    /// Appliances.
    Appliances,
    /// Sections.
    Sections,
    /// What stands, before and after the work.
    Existing,
    /// What a study of the job says.
    Study,
    /// What the drawing of the pieces is.
    Pieces,
    /// The order of work.
    Order,
    /// The pressure test.
    Test,
    /// What is bought, and what goes.
    TakeOff,
    /// How pipe is cut.
    Cuts,
    /// From which stick.
    Stock,
    /// What permit offices ask for.
    PermitList,
    /// Numbered points of the drawing.
    Points,
    /// Legend.
    Legend,
    /// Notes.
    Notes,
    /// Cautions.
    Cautions,
    /// The lines to be signed on an as-built drawing.
    Signature,
    /// Issues of the drawing.
    Revisions,
    /// Space for the office's stamp.
    Stamp,
    /// Where the rest is found.
    Elsewhere,
    /// That words found no room.
    Notice,
    /// The fittings that a worksheet asks for.
    Fittings,
    /// The working of a key, section by section.
    Working,
    /// What is measured at start-up.
    StartUp,
    /// Joints to be checked for leaks.
    LeakLog,
    /// Tools and holes.
    Tools,
    /// What the owner must know.
    Owner,
}

impl Schedule {
    /// Every part.
    pub const ALL: [Schedule; 29] = [
        Schedule::Findings,
        Schedule::Changes,
        Schedule::Supply,
        Schedule::Appliances,
        Schedule::Sections,
        Schedule::Existing,
        Schedule::Study,
        Schedule::Pieces,
        Schedule::Order,
        Schedule::Test,
        Schedule::TakeOff,
        Schedule::Cuts,
        Schedule::Stock,
        Schedule::PermitList,
        Schedule::Points,
        Schedule::Legend,
        Schedule::Notes,
        Schedule::Cautions,
        Schedule::Signature,
        Schedule::Revisions,
        Schedule::Stamp,
        Schedule::Elsewhere,
        Schedule::Notice,
        Schedule::Fittings,
        Schedule::Working,
        Schedule::StartUp,
        Schedule::LeakLog,
        Schedule::Tools,
        Schedule::Owner,
    ];

    /// What it is called in a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            Schedule::Findings => "must-fix findings",
            Schedule::Changes => "changes",
            Schedule::Supply => "supply",
            Schedule::Appliances => "appliances",
            Schedule::Sections => "sections",
            Schedule::Existing => "existing before and after",
            Schedule::Study => "study",
            Schedule::Pieces => "pieces to cut",
            Schedule::Order => "work steps",
            Schedule::Test => "pressure test",
            Schedule::TakeOff => "take-off",
            Schedule::Cuts => "cut list",
            Schedule::Stock => "cutting plan",
            Schedule::PermitList => "permit checklist",
            Schedule::Points => "numbered points",
            Schedule::Legend => "legend",
            Schedule::Notes => "notes",
            Schedule::Cautions => "cautions",
            Schedule::Signature => "as-built statement",
            Schedule::Revisions => "revisions",
            Schedule::Stamp => "approval stamp",
            Schedule::Elsewhere => "other sheets",
            Schedule::Notice => "what did not fit",
            Schedule::Fittings => "fittings",
            Schedule::Working => "working",
            Schedule::StartUp => "start-up record",
            Schedule::LeakLog => "leak-check log",
            Schedule::Tools => "tools and holes",
            Schedule::Owner => "for the owner",
        }
    }
}

/// The tag of a schedule as a whole.
pub const fn schedule(which: Schedule) -> Tag {
    Tag {
        role: Role::Table,
        key: which as u32,
    }
}

/// The tag of a row of a schedule, counted from 0. Rows beyond a hundred million share the last key.
pub fn row(which: Schedule, row: usize) -> Tag {
    let row = u32::try_from(row).unwrap_or(u32::MAX).min((u32::MAX >> 5) - 1) + 1;
    Tag {
        role: Role::Table,
        key: row << 5 | which as u32,
    }
}

/// The tag of a field of the title block.
pub const fn field(field: Field) -> Tag {
    Tag {
        role: Role::Frame,
        key: field.key(),
    }
}

/// What a tag of the sheet stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// A field of the title block.
    Field(Field),
    /// A schedule.
    Schedule(Schedule),
    /// A row of a schedule, counted from 0.
    Row(Schedule, usize),
}

/// What a tag stands for; `None` for a tag that no sheet makes.
pub fn part(tag: Tag) -> Option<Part> {
    match tag.role {
        Role::Frame => Field::of_key(tag.key).map(Part::Field),
        Role::Table => {
            let which = *Schedule::ALL.get((tag.key & 31) as usize)?;
            Some(match tag.key >> 5 {
                0 => Part::Schedule(which),
                row => Part::Row(which, row as usize - 1),
            })
        }
        Role::Line | Role::Symbol | Role::Label | Role::Leader | Role::Plane | Role::Mark => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tag_leads_back_to_its_part() {
        for which in Schedule::ALL {
            assert_eq!(part(schedule(which)), Some(Part::Schedule(which)));
            for number in [0, 1, 119, 1_000_000] {
                assert_eq!(part(row(which, number)), Some(Part::Row(which, number)));
            }
        }
        for one in Field::ALL {
            assert_eq!(part(field(one)), Some(Part::Field(one)));
        }
        assert_eq!(
            part(Tag {
                role: Role::Frame,
                key: 999
            }),
            None
        );
    }
}

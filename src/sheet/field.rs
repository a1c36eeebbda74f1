//! The fields of the title block: ISO 7200's, with what permit offices ask for, and where each value comes from.

use crate::codebook::Profile;
use crate::job::{Device, Job, Status, TitleField};
use crate::study::{Study, places};
use crate::units::Show;

/// A field of the title block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Field {
    /// Firm that does the work.
    Firm,
    /// Licence holder.
    LicenceHolder,
    /// Licence number.
    Licence,
    /// Title of the sheet; it says what the sheet is for.
    Title,
    /// What the drawing is issued for.
    Status,
    /// Name of the job.
    Job,
    /// The scale: none.
    Scale,
    /// Address of the site.
    Site,
    /// Owner of the property.
    Owner,
    /// Parcel or legal description.
    Parcel,
    /// What the work is.
    Description,
    /// Who answers questions.
    Contact,
    /// Kind of gas.
    Gas,
    /// Delivery pressure.
    Delivery,
    /// Total connected load.
    Load,
    /// Code and edition that the profile names.
    Code,
    /// Permit number.
    Permit,
    /// Who drew it.
    DrawnBy,
    /// Who checked it.
    CheckedBy,
    /// Date of issue.
    Date,
    /// Number of the drawing.
    Drawing,
    /// Mark of the last issue.
    Revision,
    /// Number of the sheet and of how many.
    Sheet,
}

impl Field {
    /// Every field, in the order of the title block.
    pub const ALL: [Field; 23] = [
        Field::Firm,
        Field::LicenceHolder,
        Field::Licence,
        Field::Title,
        Field::Status,
        Field::Job,
        Field::Scale,
        Field::Site,
        Field::Owner,
        Field::Parcel,
        Field::Description,
        Field::Contact,
        Field::Gas,
        Field::Delivery,
        Field::Load,
        Field::Code,
        Field::Permit,
        Field::DrawnBy,
        Field::CheckedBy,
        Field::Date,
        Field::Drawing,
        Field::Revision,
        Field::Sheet,
    ];

    /// The key of its tag.
    pub const fn key(self) -> u32 {
        self as u32
    }

    /// The field of a key.
    pub fn of_key(key: u32) -> Option<Field> {
        Field::ALL.get(key as usize).copied()
    }

    /// The caption in its cell.
    pub const fn caption(self) -> &'static str {
        if let Some(typed) = self.typed() {
            return typed.caption();
        }
        match self {
            Field::Title => "Title",
            Field::Status => "Status",
            Field::Scale => "Scale",
            Field::Gas => "Gas",
            Field::Delivery => "Delivery pressure",
            Field::Load => "Total connected load",
            Field::Code => "Code and edition",
            Field::Revision => "Rev.",
            Field::Sheet => "Sheet",
            _ => "",
        }
    }

    /// The field of the job that a person types in it.
    pub const fn typed(self) -> Option<TitleField> {
        Some(match self {
            Field::Firm => TitleField::Firm,
            Field::LicenceHolder => TitleField::LicenceHolder,
            Field::Licence => TitleField::Licence,
            Field::Job => TitleField::Job,
            Field::Site => TitleField::Site,
            Field::Owner => TitleField::Owner,
            Field::Parcel => TitleField::Parcel,
            Field::Description => TitleField::Description,
            Field::Contact => TitleField::Contact,
            Field::Permit => TitleField::Permit,
            Field::DrawnBy => TitleField::DrawnBy,
            Field::CheckedBy => TitleField::CheckedBy,
            Field::Date => TitleField::Date,
            Field::Drawing => TitleField::Drawing,
            Field::Title
            | Field::Status
            | Field::Scale
            | Field::Gas
            | Field::Delivery
            | Field::Load
            | Field::Code
            | Field::Revision
            | Field::Sheet => return None,
        })
    }

    /// The caption on paper, where room is short.
    pub const fn in_cell(self) -> &'static str {
        match self {
            Field::Description => "Work",
            Field::Delivery => "Delivery",
            Field::Load => "Connected load",
            Field::Code => "Code",
            Field::DrawnBy => "Drawn",
            Field::CheckedBy => "Checked",
            _ => self.caption(),
        }
    }

    /// Whether a person types the value (in [`crate::job::TitleBlock`]); the others follow from job and study.
    pub const fn is_typed(self) -> bool {
        self.typed().is_some() || matches!(self, Field::Status)
    }

    /// The value; empty where nothing is said, so that it can be filled in by hand. The number of the sheet is not known
    /// here.
    pub fn value(self, job: &Job, study: &Study, profile: &Profile) -> String {
        let title = &job.title;
        if let Some(typed) = self.typed() {
            return typed.of(title).to_owned();
        }
        match self {
            Field::Title => "GAS PIPING ISOMETRIC".to_owned(),
            Field::Status => status(title.status).to_owned(),
            Field::Scale => "not to scale".to_owned(),
            Field::Gas => study.gas.fuel.name().to_owned(),
            Field::Delivery => delivery(job, study),
            Field::Load => load(study),
            Field::Code => profile.code_and_edition(),
            Field::Revision => title.revisions.last().map_or(String::new(), |last| last.mark.clone()),
            _ => String::new(),
        }
    }
}

const fn status(status: Status) -> &'static str {
    match status {
        Status::ForPermit => "FOR PERMIT",
        Status::AsBuilt => "AS BUILT",
        Status::Exercise => "EXERCISE",
        Status::Study => "NOT FOR PERMIT",
    }
}

/// The pressure at the point of delivery; empty where none is drawn.
pub fn delivery(job: &Job, study: &Study) -> String {
    let supply = study.network.supply.and_then(|joint| places::device(job, joint));
    match supply {
        Some(Device::Supply(supply)) => match supply.pressure {
            Some(pressure) => pressure.show(study.names.units()),
            None => "not entered".to_owned(),
        },
        _ => String::new(),
    }
}

fn load(study: &Study) -> String {
    let units = study.names.units();
    format!("{}, {}", study.total.heat.show(units), study.total.flow.show(units))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_has_a_key_and_a_caption_of_its_own() {
        for (at, field) in Field::ALL.into_iter().enumerate() {
            assert_eq!(Field::of_key(field.key()), Some(field));
            assert!(Field::ALL[..at].iter().all(|other| other.caption() != field.caption()));
        }
        assert_eq!(Field::of_key(23), None);
    }
}

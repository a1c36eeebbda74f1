//! The fields of the title block: ISO 7200's, with what permit offices ask for, and where each value comes from.

use crate::codebook::Profile;
use crate::job::{Device, Job, Status};
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
        match self {
            Field::Firm => "Firm",
            Field::LicenceHolder => "Licence holder",
            Field::Licence => "Licence no.",
            Field::Title => "Title",
            Field::Status => "Issued",
            Field::Job => "Job",
            Field::Scale => "Scale",
            Field::Site => "Site",
            Field::Owner => "Owner",
            Field::Parcel => "Parcel",
            Field::Description => "Description of work",
            Field::Contact => "Contact",
            Field::Gas => "Gas",
            Field::Delivery => "Delivery pressure",
            Field::Load => "Total connected load",
            Field::Code => "Code and edition",
            Field::Permit => "Permit no.",
            Field::DrawnBy => "Drawn by",
            Field::CheckedBy => "Checked by",
            Field::Date => "Date",
            Field::Drawing => "Drawing no.",
            Field::Revision => "Rev.",
            Field::Sheet => "Sheet",
        }
    }

    /// Whether a person types the value (in [`crate::job::TitleBlock`]); the others follow from job and study.
    pub const fn is_typed(self) -> bool {
        !matches!(
            self,
            Field::Title
                | Field::Scale
                | Field::Gas
                | Field::Delivery
                | Field::Load
                | Field::Code
                | Field::Revision
                | Field::Sheet
        )
    }

    /// The value; empty where nothing is said, so that it can be filled in by hand. The number of the sheet is not known
    /// here.
    pub fn value(self, job: &Job, study: &Study, profile: &Profile) -> String {
        let title = &job.title;
        match self {
            Field::Firm => title.firm.clone(),
            Field::LicenceHolder => title.licence_holder.clone(),
            Field::Licence => title.licence.clone(),
            Field::Title => "GAS PIPING ISOMETRIC".to_owned(),
            Field::Status => status(title.status).to_owned(),
            Field::Job => title.job.clone(),
            Field::Scale => "not to scale".to_owned(),
            Field::Site => title.site.clone(),
            Field::Owner => title.owner.clone(),
            Field::Parcel => title.parcel.clone(),
            Field::Description => title.description.clone(),
            Field::Contact => title.contact.clone(),
            Field::Gas => study.gas.fuel.name().to_owned(),
            Field::Delivery => delivery(job, study),
            Field::Load => load(job, study),
            Field::Code => format!("{} {}", profile.code, profile.edition).trim().to_owned(),
            Field::Permit => title.permit.clone(),
            Field::DrawnBy => title.drawn_by.clone(),
            Field::CheckedBy => title.checked_by.clone(),
            Field::Date => title.date.clone(),
            Field::Drawing => title.drawing.clone(),
            Field::Revision => title.revisions.last().map_or(String::new(), |last| last.mark.clone()),
            Field::Sheet => String::new(),
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
            Some(pressure) => pressure.show(job.settings.units),
            None => "not given".to_owned(),
        },
        _ => String::new(),
    }
}

fn load(job: &Job, study: &Study) -> String {
    let units = job.settings.units;
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

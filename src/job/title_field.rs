//! The fields of the title block that a person types, in one table: their captions, and where each is kept.

use super::TitleBlock;
use super::listed::listed;

listed! {
    /// A typed field of the title block, in the order of the details.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum TitleField {
        /// Name of the job.
        Job,
        /// Address of the site.
        Site,
        /// Parcel or legal description.
        Parcel,
        /// Owner of the property.
        Owner,
        /// Firm that does the work.
        Firm,
        /// Who answers questions.
        Contact,
        /// License holder.
        LicenceHolder,
        /// License number.
        Licence,
        /// Permit number.
        Permit,
        /// Who drew it.
        DrawnBy,
        /// Who checked it.
        CheckedBy,
        /// Number of the drawing.
        Drawing,
        /// Date of issue.
        Date,
        /// What the work is.
        Description,
    }
}

impl TitleField {
    /// Its caption.
    pub const fn caption(self) -> &'static str {
        match self {
            TitleField::Job => "Job",
            TitleField::Site => "Job address",
            TitleField::Parcel => "Parcel (APN)",
            TitleField::Owner => "Owner",
            TitleField::Firm => "Contractor",
            TitleField::Contact => "Contact",
            TitleField::LicenceHolder => "License holder",
            TitleField::Licence => "License no.",
            TitleField::Permit => "Permit no.",
            TitleField::DrawnBy => "Drawn by",
            TitleField::CheckedBy => "Checked by",
            TitleField::Drawing => "Drawing no.",
            TitleField::Date => "Date",
            TitleField::Description => "Description of work",
        }
    }

    /// What is typed in it.
    pub fn of(self, title: &TitleBlock) -> &str {
        // A field that is new has to be named here.
        let TitleBlock {
            job,
            site,
            parcel,
            owner,
            firm,
            contact,
            licence_holder,
            licence,
            permit,
            drawn_by,
            checked_by,
            drawing,
            date,
            description,
            status: _,
            revisions: _,
        } = title;
        match self {
            TitleField::Job => job,
            TitleField::Site => site,
            TitleField::Parcel => parcel,
            TitleField::Owner => owner,
            TitleField::Firm => firm,
            TitleField::Contact => contact,
            TitleField::LicenceHolder => licence_holder,
            TitleField::Licence => licence,
            TitleField::Permit => permit,
            TitleField::DrawnBy => drawn_by,
            TitleField::CheckedBy => checked_by,
            TitleField::Drawing => drawing,
            TitleField::Date => date,
            TitleField::Description => description,
        }
    }

    /// Where it is kept.
    pub const fn slot(self, title: &mut TitleBlock) -> &mut String {
        match self {
            TitleField::Job => &mut title.job,
            TitleField::Site => &mut title.site,
            TitleField::Parcel => &mut title.parcel,
            TitleField::Owner => &mut title.owner,
            TitleField::Firm => &mut title.firm,
            TitleField::Contact => &mut title.contact,
            TitleField::LicenceHolder => &mut title.licence_holder,
            TitleField::Licence => &mut title.licence,
            TitleField::Permit => &mut title.permit,
            TitleField::DrawnBy => &mut title.drawn_by,
            TitleField::CheckedBy => &mut title.checked_by,
            TitleField::Drawing => &mut title.drawing,
            TitleField::Date => &mut title.date,
            TitleField::Description => &mut title.description,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_kept_in_a_place_of_its_own() {
        let mut title = TitleBlock::default();
        for field in TitleField::ALL {
            field.caption().clone_into(field.slot(&mut title));
        }
        for field in TitleField::ALL {
            assert_eq!(field.of(&title), field.caption());
        }
    }
}

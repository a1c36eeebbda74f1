//! What the title block says.

/// The fields of the title block (the field list of ISO 7200, with what permit offices ask for). Empty means not said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TitleBlock {
    /// Name of the job.
    pub job: String,
    /// Address of the site.
    pub site: String,
    /// Parcel or legal description.
    pub parcel: String,
    /// Owner of the property.
    pub owner: String,
    /// Firm that does the work.
    pub firm: String,
    /// Who answers questions: phone or mail.
    pub contact: String,
    /// Licence holder.
    pub licence_holder: String,
    /// Licence number.
    pub licence: String,
    /// Permit number.
    pub permit: String,
    /// Who drew it.
    pub drawn_by: String,
    /// Who checked it.
    pub checked_by: String,
    /// Number of the drawing.
    pub drawing: String,
    /// Date of issue, as the person writes it.
    pub date: String,
    /// What the work is, in a sentence.
    pub description: String,
    /// For permit or as built.
    pub status: Status,
    /// Issues of this drawing, oldest first.
    pub revisions: Vec<Revision>,
}

/// What a drawing is issued for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Status {
    /// For the permit office.
    #[default]
    ForPermit,
    /// What was installed.
    AsBuilt,
    /// An example for teaching.
    Exercise,
    /// A variant to be looked at, with sizes that are not for a permit.
    Study,
}

/// One issue of the drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Revision {
    /// Its letter or number.
    pub mark: String,
    /// Its date, as the person writes it.
    pub date: String,
    /// What changed.
    pub what: String,
    /// Who changed it.
    pub by: String,
}

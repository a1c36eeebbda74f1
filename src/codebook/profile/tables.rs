//! Which capacity tables a profile sizes by.

use serde::Deserialize;

/// The tables of a profile; others never size a job under it, but for those that the job itself names.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ProfileTables {
    /// Families of the program's tables, by the number that they share: `402.4`.
    pub families: Vec<String>,
    /// Files of its own, by their paths beside the profile's file; they go before the families.
    pub files: Vec<String>,
    /// The names of the tables in those files, once they have been read.
    #[serde(skip)]
    pub own: Vec<String>,
}

impl Default for ProfileTables {
    fn default() -> ProfileTables {
        ProfileTables {
            families: vec!["402.4".to_owned()],
            files: Vec::new(),
            own: Vec::new(),
        }
    }
}

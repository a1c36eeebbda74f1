//! What the window remembers from one day to the next. Nothing of a job is kept here.

use crate::job::{TitleBlock, TitleField};
use crate::sheet::{Orientation, Paper};
use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// The key under which it is stored.
pub const KEY: &str = "stubout window";

/// Screen points to one mm where nobody has measured: 96 to an inch, as systems have it.
pub const POINTS_PER_MM: f64 = 96.0 / 25.4;

/// What is remembered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Files worked on last, the latest first.
    pub recent: Vec<PathBuf>,
    /// Files of the person's own tables and profiles, the first read first.
    pub own: Vec<PathBuf>,
    /// Light, dark, or as the system has it.
    pub light: Light,
    /// Whether paper is dimmed where the window is dark.
    pub dim_paper: bool,
    /// How large words and buttons are; 1 is usual.
    pub size: f32,
    /// Whether the details are shown.
    pub details: bool,
    /// Whether the lists lie open under the paper that is drawn on.
    pub lists_open: bool,
    /// The side of the work that is looked at.
    pub side: Side,
    /// What the person puts into every title block.
    pub mine: Mine,
    /// Paper of the sheet.
    #[serde(with = "PaperWord")]
    pub paper: Paper,
    /// Which edge of the paper lies below.
    #[serde(with = "OrientationWord")]
    pub orientation: Orientation,
    /// Which sheets are shown and handed over.
    pub contents: Contents,
    /// Screen points to one mm that is seen: by these the sheet is shown as large as it will be printed.
    pub points_per_mm: f64,
    /// Whether the window has been opened before.
    pub welcomed: bool,
}

/// How a size of paper is stored.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Paper")]
enum PaperWord {
    AnsiA,
    AnsiB,
    A4,
    A3,
}

/// How the lie of the paper is stored.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Orientation")]
enum OrientationWord {
    Landscape,
    Portrait,
}

/// Which sheets are shown and handed over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Contents {
    /// Those for the permit.
    #[default]
    Permit,
    /// Those and the sheets to work from.
    Whole,
    /// All of them and the list of what permit offices ask for.
    Listed,
    /// A worksheet for a class and its key, in place of them.
    Worksheet,
    /// Its sizing step by step, for a class, in place of them.
    SizingSteps,
    /// The variants of the job side by side, in place of them.
    Variants,
}

/// Light or dark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Light {
    /// As the system has it.
    #[default]
    System,
    /// Light.
    Day,
    /// Dark.
    Night,
}

/// A side of the work: what the window is for at the moment.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Side {
    /// The paper is drawn on.
    #[default]
    Draw,
    /// The lists are read.
    Check,
    /// The sheets are filled in and exported.
    Sheet,
}

/// What the person puts into every title block; empty where nothing is kept.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Mine {
    /// The contractor.
    pub firm: String,
    /// Who answers questions.
    pub contact: String,
    /// The holder of the license.
    pub licence_holder: String,
    /// The number of the license.
    pub licence: String,
    /// Who draws.
    pub drawn_by: String,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            recent: Vec::new(),
            own: Vec::new(),
            light: Light::System,
            dim_paper: true,
            size: 1.0,
            details: true,
            lists_open: false,
            side: Side::Draw,
            mine: Mine::default(),
            paper: Paper::default(),
            orientation: Orientation::default(),
            contents: Contents::default(),
            points_per_mm: POINTS_PER_MM,
            welcomed: false,
        }
    }
}

impl Mine {
    /// The fields of the title block that are kept.
    pub const FIELDS: [TitleField; 5] = [
        TitleField::Firm,
        TitleField::Contact,
        TitleField::LicenceHolder,
        TitleField::Licence,
        TitleField::DrawnBy,
    ];

    /// What a title block holds of it.
    pub fn of(title: &TitleBlock) -> Mine {
        Mine {
            firm: title.firm.clone(),
            contact: title.contact.clone(),
            licence_holder: title.licence_holder.clone(),
            licence: title.licence.clone(),
            drawn_by: title.drawn_by.clone(),
        }
    }

    /// The first that is there of the contractor and who draws, by which a person knows the rest.
    pub fn words(&self) -> &str {
        let names = [
            &self.firm,
            &self.drawn_by,
            &self.licence_holder,
            &self.contact,
            &self.licence,
        ];
        names
            .into_iter()
            .find(|name| !name.trim().is_empty())
            .map_or("", String::as_str)
    }

    /// A title block with it in the fields that are empty.
    pub fn fill(&self, title: &TitleBlock) -> TitleBlock {
        let mine = TitleBlock {
            firm: self.firm.clone(),
            contact: self.contact.clone(),
            licence_holder: self.licence_holder.clone(),
            licence: self.licence.clone(),
            drawn_by: self.drawn_by.clone(),
            ..TitleBlock::default()
        };
        let mut filled = title.clone();
        for field in Mine::FIELDS {
            if field.of(title).trim().is_empty() {
                field.of(&mine).clone_into(field.slot(&mut filled));
            }
        }
        filled
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_fills_what_is_empty_and_nothing_else() {
        let mine = Mine {
            firm: "Invented Gas Fitters".to_owned(),
            drawn_by: "J. S.".to_owned(),
            ..Mine::default()
        };
        let title = TitleBlock {
            firm: "Another Firm".to_owned(),
            site: "14 Example Court".to_owned(),
            ..TitleBlock::default()
        };
        let filled = mine.fill(&title);
        assert_eq!(
            (filled.firm.as_str(), filled.drawn_by.as_str()),
            ("Another Firm", "J. S.")
        );
        assert_eq!(filled.site, title.site);
        assert_eq!(Mine::of(&mine.fill(&TitleBlock::default())), mine);
        for field in Mine::FIELDS {
            let mut title = TitleBlock::default();
            *field.slot(&mut title) = "x".to_owned();
            assert_ne!(Mine::of(&title), Mine::default(), "{field:?} is kept");
        }
    }
}

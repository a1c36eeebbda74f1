//! What the window remembers from one day to the next. Nothing of a job is kept here.

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
    /// How large words and buttons are; 1 is usual.
    pub size: f32,
    /// Whether the details are shown.
    pub details: bool,
    /// Whether the lists are shown.
    pub lists: bool,
    /// What lies in the middle of the window.
    pub middle: Middle,
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

/// What lies in the middle of the window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Middle {
    /// The paper that is drawn on.
    #[default]
    Paper,
    /// The paper, and the sheet beside it.
    Both,
    /// The sheet.
    Sheet,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            recent: Vec::new(),
            own: Vec::new(),
            light: Light::System,
            size: 1.0,
            details: true,
            lists: true,
            middle: Middle::Paper,
            paper: Paper::default(),
            orientation: Orientation::default(),
            contents: Contents::default(),
            points_per_mm: POINTS_PER_MM,
            welcomed: false,
        }
    }
}

impl Middle {
    /// What comes next when somebody asks for the sheet.
    pub const fn next(self) -> Middle {
        match self {
            Middle::Paper => Middle::Both,
            Middle::Both => Middle::Sheet,
            Middle::Sheet => Middle::Paper,
        }
    }
}

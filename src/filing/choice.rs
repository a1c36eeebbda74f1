//! What can be chosen about the files in which sheets are handed over.

use super::lists;
use crate::export::packet::Format;
use crate::export::svg::TextStyle;
use std::ffi::{OsStr, OsString};

/// What is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    #[default]
    /// One PDF with all sheets.
    Pdf,
    /// An SVG for each sheet.
    Svg,
    /// A PNG for each sheet.
    Png,
    /// A DXF for each sheet.
    Dxf,
    /// The lists of the work for a spreadsheet, not the sheets.
    Csv,
}

/// Lettering of the SVG.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Letters {
    #[default]
    /// As outlines.
    Outlines,
    /// As text that can be edited.
    Live,
}

/// How the sheet is handed over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// What is written.
    pub kind: Kind,
    /// How the SVG is lettered.
    pub letters: Letters,
    /// Whether the first sheet's SVG carries the job inside.
    pub job_inside: bool,
    /// How fine the PNG is, dots per inch.
    pub dpi: f64,
}

impl Default for Choice {
    fn default() -> Choice {
        Choice {
            kind: Kind::default(),
            letters: Letters::default(),
            job_inside: true,
            dpi: 200.0,
        }
    }
}

impl Choice {
    /// In what format the sheets are written; `None` where lists are.
    pub const fn format(self) -> Option<Format> {
        Some(match (self.kind, self.letters) {
            (Kind::Pdf, _) => Format::Pdf,
            (Kind::Svg, Letters::Outlines) => Format::Svg(TextStyle::Outlines),
            (Kind::Svg, Letters::Live) => Format::Svg(TextStyle::Live),
            (Kind::Png, _) => Format::Png(self.dpi),
            (Kind::Dxf, _) => Format::Dxf,
            (Kind::Csv, _) => return None,
        })
    }

    /// The ending of the files.
    pub const fn ending(self) -> &'static str {
        match self.format() {
            Some(format) => format.ending(),
            None => "csv",
        }
    }

    /// The names of the files for so many sheets.
    pub fn names(self, stem: &OsStr, sheets: usize) -> Vec<OsString> {
        match self.format() {
            Some(format) => format.names(stem, sheets),
            None => lists::names(stem),
        }
    }

    /// Whether the first file that is written carries the job inside.
    pub const fn carries(self) -> bool {
        match self.kind {
            Kind::Svg => self.job_inside,
            Kind::Pdf | Kind::Png | Kind::Dxf | Kind::Csv => false,
        }
    }
}

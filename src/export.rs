//! Where a scene goes: one file per format, each one exhaustive match over the three kinds of item.
//!
//! Exports take finished scenes and decide nothing about their looks. They return text or bytes; files are written by
//! the floors above. They read no clock and no font but the bundled one, so that equal scenes give equal bytes. Knows
//! no pipes.

pub mod csv;
pub mod dxf;
pub mod packet;
pub mod pdf;
pub mod png;
pub mod svg;

use std::fmt;

/// Why a scene could not be written.
#[derive(Clone, Debug, PartialEq)]
pub enum ExportError {
    /// A PDF needs at least one page.
    NoSheet,
    /// A PDF page is limited to 200 in (PDF 1.7, ISO 32000-1 annex C).
    SheetTooLarge {
        /// Width of the sheet in mm.
        width: f64,
        /// Height of the sheet in mm.
        height: f64,
    },
    /// The resolution is not one that a picture can have.
    Resolution(f64),
    /// The picture would take too much memory.
    PictureTooLarge {
        /// How large it would be.
        megapixels: f64,
        /// How large it may be.
        limit: f64,
    },
    /// The format's own library refused.
    Refused {
        /// Which format.
        format: &'static str,
        /// What the library said.
        reason: String,
    },
}

impl ExportError {
    /// What is wrong.
    pub fn what(&self) -> String {
        match self {
            ExportError::NoSheet => "there is no sheet to export".to_owned(),
            ExportError::SheetTooLarge { width, height } => {
                format!("a sheet of {width:.0} × {height:.0} mm is too large for PDF, which ends at 5080 mm")
            }
            ExportError::Resolution(dpi) => format!("{dpi} dots per inch cannot be drawn"),
            ExportError::PictureTooLarge { megapixels, limit } => {
                format!("the picture would have {megapixels:.0} million pixels, more than {limit:.0}")
            }
            ExportError::Refused { format, reason } => format!("the {format} could not be written ({reason})"),
        }
    }

    /// What to do about it.
    pub const fn remedy(&self) -> &'static str {
        match self {
            ExportError::NoSheet => "give at least one",
            ExportError::SheetTooLarge { .. } => "choose a smaller paper",
            ExportError::Resolution(_) => "choose between 10 and 2400",
            ExportError::PictureTooLarge { .. } => "choose fewer dots per inch or write PDF",
            ExportError::Refused { .. } => "write another format and report the job that shows it",
        }
    }
}

impl fmt::Display for ExportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.what(), self.remedy())
    }
}

impl std::error::Error for ExportError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_error_says_what_happened_and_what_to_do() {
        let error = ExportError::PictureTooLarge {
            megapixels: 267.4,
            limit: 100.0,
        };
        assert_eq!(
            error.to_string(),
            "the picture would have 267 million pixels, more than 100: choose fewer dots per inch or write PDF"
        );
    }
}

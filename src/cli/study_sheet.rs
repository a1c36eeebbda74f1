//! Sheets of a study, beside what a command prints.

use super::input::Studied;
use super::output::{self, Over};
use crate::codebook::Codebook;
use crate::export::packet::Format;
use crate::export::pdf::PdfInfo;
use crate::export::svg::TextStyle;
use crate::sheet::{Matter, Orientation, Paper, compose_about};
use clap::Args;
use std::path::{Path, PathBuf};

/// Dots per inch of a PNG.
const DPI: f64 = 150.0;

/// Where to.
#[derive(Args)]
pub struct SheetArguments {
    /// Draw a sheet of it too (ANSI B), as the ending says: .svg, .pdf, .png or .dxf
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// Write the sheet over a file that this program did not write
    #[arg(long, requires = "sheet")]
    force: bool,
}

impl SheetArguments {
    /// Writes the sheets about a matter of a job, where they are asked for.
    ///
    /// # Errors
    /// When the ending is none of the four, or a file cannot be written.
    pub fn write(&self, book: &Codebook, own: &Path, studied: &Studied, matter: Matter<'_>) -> Result<(), String> {
        let Some(path) = &self.sheet else { return Ok(()) };
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
        let format = match ending.to_ascii_lowercase().as_str() {
            "svg" => Format::Svg(TextStyle::Outlines),
            "pdf" => Format::Pdf,
            "png" => Format::Png(DPI),
            "dxf" => Format::Dxf,
            _ => {
                return Err(format!(
                    "{}: the name must end in .svg, .pdf, .png or .dxf",
                    path.display()
                ));
            }
        };
        let Studied { job, checked, .. } = studied;
        let packet = compose_about(job, checked, book, Paper::AnsiB, Orientation::Landscape, matter);
        let info = PdfInfo {
            title: job.title.job.clone(),
            author: job.title.drawn_by.clone(),
            subject: "Study of gas piping".to_owned(),
            keywords: Vec::new(),
        };
        let stem = path.file_stem().unwrap_or_default();
        for (name, bytes) in format.files(stem, &packet.sheets, &info, None) {
            let to = path.with_file_name(name);
            let bytes = bytes.map_err(|error| error.to_string())?;
            let over = Over {
                read: &[own.to_owned()],
                force: self.force,
            };
            output::write(&to, &bytes, over)?;
        }
        Ok(())
    }
}

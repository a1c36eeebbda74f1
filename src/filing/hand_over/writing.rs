//! The files of the sheets as they are written, and the word of what was.

use crate::codebook::Codebook;
use crate::disk::{self, Trouble};
use crate::export::ExportError;
use crate::export::pdf::PdfInfo;
use crate::file;
use crate::filing::choice::Choice;
use crate::filing::{lists, outside, question};
use crate::look;
use crate::view::sheet_view::Composed;
use egui::{RichText, ScrollArea, Ui};
use std::ffi::OsStr;
use std::path::PathBuf;

/// What is being done, for words of trouble.
pub const TASK: &str = "Export sheets";

/// What was written, with sizes in bytes, and what then went wrong.
#[derive(Debug, Default)]
pub struct Done {
    /// Each file with its size.
    pub written: Vec<(PathBuf, usize)>,
    /// What did not go.
    pub trouble: Option<Trouble>,
    /// Why what was written could not be opened.
    pub unopened: Option<String>,
}

/// Makes and writes the files, up to the first that does not go.
pub fn write(composed: &Composed, book: &Codebook, choice: Choice, stem: &OsStr, targets: &[PathBuf]) -> Done {
    let title = &composed.job.title;
    let info = PdfInfo {
        title: title.job.clone(),
        author: title.drawn_by.clone(),
        subject: "Gas piping isometric".to_owned(),
        keywords: Vec::new(),
    };
    // A worksheet must not carry its answers.
    let carried = (choice.carries() && !composed.is_for_class()).then(|| file::element(&composed.job));
    let sheets = &composed.packet.sheets;
    let files: Box<dyn Iterator<Item = Result<Vec<u8>, ExportError>>> = match choice.format() {
        Some(format) => Box::new(format.files(stem, sheets, &info, carried.as_deref()).map(|file| file.1)),
        None => Box::new(
            lists::files(&composed.job, &composed.checked.study, book)
                .into_iter()
                .map(Ok),
        ),
    };
    let mut done = Done::default();
    for (bytes, path) in files.zip(targets) {
        let written = match bytes {
            Ok(bytes) => disk::write(path, &bytes)
                .map(|()| bytes.len())
                .map_err(|error| Trouble::of(TASK, path, &error)),
            Err(error) => Err(Trouble::new(TASK, path, error.what(), error.remedy())),
        };
        match written {
            Ok(bytes) => done.written.push((path.clone(), bytes)),
            Err(trouble) => {
                done.trouble = Some(trouble);
                break;
            }
        }
    }
    done
}

/// The heading over it.
pub const fn heading(done: &Done) -> &'static str {
    match (&done.trouble, done.written.is_empty()) {
        (None, _) => "Sheets exported",
        (Some(_), true) => "Can't export the sheets",
        (Some(_), false) => "Only some sheets were exported",
    }
}

/// Says what was written; gives whether that has been read.
pub fn report(ui: &mut Ui, done: &mut Done) -> bool {
    ScrollArea::vertical().max_height(300.0).show(ui, |ui| {
        for (path, bytes) in &done.written {
            ui.label(format!("Written: {} ({})", path.display(), size(*bytes)));
        }
    });
    if let Some(trouble) = &done.trouble {
        let words = format!("Not written: {}. {}", trouble.path.display(), trouble.words());
        ui.label(RichText::new(words).color(look::warning(ui.visuals().dark_mode)));
    }
    if let Some(words) = &done.unopened {
        ui.label(RichText::new(words).color(look::warning(ui.visuals().dark_mode)));
    }
    let Some((file, _)) = done.written.first().cloned() else {
        return question::answers(ui, ["Close"]).is_some();
    };
    let answer = question::answers(ui, ["Close", "Open", "Open folder"]);
    let opened = match answer {
        Some(1) => outside::open(&file),
        Some(2) => outside::open(file.parent().unwrap_or(&file)),
        _ => Ok(()),
    };
    done.unopened = opened.err().or(done.unopened.take());
    answer == Some(0)
}

/// A size as people read it.
fn size(bytes: usize) -> String {
    match bytes {
        0..=999 => format!("{bytes} bytes"),
        1_000..=999_999 => format!("{} kB", bytes.div_ceil(1_000)),
        _ => format!("{:.1} MB", bytes as f64 / 1e6),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_read() {
        assert_eq!(
            (size(12), size(1_001), size(2_340_000)),
            ("12 bytes".into(), "2 kB".into(), "2.3 MB".into())
        );
    }
}

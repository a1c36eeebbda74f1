//! The sheets of one job as files: what they are called, and their bytes one after the other.
//!
//! Names only: where the files lie is the matter of the floors above.

use super::pdf::PdfInfo;
use super::svg::TextStyle;
use super::{ExportError, dxf, pdf, png, svg};
use crate::scene::Scene;
use std::ffi::{OsStr, OsString};

/// A format, with what can be chosen about it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Format {
    /// One SVG for each sheet.
    Svg(TextStyle),
    /// One PDF with a page for each sheet.
    Pdf,
    /// One PNG for each sheet, at so many dots per inch.
    Png(f64),
    /// One DXF for each sheet.
    Dxf,
}

impl Format {
    /// The ending of its files.
    pub const fn ending(self) -> &'static str {
        match self {
            Format::Svg(_) => "svg",
            Format::Pdf => "pdf",
            Format::Png(_) => "png",
            Format::Dxf => "dxf",
        }
    }

    /// Whether each sheet is a file of its own.
    pub const fn is_by_sheet(self) -> bool {
        match self {
            Format::Svg(_) | Format::Png(_) | Format::Dxf => true,
            Format::Pdf => false,
        }
    }

    /// The names of the files for so many sheets. Several files of one job are numbered from 1.
    pub fn names(self, stem: &OsStr, sheets: usize) -> Vec<OsString> {
        let files = if self.is_by_sheet() { sheets } else { 1 };
        let name = |number: Option<usize>| {
            let mut name = stem.to_os_string();
            if let Some(number) = number {
                name.push(format!("-{number}"));
            }
            name.push(".");
            name.push(self.ending());
            name
        };
        (0..files).map(|at| name((files > 1).then_some(at + 1))).collect()
    }

    /// The files of a packet under their names, each made when it is asked for, and marked as made here ([`is_ours`]).
    /// `metadata` is an element of XML that goes unseen into the SVG of the first sheet.
    pub fn files<'a>(
        self,
        stem: &OsStr,
        sheets: &'a [Scene],
        info: &'a PdfInfo,
        metadata: Option<&'a str>,
    ) -> impl Iterator<Item = (OsString, Result<Vec<u8>, ExportError>)> + use<'a> {
        let names = self.names(stem, sheets.len());
        names.into_iter().enumerate().map(move |(at, name)| {
            let sheet = || sheets.get(at).ok_or(ExportError::NoSheet);
            let bytes = match self {
                Format::Svg(text) => {
                    let metadata = metadata.filter(|_| at == 0).unwrap_or(MARK_OF_SVG);
                    sheet().map(|sheet| svg::write_with(sheet, text, Some(metadata)).into_bytes())
                }
                Format::Png(dpi) => {
                    let picture = sheet().and_then(|sheet| png::write(sheet, dpi));
                    picture.map(|picture| png::with_text(picture, SOFTWARE, MARK))
                }
                // The group code 999 is a comment of DXF.
                Format::Dxf => sheet().map(|sheet| [b"999\n", MARK.as_bytes(), b"\n", &dxf::write(sheet)].concat()),
                Format::Pdf => pdf::write(sheets, info),
            };
            (name, bytes)
        })
    }
}

/// By what files are told to be ours: the creator of a PDF, a comment of a DXF, the software of a PNG (a keyword of PNG
/// 3rd ed., 11.3.3.1).
const MARK: &str = "Stubout";
const SOFTWARE: &str = "Software";
/// The same in an SVG that carries no job; one that does has the same name space.
const MARK_OF_SVG: &str = "<stubout-sheet xmlns=\"urn:stubout:job\"/>";
const NAME_SPACE: &[u8] = b"urn:stubout:job";

/// Whether a sheet was made by this program, as far as can be told from its bytes.
pub fn is_ours(bytes: &[u8]) -> bool {
    let holds = |part: &[u8], within: &[u8]| part.windows(within.len()).any(|window| window == within);
    let head = &bytes[..bytes.len().min(400)];
    match bytes {
        [b'%', b'P', b'D', b'F', ..] => holds(bytes, b"(Stubout)"),
        [0x89, b'P', b'N', b'G', ..] => holds(head, MARK.as_bytes()),
        [b'9', b'9', b'9', ..] => holds(head, MARK.as_bytes()),
        _ => holds(head, b"<svg") && holds(bytes, NAME_SPACE),
    }
}

/// The most characters of a name made of words.
const LONGEST: usize = 60;

/// Words as the name of a file that every system takes, without an ending; `None` when nothing of them can stay.
pub fn stem(words: &str) -> Option<String> {
    let mut name = String::new();
    for symbol in words.chars() {
        let keeps = symbol.is_alphanumeric() || matches!(symbol, '-' | '_' | '(' | ')' | '+' | ',');
        // A point within a name is kept, so that "1.2" stays readable; at its ends it would hide the file.
        let symbol = if keeps || symbol == '.' && !name.is_empty() {
            symbol
        } else {
            ' '
        };
        if symbol != ' ' || !name.is_empty() && !name.ends_with(' ') {
            name.push(symbol);
        }
    }
    let name: String = name.chars().take(LONGEST).collect();
    let name = name.trim_matches([' ', '.']);
    let taken = ["con", "prn", "aux", "nul"].contains(&name.to_lowercase().as_str());
    match name {
        "" => None,
        name if taken => Some(format!("{name} job")),
        name => Some(name.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Ink, Outline, PathItem, Point, Rect};

    fn sheets(count: usize) -> Vec<Scene> {
        let mut sheet = Scene::new(20.0, 10.0, "sheet");
        let square = Outline::rect(Rect::sized(Point::new(1.0, 1.0), 5.0, 5.0));
        sheet.push(PathItem::filled(square, Ink::Black));
        vec![sheet; count]
    }

    #[track_caller]
    fn check(format: Format, count: usize, expected: &[&str]) {
        let info = PdfInfo::default();
        let sheets = sheets(count);
        let files: Vec<_> = format
            .files(
                OsStr::new("patio.v2"),
                &sheets,
                &info,
                Some("<unseen xmlns=\"urn:stubout:job\"/>"),
            )
            .collect();
        let names: Vec<&OsStr> = files.iter().map(|(name, _)| name.as_os_str()).collect();
        assert_eq!(names, expected);
        assert_eq!(format.names(OsStr::new("patio.v2"), count), expected);
        assert!(
            files
                .iter()
                .all(|(_, bytes)| bytes.as_ref().is_ok_and(|bytes| bytes.len() > 50))
        );
        let are_ours = files
            .iter()
            .all(|(_, bytes)| bytes.as_ref().is_ok_and(|bytes| is_ours(bytes)));
        assert!(are_ours, "{format:?}");
        let carry = files.iter().map(|(_, bytes)| {
            let bytes = bytes.as_deref().unwrap_or_default();
            String::from_utf8_lossy(bytes).contains("<metadata>\n<unseen xmlns=\"urn:stubout:job\"/>\n</metadata>")
        });
        let carrying: Vec<usize> = carry
            .enumerate()
            .filter(|(_, carries)| *carries)
            .map(|(at, _)| at)
            .collect();
        let first: &[usize] = match format {
            Format::Svg(_) => &[0],
            Format::Pdf | Format::Png(_) | Format::Dxf => &[],
        };
        assert_eq!(carrying, first, "only the first SVG carries the metadata");
    }

    #[test]
    fn several_files_of_one_job_are_numbered() {
        check(Format::Svg(TextStyle::Outlines), 1, &["patio.v2.svg"]);
        check(Format::Svg(TextStyle::Live), 2, &["patio.v2-1.svg", "patio.v2-2.svg"]);
        check(Format::Png(50.0), 2, &["patio.v2-1.png", "patio.v2-2.png"]);
        check(Format::Dxf, 2, &["patio.v2-1.dxf", "patio.v2-2.dxf"]);
        check(Format::Pdf, 2, &["patio.v2.pdf"]);
    }

    #[test]
    fn what_others_made_is_not_ours() {
        for other in [
            b"".as_slice(),
            b"Stubout",
            b"<svg><title>Stubout</title></svg>",
            b"%PDF-1.7 (Stubb)",
            b"\x89PNG\r\n\x1a\nIHDR",
            b"  0\nSECTION\n",
            b"(version: 1, notes: \"urn:stubout:job\")",
        ] {
            assert!(!is_ours(other), "{}", String::from_utf8_lossy(other));
        }
    }

    #[test]
    fn words_become_a_name_that_every_system_takes() {
        for (words, expected) in [
            ("Patio kitchen, Hollow Lane 12", Some("Patio kitchen, Hollow Lane 12")),
            ("a/b\\c:d*e?\"f<g>|h", Some("a b c d e f g h")),
            ("  ..hidden.  ", Some("hidden")),
            ("Küche 1.2", Some("Küche 1.2")),
            ("", None),
            ("///", None),
            ("\u{202e}\n", None),
            ("CON", Some("CON job")),
        ] {
            assert_eq!(stem(words).as_deref(), expected, "{words:?}");
        }
        assert_eq!(stem(&"ä".repeat(500)).map(|name| name.chars().count()), Some(LONGEST));
    }
}

//! The plain text of our fact files: a head of `key<TAB>value` lines, a blank line, a header and rows of cells.
//!
//! The last column is `mark`: one letter for the whole row, or one letter for each figure of it. A `-` is a cell that
//! nobody published. Every fault names its file, line and cell. [`own`] reads the same text as a person wrote it.

mod own;

use super::asset::Asset;
use super::{CodebookError, Mark, Marked, Source};
use crate::units::{Length, Parse, UnitError};

/// A fact file, split into its cells.
pub(super) struct Sheet<'a> {
    file: &'a str,
    head: Vec<(usize, &'a str, &'a str)>,
    /// The line of the header.
    header: usize,
    columns: Vec<&'a str>,
    rows: Vec<(usize, Vec<&'a str>)>,
    /// Whether a person wrote it, who can mend it.
    is_own: bool,
}

/// A row of a file that is part of the program.
pub(super) type Record<'s> = Line<'s, 'static>;

/// A row of a fact file.
#[derive(Clone, Copy)]
pub(super) struct Line<'s, 'a> {
    sheet: &'s Sheet<'a>,
    line: usize,
    cells: &'s [&'a str],
}

impl Sheet<'static> {
    /// Splits a file of figures that is part of the program: it must say where they were read.
    pub(super) fn of_figures(asset: Asset) -> Result<Sheet<'static>, CodebookError> {
        let sheet = Sheet::read(asset)?;
        sheet.source()?;
        Ok(sheet)
    }

    /// Splits a file that is part of the program.
    pub(super) fn read(asset: Asset) -> Result<Sheet<'static>, CodebookError> {
        let mut sheet = Sheet::named(asset.file, false);
        let mut lines = asset.text.lines().enumerate().map(|(at, line)| (at + 1, line));
        for (line, text) in lines.by_ref().take_while(|(_, text)| !text.is_empty()) {
            let (key, value) = text
                .split_once('\t')
                .ok_or_else(|| sheet.fault(line, 1, "a head line without a tab"))?;
            sheet.head.push((line, key, value));
        }
        if let Some((line, header)) = lines.next() {
            (sheet.header, sheet.columns) = (line, header.split('\t').collect());
        }
        for (line, text) in lines {
            let cells: Vec<_> = text.split('\t').collect();
            if cells.len() != sheet.columns.len() {
                return Err(sheet.fault(line, cells.len(), "not as many cells as the header"));
            }
            sheet.rows.push((line, cells));
        }
        Ok(sheet)
    }
}

impl<'a> Sheet<'a> {
    fn named(file: &'a str, is_own: bool) -> Sheet<'a> {
        Sheet {
            file,
            head: Vec::new(),
            header: 1,
            columns: Vec::new(),
            rows: Vec::new(),
            is_own,
        }
    }

    /// A fault at a line and cell.
    pub(super) fn fault(&self, line: usize, column: usize, what: impl Into<String>) -> CodebookError {
        self.mendable(line, column, what, "write it as in the example that README.md names")
    }

    /// A fault at a line and cell, with what whoever wrote the file can do.
    pub(super) fn mendable(
        &self,
        line: usize,
        column: usize,
        what: impl Into<String>,
        remedy: impl Into<String>,
    ) -> CodebookError {
        CodebookError {
            file: self.file.to_owned(),
            line,
            column,
            what: what.into(),
            remedy: match self.is_own {
                true => remedy.into(),
                false => "the file is part of the program: report it".to_owned(),
            },
        }
    }

    /// What is wrong with a quantity at a line and cell.
    fn unreadable(&self, line: usize, column: usize, error: &UnitError) -> CodebookError {
        let what = format!("`{}` is not {}: {}", error.text, error.wanted, error.reason);
        self.mendable(line, column, what, format!("write it like {}", error.examples))
    }

    /// A quantity at a line and cell.
    pub(super) fn quantity<T: Parse>(&self, line: usize, column: usize, text: &str) -> Result<T, CodebookError> {
        T::parse(text).map_err(|error| self.unreadable(line, column, &error))
    }

    /// Whether a person wrote it.
    pub(super) fn is_own(&self) -> bool {
        self.is_own
    }

    /// The line of the header.
    pub(super) fn header(&self) -> usize {
        self.header
    }

    /// What stands over the first column.
    pub(super) fn first_column(&self) -> &'a str {
        self.columns.first().copied().unwrap_or_default()
    }

    /// The line and value of a key of the head.
    pub(super) fn entry(&self, key: &str) -> Option<(usize, &'a str)> {
        self.head
            .iter()
            .find(|entry| entry.1 == key)
            .map(|entry| (entry.0, entry.2))
    }

    /// The line and value of a key that the head must have.
    pub(super) fn required(&self, key: &str) -> Result<(usize, &'a str), CodebookError> {
        self.entry(key).ok_or_else(|| {
            let remedy = format!("add a line before the empty one: {key}, a tab, and what it is");
            self.mendable(1, 1, format!("no `{key}` in the head"), remedy)
        })
    }

    /// All values of a key of the head.
    pub(super) fn all(&self, key: &str) -> Vec<&'a str> {
        let entries = self.head.iter();
        entries.filter(|entry| entry.1 == key).map(|entry| entry.2).collect()
    }

    /// Where the figures come from.
    pub(super) fn source(&self) -> Result<Source<&'a str>, CodebookError> {
        let detail = match self.is_own {
            true => self.entry("detail").map_or("", |entry| entry.1),
            false => self.required("detail")?.1,
        };
        Ok(Source {
            document: self.required("document")?.1,
            detail,
        })
    }

    /// The columns, the first and the mark left out.
    pub(super) fn figures(&self) -> &[&'a str] {
        let marks = usize::from(!self.is_own || self.columns.last() == Some(&"mark"));
        let end = self.columns.len().saturating_sub(marks).max(1);
        self.columns.get(1..end).unwrap_or_default()
    }

    pub(super) fn records(&self) -> impl Iterator<Item = Line<'_, 'a>> {
        self.rows.iter().map(|(line, cells)| Line {
            sheet: self,
            line: *line,
            cells,
        })
    }
}

impl<'a> Line<'_, 'a> {
    /// A fault of the row, at its first cell.
    pub(super) fn fault(&self, what: impl Into<String>) -> CodebookError {
        self.sheet.fault(self.line, 1, what)
    }

    /// A fault of a cell, by its place from 0, with what whoever wrote the file can do.
    pub(super) fn mendable(&self, place: usize, what: String, remedy: &str) -> CodebookError {
        self.sheet.mendable(self.line, place + 1, what, remedy)
    }

    fn place(&self, column: &str) -> Result<usize, CodebookError> {
        let mut columns = self.sheet.columns.iter();
        columns
            .position(|name| *name == column)
            .ok_or_else(|| self.fault(format!("no column `{column}`")))
    }

    /// The text of a cell.
    pub(super) fn text(&self, column: &str) -> Result<&'a str, CodebookError> {
        Ok(self.cells[self.place(column)?])
    }

    /// A quantity.
    pub(super) fn typed<T: Parse>(&self, column: &str) -> Result<T, CodebookError> {
        let place = self.place(column)?;
        self.sheet.quantity(self.line, place + 1, self.cells[place])
    }

    /// A number.
    pub(super) fn number(&self, column: &str) -> Result<f64, CodebookError> {
        self.number_at(self.place(column)?)
    }

    /// A number with its mark; `None` for a `-`.
    pub(super) fn figure(&self, column: &str) -> Result<Option<Marked<f64>>, CodebookError> {
        let place = self.place(column)?;
        match self.cells[place] {
            "-" => Ok(None),
            _ => Ok(Some(Marked::new(self.number_at(place)?, self.mark_at(place)?))),
        }
    }

    /// A number that must be there, with its mark.
    pub(super) fn known(&self, column: &str) -> Result<Marked<f64>, CodebookError> {
        self.figure(column)?
            .ok_or_else(|| self.fault(format!("no figure for `{column}`")))
    }

    /// The one mark of a row.
    pub(super) fn mark(&self) -> Result<Mark, CodebookError> {
        self.mark_at(1)
    }

    /// The length at the head of a row: in feet under `length_ft`, in meters under `length_m`.
    pub(super) fn length(&self) -> Result<Length, CodebookError> {
        let number = self.number_at(0)?;
        match self.sheet.first_column() {
            "length_ft" => Ok(Length::from_feet(number)),
            "length_m" => Ok(Length::from_metres(number)),
            other => {
                let what = format!("`{other}` is not a unit of length");
                Err(self
                    .sheet
                    .mendable(self.sheet.header, 1, what, "write length_ft or length_m"))
            }
        }
    }

    /// The number in a cell.
    pub(super) fn number_at(&self, place: usize) -> Result<f64, CodebookError> {
        let text = self.cells[place];
        match text.parse() {
            Ok(number) if f64::is_finite(number) => Ok(number),
            _ => {
                let remedy = "write it with figures and a point alone, like 1390 or 12.5; NA where none is printed";
                Err(self.mendable(place, format!("`{text}` is not a number"), remedy))
            }
        }
    }

    /// The text at the head of the row.
    pub(super) fn head(&self) -> &'a str {
        self.cells[0]
    }

    /// The text of the cell of a figure, by its place among [`Sheet::figures`].
    pub(super) fn printed(&self, figure: usize) -> &'a str {
        self.cells[figure + 1]
    }

    /// The number and mark of a figure, by its place among [`Sheet::figures`].
    pub(super) fn printed_figure(&self, figure: usize) -> Result<Marked<f64>, CodebookError> {
        Ok(Marked::new(self.number_at(figure + 1)?, self.mark_at(figure + 1)?))
    }

    fn mark_at(&self, place: usize) -> Result<Mark, CodebookError> {
        if self.sheet.is_own && self.sheet.columns.last() != Some(&"mark") {
            return Ok(Mark::Local);
        }
        let marks = self.text("mark")?;
        let letter = match marks.len() {
            1 => marks.chars().next(),
            _ => marks.chars().nth(place.saturating_sub(1)),
        };
        letter.and_then(Mark::from_letter).ok_or_else(|| {
            let remedy =
                "write one of F, C, D, M, L for the row, or one for each figure of it, or leave the column out";
            let what = format!("`{marks}` has no mark for cell {}", place + 1);
            self.mendable(0, what, remedy)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &'static str) -> Result<Sheet<'static>, CodebookError> {
        Sheet::read(Asset {
            file: "sample.tsv",
            text,
        })
    }

    const SAMPLE: &str = "document\ta book\n\nsize\ta\tb\tmark\n1/2\t7\t-\tF-\n3/4\t8\tx\tFM\n";

    #[test]
    fn each_figure_has_its_own_mark_and_a_dash_is_no_figure() {
        let sheet = read(SAMPLE).unwrap();
        let first = sheet.records().next().unwrap();
        assert_eq!(first.figure("a").unwrap(), Some(Marked::new(7.0, Mark::Found)));
        assert_eq!(first.figure("b").unwrap(), None);
        assert_eq!(sheet.figures(), ["a", "b"]);
    }

    #[track_caller]
    fn check(text: &'static str, expected: &str) {
        let fault = read(text).and_then(|sheet| {
            for record in sheet.records() {
                record.figure("a")?;
                record.figure("b")?;
            }
            sheet.source()
        });
        assert_eq!(fault.unwrap_err().to_string(), expected);
    }

    #[test]
    fn a_fault_names_its_line_and_cell() {
        check(
            SAMPLE,
            "sample.tsv, line 5, column 3: `x` is not a number; the file is part of the program: report it",
        );
        check(
            "document\ta book\n\nsize\ta\tb\tmark\n1/2\t7\t8\n",
            "sample.tsv, line 4, column 3: not as many cells as the header; the file is part of the program: report it",
        );
        check(
            "document\ta book\n\nsize\ta\tb\tmark\n1/2\t7\t8\tQ\n",
            "sample.tsv, line 4, column 1: `Q` has no mark for cell 2; the file is part of the program: report it",
        );
        check(
            "document\ta book\n",
            "sample.tsv, line 1, column 1: no `detail` in the head; the file is part of the program: report it",
        );
        check(
            "document",
            "sample.tsv, line 1, column 1: a head line without a tab; the file is part of the program: report it",
        );
    }
}

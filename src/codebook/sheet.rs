//! The plain text of our fact files: a head of `key<TAB>value` lines, a blank line, a header and rows of cells.
//!
//! The last column is `mark`: one letter for the whole row, or one letter for each figure of it. A `-` is a cell that
//! nobody published. Every fault names its file, line and cell.

use super::assets::Asset;
use super::{CodebookError, Mark, Marked, Source};
use crate::units::Parse;

/// A fact file, split into its cells.
pub(super) struct Sheet {
    file: &'static str,
    head: Vec<(usize, &'static str, &'static str)>,
    columns: Vec<&'static str>,
    rows: Vec<(usize, Vec<&'static str>)>,
}

/// A row of a fact file.
#[derive(Clone, Copy)]
pub(super) struct Record<'a> {
    sheet: &'a Sheet,
    line: usize,
    cells: &'a [&'static str],
}

impl Sheet {
    pub(super) fn read(asset: Asset) -> Result<Sheet, CodebookError> {
        let mut sheet = Sheet {
            file: asset.file,
            head: Vec::new(),
            columns: Vec::new(),
            rows: Vec::new(),
        };
        let mut lines = asset.text.lines().enumerate().map(|(at, line)| (at + 1, line));
        for (line, text) in lines.by_ref().take_while(|(_, text)| !text.is_empty()) {
            let (key, value) = text
                .split_once('\t')
                .ok_or_else(|| sheet.fault(line, 1, "a head line without a tab"))?;
            sheet.head.push((line, key, value));
        }
        if let Some((_, header)) = lines.next() {
            sheet.columns = header.split('\t').collect();
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

    /// A fault at a line and cell.
    pub(super) fn fault(&self, line: usize, column: usize, what: impl Into<String>) -> CodebookError {
        CodebookError {
            file: self.file.to_owned(),
            line,
            column,
            what: what.into(),
            remedy: "the file is part of the program: report it".to_owned(),
        }
    }

    /// The line and value of a key of the head.
    pub(super) fn entry(&self, key: &str) -> Option<(usize, &'static str)> {
        self.head
            .iter()
            .find(|entry| entry.1 == key)
            .map(|entry| (entry.0, entry.2))
    }

    /// The line and value of a key that the head must have.
    pub(super) fn required(&self, key: &str) -> Result<(usize, &'static str), CodebookError> {
        self.entry(key)
            .ok_or_else(|| self.fault(1, 1, format!("no `{key}` in the head")))
    }

    /// All values of a key of the head.
    pub(super) fn all(&self, key: &str) -> Vec<&'static str> {
        let entries = self.head.iter();
        entries.filter(|entry| entry.1 == key).map(|entry| entry.2).collect()
    }

    /// Where the figures come from.
    pub(super) fn source(&self) -> Result<Source, CodebookError> {
        Ok(Source {
            document: self.required("document")?.1,
            detail: self.required("detail")?.1,
        })
    }

    /// The columns, the first and the mark left out.
    pub(super) fn figures(&self) -> &[&'static str] {
        let end = self.columns.len().saturating_sub(1).max(1);
        self.columns.get(1..end).unwrap_or_default()
    }

    pub(super) fn records(&self) -> impl Iterator<Item = Record<'_>> {
        self.rows.iter().map(|(line, cells)| Record {
            sheet: self,
            line: *line,
            cells,
        })
    }
}

impl Record<'_> {
    /// A fault of the row, at its first cell.
    pub(super) fn fault(&self, what: impl Into<String>) -> CodebookError {
        self.sheet.fault(self.line, 1, what)
    }

    fn place(&self, column: &str) -> Result<usize, CodebookError> {
        let mut columns = self.sheet.columns.iter();
        columns
            .position(|name| *name == column)
            .ok_or_else(|| self.fault(format!("no column `{column}`")))
    }

    /// The text of a cell.
    pub(super) fn text(&self, column: &str) -> Result<&'static str, CodebookError> {
        Ok(self.cells[self.place(column)?])
    }

    /// A quantity.
    pub(super) fn typed<T: Parse>(&self, column: &str) -> Result<T, CodebookError> {
        let place = self.place(column)?;
        T::parse(self.cells[place]).map_err(|error| self.sheet.fault(self.line, place + 1, error.to_string()))
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

    /// The number in a cell.
    pub(super) fn number_at(&self, place: usize) -> Result<f64, CodebookError> {
        let text = self.cells[place];
        match text.parse() {
            Ok(number) if f64::is_finite(number) => Ok(number),
            _ => Err(self.sheet.fault(self.line, place + 1, format!("`{text}` is no number"))),
        }
    }

    /// The text of the cell of a figure, by its place among [`Sheet::figures`].
    pub(super) fn printed(&self, figure: usize) -> &'static str {
        self.cells[figure + 1]
    }

    /// The number and mark of a figure, by its place among [`Sheet::figures`].
    pub(super) fn printed_figure(&self, figure: usize) -> Result<Marked<f64>, CodebookError> {
        Ok(Marked::new(self.number_at(figure + 1)?, self.mark_at(figure + 1)?))
    }

    fn mark_at(&self, place: usize) -> Result<Mark, CodebookError> {
        let marks = self.text("mark")?;
        let letter = match marks.len() {
            1 => marks.chars().next(),
            _ => marks.chars().nth(place.saturating_sub(1)),
        };
        letter
            .and_then(Mark::from_letter)
            .ok_or_else(|| self.fault(format!("`{marks}` has no mark for cell {}", place + 1)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &'static str) -> Result<Sheet, CodebookError> {
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
            "sample.tsv, line 5, column 3: `x` is no number; the file is part of the program: report it",
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

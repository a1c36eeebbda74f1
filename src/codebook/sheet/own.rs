//! The same text as a person wrote it, often out of a spreadsheet.
//!
//! Lines that begin with `#` are notes, empty lines may stand anywhere, cells may be quoted and padded, and a row may end
//! in empty cells. What is far too large is refused before it is looked at.

use super::Sheet;
use crate::codebook::CodebookError;
use crate::codebook::choose::choose;

/// Bytes of the largest file that is read.
const LARGEST: usize = 1 << 20;
/// Most rows of figures.
const ROWS: usize = 2_000;
/// Most columns.
const COLUMNS: usize = 100;
/// Most letters of a line of the head: what it says is printed.
const LONGEST: usize = 500;

impl<'a> Sheet<'a> {
    /// Splits a file that a person wrote; `keys` are those that its head may have, `many` the one that may stand more than
    /// once.
    ///
    /// # Errors
    /// What is wrong, at which line and cell, and what to do.
    pub(in super::super) fn own(
        file: &'a str,
        text: &'a str,
        keys: &[&str],
        many: &str,
    ) -> Result<Sheet<'a>, CodebookError> {
        let mut sheet = Sheet::named(file, true);
        if text.len() > LARGEST {
            let what = format!("larger than {} KB: this is not a table", LARGEST >> 10);
            return Err(sheet.mendable(1, 1, what, "keep one table in a file, as text with tabs"));
        }
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut last = 1;
        for (line, text) in text.lines().enumerate().map(|(at, line)| (at + 1, line)) {
            last = line;
            let cells = cells(text);
            if cells.is_empty() || cells[0].starts_with('#') {
                continue;
            }
            if text.chars().any(|letter| letter.is_control() && letter != '\t') {
                let remedy = "save it as plain text with tabs between the cells";
                return Err(sheet.mendable(line, 1, "a character that is not text", remedy));
            }
            match (sheet.columns.is_empty(), cells[0].starts_with("length")) {
                (true, false) => sheet.take_head(line, &cells, keys, many)?,
                (true, true) => sheet.take_header(line, cells)?,
                (false, _) => sheet.take_row(line, cells)?,
            }
        }
        if sheet.columns.is_empty() {
            let remedy =
                "after the head write a line that begins with length_ft or length_m, then a size for each column";
            return Err(sheet.mendable(last, 1, "no line of sizes", remedy));
        }
        if sheet.rows.is_empty() {
            let remedy = "write a row for each length: the length, a tab, and the capacity of each size";
            return Err(sheet.mendable(sheet.header, 1, "no row of figures under the sizes", remedy));
        }
        Ok(sheet)
    }

    fn take_head(&mut self, line: usize, cells: &[&'a str], keys: &[&str], many: &str) -> Result<(), CodebookError> {
        let key = cells[0];
        if !keys.contains(&key) {
            let what = format!("`{}` is not a key of a table", shortened(key));
            let begun = |known: &&&str| {
                key.strip_prefix(**known)
                    .is_some_and(|rest| rest.starts_with([' ', ':', '=', ',']))
            };
            let remedy = match (keys.iter().find(begun), cells.len()) {
                (Some(known), _) => format!("write a tab after `{known}`"),
                (None, 3..) => "a line of sizes begins with length_ft or length_m".to_owned(),
                (None, _) => choose(key, keys),
            };
            return Err(self.mendable(line, 1, what, remedy));
        }
        let &[_, value] = cells else {
            let (what, remedy) = match cells.len() {
                1 => ("nothing after it", "write a tab and then what it is"),
                _ => ("more than one cell after it", "write it in one cell"),
            };
            return Err(self.mendable(line, cells.len(), format!("`{key}` has {what}"), remedy));
        };
        if key != many && self.entry(key).is_some() {
            return Err(self.mendable(line, 1, format!("`{key}` is given twice"), "remove one"));
        }
        if value.chars().count() > LONGEST {
            let what = format!("`{key}` is longer than {LONGEST} letters");
            return Err(self.mendable(line, 2, what, "make it shorter: it is printed on the sheet"));
        }
        self.head.push((line, key, value));
        Ok(())
    }

    fn take_header(&mut self, line: usize, cells: Vec<&'a str>) -> Result<(), CodebookError> {
        if cells.len() > COLUMNS {
            let what = format!("more than {COLUMNS} columns");
            return Err(self.mendable(line, COLUMNS + 1, what, "keep one table in a file"));
        }
        (self.header, self.columns) = (line, cells);
        if self.figures().is_empty() {
            let remedy = "write a size for each column after the length, tabs between them";
            return Err(self.mendable(line, 2, "no sizes", remedy));
        }
        Ok(())
    }

    fn take_row(&mut self, line: usize, cells: Vec<&'a str>) -> Result<(), CodebookError> {
        let wide = self.columns.len();
        if cells.len() > wide {
            let what = format!("{} cells under {wide} columns", cells.len());
            return Err(self.mendable(
                line,
                wide + 1,
                what,
                "write one figure for each size, tabs between them",
            ));
        }
        if cells.len() < wide {
            let what = format!("{} cells under {wide} columns", cells.len());
            return Err(self.mendable(
                line,
                cells.len() + 1,
                what,
                "write the printed figure, or NA where none is printed",
            ));
        }
        if let Some(empty) = (0..wide).find(|&at| cells[at].is_empty()) {
            let what = format!("nothing under `{}`", self.columns[empty]);
            return Err(self.mendable(
                line,
                empty + 1,
                what,
                "write the printed figure, or NA where none is printed",
            ));
        }
        if self.rows.len() == ROWS {
            return Err(self.mendable(line, 1, format!("more than {ROWS} rows"), "keep one table in a file"));
        }
        self.rows.push((line, cells));
        Ok(())
    }
}

/// The cells of a line, without padding, quotes and empty cells at the end.
fn cells(text: &str) -> Vec<&str> {
    let mut cells: Vec<&str> = text.split('\t').map(bare).collect();
    while cells.last().is_some_and(|cell| cell.is_empty()) {
        cells.pop();
    }
    cells
}

/// A cell without padding and without the quotes that a spreadsheet puts around it.
fn bare(cell: &str) -> &str {
    let cell = cell.trim();
    let quoted = cell.strip_prefix('"').and_then(|cell| cell.strip_suffix('"'));
    quoted.map_or(cell, str::trim)
}

/// A text short enough for a message.
fn shortened(text: &str) -> String {
    const SHOWN: usize = 40;
    match text.char_indices().nth(SHOWN) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}

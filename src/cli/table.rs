//! Plain text for a terminal: columns, and standard output that may be a closed pipe.

use super::{CLEAR, TROUBLE};
use crate::codebook::Mark;
use std::io::{ErrorKind, Write, stderr, stdout};

/// The line under everything that is printed.
pub const CAUTION: &str = "Gas work is for licensed people. Local code, the gas supplier and the manufacturers' instructions \
    govern. This is a check against the tables and rules named here; it is not an approval.";

/// What stands under a list whose figures carry marks: what they mean, and the caution.
pub fn closing() -> String {
    format!("{}\n{CAUTION}\n", Mark::EXPLAINED)
}

/// Columns of text, each as wide as its widest cell; a head beginning with `>` stands right.
pub fn columns(heads: &[&str], rows: &[Vec<String>]) -> String {
    let right: Vec<bool> = heads.iter().map(|head| head.starts_with('>')).collect();
    let heads: Vec<String> = heads
        .iter()
        .map(|head| head.trim_start_matches('>').to_owned())
        .collect();
    let widths: Vec<usize> = (0..heads.len())
        .map(|column| {
            let cells = rows.iter().filter_map(|row| row.get(column));
            cells
                .chain([&heads[column]])
                .map(|cell| cell.chars().count())
                .max()
                .unwrap_or(0)
        })
        .collect();
    let mut text = String::new();
    for row in std::iter::once(&heads).chain(rows) {
        let mut line = String::new();
        for (column, cell) in row.iter().enumerate().take(widths.len()) {
            let gap = " ".repeat(widths[column].saturating_sub(cell.chars().count()));
            let (before, after) = if right[column] {
                (gap.as_str(), "")
            } else {
                ("", gap.as_str())
            };
            line += &format!("{before}{cell}{after}  ");
        }
        text += line.trim_end();
        text.push('\n');
    }
    text
}

/// Writes to standard output; gives the exit code of that. A reader that went away is no fault.
pub fn out(text: &str) -> u8 {
    let mut to = stdout().lock();
    match to.write_all(text.as_bytes()).and_then(|()| to.flush()) {
        Ok(()) => CLEAR,
        Err(error) if error.kind() == ErrorKind::BrokenPipe => CLEAR,
        Err(error) => {
            let _ = writeln!(stderr(), "standard output can't be written: {error}");
            TROUBLE
        }
    }
}

#[cfg(test)]
mod tests {
    use super::columns;

    #[test]
    fn cells_line_up_and_numbers_stand_right() {
        let rows = vec![
            vec!["1".to_owned(), "3/4\"".to_owned()],
            vec!["120".to_owned(), "1-1/4\"".to_owned()],
        ];
        assert_eq!(
            columns(&[">cfh", "size"], &rows),
            "cfh  size\n  1  3/4\"\n120  1-1/4\"\n"
        );
    }

    #[test]
    fn a_row_with_too_many_cells_loses_them() {
        assert_eq!(columns(&["a"], &[vec!["1".to_owned(), "2".to_owned()]]), "a\n1\n");
    }
}

//! A file of answers: one line for each student, one column for each section.
//!
//! `student,1,2,3` then `A. Student,1-1/4,1,3/4`; a column `worksheet` tells which of a class set a student had. Commas or
//! semicolons; inch marks need no quotes.

use std::collections::BTreeMap;

/// The answers of one student.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Paper {
    /// The student, as typed.
    pub student: String,
    /// Which worksheet of a class set, from 1.
    pub worksheet: Option<usize>,
    /// What was answered, by the number of the section on the drawing.
    pub answers: BTreeMap<usize, String>,
}

/// What a column holds.
enum Column {
    Student,
    Worksheet,
    Section(usize),
}

/// Reads a file of answers.
///
/// # Errors
/// When the first line names no section, a column is none of these, or a line has more cells than the first: the line and
/// the remedy.
pub fn papers(text: &str) -> Result<Vec<Paper>, String> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    let Some((first, head)) = lines.next() else {
        return Err("line 1: nothing is in this file; write a first line like `student,1,2,3`".to_owned());
    };
    let comma = if head.contains(';') { ';' } else { ',' };
    let columns: Vec<Column> = cells(head, comma)
        .iter()
        .map(|name| column(name).ok_or_else(|| unknown(first, name)))
        .collect::<Result<_, _>>()?;
    if !columns.iter().any(|column| matches!(column, Column::Section(_))) {
        return Err(format!(
            "line {}: no column is for a section; write a first line like `student,1,2,3`",
            first + 1
        ));
    }
    let mut papers = Vec::new();
    for (number, line) in lines {
        let cells = cells(line, comma);
        if cells.len() > columns.len() {
            return Err(format!(
                "line {}: {} cells under {} columns; leave out what is past the last column",
                number + 1,
                cells.len(),
                columns.len()
            ));
        }
        let mut paper = Paper::default();
        for (column, cell) in columns.iter().zip(cells) {
            match column {
                Column::Student => paper.student = cell,
                Column::Worksheet if cell.is_empty() => {}
                Column::Worksheet => {
                    let worksheet = cell.parse().ok().filter(|worksheet| *worksheet > 0);
                    paper.worksheet = Some(worksheet.ok_or_else(|| {
                        format!(
                            "line {}: `{cell}` is no number of a worksheet; write 1, 2 …",
                            number + 1
                        )
                    })?);
                }
                Column::Section(section) => drop(paper.answers.insert(*section, cell)),
            }
        }
        if paper.student.is_empty() {
            paper.student = format!("line {}", number + 1);
        }
        papers.push(paper);
    }
    match papers.is_empty() {
        true => Err("no student is in this file; write a line for each under the first".to_owned()),
        false => Ok(papers),
    }
}

fn column(name: &str) -> Option<Column> {
    let name = name.to_lowercase();
    match name.as_str() {
        "student" | "name" => return Some(Column::Student),
        "worksheet" | "sheet" => return Some(Column::Worksheet),
        _ => {}
    }
    let number = name.trim_start_matches("section").trim();
    number.parse().ok().map(Column::Section)
}

fn unknown(line: usize, name: &str) -> String {
    format!(
        "line {}: `{name}` is no column; write student, worksheet or the number of a section",
        line + 1
    )
}

/// The cells of a line. Quotes count at the beginning of a cell only, so that an inch mark needs none.
fn cells(line: &str, comma: char) -> Vec<String> {
    let mut cells = Vec::new();
    let mut rest = line;
    loop {
        rest = rest.trim_start_matches([' ', '\t']);
        let (cell, after) = match rest.strip_prefix('"') {
            Some(quoted) => unquoted(quoted),
            None => {
                let end = rest.find(comma).unwrap_or(rest.len());
                (rest[..end].to_owned(), &rest[end..])
            }
        };
        cells.push(cell.trim().to_owned());
        let end = after.find(comma);
        match end {
            Some(end) => rest = &after[end + comma.len_utf8()..],
            None => return cells,
        }
    }
}

/// What stands up to the closing quote, two quotes for one, and what follows.
fn unquoted(quoted: &str) -> (String, &str) {
    let mut cell = String::new();
    let mut letters = quoted.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '"' if letters.next_if(|(_, next)| *next == '"').is_some() => cell.push('"'),
            '"' => return (cell, &quoted[at + 1..]),
            letter => cell.push(letter),
        }
    }
    (cell, "")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_read_with_and_without_quotes() {
        let text = "\u{feff}Student; worksheet; 1; section 2; 3\n\"Doe; J.\"; 4; 3/4\"; \"1-1/4\"\"\"; DN20\n\nB\n";
        let papers = papers(text).unwrap();
        assert_eq!(papers.len(), 2);
        assert_eq!((papers[0].student.as_str(), papers[0].worksheet), ("Doe; J.", Some(4)));
        let answers: Vec<&str> = papers[0].answers.values().map(String::as_str).collect();
        assert_eq!(answers, ["3/4\"", "1-1/4\"", "DN20"]);
        assert_eq!(papers[1].student, "B");
        assert!(papers[1].answers.is_empty());
    }

    #[test]
    fn a_wrong_file_is_told_with_its_line_and_the_remedy() {
        for (text, said) in [
            (
                "",
                "line 1: nothing is in this file; write a first line like `student,1,2,3`",
            ),
            (
                "student\nA",
                "line 1: no column is for a section; write a first line like `student,1,2,3`",
            ),
            (
                "student,size\n",
                "line 1: `size` is no column; write student, worksheet or the number of a section",
            ),
            (
                "student,1\nA,1,2",
                "line 2: 3 cells under 2 columns; leave out what is past the last column",
            ),
            ("sheet,1\nx,1", "line 2: `x` is no number of a worksheet; write 1, 2 …"),
            (
                "student,1\n",
                "no student is in this file; write a line for each under the first",
            ),
        ] {
            assert_eq!(papers(text).unwrap_err(), said);
        }
    }
}

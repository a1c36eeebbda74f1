//! Lists as rows of words. Knows no widgets.

use crate::editor::Part;
use crate::rules::Severity;
use crate::scene::Point;

/// A list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each with a cell for every column.
    pub rows: Vec<Row>,
    /// How many lines a row has; words that need more are cut.
    pub lines: Lines,
    /// What is said instead when there are none.
    pub empty: String,
}

/// How many lines a row has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lines {
    /// One, for figures and names.
    #[default]
    One,
    /// Two, for sentences.
    Two,
    /// As many as the longest words need, for a few rows that are compared.
    All,
}

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its head.
    pub head: String,
    /// How its cells stand.
    pub set: Set,
    /// Its part of the room that the other columns leave; 0 for as wide as its words.
    pub share: f32,
}

/// How cells stand in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Set {
    /// Words, which speak for themselves.
    Words,
    /// Figures, at the right edge; named with their head.
    Figures,
}

/// A row.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<String>,
    /// Where it leads.
    pub leads: Leads,
    /// How heavy it is.
    pub mark: Option<Severity>,
    /// What is told only when it is pointed at.
    pub aside: String,
}

/// Where a row leads.
#[derive(Clone, Debug, PartialEq)]
pub enum Leads {
    /// To the job as a whole.
    Job,
    /// To one part after the other.
    Each(Vec<Part>),
    /// To parts that are chosen together.
    Together(Vec<Part>),
    /// To a place of paper where nothing stands any more.
    Place(Point),
}

impl Column {
    /// A column of names and columns of words that share the room by what they have to say.
    pub fn shared(heads: impl IntoIterator<Item = &'static str>, rows: &[Row]) -> Vec<Column> {
        let column = |(at, head): (usize, &'static str)| match at {
            0 => Column::words(head),
            _ => {
                let cells = rows.iter().filter_map(|row| row.cells.get(at));
                let longest = cells.map(|cell| cell.chars().count()).max().unwrap_or(0);
                Column::wide(head, (longest as f32 / 16.0).clamp(1.0, 3.0))
            }
        };
        heads.into_iter().enumerate().map(column).collect()
    }
}

impl Table {
    /// The list as lines of cells with tabs between, as a spreadsheet takes them.
    pub fn text(&self) -> String {
        let lines = self.cells().map(|cells| cells.join("\t"));
        lines.collect::<Vec<_>>().join("\n")
    }

    /// The heads, then the cells of each row.
    pub fn cells(&self) -> impl Iterator<Item = Vec<&str>> {
        let heads = self.columns.iter().map(|column| column.head.as_str()).collect();
        let rows = self.rows.iter();
        let rows = rows.map(|row| row.cells.iter().map(String::as_str).collect());
        std::iter::once(heads).chain(rows)
    }
}

impl Column {
    /// A column of words, as wide as they are.
    pub fn words(head: impl Into<String>) -> Column {
        Column::new(head, Set::Words, 0.0)
    }

    /// A column of words that takes its part of the room left.
    pub fn wide(head: impl Into<String>, share: f32) -> Column {
        Column::new(head, Set::Words, share)
    }

    /// A column of figures.
    pub fn figures(head: impl Into<String>) -> Column {
        Column::new(head, Set::Figures, 0.0)
    }

    fn new(head: impl Into<String>, set: Set, share: f32) -> Column {
        let head = head.into();
        Column { head, set, share }
    }
}

impl Row {
    /// A row that leads somewhere.
    pub fn new(cells: Vec<String>, leads: Leads) -> Row {
        Row {
            cells,
            leads,
            mark: None,
            aside: String::new(),
        }
    }

    /// The row as it is read aloud: its words, and its figures each with the head of their column.
    pub fn spoken(&self, columns: &[Column]) -> String {
        let said = columns.iter().zip(&self.cells).filter(|(_, cell)| !cell.is_empty());
        let words = said.map(|(column, cell)| match column.set {
            Set::Words => cell.clone(),
            Set::Figures => format!("{} {cell}", column.head),
        });
        words.collect::<Vec<_>>().join("; ")
    }

    /// Whether it is of one of the parts for which `chosen` says so.
    pub fn is_of(&self, chosen: impl Fn(Part) -> bool) -> bool {
        match &self.leads {
            Leads::Job | Leads::Place(_) => false,
            Leads::Each(parts) | Leads::Together(parts) => parts.iter().any(|part| chosen(*part)),
        }
    }
}

/// The part to go to next: the first, or the one after the part where one stands.
pub fn next(parts: &[Part], at: Option<Part>) -> Option<Part> {
    let stands = at.and_then(|at| parts.iter().position(|part| *part == at));
    let next = stands.map_or(0, |at| (at + 1) % parts.len());
    parts.get(next).copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::JointId;

    #[test]
    fn a_row_leads_to_one_part_after_the_other() {
        let parts = [1, 4, 7].map(|id| Part::Joint(JointId(id)));
        assert_eq!(next(&parts, None), Some(parts[0]));
        assert_eq!(next(&parts, Some(parts[0])), Some(parts[1]));
        assert_eq!(next(&parts, Some(parts[2])), Some(parts[0]));
        assert_eq!(next(&parts, Some(Part::Note(0))), Some(parts[0]));
        assert_eq!(next(&[], None), None);
    }

    #[test]
    fn a_list_is_copied_with_its_heads() {
        let table = Table {
            columns: vec![Column::words("what"), Column::figures("load, cfh")],
            rows: vec![Row::new(vec!["meter – A".to_owned(), "75".to_owned()], Leads::Job)],
            ..Table::default()
        };
        assert_eq!(table.text(), "what\tload, cfh\nmeter – A\t75");
    }

    #[test]
    fn a_row_is_read_aloud_with_the_heads_of_its_figures() {
        let columns = [
            Column::words("what"),
            Column::figures("load, cfh"),
            Column::figures("row, ft"),
        ];
        let cells = ["meter – A", "75", ""].map(str::to_owned).to_vec();
        assert_eq!(Row::new(cells, Leads::Job).spoken(&columns), "meter – A; load, cfh 75");
    }
}

//! Blocks poured into columns: whole where they fit, broken between strips where they do not.

use super::block::{Laid, Mark};
use super::strip::rule;
use super::tags::Schedule;
use crate::scene::{Affine, Group, Ink, Pen, Point, Rect};

/// A block lower than this part of a column is not broken, unless that costs a sheet.
const LOW: f64 = 0.85;
/// A block lower than this part of a column is never broken.
const LOWEST: f64 = 0.3;

/// What stands in the columns of one sheet.
#[derive(Clone, Debug, Default)]
pub struct Poured {
    /// What is drawn, on paper.
    pub ink: Group,
    /// The parts that begin here or are continued here.
    pub parts: Vec<Schedule>,
}

/// Blocks in the columns of as many sheets as they need; on a single sheet all columns end at about one height.
pub fn poured(blocks: &[Laid], columns: &[Rect]) -> Vec<Poured> {
    const STEPS: usize = 30;
    let lowest = columns
        .iter()
        .map(|column| column.height())
        .fold(f64::INFINITY, f64::min);
    let (whole, broken) = (
        pour(blocks, columns, lowest * LOW),
        pour(blocks, columns, lowest * LOWEST),
    );
    let full = if broken.len() < whole.len() { broken } else { whole };
    if full.len() != 1 || columns.len() < 2 {
        return full;
    }
    let low = lowest * LOW;
    let whole = blocks
        .iter()
        .map(Laid::height)
        .filter(|height| *height <= low)
        .fold(0.0, f64::max);
    let shortened = |step: usize| -> Vec<Rect> {
        let part = step as f64 / STEPS as f64;
        columns
            .iter()
            .map(|it| Rect::sized(it.min, it.width(), it.height() * part))
            .collect()
    };
    let steps = (STEPS / 5..STEPS).filter(|step| lowest * *step as f64 / STEPS as f64 >= whole);
    let balanced = steps.map(|step| {
        let columns = shortened(step);
        (pour(blocks, &columns, low), columns)
    });
    // A strip higher than its column is drawn all the same, so the room is looked at too.
    let fits = |(sheets, columns): &(Vec<Poured>, Vec<Rect>)| {
        let foot = columns.iter().map(|column| column.max.y).fold(0.0, f64::max);
        sheets.len() == 1
            && sheets
                .iter()
                .all(|sheet| sheet.ink.bounds().is_none_or(|ink| ink.max.y <= foot))
    };
    balanced.into_iter().find(fits).map_or(full, |(sheets, _)| sheets)
}

/// Pours blocks into the columns of as many sheets as they need, every sheet with the same columns; one not higher than `low`
/// mm is not broken where it fits whole in the next column.
fn pour(blocks: &[Laid], columns: &[Rect], low: f64) -> Vec<Poured> {
    let mut sheets: Vec<Poured> = Vec::new();
    if columns.is_empty() {
        return sheets;
    }
    let mut spot = Spot {
        columns,
        column: columns.len(),
        y: 0.0,
    };
    for block in blocks {
        let height = block.height();
        let mut from = Some(Mark::default());
        while let Some(mark) = from {
            let room = spot.room();
            let is_fresh = spot.is_fresh();
            let piece = match room {
                Some(room) if is_fresh => Some(block.forced(mark, room)),
                // A low block is not worth breaking.
                Some(room) if height > room && height <= low => None,
                Some(room) => block.piece(mark, room),
                None => None,
            };
            let Some(piece) = piece else {
                spot.next(&mut sheets);
                continue;
            };
            let Some(sheet) = sheets.last_mut() else {
                return sheets;
            };
            let rect = columns[spot.column];
            if !is_fresh {
                let (left, right) = (Point::new(rect.min.x, spot.y), Point::new(rect.max.x, spot.y));
                sheet.ink.push(rule(left, right, Pen::Medium, Ink::Black));
            }
            sheet
                .ink
                .push(piece.ink.map(Affine::to(Point::new(rect.min.x, spot.y))));
            if sheet.parts.last() != Some(&block.which) {
                sheet.parts.push(block.which);
            }
            spot.y += piece.height;
            from = piece.rest;
        }
    }
    sheets
}

/// Where the next piece goes.
struct Spot<'a> {
    columns: &'a [Rect],
    column: usize,
    y: f64,
}

impl Spot<'_> {
    /// What is left of the column, mm; `None` before the first sheet.
    fn room(&self) -> Option<f64> {
        self.columns.get(self.column).map(|column| column.max.y - self.y)
    }

    fn is_fresh(&self) -> bool {
        self.columns
            .get(self.column)
            .is_some_and(|column| self.y <= column.min.y)
    }

    /// The next column, on a new sheet after the last.
    fn next(&mut self, sheets: &mut Vec<Poured>) {
        self.column += 1;
        if self.column >= self.columns.len() {
            self.column = 0;
            sheets.push(Poured::default());
        }
        self.y = self.columns.get(self.column).map_or(0.0, |column| column.min.y);
    }
}

#[cfg(test)]
mod tests {
    use super::super::block::{Block, Part};
    use super::super::table::{Column, Row, Set, Table};
    use super::*;
    use crate::scene::Item;

    fn table(rows: usize) -> Laid {
        let table = Table {
            columns: vec![Column::new("no.", Set::Number), Column::new("name", Set::Words)],
            rows: (1..=rows)
                .map(|row| Row::new(vec![row.to_string(), format!("row number {row}")]))
                .collect(),
        };
        Block::new(Schedule::Sections, "Sections", vec![Part::Table(table)]).lay(80.0)
    }

    fn words(group: &Group, found: &mut Vec<String>) {
        for item in group.items() {
            match item {
                Item::Text(text) => found.push(text.words().to_owned()),
                Item::Group(inner) => words(inner, found),
                Item::Path(_) => {}
            }
        }
    }

    fn columns() -> Vec<Rect> {
        (0..2)
            .map(|column| Rect::sized(Point::new(20.0 + 80.0 * f64::from(column), 10.0), 80.0, 100.0))
            .collect()
    }

    #[test]
    fn a_long_table_goes_on_with_its_heads_and_every_row_once() {
        let sheets = poured(&[table(100)], &columns());
        assert!(sheets.len() > 2, "{}", sheets.len());
        let mut all = Vec::new();
        for sheet in &sheets {
            words(&sheet.ink, &mut all);
            assert!(sheet.ink.bounds().unwrap().max.y <= 110.0 + 1e-6);
        }
        for row in 1..=100 {
            assert_eq!(
                all.iter()
                    .filter(|words| **words == format!("row number {row}"))
                    .count(),
                1
            );
        }
        let heads = all.iter().filter(|words| *words == "name").count();
        assert_eq!(heads, all.iter().filter(|words| words.starts_with("Sections")).count());
        assert_eq!(all.iter().filter(|words| *words == "Sections").count(), 1);
    }

    #[test]
    fn a_heading_is_never_left_alone_at_the_foot_of_a_column() {
        for rows in 1..30 {
            let sheets = poured(&[table(rows), table(5)], &columns());
            for sheet in sheets {
                let mut all = Vec::new();
                words(&sheet.ink, &mut all);
                assert_ne!(all.last().map(String::as_str), Some("name"), "{rows}");
            }
        }
    }

    #[test]
    fn nothing_to_pour_needs_no_sheet() {
        assert!(poured(&[], &columns()).is_empty());
    }
}

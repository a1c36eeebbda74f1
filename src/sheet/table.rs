//! A ruled table: columns as wide as what stands in them, heads that repeat, cells that wrap.
//!
//! Numbers stand at the right of their column, words at the left. A column that may wrap gives way when room is short and
//! takes what room is left over; no lettering ever leaves its column.

mod widths;

use super::lettering::{Hand, LINE};
use super::strip::{Strip, boxed, lines, rule};
use crate::scene::{Anchor, Group, Ink, Pen, Point, Rect, Stroke, Tag};

/// Height of a row of one line, mm.
pub const ROW: f64 = 4.3;
/// From the top of a row to its first base line, mm.
const BASE: f64 = 3.4;
/// Side of a box to tick, mm.
pub(super) const TICK: f64 = 2.8;
/// How much higher a row is that is written in by hand, mm.
const BY_HAND: f64 = 2.5;
/// From base line to base line of a head of two lines, mm.
const HEAD_LINE: f64 = 3.9;

/// How a column gets its width and sets its cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Set {
    /// Numbers: at the right, on one line.
    Number,
    /// Words on one line.
    Word,
    /// Words on one line, close to the number before: a mark.
    Mark,
    /// Words that may wrap.
    Words,
    /// A box to tick: with a cross for `x`, else with what the cell says.
    Tick,
}

/// A column of a table.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its head, with a line break where it has two lines.
    pub head: String,
    /// How its cells are set.
    pub set: Set,
}

impl Column {
    /// A column.
    pub fn new(head: impl Into<String>, set: Set) -> Column {
        Column { head: head.into(), set }
    }
}

/// A row of a table: a cell for each column.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// The words of the cells.
    pub cells: Vec<String>,
    /// How they are lettered.
    pub weight: Weight,
    /// What the row stands for.
    pub tag: Option<Tag>,
}

/// How a row is lettered.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Weight {
    /// Like any other.
    #[default]
    Plain,
    /// Strong: a total, or something wrong.
    Strong,
    /// Strong, across the table: what stands over the rows that follow, never parted from the first of them.
    Heading,
    /// Like any other, with room to write by hand.
    Blank,
}

impl Row {
    /// A plain row.
    #[cfg(test)]
    pub fn new(cells: Vec<String>) -> Row {
        Row {
            cells,
            ..Row::default()
        }
    }

    fn hand(&self) -> Hand {
        match self.weight {
            Weight::Plain | Weight::Blank => Hand::BODY,
            Weight::Strong | Weight::Heading => Hand::STRONG,
        }
    }

    pub fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }
}

/// A table.
#[derive(Clone, Debug, Default)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
}

impl Table {
    /// The width in mm below which cells would have to be cut.
    pub fn least_width(&self) -> f64 {
        widths::least(self)
    }

    /// The width in mm with every cell on one line.
    pub fn natural_width(&self) -> f64 {
        widths::natural(self)
    }

    /// Leaves out columns whose cells are all empty.
    pub fn without_empty_columns(mut self) -> Table {
        let keep: Vec<bool> = (0..self.columns.len())
            .map(|at| self.rows.iter().any(|row| !row.cell(at).is_empty()))
            .collect();
        let kept = |at: &usize| keep[*at];
        for row in &mut self.rows {
            row.cells = (0..keep.len()).filter(kept).map(|at| row.cell(at).to_owned()).collect();
        }
        let mut at = 0;
        self.columns.retain(|_| {
            at += 1;
            keep[at - 1]
        });
        self
    }

    /// The head and the rows at a width in mm.
    pub fn lay(&self, width: f64) -> (Strip, Vec<Strip>) {
        let places = widths::fit(self, width);
        let mut rows: Vec<Strip> = Vec::with_capacity(self.rows.len());
        let mut heading: Option<Strip> = None;
        for row in &self.rows {
            let strip = self.row(row, &places, width);
            let strip = match heading.take() {
                Some(above) => above.over(strip),
                None => strip,
            };
            match row.weight {
                Weight::Heading => heading = Some(strip),
                Weight::Plain | Weight::Strong | Weight::Blank => rows.push(strip),
            }
        }
        rows.extend(heading);
        (self.head(&places, width), rows)
    }

    fn head(&self, places: &[Place], width: f64) -> Strip {
        let heads: Vec<Vec<String>> = self
            .columns
            .iter()
            .map(|column| column.head.lines().map(str::to_owned).collect())
            .collect();
        let deepest = heads.iter().map(Vec::len).max().unwrap_or(0).max(1);
        let last = 2.5 + (deepest - 1) as f64 * HEAD_LINE;
        let height = last + 1.3;
        let mut ink = Group::new();
        for ((column, words), place) in self.columns.iter().zip(&heads).zip(places) {
            // Heads of one line stand on the line of the lowest.
            let first = last - words.len().saturating_sub(1) as f64 * HEAD_LINE;
            let (x, anchor) = place.edge(column.set);
            lines(&mut ink, words, Hand::CAPTION, Point::new(x, first), HEAD_LINE, anchor);
        }
        ink.push(rule(
            Point::new(0.0, height),
            Point::new(width, height),
            Pen::Medium,
            Ink::Black,
        ));
        Strip { height, ink }
    }

    fn row(&self, row: &Row, places: &[Place], width: f64) -> Strip {
        let hand = row.hand();
        let mut ink = match row.tag {
            Some(tag) => Group::tagged(tag.role, tag.key),
            None => Group::new(),
        };
        let above = match row.weight {
            Weight::Plain | Weight::Strong | Weight::Heading => 0.0,
            Weight::Blank => BY_HAND,
        };
        let mut deepest = 1;
        for (at, (column, place)) in self.columns.iter().zip(places).enumerate() {
            let most = match column.set {
                Set::Words => usize::MAX,
                Set::Number | Set::Word | Set::Mark => 1,
                Set::Tick => {
                    if row.weight != Weight::Heading {
                        ink.push(tick(Point::new(place.left, above + BASE), row.cell(at)));
                    }
                    continue;
                }
            };
            let room = match row.weight {
                Weight::Heading => width - place.left,
                Weight::Plain | Weight::Strong | Weight::Blank => place.width,
            };
            let words = hand.wrap(row.cell(at), room + 1e-6, most).lines;
            let (x, anchor) = place.edge(column.set);
            deepest = deepest.max(words.len());
            lines(&mut ink, &words, hand, Point::new(x, above + BASE), LINE, anchor);
        }
        let height = above + ROW + (deepest - 1) as f64 * LINE;
        let is_ticked = self.columns.iter().any(|column| column.set == Set::Tick);
        if row.weight == Weight::Blank || is_ticked {
            let (left, right) = (Point::new(0.0, height), Point::new(width, height));
            ink.push(rule(left, right, Pen::Thin, Ink::Black));
        }
        Strip { height, ink }
    }
}

/// Where a column stands, mm from the left edge of the table.
#[derive(Clone, Copy, Debug, Default)]
pub struct Place {
    left: f64,
    width: f64,
}

impl Place {
    fn edge(self, set: Set) -> (f64, Anchor) {
        match set {
            Set::Number => (self.left + self.width, Anchor::End),
            Set::Word | Set::Mark | Set::Words | Set::Tick => (self.left, Anchor::Start),
        }
    }
}

/// A box on a base line, with a cross or a sign in it.
fn tick(base: Point, sign: &str) -> Group {
    let frame = Rect::sized(Point::new(base.x, base.y - TICK + 0.2), TICK, TICK);
    let mut group = Group::new().with(boxed(frame, Stroke::new(Pen::Thin)));
    let inner = frame.grown(-0.6);
    match sign.trim() {
        "" => {}
        "x" => {
            let [a, b, c, d] = inner.corners();
            group.push(rule(a, c, Pen::Medium, Ink::Black));
            group.push(rule(b, d, Pen::Medium, Ink::Black));
        }
        "–" => {
            let middle = inner.center().y;
            let (from, to) = (Point::new(inner.min.x, middle), Point::new(inner.max.x, middle));
            group.push(rule(from, to, Pen::Medium, Ink::Black));
        }
        sign => {
            let at = Point::new(frame.max.x + 0.6, base.y);
            group.push(Hand::BODY.write(sign, at, Anchor::Start));
        }
    }
    group
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_heading_goes_with_the_first_of_its_rows() {
        let row = |words: &str, weight| Row {
            cells: vec![String::new(), words.to_owned()],
            weight,
            tag: None,
        };
        let table = Table {
            columns: vec![Column::new("a", Set::Number), Column::new("b", Set::Words)],
            rows: vec![
                row("To buy: fittings", Weight::Heading),
                row("tee", Weight::Plain),
                row("cap", Weight::Plain),
            ],
        };
        let heights = |width| table.lay(width).1.iter().map(|strip| strip.height).collect::<Vec<_>>();
        assert_eq!(heights(100.0), [2.0 * ROW, ROW]);
    }
}

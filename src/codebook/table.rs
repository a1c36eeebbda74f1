//! One published capacity table: lengths down, sizes across.
//!
//! Rows are ascending lengths and columns ascending sizes. Reading between rows is never done: the row is the next
//! longer one, and past the last row there is none.

mod own;
mod read;

use super::{Capacity, CapacityUnit, Mark, Marked, Source};
use crate::job::{Fuel, Material, listed};
use crate::units::{GaugePressure, HeatRate, HeatingValue, Length, NominalSize, PressureDrop};
use std::sync::Arc;

listed! {
    /// The kinds of pipe for which tables are printed.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum PipeKind {
        /// Schedule 40 steel pipe.
        Steel,
        /// Copper tube. The tables are made for the bore of type K, the narrower, and serve types K and L alike.
        Copper,
        /// Corrugated stainless steel tubing.
        Csst,
        /// Polyethylene pipe.
        Pe,
    }
}

impl PipeKind {
    /// The words of the fact files.
    pub(super) const WORDS: [(&str, PipeKind); PipeKind::ALL.len()] = {
        let mut words = [("", PipeKind::Steel); PipeKind::ALL.len()];
        let mut at = 0;
        while at < words.len() {
            words[at] = (PipeKind::ALL[at].word(), PipeKind::ALL[at]);
            at += 1;
        }
        words
    };

    const fn word(self) -> &'static str {
        match self {
            PipeKind::Steel => "steel",
            PipeKind::Copper => "copper",
            PipeKind::Csst => "csst",
            PipeKind::Pe => "pe",
        }
    }

    /// The kind of a material.
    pub const fn of(material: Material) -> PipeKind {
        match material {
            Material::Steel40 => PipeKind::Steel,
            Material::CopperK | Material::CopperL => PipeKind::Copper,
            Material::Csst => PipeKind::Csst,
            Material::Pe => PipeKind::Pe,
        }
    }

    /// The name in sentences.
    pub const fn name(self) -> &'static str {
        match self {
            PipeKind::Steel => "Schedule 40 steel",
            PipeKind::Copper => "copper tube",
            PipeKind::Csst => "CSST",
            PipeKind::Pe => "polyethylene",
        }
    }
}

/// The inlet pressure for which a table is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Inlet {
    /// Any pressure below 2 psi.
    Below2Psi,
    /// This pressure.
    Exactly(GaugePressure),
}

/// The equation behind a table, which may fill past its rows where a profile allows that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Law {
    /// The low-pressure equation (IFGC A.4, under 1.5 psig) reproduces the cells.
    LowPressure,
    /// The high-pressure equation (IFGC A.4, 1.5 psig and over) with this inlet pressure reproduces the cells.
    HighPressure(GaugePressure),
    /// No equation: what is not printed must not be computed.
    NoEquation,
}

/// A row of one table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Row(pub(super) usize);

/// A column of one table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Column(pub(super) usize);

/// What a table gives for one length and size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// The capacity to use.
    pub capacity: Capacity,
    /// How sure it is.
    pub mark: Mark,
    /// The printed figure, where it is not the one to use.
    pub published_as: Option<Capacity>,
    /// Why the printed figure is not the one to use; must be shown beside the figure.
    pub remark: Option<&'static str>,
}

/// A capacity table: published, or written by a person from what their maker or code publishes.
#[derive(Clone, Debug, PartialEq)]
pub struct CapacityTable {
    /// Its number in the International Fuel Gas Code, `402.4(2)`, or the name that the person gave it.
    pub id: Arc<str>,
    /// What it is for, in a line.
    pub title: String,
    /// Its number elsewhere.
    pub also: Option<String>,
    /// Whether it is a person's own and not part of the program.
    pub is_own: bool,
    /// The gas.
    pub fuel: Fuel,
    /// The kind of pipe.
    pub pipe: PipeKind,
    /// The inlet pressure.
    pub inlet: Inlet,
    /// The least supply pressure with which the table may be used, where it is more than the drop itself says.
    pub least_supply: Option<Marked<GaugePressure>>,
    /// The pressure lost from end to end.
    pub drop: PressureDrop,
    /// The most that the line regulator behind this pipe may lose, where the table says so: with more it must not be used.
    pub regulator_loss: Option<Marked<PressureDrop>>,
    /// The unit of the cells.
    pub unit: CapacityUnit,
    /// The equation behind the cells.
    pub law: Law,
    /// Conditions and warnings that must be shown with every figure of this table.
    pub notes: Vec<String>,
    /// Where the figures come from.
    pub source: Source<String>,
    pub(super) columns: Vec<NominalSize>,
    pub(super) lengths: Vec<Length>,
    pub(super) cells: Vec<Option<Cell>>,
}

impl CapacityTable {
    /// The family that the program's tables of one code are: the number that they share, `402.4`. A table of a person's own
    /// is of none.
    pub fn family(&self) -> Option<&str> {
        let (family, _) = self.id.split_once('(')?;
        (!self.is_own).then_some(family)
    }

    /// Whether its figures for corrugated tubing are the code's, by EHD: the table of the tubing's maker goes before it.
    pub fn yields_to_maker(&self) -> bool {
        self.pipe == PipeKind::Csst && !self.is_own
    }

    /// The row for a length: the first that is not shorter. `None` past the last row.
    pub fn row_for(&self, length: Length) -> Option<Row> {
        let row = self.lengths.partition_point(|&printed| printed < length);
        (row < self.lengths.len()).then_some(Row(row))
    }

    /// All rows, short to long.
    pub fn rows(&self) -> impl ExactSizeIterator<Item = Row> + use<> {
        (0..self.lengths.len()).map(Row)
    }

    /// The length of a row.
    pub fn length(&self, row: Row) -> Length {
        self.lengths[row.0]
    }

    /// The longest length that the table serves.
    pub fn last_length(&self) -> Length {
        self.lengths.last().copied().unwrap_or_default()
    }

    /// The column of a size; `None` when the table has none.
    pub fn column(&self, size: NominalSize) -> Option<Column> {
        self.columns.binary_search(&size).ok().map(Column)
    }

    /// The sizes of the columns, small to large.
    pub fn sizes(&self) -> &[NominalSize] {
        &self.columns
    }

    /// The size of a column.
    pub fn size(&self, column: Column) -> NominalSize {
        self.columns[column.0]
    }

    /// What the table gives; `None` where it prints that the size is not available at that length.
    pub fn cell(&self, row: Row, column: Column) -> Option<&Cell> {
        self.cells[row.0 * self.columns.len() + column.0].as_ref()
    }

    /// The sizes of a row, small to large, with what the table gives for each.
    pub fn along(&self, row: Row) -> impl Iterator<Item = (NominalSize, Option<&Cell>)> {
        let wide = self.columns.len();
        let cells = &self.cells[row.0 * wide..(row.0 + 1) * wide];
        self.columns.iter().copied().zip(cells.iter().map(Option::as_ref))
    }

    /// The same for paper, where each figure has its mark: "read in IFGC 2018", "read in part in NFPA 54-2012, table
    /// 6.2(o)".
    pub fn where_read_in_short(&self) -> String {
        if self.is_own {
            return self.where_read();
        }
        let document = &self.source.document;
        let document = document.split([';']).next().unwrap_or(document);
        let document = document.split(", as reprinted").next().unwrap_or(document);
        let document = document.replace("International Fuel Gas Code", "IFGC");
        // NFPA 54 is called ANSI Z223.1 too.
        let document = document
            .replace(" (ANSI Z223.1)", "")
            .replace(" (ANSI Z223.1-2012)", "");
        let own_number = format!(", table {}", self.id);
        let document = document.strip_suffix(&own_number).unwrap_or(&document);
        let mut marks = self.cells.iter().flatten().map(|cell| cell.mark);
        let some = marks.clone().any(|mark| mark == Mark::Found);
        match (some, marks.all(|mark| mark == Mark::Found)) {
            (_, true) => format!("read in {document}"),
            (true, false) => format!("read in part in {document}"),
            (false, false) => "not read in print".to_owned(),
        }
    }

    /// Where its figures were read, for people: the document, and how many figures stand in it where not all do.
    pub fn where_read(&self) -> String {
        let Source { document, detail } = &self.source;
        if self.is_own {
            return match detail.is_empty() {
                true => format!("your own table, from {document}"),
                false => format!("your own table, from {document}, {detail}"),
            };
        }
        let marks: Vec<Mark> = self.cells.iter().flatten().map(|cell| cell.mark).collect();
        let read = marks.iter().filter(|mark| **mark == Mark::Found).count();
        let others = Mark::ALL
            .into_iter()
            .filter(|mark| *mark != Mark::Found && marks.contains(mark));
        let others = others
            .map(|mark| mark.letter().to_string())
            .collect::<Vec<_>>()
            .join(" or ");
        match read {
            0 => format!("no printed text of it was read, every figure is {others}"),
            all if all == marks.len() => document.to_owned(),
            some => format!(
                "{some} of {} figures read in {document}, the others {others}",
                marks.len()
            ),
        }
    }

    /// A load in the unit of this table.
    pub fn demand(&self, load: HeatRate, value: HeatingValue) -> Capacity {
        Capacity::of_load(load, value, self.unit)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;

    fn table(id: &str) -> &'static CapacityTable {
        Codebook::published().table(id).unwrap()
    }

    #[test]
    fn a_table_says_how_much_of_it_was_read_and_where() {
        let said = |id: &str| table(id).where_read();
        assert_eq!(said("402.4(1)"), "no printed text of it was read, every figure is C");
        assert_eq!(said("402.4(16)"), "no printed text of it was read, every figure is D");
        assert_eq!(said("402.4(5)"), "International Fuel Gas Code 2018, table 402.4(5)");
        assert!(said("402.4(15)").starts_with("59 of 221 figures read in NFPA 54-2012"));
        assert!(said("402.4(15)").ends_with("the others D or M"));
        let short = |id: &str| table(id).where_read_in_short();
        assert_eq!(short("402.4(1)"), "not read in print");
        assert_eq!(short("402.4(5)"), "read in IFGC 2018");
        assert_eq!(
            short("402.4(2)"),
            "read in part in NFPA 54, editions 2012 and 2015, table 6.2(b)"
        );
    }

    #[track_caller]
    fn check(feet: f64, expected: Option<f64>) {
        let table = table("402.4(2)");
        let row = table.row_for(Length::from_feet(feet));
        assert_eq!(row.map(|row| table.length(row).feet()), expected);
    }

    #[test]
    fn the_row_is_the_next_longer_one() {
        check(-5.0, Some(10.0));
        check(0.0, Some(10.0));
        check(10.0, Some(10.0));
        check(10.001, Some(20.0));
        check(100.5, Some(125.0));
        check(2000.0, Some(2000.0));
        check(2000.001, None);
    }

    #[test]
    fn a_size_that_is_not_available_has_no_figure() {
        // 402.4(2) prints NA for 1/2 in at 2,000 ft.
        let table = table("402.4(2)");
        let row = table.row_for(table.last_length()).unwrap();
        assert_eq!(table.cell(row, table.column(NominalSize::HALF).unwrap()), None);
    }
}

//! A capacity table from its fact file.
//!
//! A length that stands twice has first its printed row, then the row that the equation gives: the smaller counts.

use super::super::assets::Asset;
use super::super::sheet::{Record, Sheet};
use super::super::{Capacity, CapacityTable, CapacityUnit, Cell, CodebookError, Inlet, Law, Mark, Marked, PipeKind};
use crate::job::Fuel;
use crate::units::{Length, NominalSize, Parse, PressureDrop};

/// What must be shown where the equation's figure stands in place of a printed one.
const SMALLER: &str = "the table prints more than its own equation gives for this length (it holds the values of a \
                       shorter row); the smaller figure is used";
/// What must be shown where the printed row was not read in this column.
const UNREAD: &str = "the printed figure was not found; the equation's is used";

impl CapacityTable {
    pub(in super::super) fn read(asset: Asset) -> Result<CapacityTable, CodebookError> {
        let sheet = Sheet::read(asset)?;
        let unit = one_of(
            &sheet,
            "unit",
            &[("cfh", CapacityUnit::Cfh), ("MBH", CapacityUnit::Mbh)],
        )?;
        let columns: Result<Vec<NominalSize>, CodebookError> =
            sheet.figures().iter().map(|&size| parse(&sheet, 1, size)).collect();
        let (line, drop) = sheet.required("drop")?;
        let mut table = CapacityTable {
            id: sheet.required("id")?.1,
            title: sheet.required("title")?.1,
            also: sheet.entry("also").map(|entry| entry.1),
            fuel: one_of(
                &sheet,
                "fuel",
                &[("natural", Fuel::Natural), ("propane", Fuel::Propane)],
            )?,
            pipe: one_of(&sheet, "pipe", &PipeKind::WORDS)?,
            inlet: inlet(&sheet)?,
            least_supply: marked(&sheet, "least supply")?,
            regulator_loss: marked(&sheet, "regulator loss")?,
            drop: parse::<PressureDrop>(&sheet, line, drop)?,
            unit,
            law: law(&sheet)?,
            notes: sheet.all("note"),
            source: sheet.source()?,
            columns: columns?,
            lengths: Vec::new(),
            cells: Vec::new(),
        };
        for record in sheet.records() {
            table.take(record)?;
        }
        Ok(table)
    }

    /// Takes one row of the file: a new length, or the equation's row of the length before.
    fn take(&mut self, record: Record<'_>) -> Result<(), CodebookError> {
        let wide = self.columns.len();
        let length = Length::from_feet(record.number("length_ft")?);
        match self.lengths.last() {
            Some(&last) if length == last => {
                let row = self.cells.len() - wide;
                for column in 0..wide {
                    let computed = self.cell_of(record, column)?;
                    self.cells[row + column] = smaller(self.cells[row + column], computed);
                }
            }
            Some(&last) if length < last => return Err(record.fault("shorter than the row before")),
            _ => {
                self.lengths.push(length);
                for column in 0..wide {
                    let cell = self.cell_of(record, column)?;
                    self.cells.push(cell);
                }
            }
        }
        Ok(())
    }

    fn cell_of(&self, record: Record<'_>, column: usize) -> Result<Option<Cell>, CodebookError> {
        match record.printed(column) {
            "NA" | "-" => Ok(None),
            _ => {
                let Marked { value, mark } = record.printed_figure(column)?;
                Ok(Some(Cell {
                    capacity: Capacity::new(value, self.unit),
                    mark,
                    published_as: None,
                    remark: None,
                }))
            }
        }
    }
}

/// Of a printed cell and the equation's, the one with the smaller capacity, which says so.
fn smaller(printed: Option<Cell>, computed: Option<Cell>) -> Option<Cell> {
    match (printed, computed) {
        (Some(printed), Some(computed)) if computed.capacity < printed.capacity => Some(Cell {
            published_as: Some(printed.capacity),
            remark: Some(SMALLER),
            ..computed
        }),
        (Some(printed), _) => Some(printed),
        (None, computed) => computed.map(|computed| Cell {
            remark: Some(UNREAD),
            ..computed
        }),
    }
}

fn parse<T: Parse>(sheet: &Sheet, line: usize, text: &str) -> Result<T, CodebookError> {
    T::parse(text).map_err(|error| sheet.fault(line, 2, error.to_string()))
}

fn one_of<T: Copy>(sheet: &Sheet, key: &str, words: &[(&str, T)]) -> Result<T, CodebookError> {
    let (line, text) = sheet.required(key)?;
    let word = words.iter().find(|word| word.0 == text);
    word.map(|word| word.1)
        .ok_or_else(|| sheet.fault(line, 2, format!("`{text}` is no {key}")))
}

fn inlet(sheet: &Sheet) -> Result<Inlet, CodebookError> {
    let (line, text) = sheet.required("inlet")?;
    match text {
        "under 2 psi" => Ok(Inlet::Below2Psi),
        _ => parse(sheet, line, text).map(Inlet::Exactly),
    }
}

fn marked<T: Parse>(sheet: &Sheet, key: &str) -> Result<Option<Marked<T>>, CodebookError> {
    let Some((line, text)) = sheet.entry(key) else {
        return Ok(None);
    };
    let (quantity, letter) = text.split_once('\t').unwrap_or((text, ""));
    let mark = letter.chars().next().and_then(Mark::from_letter);
    let mark = mark.ok_or_else(|| sheet.fault(line, 3, "no mark"))?;
    Ok(Some(Marked::new(parse(sheet, line, quantity)?, mark)))
}

fn law(sheet: &Sheet) -> Result<Law, CodebookError> {
    let (line, text) = sheet.required("law")?;
    match (text, text.strip_prefix("high pressure, ")) {
        ("none", _) => Ok(Law::NoEquation),
        ("low pressure", _) => Ok(Law::LowPressure),
        (_, Some(inlet)) => parse(sheet, line, inlet).map(Law::HighPressure),
        _ => Err(sheet.fault(line, 2, format!("`{text}` is no law"))),
    }
}

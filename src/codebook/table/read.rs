//! A capacity table from its fact file.
//!
//! A length that stands twice has first its printed row, then the row that the equation gives: the smaller counts.

use super::super::asset::Asset;
use super::super::sheet::{Line, Sheet};
use super::super::{
    Capacity, CapacityTable, CapacityUnit, Cell, CodebookError, Inlet, Law, Mark, Marked, PipeKind, Source,
};
use crate::codebook::choose::choose;
use crate::job::Fuel;
use crate::units::{NominalSize, Parse, PressureDrop};

/// The words for the units of figures.
const UNITS: [(&str, CapacityUnit); 4] = [
    ("cfh", CapacityUnit::Cfh),
    ("MBH", CapacityUnit::Mbh),
    ("m3/h", CapacityUnit::CubicMeters),
    ("kW", CapacityUnit::Kilowatts),
];

/// What must be shown where the equation's figure stands in place of a printed one.
const SMALLER: &str = "the table prints more than its own equation gives for this length (it holds the values of a \
                       shorter row); the smaller figure is used";
/// What must be shown where the printed row was not read in this column.
const UNREAD: &str = "the printed figure was not found; the equation's is used";

impl CapacityTable {
    pub(in super::super) fn read(asset: Asset) -> Result<CapacityTable, CodebookError> {
        CapacityTable::of(&Sheet::read(asset)?)
    }

    /// The table of a sheet.
    pub(super) fn of(sheet: &Sheet) -> Result<CapacityTable, CodebookError> {
        let sizes = sheet.figures().iter().enumerate();
        let columns: Result<Vec<NominalSize>, CodebookError> = sizes
            .map(|(at, size)| sheet.quantity(sheet.header(), at + 2, size))
            .collect();
        let (line, drop) = sheet.required("drop")?;
        let Source { document, detail } = sheet.source()?;
        let mut table = CapacityTable {
            id: sheet.required("id")?.1.into(),
            title: sheet.required("title")?.1.to_owned(),
            also: sheet.entry("also").map(|entry| entry.1.to_owned()),
            is_own: sheet.is_own(),
            fuel: one_of(sheet, "fuel", &[("natural", Fuel::Natural), ("propane", Fuel::Propane)])?,
            pipe: one_of(sheet, "pipe", &PipeKind::WORDS)?,
            inlet: inlet(sheet)?,
            least_supply: marked(sheet, "least supply")?,
            regulator_loss: marked(sheet, "regulator loss")?,
            drop: sheet.quantity::<PressureDrop>(line, 2, drop)?,
            unit: one_of(sheet, "unit", &UNITS)?,
            law: law(sheet)?,
            notes: sheet.all("note").into_iter().map(str::to_owned).collect(),
            source: Source {
                document: document.to_owned(),
                detail: detail.to_owned(),
            },
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
    fn take(&mut self, record: Line) -> Result<(), CodebookError> {
        let wide = self.columns.len();
        let length = record.length()?;
        match self.lengths.last() {
            Some(&last) if length == last && !self.is_own => {
                let row = self.cells.len() - wide;
                for column in 0..wide {
                    let computed = self.cell_of(record, column)?;
                    self.cells[row + column] = smaller(self.cells[row + column], computed);
                }
            }
            Some(&last) if length <= last => {
                let what = "not longer than the row before".to_owned();
                return Err(record.mendable(0, what, "write each length once, the shortest first"));
            }
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

    fn cell_of(&self, record: Line, column: usize) -> Result<Option<Cell>, CodebookError> {
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

fn one_of<T: Copy>(sheet: &Sheet, key: &str, words: &[(&str, T)]) -> Result<T, CodebookError> {
    let (line, text) = sheet.required(key)?;
    let word = words.iter().find(|word| word.0 == text);
    word.map(|word| word.1).ok_or_else(|| {
        let known: Vec<&str> = words.iter().map(|word| word.0).collect();
        sheet.mendable(line, 2, format!("`{text}` is not a {key}"), choose(text, &known))
    })
}

fn inlet(sheet: &Sheet) -> Result<Inlet, CodebookError> {
    let (line, text) = sheet.required("inlet")?;
    match text {
        "under 2 psi" => Ok(Inlet::Below2Psi),
        _ => sheet.quantity(line, 2, text).map(Inlet::Exactly),
    }
}

fn marked<T: Parse>(sheet: &Sheet, key: &str) -> Result<Option<Marked<T>>, CodebookError> {
    let Some((line, text)) = sheet.entry(key) else {
        return Ok(None);
    };
    if sheet.is_own() {
        return Ok(Some(Marked::new(sheet.quantity(line, 2, text)?, Mark::Local)));
    }
    let (quantity, letter) = text.split_once('\t').unwrap_or((text, ""));
    let mark = letter.chars().next().and_then(Mark::from_letter);
    let mark = mark.ok_or_else(|| sheet.fault(line, 3, "no mark"))?;
    Ok(Some(Marked::new(sheet.quantity(line, 2, quantity)?, mark)))
}

fn law(sheet: &Sheet) -> Result<Law, CodebookError> {
    if sheet.is_own() {
        // Whether an equation of the codes goes on where another's figures end, nobody has looked.
        return Ok(Law::NoEquation);
    }
    let (line, text) = sheet.required("law")?;
    match (text, text.strip_prefix("high pressure, ")) {
        ("none", _) => Ok(Law::NoEquation),
        ("low pressure", _) => Ok(Law::LowPressure),
        (_, Some(inlet)) => sheet.quantity(line, 2, inlet).map(Law::HighPressure),
        _ => Err(sheet.fault(line, 2, format!("`{text}` is not a law"))),
    }
}

//! How pipe and tube is sold: straight lengths and coils.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Marked, PipeKind, Source};
use crate::units::{Length, NominalSize, Parse};

/// In which form pipe is bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StockForm {
    /// Straight lengths, cut with a saw.
    Stick,
    /// Coils, from which as much is laid as is measured.
    Coil,
}

impl StockForm {
    /// What one, or several of them, are called at a counter.
    pub const fn name(self, many: bool) -> &'static str {
        match (self, many) {
            (StockForm::Stick, false) => "length",
            (StockForm::Stick, true) => "lengths",
            (StockForm::Coil, false) => "coil",
            (StockForm::Coil, true) => "coils",
        }
    }
}

/// The lengths that are sold.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct StockTable {
    rows: Vec<StockRow>,
    source: Source,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct StockRow {
    pipe: PipeKind,
    form: StockForm,
    /// The largest size that is sold so; `None` for all.
    largest: Option<NominalSize>,
    length: Marked<Length>,
}

impl StockTable {
    pub(super) fn read(asset: Asset) -> Result<StockTable, CodebookError> {
        let sheet = Sheet::read(asset)?;
        let rows: Result<_, _> = sheet.records().map(StockRow::read).collect();
        let source = sheet.source()?;
        rows.map(|rows| StockTable { rows, source })
    }
}

impl StockRow {
    fn read(record: Record<'_>) -> Result<StockRow, CodebookError> {
        let name = record.text("pipe")?;
        let word = PipeKind::WORDS.iter().find(|word| word.0 == name);
        Ok(StockRow {
            pipe: word
                .map(|word| word.1)
                .ok_or_else(|| record.fault(format!("`{name}` is not a pipe")))?,
            form: match record.text("form")? {
                "stick" => StockForm::Stick,
                "coil" => StockForm::Coil,
                other => return Err(record.fault(format!("`{other}` is not a form of stock"))),
            },
            largest: match record.text("largest")? {
                "-" => None,
                text => Some(NominalSize::parse(text).map_err(|error| record.fault(error.to_string()))?),
            },
            length: Marked::new(Length::from_feet(record.number("feet")?), record.mark()?),
        })
    }
}

impl Codebook {
    /// How long straight pipe is sold; `None` for what comes in coils alone.
    pub fn stock_length(&self, pipe: PipeKind) -> Option<Marked<Length>> {
        let mut rows = self.stock.rows.iter();
        rows.find(|row| (row.pipe, row.form) == (pipe, StockForm::Stick))
            .map(|row| row.length)
    }

    /// The coils in which a size is sold, short to long; none where it comes straight.
    pub fn coils(&self, pipe: PipeKind, size: NominalSize) -> Vec<Marked<Length>> {
        let coils = self
            .stock
            .rows
            .iter()
            .filter(|row| (row.pipe, row.form) == (pipe, StockForm::Coil));
        let coils = coils.filter(|row| row.largest.is_none_or(|largest| size <= largest));
        coils.map(|row| row.length).collect()
    }

    /// Where stock lengths come from.
    pub fn stock_source(&self) -> Source {
        self.stock.source
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Mark;

    #[test]
    fn steel_comes_straight_and_tubing_in_coils() {
        let book = Codebook::published();
        let feet = |length: Marked<Length>| (length.value.feet(), length.mark);
        assert_eq!(book.stock_length(PipeKind::Steel).map(feet), Some((21.0, Mark::Memory)));
        // copper.org, 1999, on ASTM B88: hard tube to 20 ft, soft tube in coils to 100 ft.
        assert_eq!(book.stock_length(PipeKind::Copper).map(feet), Some((20.0, Mark::Found)));
        let copper: Vec<_> = book
            .coils(PipeKind::Copper, NominalSize::HALF)
            .into_iter()
            .map(feet)
            .collect();
        assert_eq!(copper, [(60.0, Mark::Memory), (100.0, Mark::Found)]);
        assert_eq!(book.coils(PipeKind::Copper, NominalSize::Inch(32)).len(), 0);
        assert_eq!(book.coils(PipeKind::Steel, NominalSize::HALF).len(), 0);
        for tubing in [PipeKind::Csst, PipeKind::Pe] {
            let coils = book.coils(tubing, NominalSize::Ehd(18));
            assert!(coils.is_sorted_by(|one, other| one.value < other.value), "{coils:?}");
            assert_eq!(book.stock_length(tubing), None);
        }
    }
}

//! A capacity table of a person's own: copied from a tubing manufacturer's list, from another code, from an office.
//!
//! The same file as those of the program, with tabs between the cells, metric units beside the others. A figure that
//! rises with length, or falls as the size grows, is refused: no pipe does that, so it is a slip of the pen, and a slip
//! upward makes pipe too small. Two like figures may stand beside each other: small ones are rounded alike.

use super::super::sheet::Sheet;
use super::super::{CapacityTable, Cell, CodebookError, Inlet, PipeKind};
use crate::job::OwnTable;
use crate::units::{Length, NominalSize, PressureDrop, Show};

/// The keys of the head.
const KEYS: [&str; 12] = [
    "id",
    "title",
    "also",
    "fuel",
    "pipe",
    "inlet",
    "least supply",
    "drop",
    "unit",
    "document",
    "detail",
    "note",
];

/// Letters of the longest name: it stands in a column of the sheet.
const LONGEST_ID: usize = 24;
/// Figures are below this, in any unit.
const LARGEST: f64 = 1e9;
/// The longest length of a row, in feet: 100 km is beyond any piping job.
const LONGEST_FEET: f64 = 328_084.0;
/// The greatest pressure that a table may be made for.
const GREATEST_PSI: f64 = 1_000.0;

impl CapacityTable {
    /// Reads a table that a person wrote. `file` is the name by which errors call the text.
    ///
    /// # Errors
    /// The first thing that is wrong: line, cell, what and what to do.
    pub fn read_own(file: &str, text: &str) -> Result<CapacityTable, CodebookError> {
        let sheet = Sheet::own(file, text, &KEYS, "note")?;
        let (line, id) = sheet.required("id")?;
        if id.chars().count() > LONGEST_ID {
            let what = format!("the name `{id}` is longer than {LONGEST_ID} letters");
            return Err(sheet.mendable(line, 2, what, "shorten it: it is printed in a column of the sheet"));
        }
        if !["length_ft", "length_m"].contains(&sheet.first_column()) {
            let what = format!("`{}` is not a unit of length", sheet.first_column());
            return Err(sheet.mendable(sheet.header(), 1, what, "write length_ft or length_m"));
        }
        let table = CapacityTable::of(&sheet)?;
        table.check_pressures(&sheet)?;
        table.check_sizes(&sheet)?;
        table.check_figures(&sheet)?;
        Ok(table)
    }

    /// By which name and figures a job asks for this table.
    pub fn as_own(&self) -> OwnTable {
        OwnTable {
            id: self.id.to_string(),
            figures: self.print(),
        }
    }

    /// Sixteen signs that are others when anything that sizes is another.
    fn print(&self) -> String {
        let figure = |cell: &Option<Cell>| cell.map_or(-1.0, |cell| cell.capacity.amount());
        let inlet = match self.inlet {
            Inlet::Below2Psi => "any".to_owned(),
            Inlet::Exactly(made) => made.exact(),
        };
        let mut said = vec![
            self.fuel.name().to_owned(),
            self.pipe.name().to_owned(),
            inlet,
            self.least_supply.map_or(String::new(), |least| least.value.exact()),
            self.drop.exact(),
            self.unit.name().to_owned(),
        ];
        said.extend(self.columns.iter().map(NominalSize::exact));
        said.extend(self.lengths.iter().map(Length::exact));
        said.extend(self.cells.iter().map(|cell| figure(cell).to_string()));
        // FNV-1a of 64 bits: the same on every machine and for ever, which the hash of the library does not promise.
        let hash = said.join("\t").bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
        });
        format!("{hash:016x}")
    }

    fn check_pressures(&self, sheet: &Sheet) -> Result<(), CodebookError> {
        let fault = |key: &str, what: String, remedy: &str| {
            let line = sheet.entry(key).map_or(1, |entry| entry.0);
            Err(sheet.mendable(line, 2, what, remedy))
        };
        let ceiling = match self.inlet {
            Inlet::Below2Psi => crate::units::GaugePressure::from_psi(2.0),
            Inlet::Exactly(made) if made.pa() > 0.0 && made.psi() <= GREATEST_PSI => made,
            Inlet::Exactly(made) => {
                let what = format!("no pipe has an inlet of {}", made.exact());
                return fault(
                    "inlet",
                    what,
                    "write `under 2 psi`, or the pressure for which the table is made",
                );
            }
        };
        if self.drop <= PressureDrop::ZERO || self.drop.pa() >= ceiling.pa() {
            let what = format!("a drop of {} from an inlet of {}", self.drop.exact(), ceiling.exact());
            return fault(
                "drop",
                what,
                "write the drop that the table is printed for: above zero, less than the inlet",
            );
        }
        match self.least_supply {
            Some(least) if least.value.pa() <= self.drop.pa() => {
                let what = format!("a supply of {} cannot lose the drop of the table", least.value.exact());
                fault(
                    "least supply",
                    what,
                    "write a pressure greater than the drop, or leave the line out",
                )
            }
            _ => Ok(()),
        }
    }

    fn check_sizes(&self, sheet: &Sheet) -> Result<(), CodebookError> {
        for (at, size) in self.columns.iter().enumerate() {
            if let Err(remedy) = is_one_of(self.pipe, *size) {
                let what = format!("`{}` is not a size of {}", size.exact(), self.pipe.name());
                return Err(sheet.mendable(sheet.header(), at + 2, what, remedy));
            }
            let Some(before) = at.checked_sub(1).map(|before| self.columns[before]) else {
                continue;
            };
            let once = "write each size once, the smallest first";
            let (what, remedy) = match size {
                size if *size == before => (format!("the size `{}` is given twice", size.exact()), once),
                size if std::mem::discriminant(size) != std::mem::discriminant(&before) => {
                    let what = format!("`{}` and `{}` are sizes of two kinds", before.exact(), size.exact());
                    (what, "write all sizes in the same way")
                }
                size if *size < before => {
                    let what = format!("`{}` is smaller than `{}` before it", size.exact(), before.exact());
                    (what, once)
                }
                _ => continue,
            };
            return Err(sheet.mendable(sheet.header(), at + 2, what, remedy));
        }
        Ok(())
    }

    fn check_figures(&self, sheet: &Sheet) -> Result<(), CodebookError> {
        let wide = self.columns.len();
        for (row, record) in sheet.records().enumerate() {
            let feet = self.lengths[row].feet();
            if feet <= 0.0 || feet > LONGEST_FEET {
                let what = format!("`{}` is not a length of a row", record.head());
                return Err(record.mendable(0, what, "write a length above zero, in feet or meters"));
            }
            for column in 0..wide {
                let figure = |cell: usize| self.cells[cell].map(|cell| cell.capacity.amount());
                let Some(here) = figure(row * wide + column) else {
                    continue;
                };
                if here <= 0.0 || here >= LARGEST {
                    let remedy = "write the capacity of the size, or NA where none is printed";
                    return Err(record.mendable(column + 1, format!("no pipe has a capacity of {here}"), remedy));
                }
                let smaller = (0..column).rev().find_map(|before| figure(row * wide + before));
                let shorter = (0..row).rev().find_map(|before| figure(before * wide + column));
                let than = match (smaller, shorter) {
                    (Some(smaller), _) if here < smaller => format!("the smaller size beside it has {smaller}"),
                    (_, Some(shorter)) if here > shorter => format!("the shorter row above it has {shorter}"),
                    _ => continue,
                };
                let what = format!("{here} under `{}` cannot be: {than}", self.columns[column].exact());
                let remedy = "compare both with the printed table; where they are printed so, ask the manufacturer, and until then \
                              write the smaller of the two in both cells";
                return Err(record.mendable(column + 1, what, remedy));
            }
        }
        match self.cells.iter().any(Option::is_some) {
            true => Ok(()),
            false => Err(sheet.mendable(
                sheet.header(),
                1,
                "no figure under the sizes",
                "write the capacity of each size",
            )),
        }
    }
}

/// Whether pipe of a kind has sizes of that kind; if not, what to write.
fn is_one_of(pipe: PipeKind, size: NominalSize) -> Result<(), &'static str> {
    match (pipe, size) {
        (_, NominalSize::Named(_))
        | (PipeKind::Csst, NominalSize::Ehd(_))
        | (PipeKind::Steel | PipeKind::Copper | PipeKind::Pe, NominalSize::Inch(_) | NominalSize::Millimeter(_)) => {
            Ok(())
        }
        (PipeKind::Csst, NominalSize::Inch(_) | NominalSize::Millimeter(_)) => Err(
            "write the EHD that the manufacturer gives, like EHD 18, or the manufacturer's own name of the size, like type 1/2 or type 20A",
        ),
        (PipeKind::Steel | PipeKind::Copper | PipeKind::Pe, NominalSize::Ehd(_)) => Err(
            "EHD is for corrugated tubing: write 3/4, DN 20 or 22 mm, or the manufacturer's own name, like type 20A",
        ),
    }
}

//! The printed table by which a section was sized, read again: at another row, with another load, or another table.

use crate::codebook::{CapacityTable, Codebook, Row};
use crate::job::Job;
use crate::sizing::{Basis, Section, carries};
use crate::study::Study;
use crate::units::{Flow, HeatingValue, Length, NominalSize};

/// A table as a section reads it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reading<'a> {
    pub(super) table: &'a CapacityTable,
    /// By which its capacities are multiplied for a gas heavier than the table's.
    factor: f64,
    heating: HeatingValue,
    /// The least size that the profile allows.
    least: Option<NominalSize>,
}

impl<'a> Reading<'a> {
    /// The table of a section; `None` of one that no printed table sizes.
    pub(super) fn of(job: &Job, book: &'a Codebook, study: &Study, section: &Section) -> Option<Reading<'a>> {
        let Basis::Table { table, .. } = &section.sizing.basis else {
            return None;
        };
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let factor = book.gravity_factor(study.gas.fuel, study.gas.specific_gravity)?;
        let material = job.material(job.runs.at(*section.runs.first()?));
        Some(Reading {
            table: book.table(table)?,
            factor: factor.factor.value,
            heating: study.gas.heating_value,
            least: profile
                .least_size
                .as_ref()
                .map(|least| least.value)
                .filter(|_| material.is_rigid()),
        })
    }

    /// Another table read with the same gas.
    pub(super) fn in_table(self, table: &'a CapacityTable) -> Reading<'a> {
        Reading { table, ..self }
    }

    /// The row of a length; `None` past the last.
    pub(super) fn row(&self, length: Length) -> Option<Row> {
        self.table.row_for(length)
    }

    /// The row before another: that of a shorter length.
    pub(super) fn shorter(&self, row: Row) -> Option<Row> {
        let rows: Vec<Row> = self.table.rows().collect();
        let at = rows.iter().position(|other| *other == row)?;
        rows.get(at.checked_sub(1)?).copied()
    }

    /// The row after another: that of a longer length.
    pub(super) fn longer(&self, row: Row) -> Option<Row> {
        self.table.rows().skip_while(|other| *other != row).nth(1)
    }

    /// What a size carries in a row.
    pub(super) fn capacity(&self, row: Row, size: NominalSize) -> Option<Flow> {
        let cell = self.table.cell(row, self.table.column(size)?)?;
        Some(cell.capacity.times(self.factor).flow(self.heating))
    }

    /// The first size of a row that carries a load, not under the least that the profile allows.
    pub(super) fn size(&self, row: Row, load: Flow) -> Option<NominalSize> {
        let sizes = self.table.sizes().iter().copied();
        let found = sizes
            .into_iter()
            .find(|size| self.capacity(row, *size).is_some_and(|found| carries(found, load)));
        found.map(|size| self.least.map_or(size, |least| size.max(least)))
    }

    /// The size at a length.
    pub(super) fn size_at(&self, length: Length, load: Flow) -> Option<NominalSize> {
        self.size(self.row(length)?, load)
    }

    /// The next smaller size that a row has.
    pub(super) fn smaller(&self, row: Row, size: NominalSize) -> Option<NominalSize> {
        let mut sizes = self.table.sizes().iter().copied();
        sizes.rfind(|other| *other < size && self.capacity(row, *other).is_some())
    }
}

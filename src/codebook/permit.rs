//! What permit offices ask a drawing of gas piping to show.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Mark, Source};

/// One thing that offices ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct PermitItem {
    /// Short name, stable for ever: "burial-depth".
    pub id: &'static str,
    /// What is asked for.
    pub item: &'static str,
    /// How many of the requirements read name it.
    pub asked: u32,
    /// How many requirements were read.
    pub read: u32,
    /// The numbers of the requirements that name it, ascending: [`PermitSource::number`].
    pub asked_by: Vec<u32>,
    /// Whether it was read, or is commonly asked without a source.
    pub mark: Mark,
}

/// One public requirement that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PermitSource {
    /// Its number in the list, from 1.
    pub number: u32,
    /// Who asks, and where it is written.
    pub name: &'static str,
    /// For what, and how much of it was seen.
    pub scope: &'static str,
}

/// What offices ask for, the most asked first, and who they are.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PermitItems {
    list: Vec<PermitItem>,
    sources: Vec<PermitSource>,
    source: Source,
}

impl PermitItems {
    pub(super) fn read(items: Asset, sources: Asset) -> Result<PermitItems, CodebookError> {
        let (items, sources) = (Sheet::read(items)?, Sheet::read(sources)?);
        let list: Result<_, _> = items.records().map(PermitItem::read).collect();
        let read: Result<_, _> = sources.records().map(PermitSource::read).collect();
        Ok(PermitItems {
            list: list?,
            sources: read?,
            source: items.source()?,
        })
    }
}

impl PermitItem {
    fn read(record: Record<'_>) -> Result<PermitItem, CodebookError> {
        let which = record.text("which")?;
        let numbers = which.split(' ').filter(|word| *word != "-");
        let numbers: Result<Vec<u32>, _> = numbers.map(str::parse).collect();
        Ok(PermitItem {
            id: record.text("id")?,
            item: record.text("item")?,
            asked: count(record, "asked")?,
            read: count(record, "read")?,
            asked_by: numbers.map_err(|_| record.fault(format!("`{which}` are not numbers")))?,
            mark: record.mark()?,
        })
    }
}

impl PermitSource {
    fn read(record: Record<'_>) -> Result<PermitSource, CodebookError> {
        Ok(PermitSource {
            number: count(record, "number")?,
            name: record.text("source")?,
            scope: record.text("scope")?,
        })
    }
}

fn count(record: Record<'_>, column: &str) -> Result<u32, CodebookError> {
    match record.number(column)? {
        count if (0.0..=1000.0).contains(&count) && count.fract() == 0.0 => Ok(count as u32),
        count => Err(record.fault(format!("`{count}` is not a count"))),
    }
}

impl Codebook {
    /// What permit offices ask for, the most asked first.
    pub fn permit_items(&self) -> &[PermitItem] {
        &self.permit.list
    }

    /// The public requirements that were read, by their numbers.
    pub fn permit_sources(&self) -> &[PermitSource] {
        &self.permit.sources
    }

    /// Which kinds of requirements were read, and how.
    pub fn permit_source(&self) -> Source {
        self.permit.source
    }
}

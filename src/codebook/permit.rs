//! What permit offices ask a drawing of gas piping to show.

use super::assets::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Mark, Source};

/// One thing that offices ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PermitItem {
    /// Short name, stable for ever: "burial-depth".
    pub id: &'static str,
    /// What is asked for.
    pub item: &'static str,
    /// How many of the requirements read name it.
    pub asked: u32,
    /// How many requirements were read.
    pub read: u32,
    /// Whether it was read, or is commonly asked without a source.
    pub mark: Mark,
}

/// What offices ask for, the most asked first.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PermitItems {
    list: Vec<PermitItem>,
    source: Source,
}

impl PermitItems {
    pub(super) fn read(asset: Asset) -> Result<PermitItems, CodebookError> {
        let sheet = Sheet::read(asset)?;
        let list: Result<_, _> = sheet.records().map(PermitItem::read).collect();
        let source = sheet.source()?;
        list.map(|list| PermitItems { list, source })
    }
}

impl PermitItem {
    fn read(record: Record<'_>) -> Result<PermitItem, CodebookError> {
        let count = |column: &str| match record.number(column)? {
            count if (0.0..=1000.0).contains(&count) && count.fract() == 0.0 => Ok(count as u32),
            count => Err(record.fault(format!("`{count}` is no count"))),
        };
        Ok(PermitItem {
            id: record.text("id")?,
            item: record.text("item")?,
            asked: count("asked")?,
            read: count("read")?,
            mark: record.mark()?,
        })
    }
}

impl Codebook {
    /// What permit offices ask for, the most asked first.
    pub fn permit_items(&self) -> &[PermitItem] {
        &self.permit.list
    }

    /// Which requirements were read, and how.
    pub fn permit_source(&self) -> Source {
        self.permit.source
    }
}

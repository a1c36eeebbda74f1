//! How far apart pipe is held.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Marked, PipeKind};
use crate::job::Material;
use crate::units::{Length, NominalSize};

/// Which way pipe goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Way {
    /// Level, or nearly.
    Horizontal,
    /// Plumb.
    Vertical,
}

/// How far apart supports are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spacing {
    /// At most this far apart.
    AtMost(Length),
    /// At every floor.
    EveryFloor,
    /// As the maker says.
    AsMakerSays,
}

/// The published spacings.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SupportTable {
    rows: Vec<SupportRow>,
}

/// One line of the published spacings.
#[derive(Clone, Copy, Debug, PartialEq)]
struct SupportRow {
    pipe: PipeKind,
    from: NominalSize,
    to: NominalSize,
    way: Way,
    spacing: Marked<Spacing>,
}

impl SupportTable {
    pub(super) fn read(asset: Asset) -> Result<SupportTable, CodebookError> {
        let sheet = Sheet::of_figures(asset)?;
        let rows: Result<_, _> = sheet.records().map(SupportRow::read).collect();
        rows.map(|rows| SupportTable { rows })
    }
}

impl SupportRow {
    fn read(record: Record<'_>) -> Result<SupportRow, CodebookError> {
        let kind = record.text("pipe")?;
        let word = PipeKind::WORDS.iter().find(|word| word.0 == kind);
        let spacing = match record.text("feet")? {
            "every floor" => Spacing::EveryFloor,
            "maker" => Spacing::AsMakerSays,
            _ => Spacing::AtMost(Length::from_feet(record.number("feet")?)),
        };
        Ok(SupportRow {
            pipe: word
                .map(|word| word.1)
                .ok_or_else(|| record.fault(format!("`{kind}` is not a pipe")))?,
            from: record.typed("from")?,
            to: record.typed("to")?,
            way: match record.text("way")? {
                "horizontal" => Way::Horizontal,
                "vertical" => Way::Vertical,
                other => return Err(record.fault(format!("`{other}` is not a direction"))),
            },
            spacing: Marked::new(spacing, record.mark()?),
        })
    }
}

impl Codebook {
    /// How far apart supports of pipe above ground are; `None` when nothing is published.
    ///
    /// The published rows of tube go by its outside diameter, those of pipe by its nominal size.
    pub fn support_spacing(&self, material: Material, size: NominalSize, way: Way) -> Option<Marked<Spacing>> {
        let pipe = PipeKind::of(material);
        let size = match material.goes_by_outside() {
            true => self.outside_size(material, size)?,
            false => size,
        };
        let rows = self.supports.rows.iter();
        rows.filter(|row| row.pipe == pipe && row.way == way)
            .find(|row| row.from <= size && size <= row.to)
            .map(|row| row.spacing)
    }

    /// The outside diameter of a size, as an inch size.
    fn outside_size(&self, material: Material, size: NominalSize) -> Option<NominalSize> {
        let sixteenths = self.pipe(material, size)?.outside?.value.inches() * 16.0;
        (0.0..f64::from(u16::MAX))
            .contains(&sixteenths)
            .then(|| NominalSize::Inch(sixteenths.round() as u16))
    }
}

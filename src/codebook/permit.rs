//! What permit offices ask a drawing of gas piping to show.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Mark, Source};

/// The things that are asked for, each with its short name, stable for ever.
macro_rules! asks {
    ($($(#[$doc:meta])* $ask:ident = $id:literal,)*) => {
        /// What an item asks for.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum PermitAsk {
            $($(#[$doc])* $ask,)*
        }

        impl PermitAsk {
            /// Its short name: "burial-depth".
            pub const fn id(self) -> &'static str {
                match self {
                    $(PermitAsk::$ask => $id,)*
                }
            }

            fn of(id: &str) -> Option<PermitAsk> {
                match id {
                    $($id => Some(PermitAsk::$ask),)*
                    _ => None,
                }
            }
        }
    };
}
asks! {
    /// A drawing of the gas piping.
    Drawing = "drawing",
    /// The size of each section.
    Sizes = "sizes",
    /// Where the piping goes.
    Route = "route",
    /// Who installs it, by name or license.
    Licence = "licence",
    /// The input of each appliance.
    Inputs = "inputs",
    /// The length of each run.
    Lengths = "lengths",
    /// What each appliance is, and where.
    Appliances = "appliances",
    /// Distances to lot lines, buildings and openings.
    Distances = "distances",
    /// Where the job is, or whose it is.
    Address = "address",
    /// The point of delivery.
    Supply = "supply",
    /// A scale.
    Scale = "scale",
    /// The material of the pipe.
    Material = "material",
    /// The code that is followed.
    Code = "code",
    /// Makers' data sheets.
    MakersData = "makers-data",
    /// The gas pressure.
    Pressure = "pressure",
    /// The kind of gas.
    Fuel = "fuel",
    /// Shutoff valves.
    Valves = "valves",
    /// The cover of buried pipe.
    BurialDepth = "burial-depth",
    /// Which way is north.
    North = "north",
    /// A least size of the sheet.
    SheetSize = "sheet-size",
    /// What the work is.
    Description = "description",
    /// The word isometric.
    Isometric = "isometric",
    /// The total connected load.
    TotalLoad = "total-load",
    /// Which pipe is concealed.
    Concealed = "concealed",
    /// Which way gas flows.
    Flow = "flow",
    /// Fittings, by kind and place.
    Fittings = "fittings",
    /// Differences in elevation.
    Elevations = "elevations",
    /// Tracer wire on buried plastic pipe.
    Tracer = "tracer",
    /// How many outlets there are, and what each serves.
    Outlets = "outlets",
    /// Date and number of the drawing.
    DateNumber = "date-number",
    /// Sediment traps.
    SedimentTrap = "sediment-trap",
    /// A union beside each line regulator.
    RegulatorUnion = "regulator-union",
    /// The length to the farthest outlet.
    DevelopedLength = "developed-length",
    /// Table or method, allowable drop and specific gravity.
    Method = "method",
    /// Load and capacity of each section.
    SectionLoad = "section-load",
    /// The words not to scale.
    NotToScale = "not-to-scale",
}

/// One thing that offices ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct PermitItem {
    /// What it asks for.
    pub ask: PermitAsk,
    /// What is asked for; [`crate::units::in_units`] tells it in the units of a job.
    pub item: String,
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
#[derive(Clone, Debug, PartialEq)]
pub struct PermitSource {
    /// Its number in the list, from 1.
    pub number: u32,
    /// Who asks, and where it is written.
    pub name: &'static str,
    /// Whether it is a Canadian one; the others are of the United States.
    pub canadian: bool,
    /// For what, and how much of it was seen; [`crate::units::in_units`] tells it in the units of a job.
    pub scope: String,
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
        let (id, which) = (record.text("id")?, record.text("which")?);
        let numbers = which.split(' ').filter(|word| *word != "-");
        let numbers: Result<Vec<u32>, _> = numbers.map(str::parse).collect();
        Ok(PermitItem {
            ask: PermitAsk::of(id)
                .ok_or_else(|| record.fault(format!("`{id}` is not asked for by any name known here")))?,
            item: record.text("item")?.to_owned(),
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
            canadian: record.text("country")? == "ca",
            scope: record.text("scope")?.to_owned(),
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

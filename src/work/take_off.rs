//! The take-off: what is bought, kept and taken out, each line with its places.
//!
//! Every line follows from the job, its study, the cut list and the stock plan; nothing is kept that follows.

mod material;
mod price;
mod words;

pub(in crate::work) use material::sleeve;
pub use price::{PriceList, Priced};

use super::{CutList, StockPlan};
use crate::codebook::{Codebook, Mark};
use crate::job::{Extra, Job, State};
use crate::study::{Place, Study, plural};
use crate::units::{Length, Show, UnitSystem};

/// Everything that a job takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TakeOff {
    /// The lines by group, in each by shelf as a counter has them; at last those of the person's own.
    pub lines: Vec<Line>,
    /// How many of them, from the first, follow from the drawing.
    pub drawn: usize,
}

/// Like things together.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is: "90° elbow", "pipe", "hanger".
    pub what: String,
    /// Size of its ends in the job's units; empty where it has none.
    pub size: String,
    /// Its material in words of the trade; empty where it has none.
    pub material: &'static str,
    /// New, existing or removed.
    pub state: State,
    /// What becomes of it.
    pub group: Group,
    /// Where a counter keeps it.
    pub shelf: Shelf,
    /// How much.
    pub quantity: Quantity,
    /// Where: choosing a line shows these.
    pub places: Vec<Place>,
    /// The weakest mark of the figures behind the quantity, where there are any.
    pub mark: Option<Mark>,
    /// What must be known beside it.
    pub remark: String,
}

/// What becomes of the things of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Bought.
    Buy,
    /// Nothing to be bought yet: a size or a length must be found first.
    Settle,
    /// Made on site, of what is bought.
    OnSite,
    /// Taken out, and kept for use again.
    Kept,
    /// Taken out.
    TakenOut,
    /// There, and stays.
    Stays,
}

impl Group {
    /// What is done, as a column has it.
    pub const fn name(self) -> &'static str {
        match self {
            Group::Buy => "buy",
            Group::Settle => "confirm first",
            Group::OnSite => "make on site",
            Group::Kept => "salvage",
            Group::TakenOut => "remove",
            Group::Stays => "remains",
        }
    }

    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            Group::Buy => "buy",
            Group::Settle => "confirm_first",
            Group::OnSite => "make_on_site",
            Group::Kept => "salvage",
            Group::TakenOut => "remove",
            Group::Stays => "remains",
        }
    }

    /// What stands over its lines.
    pub const fn heading(self) -> &'static str {
        match self {
            Group::Buy => "Buy",
            Group::Settle => "Confirm before ordering",
            Group::OnSite => "Make on site",
            Group::Kept => "Remove and salvage for reuse",
            Group::TakenOut => "Remove",
            Group::Stays => "Existing to remain",
        }
    }

    /// That of what is taken out.
    const fn gone(salvaged: bool) -> Group {
        if salvaged { Group::Kept } else { Group::TakenOut }
    }

    const fn of(state: State) -> Group {
        match state {
            State::New => Group::Buy,
            State::Existing => Group::Stays,
            State::Removed => Group::TakenOut,
        }
    }
}

/// Where a counter keeps things, in the order in which a list is read out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shelf {
    /// Pipe, tube and nipples.
    Pipe,
    /// Fittings of threaded pipe, copper and plastic; unions.
    Fittings,
    /// Valves, regulators, meters, connectors.
    Gas,
    /// Corrugated tubing and its manufacturer's fittings.
    Tubing,
    /// Hangers, sleeves, plates, bonding, what keeps off rust.
    Supports,
    /// Thread compound, brazing alloy, caps for the test, leak detection.
    #[default]
    Sealants,
}

impl Shelf {
    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            Shelf::Pipe => "pipe_and_nipples",
            Shelf::Fittings => "fittings",
            Shelf::Gas => "valves_and_gas_controls",
            Shelf::Tubing => "tubing_parts",
            Shelf::Supports => "hangers_sleeves_and_protection",
            Shelf::Sealants => "sealants_and_test",
        }
    }

    /// What stands over its lines.
    pub const fn heading(self) -> &'static str {
        match self {
            Shelf::Pipe => "pipe and nipples",
            Shelf::Fittings => "fittings",
            Shelf::Gas => "valves and gas controls",
            Shelf::Tubing => "tubing manufacturer's parts",
            Shelf::Supports => "hangers, sleeves and protection",
            Shelf::Sealants => "sealants and test",
        }
    }
}

/// How much of something.
#[derive(Clone, Debug, PartialEq)]
pub enum Quantity {
    /// So many.
    Count(usize),
    /// So long.
    Length(Length),
    /// Whole lengths or coils of stock, each so long.
    Stock(usize, Length),
    /// So large, in square feet.
    SquareFeet(f64),
    /// As many as the manufacturer's instructions ask for.
    AsMakerSays,
    /// As much as the work on site asks for.
    AsNeeded,
    /// So much of a unit of the person's own.
    Own(f64, String),
}

impl TakeOff {
    /// The take-off of a job with its cut list and stock plan.
    pub fn of(job: &Job, study: &Study, book: &Codebook, cuts: &CutList, stock: &StockPlan) -> TakeOff {
        let mut lines = material::lines(job, study, book, cuts, stock);
        let drawn = lines.len();
        lines.extend(job.by_hand.extra.iter().map(Line::own));
        TakeOff { lines, drawn }
    }

    /// Which of the person's own lines a line is.
    pub fn own(&self, line: usize) -> Option<usize> {
        line.checked_sub(self.drawn).filter(|_| line < self.lines.len())
    }
}

impl Line {
    /// A line without size, material, mark and remark.
    fn of(what: impl Into<String>, state: State, quantity: Quantity, places: Vec<Place>) -> Line {
        Line {
            what: what.into(),
            size: String::new(),
            material: "",
            state,
            group: Group::of(state),
            shelf: Shelf::default(),
            quantity,
            places,
            mark: None,
            remark: String::new(),
        }
    }

    /// One at each place.
    fn each(what: impl Into<String>, state: State, places: Vec<Place>) -> Line {
        Line::of(what, state, Quantity::Count(places.len()), places)
    }

    /// A line that a person adds.
    fn own(extra: &Extra) -> Line {
        let quantity = Quantity::Own(extra.quantity, extra.unit.clone());
        Line {
            remark: match extra.note.trim() {
                "" => OWN.to_owned(),
                note => format!("{note} ({OWN})"),
            },
            ..Line::of(extra.what.clone(), State::New, quantity, Vec::new())
        }
    }

    /// Says something more beside it.
    fn add(&mut self, words: &str) {
        if !self.remark.is_empty() {
            self.remark.push_str("; ");
        }
        self.remark.push_str(words);
    }

    /// What it is, in the plural where there are more: "90° elbows".
    pub fn named(&self) -> String {
        match self.quantity {
            Quantity::Count(0 | 2..) => plural(&self.what),
            _ => self.what.clone(),
        }
    }

    /// The line in one string, by which a price list names it: `90° elbow 3/4" malleable iron, class 150`.
    pub fn label(&self) -> String {
        self.labeled(self.material)
    }

    /// The same with the material in short, which a price list may have as well: `90° elbow 3/4" steel`.
    pub fn short_label(&self) -> String {
        self.labeled(words::short(self.material))
    }

    fn labeled(&self, material: &str) -> String {
        let words = [self.what.as_str(), self.size.as_str(), material];
        let said: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
        said.join(" ")
    }

    /// What stands over a line of its group and shelf: "To buy: fittings", "Stays".
    pub fn heading(&self) -> String {
        match self.group {
            Group::Buy => format!("{}: {}", self.group.heading(), self.shelf.heading()),
            group => group.heading().to_owned(),
        }
    }
}

/// What is said of a line that a person added.
const OWN: &str = "added by hand";

const SQUARE_METRES: f64 = 0.092_903_04;

impl Quantity {
    /// The number alone, in the unit of [`Quantity::unit`].
    pub fn amount(&self, units: UnitSystem) -> Option<f64> {
        match (self, units) {
            (Quantity::Count(count), _) => Some(*count as f64),
            (Quantity::Stock(count, each), units) => {
                let one = Quantity::Length(*each).amount(units)?;
                Some(one * *count as f64)
            }
            (Quantity::Length(length), UnitSystem::Us) => Some(length.feet()),
            (Quantity::Length(length), UnitSystem::Metric | UnitSystem::MetricKpa) => Some(length.metres()),
            (Quantity::SquareFeet(area), UnitSystem::Us) => Some(*area),
            (Quantity::SquareFeet(area), UnitSystem::Metric | UnitSystem::MetricKpa) => Some(area * SQUARE_METRES),
            (Quantity::AsMakerSays | Quantity::AsNeeded, _) => None,
            (Quantity::Own(amount, _), _) => Some(*amount),
        }
    }

    /// The unit of the number, by which a price is asked.
    pub fn unit(&self, units: UnitSystem) -> &str {
        match (self, units) {
            (Quantity::Count(_), _) => "each",
            (Quantity::Length(_) | Quantity::Stock(..), UnitSystem::Us) => "ft",
            (Quantity::Length(_) | Quantity::Stock(..), UnitSystem::Metric | UnitSystem::MetricKpa) => "m",
            (Quantity::SquareFeet(_), UnitSystem::Us) => "ft²",
            (Quantity::SquareFeet(_), UnitSystem::Metric | UnitSystem::MetricKpa) => "m²",
            (Quantity::AsMakerSays | Quantity::AsNeeded, _) => "",
            (Quantity::Own(_, unit), _) => unit,
        }
    }

    /// In words: `4`, `12'-6"`, `2 × 21'-0"`, `3.2 ft²`, "per manufacturer".
    pub fn show(&self, units: UnitSystem) -> String {
        match self {
            Quantity::Count(count) => count.to_string(),
            Quantity::Length(length) => length.show(units),
            Quantity::Stock(count, each) => format!("{count} × {}", each.show(units)),
            Quantity::SquareFeet(_) => {
                let area = self.amount(units).unwrap_or_default();
                format!("{area:.1} {}", self.unit(units))
            }
            Quantity::AsMakerSays => "per manufacturer".to_owned(),
            Quantity::AsNeeded => "as needed".to_owned(),
            Quantity::Own(amount, unit) => format!("{amount} {unit}").trim_end().to_owned(),
        }
    }
}

//! The size of a section, and the reason for it.

use crate::codebook::Mark;
use crate::units::{Flow, Length, NominalSize};
use std::sync::Arc;

/// The size of a section and everything needed to say why.
#[derive(Clone, Debug)]
pub struct Sizing {
    /// The size on the drawing: as known, as fixed by hand, or as found. `None` when nothing gives one.
    pub size: Option<NominalSize>,
    /// Where that size comes from.
    pub origin: Origin,
    /// The least size that the method finds, whatever stands on the drawing.
    pub needed: Option<NominalSize>,
    /// What the capacities were taken from.
    pub basis: Basis,
    /// Capacities under that basis: of the size on the drawing, the size found, and their neighbours, small to large.
    pub capacities: Vec<SizeCapacity>,
    /// Whether the size on the drawing carries the load.
    pub verdict: Verdict,
    /// Sentences that must stand beside the figure: table traps, missing facts, profile minimum.
    pub remarks: Vec<String>,
}

impl Sizing {
    /// The capacity of the size on the drawing.
    pub fn capacity(&self) -> Option<&SizeCapacity> {
        self.size
            .and_then(|size| self.capacities.iter().find(|capacity| capacity.size == size))
    }
}

/// Where a size comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Origin {
    /// Existing pipe, as the person read it.
    Known,
    /// New pipe, fixed by the person.
    Fixed,
    /// New pipe, sized by the method.
    Found,
    /// Existing pipe whose size nobody said.
    Unknown,
    /// No pipe: part of a listed connector, which its own rating judges.
    Connector,
}

/// What capacities were taken from.
#[derive(Clone, Debug, PartialEq)]
pub enum Basis {
    /// A published table.
    Table {
        /// Its number: "402.4(2)".
        table: Arc<str>,
        /// The row read: the next length not shorter than the design length.
        row: Length,
    },
    /// A named equation, where the profile allows it.
    Equation {
        /// Its name, for the drawing.
        name: &'static str,
        /// The length that entered it.
        length: Length,
    },
    /// Nothing published covers the case; the sentence says what is missing.
    Nothing(String),
}

/// What one size carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeCapacity {
    /// The size.
    pub size: NominalSize,
    /// Its capacity for the job's gas.
    pub flow: Flow,
    /// How sure the figure is.
    pub mark: Mark,
}

/// Whether a size carries its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// Its capacity is not less than the load.
    Carries,
    /// Its capacity is less than the load.
    TooSmall,
    /// No size, no load, a load of which an appliance is not known, or no published figure.
    Unknown,
}

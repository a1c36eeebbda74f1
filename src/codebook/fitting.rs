//! Equivalent lengths of fittings and valves: `L = n · D / 12`.

use super::{Codebook, Marked};
use crate::job::ValveKind;
use crate::units::{InsideDiameter, Length};

/// What stands in the way of the gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fitting {
    /// A turn of 90° in an elbow.
    Elbow90,
    /// A turn of 90° in an elbow with one male end.
    StreetElbow90,
    /// A turn of 45°.
    Elbow45,
    /// Through the side outlet of a tee or cross.
    TeeBranch,
    /// Straight through a tee or cross.
    TeeRun,
    /// A return bend of 180°.
    Return180,
    /// A fully open ball valve.
    BallValve,
    /// A fully open plug valve.
    PlugValve,
    /// A fully open gate valve.
    GateValve,
    /// A fully open globe valve.
    GlobeValve,
    /// A fully open angle valve.
    AngleValve,
    /// A swing check valve.
    SwingCheck,
}

impl Fitting {
    /// The fitting that a valve counts as.
    pub const fn of_valve(kind: ValveKind) -> Fitting {
        match kind {
            ValveKind::Ball => Fitting::BallValve,
            ValveKind::Plug => Fitting::PlugValve,
            ValveKind::Gate => Fitting::GateValve,
            ValveKind::Globe => Fitting::GlobeValve,
        }
    }
}

/// Bores of straight pipe in each fitting.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct FittingTable {
    pub(super) rows: Vec<(Fitting, Marked<f64>)>,
}

impl Codebook {
    /// The length of pipe of bore `D` that loses as much as a fitting: `L = n · D / 12`, in feet with `D` in inches.
    pub fn equivalent_length(&self, fitting: Fitting, bore: InsideDiameter) -> Option<Marked<Length>> {
        let (_, n) = self.fittings.rows.iter().find(|row| row.0 == fitting)?;
        Some(n.map(|n| Length::from_inches(n * bore.inches())))
    }
}

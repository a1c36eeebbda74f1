//! Equivalent lengths of fittings and valves: `L = n · D / 12`.

use super::asset::Asset;
use super::sheet::Sheet;
use super::{Codebook, CodebookError, Marked};
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

/// The words of the fact file.
const WORDS: [(&str, Fitting); 12] = [
    ("elbow 90", Fitting::Elbow90),
    ("street elbow 90", Fitting::StreetElbow90),
    ("elbow 45", Fitting::Elbow45),
    ("tee branch", Fitting::TeeBranch),
    ("tee run", Fitting::TeeRun),
    ("return 180", Fitting::Return180),
    ("ball valve", Fitting::BallValve),
    ("plug valve", Fitting::PlugValve),
    ("gate valve", Fitting::GateValve),
    ("globe valve", Fitting::GlobeValve),
    ("angle valve", Fitting::AngleValve),
    ("swing check", Fitting::SwingCheck),
];

impl Fitting {
    /// The fitting that a valve counts as. No figure of key valves was found: most turn the gas through a right angle, so one
    /// counts as an angle valve until its maker's flow and loss are entered.
    pub const fn of_valve(kind: ValveKind) -> Fitting {
        match kind {
            ValveKind::Ball => Fitting::BallValve,
            ValveKind::Plug => Fitting::PlugValve,
            ValveKind::Gate => Fitting::GateValve,
            ValveKind::Globe => Fitting::GlobeValve,
            ValveKind::Key => Fitting::AngleValve,
        }
    }
}

/// Bores of straight pipe in each fitting.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct FittingTable {
    rows: Vec<Bores>,
}

/// Bores of straight pipe in one fitting.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Bores {
    fitting: Fitting,
    counted: Marked<f64>,
    lost: Marked<f64>,
}

impl FittingTable {
    pub(super) fn read(asset: Asset) -> Result<FittingTable, CodebookError> {
        let sheet = Sheet::of_figures(asset)?;
        let rows = sheet.records().map(|record| {
            let name = record.text("fitting")?;
            let word = WORDS.iter().find(|word| word.0 == name);
            Ok(Bores {
                fitting: word
                    .map(|word| word.1)
                    .ok_or_else(|| record.fault(format!("`{name}` is not a fitting")))?,
                counted: record.known("n_counted")?,
                lost: record.known("n_lost")?,
            })
        });
        Ok(FittingTable {
            rows: rows.collect::<Result<_, CodebookError>>()?,
        })
    }
}

impl Codebook {
    /// The length that a proof counts for a fitting on pipe of bore `D`: `L = n D / 12`, in feet with `D` in inches.
    ///
    /// IFGC appendix A, table A.2.2 (the rule, and n of 30 for an elbow, 60 for the branch of a tee); a worked proof
    /// after CSA B149.1 counts a valve like an elbow and a tee's run not at all. `None` when nothing is known.
    pub fn equivalent_length(&self, fitting: Fitting, bore: InsideDiameter) -> Option<Marked<Length>> {
        self.bores(fitting).map(|bores| length(bores.counted, bore))
    }

    /// The length of pipe of bore `D` that loses as much as a fitting, for pressures: as [`Codebook::equivalent_length`],
    /// and 20 bores (from memory) for gas that goes straight through a tee, which proofs leave out.
    pub fn loss_length(&self, fitting: Fitting, bore: InsideDiameter) -> Option<Marked<Length>> {
        self.bores(fitting).map(|bores| length(bores.lost, bore))
    }

    fn bores(&self, fitting: Fitting) -> Option<&Bores> {
        self.fittings.rows.iter().find(|row| row.fitting == fitting)
    }
}

fn length(bores: Marked<f64>, bore: InsideDiameter) -> Marked<Length> {
    bores.map(|n| Length::from_inches(n * bore.inches()))
}

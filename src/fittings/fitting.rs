//! Fittings that follow from the drawing.

use super::{Port, PortKind};
use crate::codebook::SizeNames;
use crate::job::{Material, State, Turn, stock_turn};
use crate::units::{Angle, NominalSize, Show, UnitSystem};
use std::collections::BTreeMap;

/// A fitting at a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitting {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// What it is.
    pub kind: FittingKind,
    /// Size of every end, or of the tubing to which it leads: elbow and coupling inlet first; tee and cross larger run,
    /// other run, outlets (ASME B16.3); the end fitting of tubing that of the tubing, then its thread where it is known; a
    /// bend, cap, plug or nipple its one size. Empty when the size of any end is not known.
    pub sizes: Vec<NominalSize>,
    /// Its material; what joins unlike pipe is of that into which it leads, and a fitting with threads of steel's kind.
    pub material: Material,
    /// New when it is to be made; existing where it stood already, as it will; removed when it is taken out.
    pub state: State,
    /// The section upstream of it, to which it is counted.
    pub section: Option<usize>,
    /// Its ports; none of a bend. Of a tee or cross the two of the run first, then the outlets.
    pub ports: Vec<Port>,
}

impl Fitting {
    /// Whether it is a fitting to be made: a bend of tubing and a nipple are none.
    pub(crate) fn is_new_work(&self) -> bool {
        self.state == State::New && !matches!(self.kind, FittingKind::Bend | FittingKind::Nipple)
    }
}

/// Kinds of fittings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FittingKind {
    /// A turn of 90°.
    Elbow90,
    /// A turn of 90° with one male end.
    StreetElbow90,
    /// A turn of 45°.
    Elbow45,
    /// A turn of another angle, in tenths of a degree: no such stock fitting.
    OddElbow(u16),
    /// A bend in the tubing itself, or that of a riser at its foot: no fitting.
    Bend,
    /// Three ways.
    Tee,
    /// Three ways, each square to the others.
    SideOutletElbow,
    /// Four ways.
    Cross,
    /// Two ways in line and two outlets square to them and to each other.
    SideOutletTee,
    /// More ways than any stock fitting has, or three or four at angles that none has.
    ManyWays(u16),
    /// Two lengths in line of one size.
    Coupling,
    /// Two lengths in line, or a device end, of two sizes.
    ReducingCoupling,
    /// The end fitting of corrugated tubing: its nut, and a thread.
    TubingFitting,
    /// Copper tube to a thread.
    Adapter,
    /// Polyethylene pipe to a thread, in the soil.
    Transition,
    /// Polyethylene pipe to a thread above grade: plastic pipe in a steel case.
    Riser,
    /// A short nipple between two female threads that are drawn at one place.
    Nipple,
    /// The capped nipple of a sediment trap.
    TrapNipple,
    /// A cap at a person's cap device.
    Cap,
    /// What closes the outlet of a tee.
    Plug,
}

impl FittingKind {
    /// The elbow of a turn of so many degrees: the stock one where one is near.
    pub(crate) fn of_turn(degrees: f64, made: Turn) -> FittingKind {
        match stock_turn(degrees) {
            Some(stock) if stock < 90.0 => FittingKind::Elbow45,
            Some(_) if made.is_street() => FittingKind::StreetElbow90,
            Some(_) => FittingKind::Elbow90,
            None => FittingKind::OddElbow((degrees * 10.0).round() as u16),
        }
    }

    /// Whether corrugated tubing itself goes into it, so that its size may be that of the tubing.
    const fn is_of_tubing(self) -> bool {
        matches!(
            self,
            FittingKind::Bend | FittingKind::TubingFitting | FittingKind::Coupling | FittingKind::ReducingCoupling
        )
    }

    /// Whether the trade names the larger of its two ends first, whichever way gas flows: "3/4 × 1/2 reducing coupling".
    pub(crate) const fn goes_by_larger_end(self) -> bool {
        matches!(
            self,
            FittingKind::Elbow90 | FittingKind::Elbow45 | FittingKind::OddElbow(_) | FittingKind::ReducingCoupling
        )
    }

    /// Whether it is put on the end of tubing, copper or plastic pipe, so that it comes new with new pipe.
    pub(crate) const fn is_end_of_pipe(self) -> bool {
        matches!(
            self,
            FittingKind::TubingFitting | FittingKind::Adapter | FittingKind::Transition | FittingKind::Riser
        )
    }

    /// The trade's name of it, in lower case: "90° elbow".
    pub fn name(self) -> String {
        match self {
            FittingKind::Elbow90 => "90° elbow",
            FittingKind::StreetElbow90 => "90° street elbow",
            FittingKind::Elbow45 => "45° elbow",
            FittingKind::OddElbow(tenths) => {
                return format!(
                    "{} turn, no stock fitting",
                    Angle::from_degrees(f64::from(tenths) / 10.0).show(UnitSystem::Us)
                );
            }
            FittingKind::Bend => "bend",
            FittingKind::Tee => "tee",
            FittingKind::SideOutletElbow => "side-outlet elbow, or tee and elbow",
            FittingKind::Cross => "cross",
            FittingKind::SideOutletTee => "side-outlet tee, or two tees",
            FittingKind::ManyWays(ways) => return format!("{ways} openings, no stock fitting"),
            FittingKind::Coupling => "coupling",
            FittingKind::ReducingCoupling => "reducing coupling",
            FittingKind::TubingFitting => "tubing fitting",
            FittingKind::Adapter => "copper adapter",
            FittingKind::Transition => "transition fitting",
            FittingKind::Riser => "anodeless riser",
            FittingKind::Nipple => "nipple",
            FittingKind::TrapNipple => "drip leg",
            FittingKind::Cap => "cap",
            FittingKind::Plug => "plug",
        }
        .to_owned()
    }

    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            FittingKind::Elbow90 => "elbow_90",
            FittingKind::StreetElbow90 => "street_elbow_90",
            FittingKind::Elbow45 => "elbow_45",
            FittingKind::OddElbow(_) => "turn_without_stock_fitting",
            FittingKind::Bend => "bend",
            FittingKind::Tee => "tee",
            FittingKind::SideOutletElbow => "side_outlet_elbow",
            FittingKind::Cross => "cross",
            FittingKind::SideOutletTee => "side_outlet_tee",
            FittingKind::ManyWays(_) => "openings_without_stock_fitting",
            FittingKind::Coupling => "coupling",
            FittingKind::ReducingCoupling => "reducing_coupling",
            FittingKind::TubingFitting => "tubing_fitting",
            FittingKind::Adapter => "copper_adapter",
            FittingKind::Transition => "transition_fitting",
            FittingKind::Riser => "anodeless_riser",
            FittingKind::Nipple => "nipple",
            FittingKind::TrapNipple => "drip_leg",
            FittingKind::Cap => "cap",
            FittingKind::Plug => "plug",
        }
    }

    /// A shorter name for drawings and places: "elbow".
    pub const fn noun(self) -> &'static str {
        match self {
            FittingKind::Elbow90 => "elbow",
            FittingKind::StreetElbow90 => "street elbow",
            FittingKind::Elbow45 => "45° elbow",
            FittingKind::OddElbow(_) => "turn",
            FittingKind::Bend => "bend",
            FittingKind::Tee => "tee",
            FittingKind::SideOutletElbow => "side-outlet elbow",
            FittingKind::Cross => "cross",
            FittingKind::SideOutletTee => "side-outlet tee",
            FittingKind::ManyWays(_) => "multiple tee",
            FittingKind::Coupling => "coupling",
            FittingKind::ReducingCoupling => "reducing coupling",
            FittingKind::TubingFitting => "tubing fitting",
            FittingKind::Adapter => "copper adapter",
            FittingKind::Transition => "transition fitting",
            FittingKind::Riser => "anodeless riser",
            FittingKind::Nipple => "nipple",
            FittingKind::TrapNipple => "trap",
            FittingKind::Cap => "cap",
            FittingKind::Plug => "plug",
        }
    }
}

impl Fitting {
    /// Sizes of its ends as the trade writes them: one where all are alike, else each in turn, "1 × 3/4 × 1/2".
    pub fn sizes_named(&self, names: SizeNames) -> String {
        named(self.kind, self.material, &self.sizes, names)
    }

    /// The size of each end in turn, also where all are alike: "1 × 1 × 1"; empty when they are not known.
    pub fn each_size_named(&self, names: SizeNames) -> String {
        ends(self.kind, self.material, &self.sizes, names).join(" × ")
    }
}

impl FittingCount {
    /// The trade's name of them; of end fittings a female thread is told, for a counter keeps both.
    pub fn name(&self) -> String {
        match self.female {
            true => format!("{}, female thread", self.kind.name()),
            false => self.kind.name(),
        }
    }

    /// Sizes of their ends as the trade writes them.
    pub fn sizes_named(&self, names: SizeNames) -> String {
        named(self.kind, self.material, &self.sizes, names)
    }

    /// Whether they have a thread at tubing that only the maker's list tells.
    pub fn wants_a_thread(&self) -> bool {
        let tubing = self.sizes.iter().any(is_ehd);
        tubing && (!self.kind.is_of_tubing() || (self.kind == FittingKind::TubingFitting && self.sizes.len() == 1))
    }
}

fn named(kind: FittingKind, material: Material, sizes: &[NominalSize], names: SizeNames) -> String {
    let mut ends = ends(kind, material, sizes, names);
    if ends.iter().all(|end| Some(end) == ends.first()) {
        ends.truncate(1);
    }
    match ends.is_empty() {
        true => "size not known".to_owned(),
        false => ends.join(" × "),
    }
}

/// The ends by name. The second end of an adapter is a pipe thread, whatever tube the first is for.
fn ends(kind: FittingKind, material: Material, sizes: &[NominalSize], names: SizeNames) -> Vec<String> {
    let end = |(at, size): (usize, &NominalSize)| match is_ehd(size) && !kind.is_of_tubing() {
        true => to_tubing(*size, names.units()),
        false if kind == FittingKind::Adapter && at > 0 => size.show(names.units()),
        false => names.show(material, *size),
    };
    sizes.iter().enumerate().map(end).collect()
}

const fn is_ehd(size: &NominalSize) -> bool {
    !size.is_inch()
}

/// What leads to corrugated tubing: EHD is a size of the tubing, not of the thread beside it. "to EHD 18".
pub(crate) fn to_tubing(size: NominalSize, units: UnitSystem) -> String {
    format!("to {}", size.show(units))
}

/// Like fittings together.
#[derive(Clone, Debug, PartialEq)]
pub struct FittingCount {
    /// What they are.
    pub kind: FittingKind,
    /// Sizes of their ends.
    pub sizes: Vec<NominalSize>,
    /// Their material.
    pub material: Material,
    /// New, existing or removed.
    pub state: State,
    /// Whether their thread is a female one, where they are end fittings of tubing, copper or plastic pipe.
    pub female: bool,
    /// How many.
    pub count: usize,
    /// Where they are, positions in `job.joints`.
    pub joints: Vec<usize>,
}

/// Counts like fittings together, in the order of kind, sizes, material and state.
pub fn count(fittings: &[Fitting]) -> Vec<FittingCount> {
    let mut counted: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for fitting in fittings {
        let mut ports = fitting.ports.iter();
        let female = fitting.kind.is_end_of_pipe() && ports.any(|port| port.kind == PortKind::FemaleThread);
        let alike = (fitting.kind, &fitting.sizes, fitting.material, fitting.state, female);
        counted.entry(alike).or_default().push(fitting.joint);
    }
    let lines = counted
        .into_iter()
        .map(|((kind, sizes, material, state, female), joints)| FittingCount {
            kind,
            sizes: sizes.clone(),
            material,
            state,
            female,
            count: joints.len(),
            joints,
        });
    lines.collect()
}

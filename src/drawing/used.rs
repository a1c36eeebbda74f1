//! The kinds of symbols and lines that a drawing can show, and the set of those that one drawing does show; which of them
//! a device has, and how it is put on the paper.

use super::symbols::{self, CUBE, Shape};
use crate::job::{Device, ValveKind, listed};
use crate::scene::{Pen, Stroke};

listed! {
    /// A kind of line, symbol or mark that the legend can explain, in the order of a legend.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
    pub enum Symbol {
        /// New pipe.
        NewPipe,
        /// Existing pipe.
        ExistingPipe,
        /// Pipe to be removed.
        RemovedPipe,
        /// Pipe to be removed and kept for use again.
        SalvagedPipe,
        /// Pipe in a wall, floor or ceiling.
        ConcealedPipe,
        /// Pipe outdoors above ground.
        OutdoorPipe,
        /// Pipe below ground.
        BuriedPipe,
        /// Corrugated tubing.
        Csst,
        /// Detachable joint.
        Tick,
        /// Permanent joint.
        Dot,
        /// Two strokes like the flared end of a tube at the end of each run.
        Flare,
        /// Change of size in line.
        Reducer,
        /// Change of material in line.
        Transition,
        /// Polyethylene that comes up to a thread in a steel case.
        Riser,
        /// Point of delivery with the supplier's meter.
        SupplyMeter,
        /// Point of delivery without a meter.
        Supply,
        /// Meter in the line.
        Meter,
        /// Line regulator.
        Regulator,
        /// Ball valve.
        BallValve,
        /// Plug valve.
        PlugValve,
        /// Gate valve.
        GateValve,
        /// Globe valve.
        GlobeValve,
        /// Key valve, behind its wall plate.
        KeyValve,
        /// Excess-flow valve.
        ExcessFlow,
        /// Union.
        Union,
        /// Sediment trap.
        SedimentTrap,
        /// Flexible connector.
        Connector,
        /// Quick-disconnect coupling.
        QuickCoupling,
        /// Appliance.
        Appliance,
        /// Cap at an end of pipe.
        Cap,
        /// Plug in the outlet of a tee.
        Plug,
        /// Gauge for the pressure test.
        TestGauge,
        /// Wall, floor or roof that pipe passes through.
        Barrier,
        /// Sleeve around pipe.
        Sleeve,
        /// Ground line.
        Ground,
        /// Direction of flow.
        Flow,
        /// Run much longer than it is drawn.
        Break,
        /// Ring around a joint at which new pipe is tied in.
        TieIn,
        /// Number of a section on its pipe.
        SectionNumber,
        /// Pipe that passes behind another.
        Crossing,
        /// Helper plane of a skew run.
        HelperPlane,
        /// Height above the stated zero.
        Elevation,
        /// Number that stands for a label in the table.
        NumberedPoint,
        /// Cloud around what changed since the issue.
        Cloud,
    }
}

/// How the symbol of a device is put on the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stance {
    /// Upright, however pipe lies.
    Upright,
    /// Along the pipe, its upper side up.
    Along,
    /// Along the pipe, turned with it.
    Straight,
    /// Down from the pipe, or where there is room.
    Hanging,
    /// Up from the pipe, or where there is room.
    Standing,
    /// A cube on the face that its pipe enters.
    Cube,
}

impl Symbol {
    /// The kind under which a device is drawn.
    pub const fn of(device: &Device) -> Symbol {
        match device {
            Device::Supply(supply) if supply.meter.is_some() => Symbol::SupplyMeter,
            Device::Supply(_) => Symbol::Supply,
            Device::Meter(_) => Symbol::Meter,
            Device::Regulator(_) => Symbol::Regulator,
            Device::Valve(valve) => match valve.kind {
                ValveKind::Ball => Symbol::BallValve,
                ValveKind::Plug => Symbol::PlugValve,
                ValveKind::Gate => Symbol::GateValve,
                ValveKind::Globe => Symbol::GlobeValve,
                ValveKind::Key => Symbol::KeyValve,
            },
            Device::ExcessFlow { .. } => Symbol::ExcessFlow,
            Device::Union => Symbol::Union,
            Device::SedimentTrap(_) => Symbol::SedimentTrap,
            Device::Connector(_) => Symbol::Connector,
            Device::QuickCoupling(_) => Symbol::QuickCoupling,
            Device::Appliance(_) => Symbol::Appliance,
            Device::Cap(_) => Symbol::Cap,
            Device::TestGauge => Symbol::TestGauge,
        }
    }

    /// How a device's symbol is put on the paper, and how far it reaches along the pipe at full size, mm.
    pub const fn stance(device: &Device) -> (Stance, f64) {
        match device {
            Device::Supply(_) | Device::Meter(_) => (Stance::Upright, 3.4),
            Device::Regulator(_) | Device::Valve(_) => (Stance::Along, 2.6),
            Device::ExcessFlow { .. } => (Stance::Along, 2.2),
            Device::Union => (Stance::Along, 1.1),
            Device::SedimentTrap(_) => (Stance::Hanging, 1.0),
            Device::Connector(_) => (Stance::Straight, 3.2),
            Device::QuickCoupling(_) => (Stance::Along, 2.0),
            Device::Appliance(_) => (Stance::Cube, CUBE / 2.0),
            Device::Cap(_) => (Stance::Straight, 1.0),
            Device::TestGauge => (Stance::Standing, 1.0),
        }
    }

    /// What is drawn of it around the origin, where that is one shape; `pipe` is the pen of pipe that is part of it.
    pub fn shape(self, pen: Pen, pipe: Pen) -> Option<Shape> {
        Some(match self {
            Symbol::SupplyMeter | Symbol::Meter => symbols::round::meter(pen),
            Symbol::Supply => symbols::round::supply(pen),
            Symbol::Regulator => symbols::bow_tie::regulator(pen),
            Symbol::BallValve => symbols::bow_tie::valve(ValveKind::Ball, pen),
            Symbol::PlugValve => symbols::bow_tie::valve(ValveKind::Plug, pen),
            Symbol::GateValve => symbols::bow_tie::valve(ValveKind::Gate, pen),
            Symbol::GlobeValve => symbols::bow_tie::valve(ValveKind::Globe, pen),
            Symbol::KeyValve => symbols::bow_tie::valve(ValveKind::Key, pen),
            Symbol::ExcessFlow => symbols::round::excess_flow(pen),
            Symbol::Union => symbols::fitting::union(pen),
            Symbol::SedimentTrap => symbols::fitting::sediment_trap(Stroke::new(pipe), pen),
            Symbol::Connector => symbols::fitting::connector(pen),
            Symbol::QuickCoupling => symbols::fitting::quick_coupling(pen),
            Symbol::Cap => symbols::fitting::cap(pen),
            Symbol::Plug => symbols::fitting::plug(Stroke::new(pipe), pen),
            Symbol::TestGauge => symbols::round::test_gauge(pen),
            Symbol::Reducer => symbols::fitting::reducer(pen),
            Symbol::Transition => symbols::fitting::transition(pen),
            Symbol::Riser => symbols::fitting::riser(pen),
            Symbol::NewPipe
            | Symbol::ExistingPipe
            | Symbol::RemovedPipe
            | Symbol::SalvagedPipe
            | Symbol::ConcealedPipe
            | Symbol::OutdoorPipe
            | Symbol::BuriedPipe
            | Symbol::Csst
            | Symbol::Tick
            | Symbol::Dot
            | Symbol::Flare
            | Symbol::Appliance
            | Symbol::Barrier
            | Symbol::Sleeve
            | Symbol::Ground
            | Symbol::Flow
            | Symbol::Break
            | Symbol::TieIn
            | Symbol::SectionNumber
            | Symbol::Crossing
            | Symbol::HelperPlane
            | Symbol::Elevation
            | Symbol::NumberedPoint
            | Symbol::Cloud => return None,
        })
    }

    /// What the legend calls it.
    pub const fn words(self) -> &'static str {
        match self {
            Symbol::NewPipe => "new pipe",
            Symbol::ExistingPipe => "existing pipe (EX.)",
            Symbol::RemovedPipe => "pipe to be removed",
            Symbol::SalvagedPipe => "SALVAGE: removed for reuse",
            Symbol::ConcealedPipe => "concealed",
            Symbol::OutdoorPipe => "outdoors",
            Symbol::BuriedPipe => "underground",
            Symbol::Csst => "corrugated tubing (CSST)",
            Symbol::Tick => "threaded joint",
            Symbol::Dot => "brazed or fused joint",
            Symbol::Flare => "flared joint",
            Symbol::Reducer => "reducing fitting",
            Symbol::Transition => "change of material",
            Symbol::Riser => "anodeless riser",
            Symbol::SupplyMeter => "point of delivery, meter",
            Symbol::Supply => "point of delivery",
            Symbol::Meter => "meter",
            Symbol::Regulator => "line regulator",
            Symbol::BallValve => "shutoff valve, ball",
            Symbol::PlugValve => "shutoff valve, plug",
            Symbol::GateValve => "shutoff valve, gate",
            Symbol::GlobeValve => "shutoff valve, globe",
            Symbol::KeyValve => "shutoff valve, key",
            Symbol::ExcessFlow => "excess-flow valve",
            Symbol::Union => "union",
            Symbol::SedimentTrap => "sediment trap",
            Symbol::Connector => "flexible connector",
            Symbol::QuickCoupling => "quick-disconnect coupling",
            Symbol::Appliance => "appliance, by its letter",
            Symbol::Cap => "cap",
            Symbol::Plug => "plugged outlet",
            Symbol::TestGauge => "test gauge",
            Symbol::Barrier => "wall, floor or roof",
            Symbol::Sleeve => "sleeve",
            Symbol::Ground => "grade",
            Symbol::Flow => "direction of flow",
            Symbol::Break => "longer than drawn",
            Symbol::TieIn => "tie-in",
            Symbol::SectionNumber => "section number",
            Symbol::Crossing => "passes behind",
            Symbol::HelperPlane => "offset plane",
            Symbol::Elevation => "elevation",
            Symbol::NumberedPoint => "see numbered points",
            Symbol::Cloud => "changed since the last issue",
        }
    }
}

/// Which kinds occur.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SymbolSet(u64);

impl SymbolSet {
    /// Adds a kind.
    pub fn insert(&mut self, symbol: Symbol) {
        self.0 |= 1 << symbol as u32;
    }

    /// The kinds of both.
    pub fn with(self, other: SymbolSet) -> SymbolSet {
        SymbolSet(self.0 | other.0)
    }

    /// Whether a kind occurs.
    pub fn contains(self, symbol: Symbol) -> bool {
        self.0 & 1 << symbol as u32 != 0
    }

    /// The kinds that occur, in the order of a legend.
    pub fn iter(self) -> impl Iterator<Item = Symbol> {
        Symbol::ALL.into_iter().filter(move |symbol| self.contains(*symbol))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_gives_back_what_was_put_in_and_nothing_else() {
        let mut set = SymbolSet::default();
        set.insert(Symbol::NumberedPoint);
        set.insert(Symbol::NewPipe);
        set.insert(Symbol::NewPipe);
        assert_eq!(set.iter().collect::<Vec<_>>(), [Symbol::NewPipe, Symbol::NumberedPoint]);
        assert!(!set.contains(Symbol::Tick));
    }

    #[test]
    fn every_kind_has_its_own_bit_and_words() {
        for (at, symbol) in Symbol::ALL.into_iter().enumerate() {
            assert_eq!(symbol as usize, at);
            assert!(Symbol::ALL[..at].iter().all(|other| other.words() != symbol.words()));
        }
    }
}

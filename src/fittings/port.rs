//! Where one thing is joined to the next: ports of fittings and devices, and the ends of pipe that go into them.

use crate::job::Joining;
use crate::units::NominalSize;

/// A place of a fitting or device at which something is joined to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Port {
    /// How it joins.
    pub kind: PortKind,
    /// Its size: that of the thread, or of the tube that goes into it. `None` where it is not known: a thread that leads
    /// to corrugated tubing is as its maker lists it.
    pub size: Option<NominalSize>,
    /// What is joined to it.
    pub takes: Takes,
}

/// How a port joins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PortKind {
    /// A pipe thread inside.
    FemaleThread,
    /// A pipe thread outside, as cut on steel pipe.
    MaleThread,
    /// The nut of a fitting for corrugated tubing.
    TubingNut,
    /// The end of corrugated tubing, as it is cut.
    Tubing,
    /// A socket for copper tube, to be brazed.
    Socket,
    /// The end of copper tube, or what goes into a socket like it.
    Tube,
    /// The flared end of a fitting for copper tube.
    FlareEnd,
    /// The end of copper tube, flared, with its nut, or a nut of a fitting like it.
    FlareNut,
    /// An end for polyethylene pipe, to be fused.
    Fusion,
    /// The end of polyethylene pipe, or what is fused like it.
    Plastic,
    /// An end of a flexible connector or quick-disconnect coupling, joined as its maker has it.
    Connector,
}

impl PortKind {
    /// The end of pipe or tube as it comes from the saw and the threader.
    pub const fn of_pipe(kind: Joining) -> PortKind {
        match kind {
            Joining::Threaded => PortKind::MaleThread,
            Joining::Brazed => PortKind::Tube,
            Joining::Flared => PortKind::FlareNut,
            Joining::Nut => PortKind::Tubing,
            Joining::Fused => PortKind::Plastic,
        }
    }

    /// What is joined to a port of this kind, and to no other.
    pub const fn mate(self) -> PortKind {
        match self {
            PortKind::FemaleThread => PortKind::MaleThread,
            PortKind::MaleThread => PortKind::FemaleThread,
            PortKind::TubingNut => PortKind::Tubing,
            PortKind::Tubing => PortKind::TubingNut,
            PortKind::Socket => PortKind::Tube,
            PortKind::Tube => PortKind::Socket,
            PortKind::FlareEnd => PortKind::FlareNut,
            PortKind::FlareNut => PortKind::FlareEnd,
            PortKind::Fusion => PortKind::Plastic,
            PortKind::Plastic => PortKind::Fusion,
            PortKind::Connector => PortKind::Connector,
        }
    }

    /// Whether the joint is made here, so that each is counted once: of the two ends of a joint one is its receiver.
    pub const fn receives(self) -> bool {
        matches!(
            self,
            PortKind::FemaleThread | PortKind::TubingNut | PortKind::Socket | PortKind::FlareEnd | PortKind::Fusion
        )
    }

    /// The trade's name of it, in lower case.
    pub const fn name(self) -> &'static str {
        match self {
            PortKind::FemaleThread => "female thread",
            PortKind::MaleThread => "male thread",
            PortKind::TubingNut => "tubing nut",
            PortKind::Tubing => "tubing end",
            PortKind::Socket => "socket",
            PortKind::Tube => "tube end",
            PortKind::FlareEnd => "flare end",
            PortKind::FlareNut => "flare nut",
            PortKind::Fusion => "fusion end",
            PortKind::Plastic => "plastic pipe end",
            PortKind::Connector => "connector end",
        }
    }
}

/// What is joined to a port.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// A run, a position in `job.runs`; of a male port the fitting or device at the run's other end, with no pipe between.
    Run(usize),
    /// A fitting of the same joint, a position in `study.fittings`.
    Fitting(usize),
    /// The device of the joint.
    Device,
    /// Nothing: an open end.
    Nothing,
}

impl Port {
    /// A port to which nothing is joined yet.
    pub(crate) const fn open(kind: PortKind, size: Option<NominalSize>) -> Port {
        Port {
            kind,
            size,
            takes: Takes::Nothing,
        }
    }
}

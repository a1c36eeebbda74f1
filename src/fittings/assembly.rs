//! What stands at one joint: its fittings and its device with their ports.

use super::Port;
use std::ops::Range;

/// What stands at one joint.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assembly {
    /// Its fittings, a range of `study.fittings`: first that in which the runs meet, then what leads from it to each run,
    /// at last what is taken out.
    pub fittings: Range<usize>,
    /// The ports of its device, once the work is done.
    pub device: Vec<Port>,
    /// What stands where the centre lines meet, from which lengths are measured.
    pub centre: Option<Owner>,
    /// Whether its runs are one length that goes through: nothing stands there but perhaps a bend in the tubing.
    pub through: bool,
    /// The run in whose place the male end of a street elbow goes straight into what stands at the run's other end.
    pub direct: Option<usize>,
}

/// Whose a port is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Owner {
    /// A fitting's, a position in `study.fittings`.
    Fitting(usize),
    /// The device's.
    Device,
}

//! Parts of the house that are over their limits or cannot be judged with the branch at a place.

use crate::job::{JointId, RunId};
use crate::units::{Flow, GaugePressure, PressureDrop};

/// A part that is over its limit with the branch.
#[derive(Clone, Debug, PartialEq)]
pub enum Fails {
    /// A stretch of pipe.
    Pipe {
        /// Its first run in flow order; of a tapped run the one that is there now.
        first: RunId,
        /// How many further runs it has.
        further: usize,
        /// What it would carry.
        carried: Flow,
        /// What it is good for.
        capacity: Option<Flow>,
    },
    /// A rated device.
    Device {
        /// Its joint.
        joint: JointId,
        /// The trade's name of it.
        name: &'static str,
        /// What it would pass.
        carried: Flow,
        /// Its rated flow.
        capacity: Option<Flow>,
    },
    /// The inlet of an appliance.
    Inlet {
        /// Its joint.
        joint: JointId,
        /// The person's name for the appliance.
        name: String,
        /// The pressure that it would have.
        pressure: Option<GaugePressure>,
        /// The least that its plate asks for.
        least: Option<GaugePressure>,
    },
    /// A line regulator that gets less than its setting needs.
    Setting {
        /// Its joint.
        joint: JointId,
        /// The pressure that would be behind it.
        pressure: Option<GaugePressure>,
        /// What it is set to.
        setting: Option<GaugePressure>,
    },
}

/// A part that is over its limit with the branch and without it.
#[derive(Clone, Debug, PartialEq)]
pub struct Already {
    /// The part, with its figures with the branch.
    pub part: Fails,
    /// Whether it would have to do more, or get less, than without the branch.
    pub worse: bool,
}

/// A part that is held against nothing.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Unjudged {
    /// Pipe that is there: its size or a capacity is not known. Its first run.
    Pipe(RunId),
    /// Pipe of the new line, for which no size is found.
    NewLine,
    /// A device without a rated flow.
    Device {
        /// Its joint.
        joint: JointId,
        /// The trade's name of it.
        name: &'static str,
    },
    /// An appliance of which nobody can tell the pressure. Its joint.
    Inlet(JointId),
}

/// The appliance with the least to spare.
#[derive(Clone, Debug, PartialEq)]
pub struct LowestInlet {
    /// Its joint.
    pub joint: JointId,
    /// The person's name for it.
    pub name: String,
    /// Its pressure at full load.
    pub pressure: GaugePressure,
    /// How much that is above the least on its plate.
    pub margin: PressureDrop,
}

//! A place where runs meet or end.

use super::{Device, JointId, LatticePoint, Named, Placed, State, WordsAt};
use crate::units::Length;

/// A place on the lattice where runs meet or end, with what a person put there.
///
/// Fittings are not here: an elbow, tee or coupling follows from the runs that meet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Joint {
    /// Its id.
    pub id: JointId,
    /// Where it stands.
    pub at: LatticePoint,
    /// A name of the person's own for this place, printed instead of the id.
    pub label: Option<String>,
    /// The device that stands here, if any.
    pub placed: Option<Placed>,
    /// How a turn at this joint is made, where it matters.
    pub turn: Turn,
    /// What an end of pipe here takes out, measured from the center to the end of the pipe, where neither a published figure
    /// nor the length of a device tells it: at fittings of tubing, copper and plastic.
    pub fitting_takes: Option<Length>,
    /// Where a person put the words that stand here; `None` where they find their own place.
    pub words_at: Option<WordsAt>,
}

impl Joint {
    /// The device that stands here once the work is done: none when it is to be removed.
    pub fn device(&self) -> Option<&Device> {
        let placed = self.placed.as_ref()?;
        (placed.state != State::Removed).then_some(&placed.device)
    }

    /// Whether a cap closes pipe here: the end of one run, or in a line the outlet of a tee; `runs` meet here.
    pub fn is_capped(&self, runs: usize) -> bool {
        runs > 0 && matches!(self.device(), Some(Device::Cap(_)))
    }

    /// Opens what a cap closes here, so that pipe may go on. The plug of a tee that stands is kept as one that is taken out,
    /// for else nobody would know that the tee is there already.
    pub fn uncap(&mut self, runs: usize) {
        if !self.is_capped(runs) {
            return;
        }
        match &mut self.placed {
            Some(plug) if runs > 1 && plug.state == State::Existing => plug.state = State::Removed,
            cap => *cap = None,
        }
    }
}

/// How a turn is made with a fitting.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Turn {
    /// An elbow with two female ends.
    #[default]
    Elbow,
    /// A street elbow: one end male. The drawing tells which: it goes to the side on which a female thread stands near.
    StreetElbow,
    /// A street elbow with its male end upstream.
    StreetElbowUpstream,
    /// A street elbow with its male end downstream.
    StreetElbowDownstream,
}

impl Turn {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Turn::Elbow => "elbow",
            Turn::StreetElbow => "street elbow",
            Turn::StreetElbowUpstream => "street elbow, male end upstream",
            Turn::StreetElbowDownstream => "street elbow, male end downstream",
        }
    }

    /// Whether it is made with a street elbow.
    pub const fn is_street(self) -> bool {
        match self {
            Turn::Elbow => false,
            Turn::StreetElbow | Turn::StreetElbowUpstream | Turn::StreetElbowDownstream => true,
        }
    }
}

impl Named for Joint {
    type Id = JointId;
    fn id(&self) -> JointId {
        self.id
    }
}

//! A run as most rules choose it.

use crate::job::{Material, State, Surroundings};

/// A run that is not to be removed, in the few words by which most rules choose.
#[derive(Clone, Copy, Debug)]
pub struct Pipe {
    /// The run, a position in `job.runs`.
    pub run: usize,
    /// Its material.
    pub material: Material,
    /// Where it lies.
    pub surroundings: Surroundings,
    /// Existing or new.
    pub state: State,
    /// Whether it is the flexible line to an appliance, to which no rule about pipe and its material applies.
    pub is_hose: bool,
}

impl Pipe {
    /// Whether it is to be installed.
    pub fn is_new(&self) -> bool {
        self.state == State::New
    }

    /// Whether it is to be installed, and no connector or hose.
    pub fn is_new_pipe(&self) -> bool {
        self.is_new() && !self.is_hose
    }

    /// Whether it lies outside the building, above ground or below.
    pub fn is_outside(&self) -> bool {
        is_outside(self.surroundings)
    }
}

/// Whether surroundings are outside the building, above ground or below.
pub fn is_outside(surroundings: Surroundings) -> bool {
    matches!(surroundings, Surroundings::Outdoors | Surroundings::Underground)
}

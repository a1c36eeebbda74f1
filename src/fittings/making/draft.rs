//! What stands at a joint while it is put together.

use crate::fittings::{Fitting, Owner, Port, Takes};
use crate::job::State;

/// The fittings and the device of one joint; positions are those in `parts`.
#[derive(Clone, Debug, Default)]
pub(super) struct Draft {
    pub(super) parts: Vec<Fitting>,
    /// For each of `parts` the runs to which it leads.
    pub(super) leads: Vec<Vec<usize>>,
    pub(super) device: Vec<Port>,
    pub(super) centre: Option<Owner>,
    pub(super) through: bool,
}

/// A port: whose it is, and which of that owner's.
pub(super) type At = (Owner, usize);

impl Draft {
    pub(super) fn add(&mut self, fitting: Fitting, leads: Vec<usize>) -> Owner {
        self.parts.push(fitting);
        self.leads.push(leads);
        Owner::Fitting(self.parts.len() - 1)
    }

    pub(super) fn port(&mut self, (owner, at): At) -> &mut Port {
        match owner {
            Owner::Fitting(fitting) => &mut self.parts[fitting].ports[at],
            Owner::Device => &mut self.device[at],
        }
    }

    /// Joins two ports to each other; where the size of one is known the other's is.
    pub(super) fn join(&mut self, one: At, other: At) {
        let size = self.port(one).size.or(self.port(other).size);
        self.port(one).size = size;
        self.port(other).size = size;
        self.port(one).takes = taken(other.0);
        self.port(other).takes = taken(one.0);
    }

    /// Joins a run to a port.
    pub(super) fn take(&mut self, at: At, run: usize) {
        self.port(at).takes = Takes::Run(run);
    }

    pub(super) fn in_state(mut self, state: State) -> Draft {
        self.parts.iter_mut().for_each(|fitting| fitting.state = state);
        self
    }
}

const fn taken(owner: Owner) -> Takes {
    match owner {
        Owner::Fitting(at) => Takes::Fitting(at),
        Owner::Device => Takes::Device,
    }
}

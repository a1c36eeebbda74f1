//! The tree parted into stretches of one load, material, state and given size.

use super::{Network, outlet};
use crate::job::{Device, Material, State};
use crate::units::{Length, NominalSize};
use std::ops::Range;

/// A section before anything is known of its size.
pub(crate) struct Stretch {
    pub(crate) from: usize,
    pub(crate) to: usize,
    /// Its runs, a range of those in flow order.
    pub(crate) runs: Range<usize>,
    pub(crate) fed_by: Option<usize>,
    /// Whether it is the same pipe as the section just before it, and only an outlet on the line, which changes the load,
    /// stands between: one piece in which fittings and bends are counted.
    pub(crate) goes_on: bool,
    pub(crate) material: Material,
    pub(crate) state: State,
    /// The size that a person gave.
    pub(crate) given: Option<NominalSize>,
    pub(crate) measured: Length,
    /// Pipe, or the flexible line to an appliance.
    pub(crate) course: Course,
}

/// What a stretch is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Course {
    /// Pipe or tube of the house, sized by the method.
    Pipe,
    /// What leads on from a connector or quick-disconnect coupling: part of the listed connector.
    Connector,
}

/// The tree parted into sections.
pub(crate) struct Laid {
    /// The sections in flow order.
    pub(crate) stretches: Vec<Stretch>,
    /// The runs of the tree in flow order: those of a section follow each other, as no other way leads on within it.
    pub(crate) in_flow: Vec<usize>,
    /// For each run its section.
    pub(crate) of_run: Vec<Option<usize>>,
}

/// For each run of the tree whether it is the flexible line to an appliance, no pipe: all that leads on from a connector
/// or quick-disconnect coupling.
pub(super) fn hoses(network: &Network, devices: &[Option<&Device>]) -> Vec<bool> {
    let mut hoses = vec![false; network.ends.len()];
    for &joint in &network.order {
        if let (Some(run), Some(from)) = (network.feed[joint], network.upstream(joint)) {
            hoses[run] = starts_connector(devices[from]) || network.feed[from].is_some_and(|before| hoses[before]);
        }
    }
    hoses
}

/// Parts the tree; `pipe` tells material, state and given size of a run.
pub(crate) fn lay(
    network: &Network,
    devices: &[Option<&Device>],
    hoses: &[bool],
    pipe: impl Fn(usize) -> (Material, State, Option<NominalSize>),
    lengths: &[Length],
) -> Laid {
    let mut sections: Vec<Stretch> = Vec::new();
    let mut in_flow = Vec::with_capacity(network.order.len());
    let mut of_run = vec![None; lengths.len()];
    let parts = |joint: usize| {
        // Gas changes its pressure here, or parts.
        devices[joint].is_some_and(|device| device.nature().sets_pressure)
            || starts_connector(devices[joint])
            || network.legs(joint).filter(|&run| pipe(run).1 != State::Removed).count() > 2
    };
    for &joint in &network.order {
        let (Some(run), Some(from)) = (network.feed[joint], network.upstream(joint)) else {
            continue;
        };
        let (material, state, given) = pipe(run);
        let fed_by = network.feed[from].and_then(|feed| of_run[feed]);
        let same = fed_by.filter(|&section: &usize| {
            let before = &sections[section];
            (before.material, before.state, before.given) == (material, state, given) && !parts(from)
        });
        let on = same.filter(|_| outlet::kind(devices[from]).is_none());
        let section = on.unwrap_or(sections.len());
        if on.is_none() {
            let measured = Length::ZERO;
            let course = match hoses[run] {
                true => Course::Connector,
                false => Course::Pipe,
            };
            sections.push(Stretch {
                course,
                from,
                to: joint,
                runs: in_flow.len()..in_flow.len(),
                fed_by,
                goes_on: same.is_some(),
                material,
                state,
                given,
                measured,
            });
        }
        of_run[run] = Some(section);
        let section = &mut sections[section];
        in_flow.push(run);
        section.runs.end = in_flow.len();
        section.to = joint;
        section.measured += lengths[run];
    }
    Laid {
        stretches: sections,
        in_flow,
        of_run,
    }
}

/// Whether what is downstream of a device is the flexible line to an appliance, no pipe.
pub(crate) fn starts_connector(device: Option<&Device>) -> bool {
    device.is_some_and(|device| device.nature().starts_connector)
}

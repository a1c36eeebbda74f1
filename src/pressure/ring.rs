//! Rings: piping in which gas comes to a joint by two ways, so that flows follow from pressures.
//!
//! A ring here is all that hangs together by closed ways: a ring main, two tie-ins, rings at rings. Piping that a single
//! run joins to it is a tree and keeps to the march. What is drawn from a ring are all outlets behind each joint at full
//! input, also where heating and cooling exclude each other, so that a pressure is not overstated. The search is the
//! matter of [`newton`]; what one run loses, and how that differs from the march, of [`Leg::between`]; fittings count to
//! the runs that gas enters through them, for which rings are solved again until they agree. A ring whose figures are missing, or that leads through a line regulator or a
//! connector, has no pressures, and neither has what is behind it.

mod mesh;
mod newton;

use super::Flowing;
use super::leg::{Around, Expansion, Gap, Leg};
use crate::gas::expands;
use crate::job::Device;
use crate::network::{Closing, Network, Survey};
use crate::units::{Flow, GaugePressure};
use newton::{Net, Stalled, State};
use std::collections::BTreeMap;

/// Piping that hangs together by closed ways. Joints and runs are positions in the job.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// The joint at which gas enters it.
    pub entry: usize,
    /// Its other joints, in the order in which the tree comes to them.
    pub joints: Vec<usize>,
    /// Its runs: for each of those joints the one by which the tree comes to it, then those that close the ring.
    pub runs: Vec<usize>,
    /// Why its pressures were not computed; `None` when they were.
    pub unsolved: Option<Unsolved>,
    /// The runs that close it.
    closings: Vec<Closing>,
}

/// Why a ring has no pressures. Joints and runs are positions in the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unsolved {
    /// It leads through the line regulator at this joint.
    Regulator(usize),
    /// This run of it is part of a flexible connector, which loses nobody knows how much.
    Connector(usize),
    /// The size of this run is not known, or neither a bore nor a table for it.
    SizeUnknown(usize),
    /// No table tells what this run loses at its flow.
    NoFigure(usize),
    /// The pressure at which gas enters it is not known.
    EntryUnknown,
    /// No pressures were found by which all flows balance: its pipes are too small for the load.
    NotFound,
    /// Too many ways meet in it for a search that ends in a moment.
    TooLarge,
}

/// What holds in a ring: a figure for each of its joints, or for each of its runs.
pub(crate) struct Solved {
    /// Pressures of its joints, behind what stands on them.
    pub(crate) pressures: Vec<GaugePressure>,
    /// Flow in its runs.
    pub(crate) flowing: Vec<Flowing>,
    /// For each of its runs from which joint to which gas flows.
    pub(crate) ways: Vec<(usize, usize)>,
}

/// Finds the rings of a network.
///
/// A run of the tree is in a ring when some closing run spans it: leads from behind it to a joint before it.
pub(crate) fn all(network: &Network) -> Vec<Ring> {
    if network.closings.is_empty() {
        return Vec::new();
    }
    // How many closing runs span the run that feeds each joint, summed up against the flow.
    let mut spans = vec![0i64; network.feed.len()];
    for closing in &network.closings {
        spans[closing.from] += 1;
        spans[closing.to] -= 1;
    }
    for &joint in network.order.iter().rev() {
        if let Some(upstream) = network.upstream(joint) {
            spans[upstream] += spans[joint];
        }
    }
    let mut rings: Vec<Ring> = Vec::new();
    let mut of_joint: Vec<Option<usize>> = vec![None; network.feed.len()];
    for &joint in &network.order {
        let (Some(run), Some(upstream)) = (network.feed[joint], network.upstream(joint)) else {
            continue;
        };
        if spans[joint] <= 0 {
            continue;
        }
        let ring = *of_joint[upstream].get_or_insert_with(|| {
            rings.push(Ring {
                entry: upstream,
                joints: Vec::new(),
                runs: Vec::new(),
                unsolved: None,
                closings: Vec::new(),
            });
            rings.len() - 1
        });
        of_joint[joint] = Some(ring);
        rings[ring].joints.push(joint);
        rings[ring].runs.push(run);
    }
    for closing in &network.closings {
        if let Some(ring) = of_joint[closing.from] {
            rings[ring].runs.push(closing.run);
            rings[ring].closings.push(*closing);
        }
    }
    rings
}

impl Ring {
    /// Finds its flows and pressures from the pressure at its entry.
    pub(crate) fn solve(
        &self,
        survey: &Survey,
        around: &Around,
        legs: &[Option<Leg>],
        entry: Option<GaugePressure>,
    ) -> Result<Solved, Unsolved> {
        let regulator = |joint: &usize| matches!(survey.devices[*joint], Some(Device::Regulator(_)));
        if let Some(&joint) = self.joints.iter().find(|joint| regulator(joint)) {
            return Err(Unsolved::Regulator(joint));
        }
        let mut own = Vec::with_capacity(self.runs.len());
        for &run in &self.runs {
            let leg = legs[run].as_ref().ok_or(Unsolved::SizeUnknown(run))?;
            match leg.gap() {
                Some(Gap::Connector) => return Err(Unsolved::Connector(run)),
                Some(Gap::Size) => return Err(Unsolved::SizeUnknown(run)),
                None => own.push(leg),
            }
        }
        let entry = entry.ok_or(Unsolved::EntryUnknown)?;
        let net = self.net(survey);
        let at = |above: f64| GaugePressure::from_pa(entry.pa() + above);
        let flowing = |way: usize, expansion, flow: f64, ends: [f64; 2]| {
            own[way].between(around, expansion, Flow::from_cfh(flow), ends.map(at))
        };
        let search = |state: State, expansion| {
            net.settle(state, |way, flow, ends| {
                let flowing = flowing(way, expansion, flow, ends)?;
                let lost = flowing.friction.pa() + flowing.devices.pa() + flowing.elevation.pa();
                Some(if flow < 0.0 { -lost } else { lost })
            })
        };
        // Gas that expands may find no way at all through pipes that would pass it once it is well shared out.
        let mut expansion = Expansion::LeftOut;
        let mut state = search(net.opened(), expansion).map_err(|why| self.name(why))?;
        if expands(entry) {
            expansion = Expansion::Reckoned;
            state = search(state, expansion).map_err(|why| self.name(why))?;
            let least = state
                .above
                .iter()
                .fold(entry.pa(), |least, above| least.min(entry.pa() + above));
            if least < 0.0 {
                return Err(Unsolved::NotFound);
            }
        }
        let mut solved = Solved {
            pressures: state.above.iter().skip(1).map(|&above| at(above)).collect(),
            flowing: Vec::with_capacity(self.runs.len()),
            ways: Vec::with_capacity(self.runs.len()),
        };
        let joint = |node: usize| if node == 0 { self.entry } else { self.joints[node - 1] };
        for (way, (&(from, to), &flow)) in net.ways.iter().zip(&state.flows).enumerate() {
            let found = flowing(way, expansion, flow, [state.above[from], state.above[to]]);
            solved.flowing.push(found.ok_or(Unsolved::NoFigure(self.runs[way]))?);
            let (from, to) = (joint(from), joint(to));
            solved.ways.push(if flow < 0.0 { (to, from) } else { (from, to) });
        }
        Ok(solved)
    }

    /// The ring in numbers: its entry is node 0, each further joint the next node.
    fn net(&self, survey: &Survey) -> Net {
        let nodes = std::iter::once(self.entry).chain(self.joints.iter().copied());
        let node_of: BTreeMap<usize, usize> = nodes.enumerate().map(|(at, joint)| (joint, at)).collect();
        let input = |joint: usize| {
            let load = survey.loads[joint];
            (load.heat + load.left_out).flow(survey.gas.heating_value).cfh()
        };
        let mut draws = vec![0.0; self.joints.len() + 1];
        let mut ways = Vec::with_capacity(self.runs.len());
        for (at, &joint) in self.joints.iter().enumerate() {
            let upstream = survey
                .network
                .upstream(joint)
                .and_then(|upstream| node_of.get(&upstream));
            let upstream = upstream.copied().unwrap_or_default();
            draws[at + 1] += input(joint);
            draws[upstream] -= input(joint);
            ways.push((upstream, at + 1));
        }
        for closing in &self.closings {
            let node = |joint: usize| node_of.get(&joint).copied().unwrap_or_default();
            ways.push((node(closing.from), node(closing.to)));
        }
        // What is left after a difference of sums may be a hair less than nothing.
        for draw in &mut draws {
            *draw = draw.max(0.0);
        }
        Net { ways, draws }
    }

    fn name(&self, why: Stalled) -> Unsolved {
        match why {
            Stalled::NoFigure(way) => Unsolved::NoFigure(self.runs[way]),
            Stalled::Restless => Unsolved::NotFound,
            Stalled::TooLarge => Unsolved::TooLarge,
        }
    }
}

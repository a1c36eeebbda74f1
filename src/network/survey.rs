//! What a job says before anything is sized: who is fed, how far, from which pressure, with what load.

use super::lie::Lie;
use super::stretch::Stretch;
use super::{Course, Ends, GasFacts, Load, Network, Outlet, Zone, load, outlet, stretch, zone};
use crate::codebook::{Codebook, Profile, Tables};
use crate::job::{Axis, Device, Direction, Job, Joint, LatticePoint, Material, State};
use crate::units::{Length, NominalSize};

/// A job measured, with what the later steps need. Tables are dense, by positions in the job.
pub(crate) struct Survey<'a> {
    pub(crate) job: &'a Job,
    pub(crate) book: &'a Codebook,
    pub(crate) profile: &'a Profile,
    /// The tables that size it.
    pub(crate) tables: Tables<'a>,
    pub(crate) gas: GasFacts,
    /// For each joint the device that stands on it.
    pub(crate) devices: Vec<Option<&'a Device>>,
    /// For each joint where it is drawn.
    pub(crate) places: Vec<LatticePoint>,
    /// For each run its state, material and the size that a person gave: small tables, asked again and again.
    pub(crate) states: Vec<State>,
    pub(crate) materials: Vec<Material>,
    pub(crate) given: Vec<Option<NominalSize>>,
    pub(crate) network: Network,
    /// For each run the way that it truly goes, from its `from` to its `to`; only its angles count.
    pub(crate) ways: Vec<Direction>,
    /// For each slope the axis of the square line that it leaves.
    pub(crate) lines: Vec<Option<Axis>>,
    /// For each run its true length; one typed as less than nothing counts as nothing.
    pub(crate) lengths: Vec<Length>,
    /// For each joint the measured length of pipe from the point of delivery: along a hose it grows no more, for piping is
    /// sized to its outlet, where an appliance's connector begins (IFGC 402.4; NFPA 54, definition of an outlet).
    pub(crate) distance: Vec<Length>,
    /// The most remote ends by measured length.
    pub(crate) ends: Ends,
    /// For each joint its true height.
    pub(crate) elevation: Vec<Length>,
    /// For each joint how far east and north of the lattice's zero it truly stands.
    pub(crate) ground: Vec<[Length; 2]>,
    /// For each joint the load of itself and all downstream of it.
    pub(crate) loads: Vec<Load>,
    pub(crate) zones: Vec<Zone>,
    /// For each joint the zone of the run that feeds it.
    pub(crate) zone_before: Vec<Option<usize>>,
    pub(crate) outlets: Vec<Outlet>,
    /// For each joint the first of the outlets at it and downstream, and how many there are.
    pub(crate) served: Vec<(usize, usize)>,
    pub(crate) stretches: Vec<Stretch>,
    /// The runs of the tree in flow order.
    in_flow: Vec<usize>,
    /// For each run its section.
    pub(crate) section_of: Vec<Option<usize>>,
}

impl<'a> Survey<'a> {
    pub(crate) fn of(job: &'a Job, book: &'a Codebook, profile: &'a Profile) -> Survey<'a> {
        let gas = GasFacts::of(&job.gas, book);
        let devices: Vec<Option<&Device>> = job.joints.iter().map(Joint::device).collect();
        let places: Vec<LatticePoint> = job.joints.iter().map(|joint| joint.at).collect();
        let states: Vec<State> = job.runs.iter().map(|run| run.state).collect();
        let materials: Vec<Material> = job.runs.iter().map(|run| job.material(run)).collect();
        let given: Vec<Option<NominalSize>> = job.runs.iter().map(|run| run.size).collect();
        let network = Network::trace(job, &states);
        let lengths: Vec<Length> = job
            .runs
            .iter()
            .map(|run| job.true_length(run).max(Length::ZERO))
            .collect();
        let lie = Lie::of(job, &network, &places);
        let hoses = stretch::hoses(&network, &devices);
        let distance = distances(&network, &lengths, &hoses);
        let stands = stands(job, &places, &network, &lengths, &lie.ways);
        let loads = load::at_joints(&devices, &network, gas.heating_value);
        let mut zones = zone::all(job, profile, &gas, &network, &devices);
        let ends = Ends::find(&network, &devices, &distance);
        zone::measure(&mut zones.zones, &ends, &distance);
        let outlets = outlet::all(&network, &devices, (&distance, &lengths), &hoses, gas.heating_value);
        let served = served(&network, &outlets);
        let laid = stretch::lay(
            &network,
            &devices,
            &hoses,
            |run| (materials[run], states[run], given[run]),
            &lengths,
        );
        Survey {
            devices,
            places,
            states,
            materials,
            given,
            ends,
            job,
            book,
            profile,
            tables: book.tables_for(profile, &job.settings),
            gas,
            network,
            ways: lie.ways,
            lines: lie.lines,
            lengths,
            distance,
            elevation: stands.iter().map(|[.., up]| *up).collect(),
            ground: stands.iter().map(|[east, north, _]| [*east, *north]).collect(),
            loads,
            zones: zones.zones,
            zone_before: zones.before,
            outlets,
            served,
            stretches: laid.stretches,
            in_flow: laid.in_flow,
            section_of: laid.of_run,
        }
    }

    /// The runs of a section in flow order.
    pub(crate) fn runs_of(&self, section: &Stretch) -> &[usize] {
        &self.in_flow[section.runs.clone()]
    }

    /// The load of a section: what enters it. What is asked for in its midst, in a study of what would be, is in it.
    pub(crate) fn load_of(&self, section: &Stretch) -> Load {
        let first = self.runs_of(section).first().and_then(|&run| self.network.ends[run]);
        self.loads[first.map_or(section.to, |(_, to)| to)]
    }

    /// Whether a run is the flexible line to an appliance: all that leads on from a connector or quick-disconnect
    /// coupling. Where no gas comes, pipe to be removed too, the line from one of them to an appliance or to another.
    pub(crate) fn is_hose(&self, run: usize) -> bool {
        if let Some(section) = self.section_of[run] {
            return self.stretches[section].course == Course::Connector;
        }
        let Some((from, to)) = self.network.joints_of[run] else {
            return false;
        };
        let ends = [from, to].map(|joint| self.job.joints.at(joint).placed.as_ref().map(|placed| &placed.device));
        let is_flexible = |end: Option<&Device>| stretch::starts_connector(end);
        let is_end = |end: Option<&Device>| is_flexible(end) || matches!(end, Some(Device::Appliance(_)));
        ends.into_iter().all(is_end) && ends.into_iter().any(is_flexible)
    }

    /// The zone of a section.
    pub(crate) fn zone_of(&self, section: &Stretch) -> Option<usize> {
        self.zone_before[section.to]
    }
}

fn distances(network: &Network, lengths: &[Length], hoses: &[bool]) -> Vec<Length> {
    let mut distance = vec![Length::ZERO; network.feed.len()];
    for &joint in &network.order {
        if let (Some(run), Some(upstream)) = (network.feed[joint], network.upstream(joint)) {
            let pipe = if hoses[run] { Length::ZERO } else { lengths[run] };
            distance[joint] = distance[upstream] + pipe;
        }
    }
    distance
}

/// Where joints truly stand: east, north and up. From joint to joint a run goes by its true length, the way that it is drawn
/// or measured: along the tree, and from there along pipe that no gas reaches. Of what hangs on nothing the first joint
/// stands where it is drawn.
fn stands(
    job: &Job,
    places: &[LatticePoint],
    network: &Network,
    lengths: &[Length],
    ways: &[Direction],
) -> Vec<[Length; 3]> {
    let step = |steps: i32| job.settings.step.times(f64::from(steps));
    let drawn = |place: &LatticePoint| [step(place.east), step(place.north), job.settings.datum + step(place.up)];
    let mut stands: Vec<[Length; 3]> = places.iter().map(drawn).collect();
    let mut is_known = vec![false; places.len()];
    let mut climb = |run: usize, from: usize, to: usize| {
        let way = if network.joints_of[run] == Some((from, to)) {
            ways[run]
        } else {
            -ways[run]
        };
        let along = |start: Length, part: i32| match part {
            0 => start,
            part => start + lengths[run].times(f64::from(part) / way.steps()),
        };
        let [east, north, up] = stands[from];
        stands[to] = [along(east, way.east), along(north, way.north), along(up, way.up)];
    };
    for &joint in &network.order {
        is_known[joint] = true;
        if let (Some(run), Some(upstream)) = (network.feed[joint], network.upstream(joint)) {
            climb(run, upstream, joint);
        }
    }
    let mut waiting = network.order.clone();
    for first in 0..places.len() {
        while let Some(joint) = waiting.pop() {
            for run in network.legs(joint) {
                let Some((from, to)) = network.joints_of[run] else {
                    continue;
                };
                let other = if from == joint { to } else { from };
                if !std::mem::replace(&mut is_known[other], true) {
                    climb(run, joint, other);
                    waiting.push(other);
                }
            }
        }
        if !std::mem::replace(&mut is_known[first], true) {
            waiting.push(first);
        }
    }
    stands
}

/// In flow order the outlets at a joint and downstream of it follow each other.
fn served(network: &Network, outlets: &[Outlet]) -> Vec<(usize, usize)> {
    let mut served = vec![(0, 0); network.feed.len()];
    let mut seen = 0;
    for &joint in &network.order {
        let here = outlets.get(seen).is_some_and(|outlet| outlet.joint == joint);
        served[joint] = (seen, usize::from(here));
        seen += usize::from(here);
    }
    for &joint in network.order.iter().rev() {
        if let Some(upstream) = network.upstream(joint) {
            let own = served[joint].1;
            served[upstream].1 += own;
        }
    }
    served
}

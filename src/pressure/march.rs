//! Pressure from the point of delivery to every outlet at full load.
//!
//! Each section flows at its own full load, also where loads of heating and cooling exclude each other, so that a
//! pressure is never overstated. What one run loses is the matter of [`super::leg`]. Where gas comes to a ring the whole
//! ring is solved at once ([`super::ring`]), and the march goes on from its joints.

use super::ring::Solved;
use super::{Around, Flowing, Leg, Obstacles, Ring, leg, ring};
use crate::network::{Meeting, Network, Survey};
use crate::units::{Flow, GaugePressure, NominalSize};
use std::collections::BTreeMap;

/// Pressures and flows all along the tree.
pub(crate) struct March {
    /// For each joint the pressure at full load; at a regulator that behind it.
    pub(crate) pressure: Vec<Option<GaugePressure>>,
    /// For each joint the pressure before the device on it.
    pub(crate) inlet: Vec<Option<GaugePressure>>,
    /// For each run how gas flows in it.
    pub(crate) flowing: Vec<Option<Flowing>>,
    /// For each run from which joint to which gas flows, where that is known.
    pub(crate) way: Vec<Option<(usize, usize)>>,
    /// For each joint how many devices before it lose nobody knows how much.
    pub(crate) unrated: Vec<usize>,
    /// The rings of the network.
    pub(crate) rings: Vec<Ring>,
}

/// How often a ring is solved anew because gas came another way than was thought, so that other fittings stand in it.
const TURNS: usize = 4;

impl March {
    /// At the sizes on the drawing, with the fittings of rings as gas flows there.
    pub(crate) fn of(
        survey: &Survey,
        around: &Around,
        meetings: &[Meeting],
        obstacles: &mut Obstacles,
        sizes: &[Option<NominalSize>],
    ) -> March {
        let mut march = March::down(survey, around, &leg::all(survey, around, obstacles, sizes));
        for _ in 0..TURNS {
            if march.rings.is_empty() || !march.turn(survey, meetings, obstacles) {
                break;
            }
            march = March::down(survey, around, &leg::all(survey, around, obstacles, sizes));
        }
        march
    }

    /// Along legs that are known.
    pub(crate) fn down(survey: &Survey, around: &Around, legs: &[Option<Leg>]) -> March {
        let joints = survey.job.joints.len();
        let mut march = March {
            pressure: vec![None; joints],
            inlet: vec![None; joints],
            flowing: vec![None; survey.job.runs.len()],
            way: survey.network.ends.clone(),
            unrated: vec![0; joints],
            rings: ring::all(&survey.network),
        };
        let places = Places::of(&march.rings, &survey.network);
        for &joint in &survey.network.order {
            if !places.is_in_ring(joint) {
                march.step(survey, around, legs, joint);
            }
            if let Some(ring) = places.ring_behind(joint) {
                march.round(survey, around, legs, ring);
            }
        }
        march
    }

    /// Counts the fittings of rings to the runs that gas really enters through them, and tells whether that changed
    /// anything. Of several runs that bring gas to a joint the one that brings most counts as before.
    fn turn(&self, survey: &Survey, meetings: &[Meeting], obstacles: &mut Obstacles) -> bool {
        let mut changed = false;
        for ring in self.rings.iter().filter(|ring| ring.unsolved.is_none()) {
            let flow = |run: usize| self.flowing[run].map_or(0.0, |flowing| flowing.flow.cfh());
            let mut brings: BTreeMap<usize, usize> = BTreeMap::new();
            for &run in &ring.runs {
                let Some((_, to)) = self.way[run] else { continue };
                let most = brings.entry(to).or_insert(run);
                if flow(run) > flow(*most) {
                    *most = run;
                }
            }
            for &run in &ring.runs {
                let Some((from, _)) = self.way[run] else { continue };
                let before = match brings.get(&from) {
                    Some(&before) if from != ring.entry => Some(before),
                    _ => survey.network.feed[from].filter(|feed| *feed != run),
                };
                changed |= obstacles.enter(survey, meetings, run, from, before);
            }
        }
        obstacles.count_bends(survey);
        changed
    }

    /// For each joint in a ring what flows through the device on it; `None` where the ring is not solved.
    pub(crate) fn through(&self) -> BTreeMap<usize, Option<Flow>> {
        let fed = self.rings.iter().flat_map(|ring| ring.joints.iter().zip(&ring.runs));
        fed.map(|(&joint, &run)| (joint, self.flowing[run].map(|flowing| flowing.flow)))
            .collect()
    }

    /// Along the run that feeds a joint.
    fn step(&mut self, survey: &Survey, around: &Around, legs: &[Option<Leg>], joint: usize) {
        let (Some(run), Some(upstream)) = (survey.network.feed[joint], survey.network.upstream(joint)) else {
            self.pressure[joint] = survey.zones.first().and_then(|zone| zone.inlet);
            return;
        };
        let Some(leg) = &legs[run] else { return };
        self.unrated[joint] = self.unrated[upstream] + usize::from(leg.is_unrated());
        let flow = survey.loads[joint].flow;
        let passed = self.pressure[upstream].and_then(|inlet| leg.pass(around, inlet, flow));
        let Some(passed) = passed else { return };
        self.flowing[run] = Some(passed.flowing);
        self.inlet[joint] = Some(passed.before);
        self.pressure[joint] = Some(passed.behind);
    }

    /// Through a ring from its entry.
    fn round(&mut self, survey: &Survey, around: &Around, legs: &[Option<Leg>], at: usize) {
        let ring = &mut self.rings[at];
        let unrated = ring.runs.iter().filter_map(|&run| legs[run].as_ref());
        let unrated = self.unrated[ring.entry] + unrated.filter(|leg| leg.is_unrated()).count();
        for &joint in &ring.joints {
            self.unrated[joint] = unrated;
        }
        let solved = ring.solve(survey, around, legs, self.pressure[ring.entry]);
        let Solved {
            pressures,
            flowing,
            ways,
        } = match solved {
            Ok(solved) => solved,
            Err(why) => {
                ring.unsolved = Some(why);
                for &run in &ring.runs {
                    self.way[run] = None;
                }
                return;
            }
        };
        for ((&run, flowing), way) in ring.runs.iter().zip(flowing).zip(ways) {
            self.flowing[run] = Some(flowing);
            self.way[run] = Some(way);
        }
        for ((&joint, pressure), &run) in ring.joints.iter().zip(pressures).zip(&ring.runs) {
            self.pressure[joint] = Some(pressure);
            let forward = self.way[run] == survey.network.ends[run];
            // What stands on a joint stands at the end of the run by which the tree comes to it.
            self.inlet[joint] = self.flowing[run].filter(|_| forward).map_or(Some(pressure), |flowing| {
                Some(GaugePressure::from_pa(pressure.pa() + flowing.devices.pa()))
            });
        }
    }
}

/// Where the rings are.
struct Places {
    /// For each joint the ring that gas enters there. Empty without rings.
    behind: Vec<Option<usize>>,
    /// For each joint whether the run that feeds it is part of a ring.
    inside: Vec<bool>,
}

impl Places {
    fn of(rings: &[Ring], network: &Network) -> Places {
        let joints = if rings.is_empty() { 0 } else { network.feed.len() };
        let mut places = Places {
            behind: vec![None; joints],
            inside: vec![false; joints],
        };
        for (at, ring) in rings.iter().enumerate() {
            places.behind[ring.entry] = Some(at);
            for &joint in &ring.joints {
                places.inside[joint] = true;
            }
        }
        places
    }

    fn is_in_ring(&self, joint: usize) -> bool {
        self.inside.get(joint).is_some_and(|inside| *inside)
    }

    fn ring_behind(&self, joint: usize) -> Option<usize> {
        self.behind.get(joint).copied().flatten()
    }
}

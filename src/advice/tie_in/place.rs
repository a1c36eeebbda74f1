//! The places at which a branch could be tied in.

use crate::advice::Offer;
use crate::job::{Device, Job, JointId, LatticePoint, RunId, State, line};
use crate::study::Study;
use crate::units::{Length, UnitSystem};
use std::collections::HashMap;

/// So many places are tried at most: with more the spacing on runs is doubled.
pub const MOST_PLACES: usize = 50_000;

/// Runs of more ways than this have no stock fitting: no branch is tied in where so many meet.
const MOST_WAYS: usize = 4;

/// A run longer than this many lattice places is not walked in search of joints.
const WALK: u64 = 512;

/// No tee goes so near to where pipe passes a wall, floor or roof; common practice, no source.
fn clear_of_a_wall() -> Length {
    Length::from_inches(6.0)
}

/// A place in the piping.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TieInPlace {
    /// At a joint.
    Joint(JointId),
    /// In a run.
    Run {
        /// The run.
        run: RunId,
        /// True distance from its `from` end.
        along: Length,
    },
}

/// Why no place along a run was tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LeftOut {
    /// It has no place of the lattice between its ends.
    TooShort,
    /// It passes over a joint that it does not join.
    OverJoint,
}

/// A place with what a route from it must know.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    pub place: TieInPlace,
    /// Where it is drawn.
    pub at: LatticePoint,
    /// Where it is in truth, in lattice steps.
    pub truly: [f64; 3],
    /// The run that is tapped between its ends: position in `job.runs`, and its two ends.
    pub tapped: Option<(usize, [LatticePoint; 2])>,
}

pub struct Places {
    pub spots: Vec<Spot>,
    pub spacing: Length,
    pub left_out: Vec<(RunId, LeftOut)>,
}

/// All places in the order of joints, then of runs.
pub fn all(job: &Job, study: &Study, offer: Offer) -> Places {
    let is_offered = |run: usize| {
        let section = study.runs[run].section.map(|section| &study.sections[section]);
        let state = job.runs.at(run).state;
        section.is_some_and(|section| section.is_pipe())
            && (state == State::Existing || (offer == Offer::AllPipe && state == State::New))
    };
    let mut spots: Vec<Spot> = Vec::new();
    for (index, joint) in job.joints.iter().enumerate() {
        let device = joint.placed.as_ref().map(|placed| &placed.device);
        let legs = || {
            study
                .network
                .legs(index)
                .filter(|&run| job.runs.at(run).state != State::Removed)
        };
        let has_room = match device {
            None | Some(Device::Supply(_) | Device::Cap(_)) => legs().count() < MOST_WAYS,
            Some(_) => false,
        };
        if has_room && legs().any(is_offered) {
            spots.push(Spot {
                place: TieInPlace::Joint(joint.id),
                at: joint.at,
                truly: coordinates(joint.at),
                tapped: None,
            });
        }
    }
    let mut left_out = Vec::new();
    let mut runs = Vec::new();
    let joints = job.joints.iter().map(|joint| (joint.at, joint.id)).collect();
    for run in (0..job.runs.len()).filter(|&run| is_offered(run)) {
        let drawn = job.runs.at(run);
        let (Some(from), Some(to)) = (job.joints.get(drawn.from), job.joints.get(drawn.to)) else {
            continue;
        };
        let ends = [from.at, to.at];
        if line::pieces(ends[0], ends[1]) < 2 {
            left_out.push((drawn.id, LeftOut::TooShort));
        } else if passes_joint(&joints, ends) {
            left_out.push((drawn.id, LeftOut::OverJoint));
        } else {
            runs.push((run, ends, job.true_length(drawn)));
        }
    }
    let mut spacing = match job.settings.units {
        UnitSystem::Us => Length::from_feet(1.0),
        UnitSystem::Metric | UnitSystem::MetricKpa => Length::from_metres(0.25),
    };
    let count = |spacing| {
        runs.iter()
            .fold(0, |sum: u64, run| sum.saturating_add(between(run.2, spacing)))
    };
    while count(spacing) > MOST_PLACES as u64 {
        spacing = spacing + spacing;
    }
    for (run, ends, length) in runs {
        let id = job.runs.at(run).id;
        let passages = &job.runs.at(run).penetrations;
        let half = Length::from_eighths_of_um(length.eighths_of_um() / 2);
        let in_a_wall = |along: Length| {
            let mut at = passages.iter().map(|passage| passage.at.unwrap_or(half));
            at.any(|at| (at - along).magnitude() < clear_of_a_wall())
        };
        let along = (1..=between(length, spacing))
            .map(|number| Length::from_eighths_of_um(spacing.eighths_of_um().saturating_mul(number as i64)));
        let along = along.filter(|along| !in_a_wall(*along));
        spots.extend(along.map(|along| in_run(id, run, ends, along, length)));
    }
    Places {
        spots,
        spacing,
        left_out,
    }
}

/// How many places so far apart lie on a run, its ends left out.
fn between(length: Length, spacing: Length) -> u64 {
    let (length, spacing) = (length.eighths_of_um().max(0) as u64, spacing.eighths_of_um() as u64);
    length.div_ceil(spacing).saturating_sub(1)
}

fn in_run(id: RunId, run: usize, ends: [LatticePoint; 2], along: Length, length: Length) -> Spot {
    let share = along.eighths_of_um() as f64 / length.eighths_of_um() as f64;
    let pieces = line::pieces(ends[0], ends[1]);
    let piece = ((share * pieces as f64).round() as u64).clamp(1, pieces - 1);
    let [from, to] = ends.map(coordinates);
    let truly = [0, 1, 2].map(|axis| from[axis] + (to[axis] - from[axis]) * share);
    Spot {
        place: TieInPlace::Run { run: id, along },
        at: line::place(ends[0], ends[1], piece),
        truly,
        tapped: Some((run, ends)),
    }
}

/// The steps of a place along east, north and up.
pub fn coordinates(at: LatticePoint) -> [f64; 3] {
    [at.east, at.north, at.up].map(f64::from)
}

fn passes_joint(joints: &HashMap<LatticePoint, JointId>, [a, b]: [LatticePoint; 2]) -> bool {
    let pieces = line::pieces(a, b);
    if pieces <= WALK {
        (1..pieces).any(|piece| joints.contains_key(&line::place(a, b, piece)))
    } else {
        joints.keys().any(|&at| line::passes(a, b, at))
    }
}

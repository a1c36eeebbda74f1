//! Which part of one job is which part of the other.
//!
//! A reading pairs joints, then runs by the joints at their ends. Joints are paired by id first or by place first; what
//! is left over is paired the other way. The whole drawing may have been moved: by the way that most joints of one id
//! went, or by that of the point of delivery.

use crate::job::{Device, Direction, Job, LatticePoint, Run};
use std::collections::HashMap;
use std::hash::Hash;

/// One way to read two jobs beside each other. Positions are those in the stores.
pub struct Reading {
    /// By how much the whole drawing was moved since the issue.
    pub shift: Direction,
    /// For each joint of the job the one that it was.
    pub joints: Vec<Option<usize>>,
    /// For each run of the job the one that it was.
    pub runs: Vec<Option<usize>>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum First {
    Ids,
    Places,
}

impl Reading {
    /// The readings of two jobs, the likeliest first.
    pub fn all(issued: &Job, job: &Job) -> Vec<Reading> {
        let none = Direction::default();
        let mut ways = vec![(First::Ids, none), (First::Places, none)];
        let moved = most_went(issued, job).filter(|way| !way.is_zero());
        ways.extend(moved.map(|way| (First::Ids, way)));
        for way in [moved, delivery_went(issued, job)].into_iter().flatten() {
            let way = (First::Places, way);
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
        ways.into_iter()
            .map(|(first, shift)| Reading::of(issued, job, first, shift))
            .collect()
    }

    fn of(issued: &Job, job: &Job, first: First, shift: Direction) -> Reading {
        let mut pairs = Pairs::new(job.joints.len(), issued.joints.len());
        let place_was = |at: usize| issued.joints.at(at).at + shift;
        let (now, was) = (0..job.joints.len(), 0..issued.joints.len());
        let by_id = |pairs: &mut Pairs| {
            pairs.by(
                now.clone().map(|at| job.joints.at(at).id),
                was.clone().map(|at| issued.joints.at(at).id),
            );
        };
        let by_place = |pairs: &mut Pairs| {
            pairs.by(now.clone().map(|at| job.joints.at(at).at), was.clone().map(place_was));
        };
        match first {
            First::Ids => {
                by_id(&mut pairs);
                by_place(&mut pairs);
            }
            First::Places => {
                let named = now.clone().map(|at| (job.joints.at(at).at, job.joints.at(at).id));
                pairs.by(named, was.clone().map(|at| (place_was(at), issued.joints.at(at).id)));
                by_place(&mut pairs);
                by_id(&mut pairs);
            }
        }
        let joints = pairs.found;
        let runs = runs(issued, job, &joints);
        Reading { shift, joints, runs }
    }
}

/// Parts paired, each with one other at most.
pub struct Pairs {
    /// For each part the one that it was.
    pub found: Vec<Option<usize>>,
    taken: Vec<bool>,
}

impl Pairs {
    /// Nothing paired yet.
    pub fn new(now: usize, was: usize) -> Pairs {
        Pairs {
            found: vec![None; now],
            taken: vec![false; was],
        }
    }

    /// Pairs what is left over and has one key, of several with one key in their order.
    pub fn by<K: Hash + Eq>(
        &mut self,
        now: impl Iterator<Item = K>,
        was: impl DoubleEndedIterator<Item = K> + ExactSizeIterator,
    ) {
        let mut open: HashMap<K, Vec<usize>> = HashMap::new();
        for (at, key) in was.enumerate().rev() {
            if !self.taken[at] {
                open.entry(key).or_default().push(at);
            }
        }
        for (at, key) in now.enumerate() {
            if self.found[at].is_none()
                && let Some(was) = open.get_mut(&key).and_then(Vec::pop)
            {
                self.found[at] = Some(was);
                self.taken[was] = true;
            }
        }
    }
}

/// Runs of one id between the same joints, then any between the same joints, then those of one id that still share an end.
fn runs(issued: &Job, job: &Job, joints: &[Option<usize>]) -> Vec<Option<usize>> {
    // Ends as positions of the issued job; a joint that is new there counts beyond its end.
    let end = |id| {
        job.joints
            .position(id)
            .map(|at| joints[at].unwrap_or(issued.joints.len() + at))
    };
    let now = |run: &Run| sorted(end(run.from), end(run.to));
    let was = |run: &Run| sorted(issued.joints.position(run.from), issued.joints.position(run.to));
    let mut pairs = Pairs::new(job.runs.len(), issued.runs.len());
    let (all_now, all_was) = (0..job.runs.len(), 0..issued.runs.len());
    pairs.by(
        all_now.clone().map(|at| (now(job.runs.at(at)), job.runs.at(at).id)),
        all_was
            .clone()
            .map(|at| (was(issued.runs.at(at)), issued.runs.at(at).id)),
    );
    pairs.by(
        all_now.clone().map(|at| now(job.runs.at(at))),
        all_was.clone().map(|at| was(issued.runs.at(at))),
    );
    for at in all_now {
        let run = job.runs.at(at);
        let Some(old) = issued.runs.position(run.id) else {
            continue;
        };
        let (ends, before) = (now(run), was(issued.runs.at(old)));
        let shares = [ends.0, ends.1]
            .iter()
            .flatten()
            .any(|end| before.0 == Some(*end) || before.1 == Some(*end));
        if pairs.found[at].is_none() && !pairs.taken[old] && shares {
            pairs.found[at] = Some(old);
            pairs.taken[old] = true;
        }
    }
    pairs.found
}

fn sorted<T: Ord>(a: T, b: T) -> (T, T) {
    if a <= b { (a, b) } else { (b, a) }
}

/// The way that more than half of the joints that kept their ids went.
fn most_went(issued: &Job, job: &Job) -> Option<Direction> {
    let went = job
        .joints
        .iter()
        .filter_map(|joint| Some(joint.at - issued.joints.get(joint.id)?.at));
    let mut count: HashMap<Direction, usize> = HashMap::new();
    let mut all = 0;
    for way in went {
        *count.entry(way).or_default() += 1;
        all += 1;
    }
    count.into_iter().find(|(_, many)| 2 * many > all).map(|(way, _)| way)
}

/// The way that the first point of delivery went.
fn delivery_went(issued: &Job, job: &Job) -> Option<Direction> {
    Some(delivery(job)? - delivery(issued)?)
}

fn delivery(job: &Job) -> Option<LatticePoint> {
    let is_delivery = |device: &Device| matches!(device, Device::Supply(_));
    let mut joints = job.joints.iter();
    let joint = joints.find(|joint| joint.device().is_some_and(is_delivery))?;
    Some(joint.at)
}

//! What every edit must leave true.
//!
//! Ids are unique and runs join two different joints that are there (the draft and the stores hold the first); no two
//! joints are at one place, no two runs between one pair of joints, no run passes over a joint that it does not join; no
//! device has more runs than ends; no note points at nothing. Only what the edit changes is looked at: a job that came
//! in wrong can still be edited and put right.

use super::draft::Draft;
use super::{Refusal, line};
use crate::job::{Device, Job, Joint, JointId, LatticePoint, Run, RunId};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// Steps from the middle to the edge of the paper, along each axis.
pub const FARTHEST: i32 = 40_000;

/// A run between so many places of the lattice at most is walked; for a longer one all joints are looked at.
const WALK: u64 = 512;

/// So many places at most are compared one by one; more are looked up.
const FEW: usize = 8;

/// Checks the changes of a draft.
///
/// # Errors
/// The first thing found that the changes make wrong.
pub fn check(draft: &Draft) -> Result<(), Refusal> {
    let geometry = Geometry::of(draft);
    places(draft, &geometry)?;
    ends(draft, &geometry)?;
    devices(draft)?;
    overlaps(draft, &geometry)
}

/// How many runs a device has ends for, and that number in words; `None` for any number.
pub const fn ends_of(device: &Device) -> Option<(usize, &'static str)> {
    match device {
        Device::Supply(_) => None,
        Device::Appliance(_) | Device::Cap(_) => Some((1, "one end")),
        Device::Meter(_)
        | Device::Regulator(_)
        | Device::Valve(_)
        | Device::Union
        | Device::SedimentTrap(_)
        | Device::Connector(_)
        | Device::QuickCoupling(_)
        | Device::TestGauge => Some((2, "two ends")),
    }
}

/// The changes that matter for where things lie.
struct Geometry {
    /// Joints that came or moved, by place.
    moved: BTreeMap<JointId, LatticePoint>,
    /// Joints that went.
    gone: BTreeSet<JointId>,
    /// Runs that came or got another end.
    joined: BTreeSet<RunId>,
}

impl Geometry {
    fn of(draft: &Draft) -> Geometry {
        let (mut moved, mut gone) = (BTreeMap::new(), BTreeSet::new());
        for (id, before, after) in draft.touched_joints() {
            match after {
                None => drop(gone.insert(id)),
                Some(after) if before.is_none_or(|before| before.at != after.at) => drop(moved.insert(id, after.at)),
                Some(_) => {}
            }
        }
        let other = |before: &Run, after: &Run| [before.from, before.to] != [after.from, after.to];
        let joined = draft.touched_runs().filter_map(|(id, before, after)| {
            let after = after?;
            before.is_none_or(|before| other(before, after)).then_some(id)
        });
        Geometry {
            joined: joined.collect(),
            moved,
            gone,
        }
    }
}

/// No two joints at one place, none off the paper.
fn places(draft: &Draft, geometry: &Geometry) -> Result<(), Refusal> {
    let moved = &geometry.moved;
    let off = |at: &LatticePoint| {
        [at.east, at.north, at.up]
            .iter()
            .any(|part| part.unsigned_abs() > FARTHEST as u32)
    };
    if moved.values().any(off) {
        return Err(Refusal::TooFar { farthest: FARTHEST });
    }
    if moved.is_empty() {
        return Ok(());
    }
    let mut by_place = HashMap::with_capacity(moved.len());
    for (id, at) in moved {
        if let Some(there) = by_place.insert(*at, *id) {
            return Err(Refusal::Occupied { moved: *id, there });
        }
    }
    let taken = |joint: &Joint| {
        let moved = if moved.len() <= FEW {
            moved.iter().find(|(_, at)| **at == joint.at).map(|(id, _)| *id)
        } else {
            by_place.get(&joint.at).copied()
        };
        moved.filter(|moved| *moved != joint.id)
    };
    for joint in draft.all_joints() {
        if let Some(moved) = taken(joint) {
            return Err(Refusal::Occupied { moved, there: joint.id });
        }
    }
    Ok(())
}

/// Runs join two different joints that are there, each pair once; notes point at joints that are there.
fn ends(draft: &Draft, geometry: &Geometry) -> Result<(), Refusal> {
    let pair = |run: &Run| (run.from.min(run.to), run.from.max(run.to));
    let mut pairs = HashMap::new();
    for id in &geometry.joined {
        let Some(run) = draft.run(*id) else { continue };
        if run.from == run.to {
            return Err(Refusal::ToItself(*id));
        }
        if draft.joint(run.from).is_none() || draft.joint(run.to).is_none() {
            return Err(Refusal::Dangling(*id));
        }
        pairs.insert(pair(run), *id);
    }
    if !(geometry.gone.is_empty() && pairs.is_empty()) {
        let joints: HashSet<JointId> = pairs.keys().map(|(from, _)| *from).collect();
        for run in draft.all_runs() {
            let (from, to) = pair(run);
            let twin = if joints.contains(&from) {
                pairs.get(&(from, to))
            } else {
                None
            };
            if twin.is_some_and(|twin| *twin != run.id) {
                return Err(Refusal::Doubled { from, to, by: run.id });
            }
            if geometry.gone.contains(&from) || geometry.gone.contains(&to) {
                return Err(Refusal::Dangling(run.id));
            }
        }
    }
    let lost = |at: JointId| geometry.gone.contains(&at);
    match draft.notes().iter().enumerate().find(|(_, note)| lost(note.at)) {
        Some((at, note)) => Err(Refusal::Noted {
            note: at + 1,
            joint: note.at,
        }),
        None => Ok(()),
    }
}

/// No device gets more runs than it has ends.
fn devices(draft: &Draft) -> Result<(), Refusal> {
    // Joints that hold another device than before, then joints that got a run.
    let mut placed = BTreeSet::new();
    for (id, before, after) in draft.touched_joints() {
        let device = |joint: Option<&Joint>| {
            joint
                .and_then(|joint| joint.placed.as_ref())
                .map(|placed| placed.device.name())
        };
        if device(before) != device(after) {
            placed.insert(id);
        }
    }
    let mut joined = BTreeSet::new();
    for (_, before, after) in draft.touched_runs() {
        let ends = |run: Option<&Run>| run.into_iter().flat_map(|run| [run.from, run.to]).collect::<Vec<_>>();
        let before = ends(before);
        joined.extend(ends(after).into_iter().filter(|end| !before.contains(end)));
    }
    for joint in placed.union(&joined) {
        let Some(device) = draft.joint(*joint).and_then(|joint| joint.placed.as_ref()) else {
            continue;
        };
        let device = &device.device;
        let Some((most, ends)) = ends_of(device) else { continue };
        let runs = draft.runs_at(*joint).len();
        if runs <= most || (!placed.contains(joint) && runs <= runs_before(draft.job, *joint)) {
            continue;
        }
        let (joint, device) = (*joint, device.name());
        return Err(if placed.contains(&joint) {
            Refusal::TooManyRuns {
                joint,
                runs,
                device,
                ends,
            }
        } else {
            Refusal::NoEndLeft { joint, device }
        });
    }
    Ok(())
}

fn runs_before(job: &Job, joint: JointId) -> usize {
    job.runs
        .iter()
        .filter(|run| run.from == joint || run.to == joint)
        .count()
}

/// No run passes over a joint that it does not join.
fn overlaps(draft: &Draft, geometry: &Geometry) -> Result<(), Refusal> {
    let Geometry { moved, joined, .. } = geometry;
    if moved.is_empty() && joined.is_empty() {
        return Ok(());
    }
    let mut shifted = Vec::new();
    let came: Vec<(LatticePoint, JointId)> = moved.iter().map(|(id, at)| (*at, *id)).collect();
    let came = Places::of(came);
    for run in draft.all_runs() {
        let Some([a, b]) = draft.ends(run) else { continue };
        if joined.contains(&run.id) || moved.contains_key(&run.from) || moved.contains_key(&run.to) {
            shifted.push((run.id, a, b));
        } else if let Some(joint) = came.on(a, b) {
            return Err(Refusal::Through { run: run.id, joint });
        }
    }
    if shifted.is_empty() {
        return Ok(());
    }
    if shifted.len() <= FEW {
        for joint in draft.all_joints() {
            if let Some((run, ..)) = shifted.iter().find(|(_, a, b)| line::passes(*a, *b, joint.at)) {
                return Err(Refusal::Through {
                    run: *run,
                    joint: joint.id,
                });
            }
        }
        return Ok(());
    }
    let all = Places::of(draft.all_joints().map(|joint| (joint.at, joint.id)).collect());
    for (run, a, b) in shifted {
        if let Some(joint) = all.on(a, b) {
            return Err(Refusal::Through { run, joint });
        }
    }
    Ok(())
}

/// Joints by place.
struct Places {
    list: Vec<(LatticePoint, JointId)>,
    /// Filled only when there are many.
    index: HashMap<LatticePoint, JointId>,
}

impl Places {
    fn of(list: Vec<(LatticePoint, JointId)>) -> Places {
        let index = if list.len() > FEW {
            list.iter().copied().collect()
        } else {
            HashMap::new()
        };
        Places { list, index }
    }

    /// A joint on the line between two places, its ends apart.
    fn on(&self, a: LatticePoint, b: LatticePoint) -> Option<JointId> {
        let walk = if self.index.is_empty() {
            u64::MAX
        } else {
            line::pieces(a, b)
        };
        if walk > WALK {
            let on = self.list.iter().find(|(at, _)| line::passes(a, b, *at));
            return on.map(|(_, id)| *id);
        }
        (1..walk).find_map(|piece| self.index.get(&line::place(a, b, piece)).copied())
    }
}

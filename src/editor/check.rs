//! What every edit must leave true.
//!
//! Ids are unique and runs join two different joints that are there (the draft and the stores hold the first); no two
//! joints are at one place, no two runs between one pair of joints, no run passes over a joint that it does not join; no
//! device has more runs than ends; no note points at nothing. Only what the edit changes is looked at: a job that came
//! in wrong can still be edited and put right.

use super::changed_ground::ChangedGround;
use super::draft::Draft;
use super::{Refusal, line};
use crate::job::bounds::{MOST_NOTES_AT_JOINT, MOST_PENETRATIONS, MOST_RUNS_AT_JOINT};
use crate::job::{Device, Joint, JointId, LatticePoint, Run};
use crate::units::Length;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// Steps from the middle to the edge of the paper, along each axis.
pub const FARTHEST: i32 = 40_000;

/// A run between so many places of the lattice at most is walked; for a longer one all joints are looked at.
const WALK: u64 = 512;

/// So many things at most are compared one by one; more are looked up.
const FEW: usize = 8;

/// Checks the changes of a draft.
///
/// # Errors
/// The first thing found that the changes make wrong.
pub fn check(draft: &Draft) -> Result<(), Refusal> {
    crowds(draft)?;
    let placed = placed(draft);
    if !draft.touches_geometry() && placed.is_empty() {
        return Ok(());
    }
    let changed = ChangedGround::of(draft);
    if !changed.is_nothing() {
        places(draft, &changed)?;
        ends(draft, &changed)?;
        meetings(draft, &changed)?;
        notes(draft)?;
    }
    devices(draft, &changed, &placed)?;
    overlaps(draft, &changed)
}

/// No more penetrations and no longer lengths on a changed run, and no more notes at a joint, than a job can hold.
fn crowds(draft: &Draft) -> Result<(), Refusal> {
    let full = draft.touched_runs().find(|(_, before, after)| {
        let count = |run: Option<&Run>| run.map_or(0, |run| run.penetrations.len());
        count(*after) > MOST_PENETRATIONS.max(count(*before))
    });
    if let Some((run, ..)) = full {
        return Err(Refusal::Full {
            at: draft.call_run(run),
            what: "penetrations",
            most: MOST_PENETRATIONS,
        });
    }
    let too_long = draft.touched_runs().find(|(_, before, after)| {
        let longest = |run: Option<&Run>| {
            let along = run
                .into_iter()
                .flat_map(|run| run.penetrations.iter().filter_map(|penetration| penetration.at));
            let typed = run.and_then(|run| run.length);
            along.chain(typed).map(Length::magnitude).max().unwrap_or_default()
        };
        longest(*after) > Length::LONGEST.max(longest(*before))
    });
    if let Some((run, ..)) = too_long {
        return Err(Refusal::TooLong(draft.call_run(run)));
    }
    let notes = draft.notes();
    if notes.len() > MOST_NOTES_AT_JOINT.max(draft.job.notes.len()) {
        let mut counts: BTreeMap<JointId, usize> = BTreeMap::new();
        for note in notes {
            *counts.entry(note.at).or_default() += 1;
        }
        if let Some((joint, _)) = counts.into_iter().find(|(_, count)| *count > MOST_NOTES_AT_JOINT) {
            return Err(Refusal::Full {
                at: draft.call_joint(joint),
                what: "notes",
                most: MOST_NOTES_AT_JOINT,
            });
        }
    }
    Ok(())
}

/// No more runs at a joint than a job can hold.
fn meetings(draft: &Draft, changed: &ChangedGround) -> Result<(), Refusal> {
    if changed.joined.is_empty() {
        return Ok(());
    }
    let counts = changed.counts();
    let ends = changed.joined.iter().flat_map(|run| changed.ends(*run));
    let full = ends.into_iter().find(|end| {
        counts
            .get(*end as usize)
            .is_some_and(|count| *count as usize > MOST_RUNS_AT_JOINT)
    });
    match full {
        Some(joint) => Err(Refusal::Full {
            at: draft.call_joint(changed.joint_id(joint)),
            what: "pipes",
            most: MOST_RUNS_AT_JOINT,
        }),
        None => Ok(()),
    }
}

/// How many runs a device has ends for, and that number in words; `None` for any number.
pub const fn ends_of(device: &Device) -> Option<(usize, &'static str)> {
    match device.nature().most_runs {
        None => None,
        Some(1) => Some((1, "one end")),
        Some(most) => Some((most, "two ends")),
    }
}

/// Whether a number is among others: few are compared one by one, many are looked up.
struct Among {
    few: Vec<u32>,
    many: Vec<bool>,
}

impl Among {
    fn of(numbers: &[u32]) -> Among {
        let mut many = Vec::new();
        if numbers.len() > FEW {
            many.resize(numbers.iter().max().map_or(0, |most| *most as usize + 1), false);
            for number in numbers {
                many[*number as usize] = true;
            }
        }
        let few = if many.is_empty() { numbers.to_vec() } else { Vec::new() };
        Among { few, many }
    }

    fn has(&self, number: u32) -> bool {
        self.few.contains(&number) || self.many.get(number as usize).is_some_and(|among| *among)
    }
}

/// Joints by place: few are compared one by one, many are looked up.
struct Places {
    list: Vec<(LatticePoint, u32)>,
    index: HashMap<LatticePoint, u32>,
}

impl Places {
    fn of(list: Vec<(LatticePoint, u32)>) -> Places {
        let index = match list.len() {
            0..=FEW => HashMap::new(),
            _ => list.iter().copied().collect(),
        };
        Places { list, index }
    }

    fn at(&self, place: LatticePoint) -> Option<u32> {
        if self.index.is_empty() {
            let found = self.list.iter().find(|(at, _)| *at == place);
            return found.map(|(_, joint)| *joint);
        }
        self.index.get(&place).copied()
    }

    /// A joint on the line between two places, its ends apart.
    fn on(&self, a: LatticePoint, b: LatticePoint) -> Option<u32> {
        let walk = if self.index.is_empty() {
            u64::MAX
        } else {
            line::pieces(a, b)
        };
        if walk > WALK {
            let on = self.list.iter().find(|(at, _)| line::passes(a, b, *at));
            return on.map(|(_, joint)| *joint);
        }
        (1..walk).find_map(|piece| self.index.get(&line::place(a, b, piece)).copied())
    }
}

/// No two joints at one place, none off the paper.
fn places(draft: &Draft, changed: &ChangedGround) -> Result<(), Refusal> {
    let off = |at: LatticePoint| {
        [at.east, at.north, at.up]
            .iter()
            .any(|part| part.unsigned_abs() > FARTHEST as u32)
    };
    let mut came = Vec::with_capacity(changed.moved.len());
    for joint in &changed.moved {
        came.extend(changed.place(*joint).map(|at| (at, *joint)));
    }
    if came.iter().any(|(at, _)| off(*at)) {
        return Err(Refusal::TooFar { farthest: FARTHEST });
    }
    if came.is_empty() {
        return Ok(());
    }
    let came = Places::of(came);
    let taken = |(joint, at)| came.at(at).filter(|other| *other != joint).map(|other| (joint, other));
    match changed.joints().find_map(taken) {
        Some((there, moved)) => Err(Refusal::Occupied {
            moved: draft.call_joint(changed.joint_id(moved)),
            there: draft.call_joint(changed.joint_id(there)),
        }),
        None => Ok(()),
    }
}

/// Runs join two different joints that are there, each pair once.
fn ends(draft: &Draft, changed: &ChangedGround) -> Result<(), Refusal> {
    let pair = |[from, to]: [u32; 2]| [from.min(to), from.max(to)];
    let mut pairs = Vec::with_capacity(changed.joined.len());
    for run in &changed.joined {
        let ends = changed.ends(*run);
        if ends[0] == ends[1] {
            return Err(Refusal::ToItself(draft.call_run(changed.run_id(*run))));
        }
        if ends.iter().any(|end| changed.place(*end).is_none()) {
            return Err(Refusal::Dangling(draft.call_run(changed.run_id(*run))));
        }
        pairs.push((pair(ends), *run));
    }
    let index: HashMap<[u32; 2], u32> = match pairs.len() {
        0..=FEW => HashMap::new(),
        _ => pairs.iter().copied().collect(),
    };
    let twin = |ends: [u32; 2]| match pairs.len() {
        0..=FEW => pairs.iter().find(|(pair, _)| *pair == ends).map(|(_, run)| *run),
        _ => index.get(&ends).copied(),
    };
    let gone = Among::of(&changed.gone);
    for (run, ends) in changed.runs() {
        if twin(pair(ends)).is_some_and(|twin| twin != run) {
            return Err(Refusal::Doubled {
                from: draft.call_joint(changed.joint_id(ends[0])),
                to: draft.call_joint(changed.joint_id(ends[1])),
                by: draft.call_run(changed.run_id(run)),
            });
        }
        if ends.iter().any(|end| gone.has(*end)) {
            return Err(Refusal::Dangling(draft.call_run(changed.run_id(run))));
        }
    }
    Ok(())
}

/// No note points at a joint that went.
fn notes(draft: &Draft) -> Result<(), Refusal> {
    for (at, note) in draft.notes().iter().enumerate() {
        if draft.joint(note.at).is_none() && draft.job.joints.get(note.at).is_some() {
            return Err(Refusal::Noted {
                note: at + 1,
                joint: note.at,
            });
        }
    }
    Ok(())
}

/// The joints that hold another kind of device than before.
fn placed(draft: &Draft) -> BTreeSet<JointId> {
    let name = |joint: Option<&Joint>| Some(joint?.placed.as_ref()?.device.name());
    let joints = draft
        .touched_joints()
        .filter(|(_, before, after)| name(*after).is_some() && name(*before) != name(*after));
    joints.map(|(id, ..)| id).collect()
}

/// No device gets more runs than it has ends.
fn devices(draft: &Draft, changed: &ChangedGround, placed: &BTreeSet<JointId>) -> Result<(), Refusal> {
    let mut asked: BTreeSet<JointId> = placed.clone();
    for run in &changed.joined {
        asked.extend(changed.ends(*run).map(|end| changed.joint_id(end)));
    }
    asked.retain(|id| draft.joint(*id).is_some_and(|joint| joint.placed.is_some()));
    if asked.is_empty() {
        return Ok(());
    }
    let counts = changed.counts();
    for (joint, _) in changed.joints() {
        let runs = counts[joint as usize] as usize;
        // Most joints hold nothing, or no more than two runs.
        if runs < 2 {
            continue;
        }
        let joint = changed.joint_id(joint);
        let Some(device) = asked.get(&joint).and_then(|id| draft.joint(*id)?.placed.as_ref()) else {
            continue;
        };
        let Some((most, ends)) = ends_of(&device.device).filter(|(most, _)| runs > *most) else {
            continue;
        };
        let device = device.device.name();
        if placed.contains(&joint) {
            return Err(Refusal::TooManyRuns {
                joint: draft.call_joint(joint),
                runs,
                device,
                ends,
            });
        }
        let before = draft.job.runs.iter().filter(|run| run.from == joint || run.to == joint);
        if runs > most.max(before.count()) {
            return Err(Refusal::NoEndLeft {
                joint: draft.call_joint(joint),
                device,
            });
        }
    }
    Ok(())
}

/// No run passes over a joint that it does not join.
fn overlaps(draft: &Draft, changed: &ChangedGround) -> Result<(), Refusal> {
    if changed.moved.is_empty() && changed.joined.is_empty() {
        return Ok(());
    }
    let through = |joint| {
        Err(Refusal::Through {
            joint: draft.call_joint(changed.joint_id(joint)),
        })
    };
    let (moved, joined) = (Among::of(&changed.moved), Among::of(&changed.joined));
    let came = changed
        .moved
        .iter()
        .filter_map(|joint| Some((changed.place(*joint)?, *joint)));
    let came = Places::of(came.collect());
    let mut shifted = Vec::new();
    for (run, ends) in changed.runs() {
        let Some([a, b]) = changed.line(run) else { continue };
        if ends.iter().any(|end| moved.has(*end)) || joined.has(run) {
            shifted.push((a, b));
        } else if let Some(joint) = came.on(a, b) {
            return through(joint);
        }
    }
    if shifted.len() <= FEW {
        for (joint, at) in changed.joints() {
            if shifted.iter().any(|(a, b)| line::passes(*a, *b, at)) {
                return through(joint);
            }
        }
        return Ok(());
    }
    let all = Places::of(changed.joints().map(|(joint, at)| (at, joint)).collect());
    for (a, b) in shifted {
        if let Some(joint) = all.on(a, b) {
            return through(joint);
        }
    }
    Ok(())
}

//! A part before and after an edit.

use crate::job::{ByHand, Gas, Job, Joint, JointId, Named, Note, Run, RunId, Settings, Store, TitleBlock, Variants};
use std::collections::BTreeMap;

/// A thing before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Swap<T> {
    /// What it was.
    pub before: T,
    /// What it becomes.
    pub after: T,
}

/// One part of a job before and after an edit; `None` where it is not there.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// A joint.
    Joint(JointId, Box<Swap<Option<Joint>>>),
    /// A run.
    Run(RunId, Box<Swap<Option<Run>>>),
    /// The list of notes.
    Notes(Box<Swap<Vec<Note>>>),
    /// The gas.
    Gas(Box<Swap<Gas>>),
    /// The settings.
    Settings(Box<Swap<Settings>>),
    /// The title block.
    Title(Box<Swap<TitleBlock>>),
    /// What is added to lists by hand.
    ByHand(Box<Swap<ByHand>>),
    /// The variants that are not shown, and the name of the shown one.
    Variants(Box<Swap<Variants>>),
}

/// A side of a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// What was.
    Before,
    /// What becomes.
    After,
}

impl<T> Swap<T> {
    /// One of the two.
    pub fn side(&self, side: Side) -> &T {
        match side {
            Side::Before => &self.before,
            Side::After => &self.after,
        }
    }
}

/// From so many parts that come or go at once the stores are rebuilt in one pass.
const MANY: usize = 32;

/// Puts one side of all changes into a job.
pub fn put(job: &mut Job, changes: &[Change], side: Side) {
    let mut joints = Vec::new();
    let mut runs = Vec::new();
    for change in changes {
        match change {
            Change::Joint(id, swap) => joints.push((*id, swap.side(side).as_ref())),
            Change::Run(id, swap) => runs.push((*id, swap.side(side).as_ref())),
            Change::Notes(swap) => job.notes.clone_from(swap.side(side)),
            Change::Gas(swap) => job.gas.clone_from(swap.side(side)),
            Change::Settings(swap) => job.settings.clone_from(swap.side(side)),
            Change::Title(swap) => job.title.clone_from(swap.side(side)),
            Change::ByHand(swap) => job.by_hand.clone_from(swap.side(side)),
            Change::Variants(swap) => job.variants.clone_from(swap.side(side)),
        }
    }
    put_parts(&mut job.joints, joints);
    put_parts(&mut job.runs, runs);
}

fn put_parts<T: Named + Clone>(store: &mut Store<T>, parts: Vec<(T::Id, Option<&T>)>) {
    let mut moved: BTreeMap<T::Id, Option<&T>> = BTreeMap::new();
    for (id, part) in parts {
        match (store.get_mut(id), part) {
            (Some(old), Some(part)) => old.clone_from(part),
            (None, None) => {}
            _ => {
                moved.insert(id, part);
            }
        }
    }
    if moved.len() < MANY {
        for (id, part) in moved {
            match part {
                Some(part) => drop(store.insert(part.clone())),
                None => drop(store.remove(id)),
            }
        }
    } else {
        store.retain(|part| moved.get(&part.id()).is_none_or(Option::is_some));
        store.extend(moved.into_values().flatten().cloned());
    }
}

/// Whether one side of all changes is what a job holds.
pub fn holds(job: &Job, changes: &[Change], side: Side) -> bool {
    changes.iter().all(|change| match change {
        Change::Joint(id, swap) => job.joints.get(*id) == swap.side(side).as_ref(),
        Change::Run(id, swap) => job.runs.get(*id) == swap.side(side).as_ref(),
        Change::Notes(swap) => job.notes == *swap.side(side),
        Change::Gas(swap) => job.gas == *swap.side(side),
        Change::Settings(swap) => job.settings == *swap.side(side),
        Change::Title(swap) => job.title == *swap.side(side),
        Change::ByHand(swap) => job.by_hand == *swap.side(side),
        Change::Variants(swap) => job.variants == *swap.side(side),
    })
}

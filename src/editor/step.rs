//! One edit: a named step that can be taken back.

use super::Part;
use super::change::{self, Change, Side, Swap};
use crate::job::{ByHand, Gas, Job, Joint, JointId, Named, Note, Run, RunId, Settings, Store, TitleBlock, Variants};
use std::collections::BTreeMap;

/// One edit under its name, as the parts that it changes, before and after.
///
/// Only the edits of [`super::edit`] make steps, each from a job; a step fits every job that holds its `before` parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    name: String,
    changes: Vec<Change>,
}

impl Step {
    pub(super) fn new(name: impl Into<String>, changes: Vec<Change>) -> Step {
        Step {
            name: name.into(),
            changes,
        }
    }

    /// What was done, for the undo entry: "Move 3 joints".
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The step from one whole job to another, part by part; nothing is checked.
    pub(super) fn between(name: impl Into<String>, before: &Job, after: &Job) -> Step {
        fn parts<T: Named + Clone + PartialEq>(before: &Store<T>, after: &Store<T>) -> Vec<(T::Id, Slot<Option<T>>)> {
            let gone = before.iter().filter(|part| after.get(part.id()).is_none());
            let all = after.iter().chain(gone).map(|part| part.id());
            let swap = |id| (before.get(id).cloned(), after.get(id).cloned());
            all.map(|id| (id, slot(swap(id)))).collect()
        }
        fn slot<T>((before, after): (T, T)) -> Slot<T> {
            Some(Box::new(Swap { before, after }))
        }
        fn whole<T: Clone>(before: &T, after: &T) -> Slot<T> {
            slot((before.clone(), after.clone()))
        }
        let all = Merge {
            joints: parts(&before.joints, &after.joints).into_iter().collect(),
            runs: parts(&before.runs, &after.runs).into_iter().collect(),
            notes: whole(&before.notes, &after.notes),
            gas: whole(&before.gas, &after.gas),
            settings: whole(&before.settings, &after.settings),
            title: whole(&before.title, &after.title),
            by_hand: whole(&before.by_hand, &after.by_hand),
            variants: whole(&before.variants, &after.variants),
        };
        Step::new(name, all.changes())
    }

    /// Whether it is about variants: another one is shown, or one comes, goes or is renamed.
    pub fn is_of_variants(&self) -> bool {
        self.changes.iter().any(|change| matches!(change, Change::Variants(_)))
    }

    /// The changed parts, before and after.
    pub fn changes(&self) -> &[Change] {
        &self.changes
    }

    /// Whether nothing changes.
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }

    /// The step that takes this one back.
    pub fn inverse(&self) -> Step {
        fn turn<T: Clone>(swap: &Swap<T>) -> Box<Swap<T>> {
            Box::new(Swap {
                before: swap.after.clone(),
                after: swap.before.clone(),
            })
        }
        let changes = self.changes.iter().map(|change| match change {
            Change::Joint(id, swap) => Change::Joint(*id, turn(swap)),
            Change::Run(id, swap) => Change::Run(*id, turn(swap)),
            Change::Notes(swap) => Change::Notes(turn(swap)),
            Change::Gas(swap) => Change::Gas(turn(swap)),
            Change::Settings(swap) => Change::Settings(turn(swap)),
            Change::Title(swap) => Change::Title(turn(swap)),
            Change::ByHand(swap) => Change::ByHand(turn(swap)),
            Change::Variants(swap) => Change::Variants(turn(swap)),
        });
        Step::new(self.name.clone(), changes.collect())
    }

    /// Puts one side into a job that is known to hold the other.
    pub(super) fn put(&self, job: &mut Job, side: Side) {
        change::put(job, &self.changes, side);
    }

    /// The joints and runs that come into being.
    pub fn added(&self) -> impl Iterator<Item = Part> + '_ {
        self.changes.iter().filter_map(|change| match change {
            Change::Joint(id, swap) if swap.before.is_none() => Some(Part::Joint(*id)),
            Change::Run(id, swap) if swap.before.is_none() => Some(Part::Run(*id)),
            _ => None,
        })
    }

    /// The joints that get a device, and the runs and the notes that get one more passage or note.
    pub fn placed(&self) -> impl Iterator<Item = Part> + '_ {
        let holds = |joint: &Option<Joint>| joint.as_ref().is_some_and(|joint| joint.placed.is_some());
        self.changes.iter().filter_map(move |change| match change {
            Change::Joint(id, swap) if !holds(&swap.before) && holds(&swap.after) => Some(Part::Joint(*id)),
            Change::Run(id, swap) => {
                let (before, after) = (swap.before.as_ref()?, swap.after.as_ref()?);
                let count = before.penetrations.len();
                (after.penetrations.len() > count).then_some(Part::Penetration(*id, count))
            }
            Change::Notes(swap) if swap.after.len() > swap.before.len() => Some(Part::Note(swap.before.len())),
            _ => None,
        })
    }

    /// Many steps, done one after the other, as one under a new name.
    pub fn merged(name: impl Into<String>, steps: Vec<Step>) -> Step {
        let mut all = Merge::default();
        for change in steps.into_iter().flat_map(|step| step.changes) {
            match change {
                Change::Joint(id, swap) => follow(all.joints.entry(id).or_default(), swap),
                Change::Run(id, swap) => follow(all.runs.entry(id).or_default(), swap),
                Change::Notes(swap) => follow(&mut all.notes, swap),
                Change::Gas(swap) => follow(&mut all.gas, swap),
                Change::Settings(swap) => follow(&mut all.settings, swap),
                Change::Title(swap) => follow(&mut all.title, swap),
                Change::ByHand(swap) => follow(&mut all.by_hand, swap),
                Change::Variants(swap) => follow(&mut all.variants, swap),
            }
        }
        Step::new(name, all.changes())
    }
}

type Slot<T> = Option<Box<Swap<T>>>;

/// The first `before` and the last `after` of every part.
#[derive(Default)]
struct Merge {
    joints: BTreeMap<JointId, Slot<Option<Joint>>>,
    runs: BTreeMap<RunId, Slot<Option<Run>>>,
    notes: Slot<Vec<Note>>,
    gas: Slot<Gas>,
    settings: Slot<Settings>,
    title: Slot<TitleBlock>,
    by_hand: Slot<ByHand>,
    variants: Slot<Variants>,
}

fn follow<T>(slot: &mut Slot<T>, next: Box<Swap<T>>) {
    match slot {
        Some(swap) => swap.after = next.after,
        None => *slot = Some(next),
    }
}

impl Merge {
    fn changes(self) -> Vec<Change> {
        fn real<T: PartialEq>(slot: Slot<T>) -> Slot<T> {
            slot.filter(|swap| swap.before != swap.after)
        }
        let joints = self.joints.into_iter();
        let runs = self.runs.into_iter();
        joints
            .filter_map(|(id, slot)| Some(Change::Joint(id, real(slot)?)))
            .chain(runs.filter_map(|(id, slot)| Some(Change::Run(id, real(slot)?))))
            .chain(real(self.notes).map(Change::Notes))
            .chain(real(self.gas).map(Change::Gas))
            .chain(real(self.settings).map(Change::Settings))
            .chain(real(self.title).map(Change::Title))
            .chain(real(self.by_hand).map(Change::ByHand))
            .chain(real(self.variants).map(Change::Variants))
            .collect()
    }
}

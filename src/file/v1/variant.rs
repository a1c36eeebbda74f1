//! Variants in the file. One is shown: the job's own keys are its drawing. Of each other one stands only what it has
//! otherwise than that one, so that what all share is written once.

use serde::{Deserialize, Serialize};
use std::collections::HashSet;
use std::sync::Arc;

use super::{Extra, Joint, List, Note, OwnStep, Run, usual};
use crate::job::{self, Drawing, Id, Named, Store};

/// `(name: "Along the fence", joints: [(…)], runs: [(…)], without_runs: [4])`
#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Variant {
    pub name: String,
    /// The job's own keys are of this one.
    #[serde(default, skip_serializing_if = "usual")]
    pub shown: bool,
    /// Joints that the shown one has not, or has otherwise.
    #[serde(default, skip_serializing_if = "usual")]
    pub joints: List<Joint>,
    #[serde(default, skip_serializing_if = "usual")]
    pub runs: List<Run>,
    /// Joints of the shown one that this one has not.
    #[serde(default, skip_serializing_if = "usual")]
    pub without_joints: List<u32>,
    #[serde(default, skip_serializing_if = "usual")]
    pub without_runs: List<u32>,
    /// All notes, where they are other ones.
    #[serde(default, skip_serializing_if = "usual")]
    pub notes: Option<List<Note>>,
    #[serde(default, skip_serializing_if = "usual")]
    pub extra: Option<List<Extra>>,
    #[serde(default, skip_serializing_if = "usual")]
    pub work_steps: Option<List<OwnStep>>,
}

impl Variant {
    /// The numbers of joints, and of runs, that are not those of the shown one.
    pub fn own(&self) -> [HashSet<u32>; 2] {
        let joints = self.joints.0.iter().map(|joint| joint.id);
        let runs = self.runs.0.iter().map(|run| run.id);
        [
            joints.chain(self.without_joints.0.iter().copied()).collect(),
            runs.chain(self.without_runs.0.iter().copied()).collect(),
        ]
    }

    fn of(variant: &job::Variant, shown: &job::Job) -> Variant {
        let drawing = &variant.drawing;
        let (joints, without_joints) = apart(&drawing.joints, &shown.joints);
        let (runs, without_runs) = apart(&drawing.runs, &shown.runs);
        let by_hand = (&drawing.by_hand, &shown.by_hand);
        let notes = (drawing.notes != shown.notes).then(|| drawing.notes.iter().map(Note::from).collect());
        let extra = (by_hand.0.extra != by_hand.1.extra).then(|| by_hand.0.extra.iter().map(Extra::from).collect());
        let steps = (by_hand.0.order != by_hand.1.order).then(|| by_hand.0.order.iter().map(OwnStep::from).collect());
        Variant {
            name: variant.name.clone(),
            shown: false,
            joints,
            runs,
            without_joints,
            without_runs,
            notes,
            extra,
            work_steps: steps,
        }
    }

    fn known(self, shown: &job::Job) -> job::Variant {
        fn all<F, T: From<F> + Clone>(list: Option<List<F>>, shown: &[T]) -> Vec<T> {
            list.map_or_else(|| shown.to_vec(), |list| list.0.into_iter().map(T::from).collect())
        }
        let drawing = Drawing {
            joints: together(&shown.joints, self.joints.0, &self.without_joints.0),
            runs: together(&shown.runs, self.runs.0, &self.without_runs.0),
            notes: all(self.notes, &shown.notes),
            by_hand: job::ByHand {
                extra: all(self.extra, &shown.by_hand.extra),
                order: all(self.work_steps, &shown.by_hand.order),
            },
        };
        job::Variant {
            name: self.name,
            drawing: Arc::new(drawing),
        }
    }
}

/// What a variant lists and what it leaves out, of one kind of part.
fn apart<'a, T, F>(own: &'a Store<T>, shown: &'a Store<T>) -> (List<F>, List<u32>)
where
    T: Named + PartialEq,
    F: From<&'a T>,
{
    let other = own.iter().filter(|part| shown.get(part.id()) != Some(*part));
    let gone = shown.iter().filter(|part| own.get(part.id()).is_none());
    (
        other.map(F::from).collect(),
        gone.map(|part| part.id().number()).collect(),
    )
}

/// The parts of a variant: those of the shown one, but for what it lists and what it leaves out.
fn together<T: Named + Clone + From<F>, F>(shown: &Store<T>, own: Vec<F>, without: &[u32]) -> Store<T> {
    let without: HashSet<u32> = without.iter().copied().collect();
    let mut parts = shown.clone();
    parts.retain(|part| !without.contains(&part.id().number()));
    parts.extend(own.into_iter().map(T::from));
    parts
}

/// All variants, the shown one among them.
pub fn written(job: &job::Job) -> List<Variant> {
    let variants = &job.variants;
    let shown = (!variants.is_empty()).then(|| Variant {
        name: variants.name.clone(),
        shown: true,
        ..Variant::default()
    });
    let before = variants.before.iter().map(|variant| Variant::of(variant, job));
    let after = variants.after.iter().map(|variant| Variant::of(variant, job));
    before.chain(shown).chain(after).collect()
}

/// The variants of a job whose own drawing is read already; that one of them is shown has been checked.
pub fn known(list: List<Variant>, job: &job::Job) -> job::Variants {
    let mut variants = job::Variants::default();
    let mut is_after = false;
    for variant in list.0 {
        match (variant.shown, is_after) {
            (true, _) => (variants.name, is_after) = (variant.name, true),
            (false, false) => variants.before.push(variant.known(job)),
            (false, true) => variants.after.push(variant.known(job)),
        }
    }
    variants
}

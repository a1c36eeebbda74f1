//! Other ways to do the job: shown, added, renamed and removed, each as one step that can be undone.

use crate::editor::change::{Change, Side, Swap};
use crate::editor::{Refusal, Step};
use crate::job::bounds::{MOST_LETTERS, MOST_VARIANTS};
use crate::job::{Job, Variant};
use std::sync::Arc;

/// The name of a drawing that gets a first variant beside it.
const FIRST: &str = "Variant 1";

/// Shows another variant in place of the one that is shown.
///
/// # Errors
/// When there is none at this position.
pub fn show_variant(job: &Job, at: usize) -> Result<Step, Refusal> {
    let shown = job.showing(at).ok_or(Refusal::NoVariant)?;
    let name = format!("Show {}", shown.variants.name);
    Ok(Step::between(name, job, &shown))
}

/// Shows the variant after the shown one, or before it; after the last comes the first.
///
/// # Errors
/// When the job has no other one.
pub fn next_variant(job: &Job, forward: bool) -> Result<Step, Refusal> {
    let (at, count) = (job.variants.shown(), job.variants.count());
    match count {
        0 | 1 => Err(Refusal::NoVariant),
        _ => show_variant(job, (at + if forward { 1 } else { count - 1 }) % count),
    }
}

/// Adds a copy of the shown variant after all others, and shows it. A job that was one drawing so far keeps that as its
/// first variant. Without a name it gets the first free one: `Variant 2`.
///
/// # Errors
/// When the name is taken, or the job has as many as it can have.
pub fn add_variant(job: &Job, name: &str) -> Result<Step, Refusal> {
    let after = added(job, name)?;
    Ok(Step::between("Add a variant", job, &after))
}

/// Adds a copy of the shown variant in which a step is done, and shows it.
///
/// # Errors
/// As [`add_variant`]; and what the step says. Where the name is taken a number follows it.
pub fn open_as_variant(job: &Job, name: &str, step: &Step) -> Result<Step, Refusal> {
    let mut names =
        std::iter::once(name.to_owned()).chain((2..=MOST_VARIANTS + 1).map(|number| format!("{name} {number}")));
    let free = names.find(|name| job.variants.position(name).is_none());
    let mut after = added(job, &free.unwrap_or_default())?;
    step.apply(&mut after)?;
    Ok(Step::between("Open as a variant", job, &after))
}

/// Gives a variant another name.
///
/// # Errors
/// When there is none at this position, or the name is empty or taken.
pub fn rename_variant(job: &Job, at: usize, name: &str) -> Result<Step, Refusal> {
    if at >= job.variants.count() {
        return Err(Refusal::NoVariant);
    }
    let name = named(job, name, Some(at))?;
    let mut after = job.clone();
    let shown = job.variants.shown();
    let variants = &mut after.variants;
    match at.checked_sub(shown) {
        None => variants.before[at].name = name,
        Some(0) => variants.name = name,
        Some(beyond) => variants.after[beyond - 1].name = name,
    }
    Ok(Step::between("Rename a variant", job, &after))
}

/// Removes a variant. Where it is the shown one, its neighbor is shown; where only one is left, that is the job's one
/// drawing again.
///
/// # Errors
/// When there is none at this position, or no other one.
pub fn remove_variant(job: &Job, at: usize) -> Result<Step, Refusal> {
    let count = job.variants.count();
    if count < 2 || at >= count {
        return Err(Refusal::NoVariant);
    }
    let shown = job.variants.shown();
    let beside = if at > 0 { at - 1 } else { 1 };
    let mut after = match at == shown {
        true => job.showing(beside).ok_or(Refusal::NoVariant)?,
        false => job.clone(),
    };
    let now = after.variants.shown();
    match at.checked_sub(now) {
        None => drop(after.variants.before.remove(at)),
        Some(beyond) => drop(after.variants.after.remove(beyond - 1)),
    }
    if after.variants.count() < 2 {
        after.variants = crate::job::Variants::default();
    }
    Ok(Step::between("Remove a variant", job, &after))
}

/// Tells the other variants what a step that was done says of the parts that all have, and gives back the step with it.
pub fn shared(job: &mut Job, step: Step) -> Step {
    if job.variants.count() < 2 || step.is_of_variants() {
        return step;
    }
    let joints = step.changes().iter().filter_map(|change| match change {
        Change::Joint(_, swap) => Some((swap.before.as_ref()?, swap.after.as_ref()?)),
        _ => None,
    });
    let runs = step.changes().iter().filter_map(|change| match change {
        Change::Run(_, swap) => Some((swap.before.as_ref()?, swap.after.as_ref()?)),
        _ => None,
    });
    let before = job.variants.clone();
    job.share(joints, runs);
    let after = job.variants.clone();
    if before == after {
        return step;
    }
    let told = Step::new(step.name(), vec![Change::Variants(Box::new(Swap { before, after }))]);
    told.put(job, Side::After);
    Step::merged(step.name().to_owned(), vec![step, told])
}

/// The job with one more variant, which is shown.
fn added(job: &Job, name: &str) -> Result<Job, Refusal> {
    if job.variants.count() >= MOST_VARIANTS {
        return Err(Refusal::VariantsFull(MOST_VARIANTS));
    }
    let mut after = job.clone();
    if after.variants.is_empty() {
        after.variants.name = FIRST.to_owned();
    }
    let free = || {
        (2..=MOST_VARIANTS + 1)
            .map(|number| format!("Variant {number}"))
            .find(|name| after.variants.position(name).is_none())
    };
    let name = match name.trim() {
        "" => free().unwrap_or_default(),
        name => named(&after, name, None)?,
    };
    let drawing = Arc::new(job.drawing());
    let variants = &mut after.variants;
    let shown = std::mem::replace(&mut variants.name, name);
    variants.before.push(Variant { name: shown, drawing });
    variants.before.append(&mut variants.after);
    Ok(after)
}

/// A name that no variant has, but for the one at a position.
fn named(job: &Job, name: &str, own: Option<usize>) -> Result<String, Refusal> {
    let name = name.trim();
    let taken = job.variants.position(name).is_some_and(|at| Some(at) != own);
    match name.is_empty() || taken || name.chars().count() > MOST_LETTERS {
        true => Err(Refusal::VariantName),
        false => Ok(name.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::edit::{JointField, RunField, set_joint, set_runs, set_state};
    use crate::editor::fixture::{R, done, house};
    use crate::editor::{CommandId, Editor};
    use crate::job::{Device, JointId, RunId, State, Variants};
    use crate::units::Length;

    fn names(job: &Job) -> Vec<&str> {
        job.variants.names().collect()
    }

    #[test]
    fn variants_come_are_edited_apart_and_every_step_is_undone() {
        let job = house();
        let mut editor = Editor::new(job.clone());
        editor.edit(|job| add_variant(job, "")).unwrap();
        assert_eq!(names(editor.job()), ["Variant 1", "Variant 2"]);
        let length = Some(Length::from_feet(40.0));
        editor
            .edit(|job| set_runs(job, &[RunId(2)], &RunField::Length(length)))
            .unwrap();
        let second = editor.job().clone();
        editor.edit(|job| next_variant(job, true)).unwrap();
        assert_eq!(editor.job().runs, job.runs, "the first is as it was");
        assert_eq!(editor.undo_name(), Some("Show Variant 1"));
        editor.edit(|job| next_variant(job, false)).unwrap();
        assert_eq!(*editor.job(), second);
        editor
            .edit(|job| rename_variant(job, 0, " Through the attic "))
            .unwrap();
        assert_eq!(names(editor.job()), ["Through the attic", "Variant 2"]);
        editor.edit(|job| remove_variant(job, 1)).unwrap();
        assert_eq!(
            (&editor.job().runs, &editor.job().variants),
            (&job.runs, &Variants::default())
        );
        while editor.undo_name().is_some() {
            editor.run(CommandId::Undo);
        }
        assert_eq!(*editor.job(), job);
        while editor.redo_name().is_some() {
            editor.run(CommandId::Redo);
        }
        assert_eq!(editor.job().runs, job.runs);
    }

    #[test]
    fn a_fix_opens_as_a_variant_of_its_name() {
        let job = house();
        let step = set_state(&job, &[R(2)].into_iter().collect(), State::Removed).unwrap();
        let fixed = done(&job, open_as_variant(&job, "Larger pipe", &step));
        assert_eq!(names(&fixed), ["Variant 1", "Larger pipe"]);
        assert_eq!(fixed.runs.get(RunId(2)).unwrap().state, State::Removed);
        assert_eq!(fixed.showing(0).unwrap().runs, job.runs);
        let again = done(&job, open_as_variant(&job, "Larger pipe", &step));
        let back = again.showing(0).unwrap();
        assert_eq!(
            names(&done(&back, open_as_variant(&back, "Larger pipe", &step))).len(),
            3
        );
    }

    #[test]
    fn what_is_entered_about_a_shared_part_goes_to_all_in_one_step() {
        let mut editor = Editor::new(house());
        editor.edit(|job| add_variant(job, "Other")).unwrap();
        let before = editor.job().clone();
        let supply = before
            .joints
            .iter()
            .find(|joint| matches!(joint.device(), Some(Device::Supply(_))));
        let id: JointId = supply.unwrap().id;
        let mut placed = before.joints.get(id).unwrap().placed.clone().unwrap();
        if let Device::Supply(supply) = &mut placed.device {
            supply.pressure = Some(crate::units::GaugePressure::from_inches_wc(10.0));
        }
        editor
            .edit(|job| set_joint(job, id, JointField::Placed(Some(placed.clone()))))
            .unwrap();
        let first = editor.job().showing(0).unwrap();
        assert_eq!(first.joints.get(id).unwrap().placed, Some(placed));
        editor.run(CommandId::Undo);
        assert_eq!(*editor.job(), before);
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        let job = house();
        for refused in [
            show_variant(&job, 0),
            next_variant(&job, true),
            rename_variant(&job, 0, "a"),
            remove_variant(&job, 0),
        ] {
            assert_eq!(refused, Err(Refusal::NoVariant));
        }
        let two = done(&job, add_variant(&job, "Other"));
        assert_eq!(add_variant(&two, "other "), Err(Refusal::VariantName));
        assert_eq!(rename_variant(&two, 0, "OTHER"), Err(Refusal::VariantName));
        assert_eq!(rename_variant(&two, 0, " "), Err(Refusal::VariantName));
        let mut full = two;
        while full.variants.count() < MOST_VARIANTS {
            full = done(&full, add_variant(&full, ""));
        }
        assert_eq!(add_variant(&full, ""), Err(Refusal::VariantsFull(MOST_VARIANTS)));
    }
}

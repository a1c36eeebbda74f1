//! Letters of outlets stay. What is written on a drawing as "B" is B as long as it is there: whatever an edit does to the
//! order in which gas reaches outlets, each keeps its letter, and a new one gets the first that is free.
//!
//! A job that was never edited here has no letters of its own; its outlets are lettered along the flow. The first edit of
//! its pipe writes those letters down, as part of the step, so that undoing it leaves the job as it was.

use super::change::{Change, Side, Swap};
use super::step::Step;
use crate::job::{DeviceKind, Job, Joint, JointId, Letter, Placed, Run, State};
use crate::network::{self, is_lettered};
use std::collections::{BTreeMap, BTreeSet};

/// The letters that a job shows before a step.
pub struct Shown(Option<BTreeMap<JointId, Letter>>);

impl Shown {
    /// What is shown before a step is done; a step that leaves devices, and who is fed by whom, as they were changes no letter.
    pub fn before(job: &Job, step: &Step) -> Shown {
        // Each variant has letters of its own.
        let may_letter = !step.is_of_variants() && step.changes().iter().any(may_letter);
        Shown(may_letter.then(|| shown(job)))
    }

    /// Letters the outlets of the job in which the step was done, and gives back the step with what that changed.
    pub fn keep(self, job: &mut Job, step: Step) -> Step {
        let Some(before) = self.0 else { return step };
        let wanted = wanted(&before, job);
        let changes = job.joints.iter().filter_map(|joint| {
            let letter = wanted.get(&joint.id).copied();
            let placed = joint.placed.as_ref().filter(|placed| placed.letter != letter)?;
            let mut after = joint.clone();
            after.placed = Some(Placed {
                letter,
                ..placed.clone()
            });
            let swap = Swap {
                before: Some(joint.clone()),
                after: Some(after),
            };
            Some(Change::Joint(joint.id, Box::new(swap)))
        });
        let letters = Step::new(step.name(), changes.collect());
        if letters.is_empty() {
            return step;
        }
        letters.put(job, Side::After);
        Step::merged(step.name().to_owned(), vec![step, letters])
    }
}

/// Whether a change may letter outlets otherwise: devices come or go, or runs do, their ends or their state.
fn may_letter(change: &Change) -> bool {
    fn device(joint: &Option<Joint>) -> Option<(DeviceKind, State, bool)> {
        let joint = joint.as_ref()?;
        let placed = joint.placed.as_ref()?;
        Some((placed.device.kind(), placed.state, is_lettered(joint)))
    }
    fn way(run: &Option<Run>) -> Option<(JointId, JointId, State)> {
        run.as_ref().map(|run| (run.from, run.to, run.state))
    }
    match change {
        Change::Joint(_, swap) => device(&swap.before) != device(&swap.after),
        Change::Run(_, swap) => way(&swap.before) != way(&swap.after),
        Change::Notes(_)
        | Change::Gas(_)
        | Change::Settings(_)
        | Change::Title(_)
        | Change::ByHand(_)
        | Change::Variants(_) => false,
    }
}

/// The letters written down in a job; if one of its outlets has none, those of all that gas reaches.
fn shown(job: &Job) -> BTreeMap<JointId, Letter> {
    let mut shown: BTreeMap<JointId, Letter> = kept(job).collect();
    if has_bare(job, &shown) {
        shown.extend(network::letters(job).map(|(joint, letter)| (job.joints.at(joint).id, letter)));
    }
    shown
}

fn kept(job: &Job) -> impl Iterator<Item = (JointId, Letter)> + '_ {
    let letter = |joint: &Joint| Some((joint.id, joint.placed.as_ref()?.letter?));
    job.joints.iter().filter_map(letter)
}

/// Whether something that has a letter has none of these.
fn has_bare(job: &Job, letters: &BTreeMap<JointId, Letter>) -> bool {
    job.joints
        .iter()
        .any(|joint| is_lettered(joint) && !letters.contains_key(&joint.id))
}

/// The letter of each joint that is to have one: what it showed before, else what it brings with it if nobody else has
/// that, else the first free one where gas reaches it.
fn wanted(before: &BTreeMap<JointId, Letter>, job: &Job) -> BTreeMap<JointId, Letter> {
    let mut wanted = BTreeMap::new();
    let mut taken = BTreeSet::new();
    let lettered = |id: JointId| job.joints.get(id).is_some_and(is_lettered);
    let own = kept(job).filter(|(id, _)| !before.contains_key(id));
    for (id, letter) in before.iter().map(|(id, letter)| (*id, *letter)).chain(own) {
        if lettered(id) && taken.insert(letter) {
            wanted.insert(id, letter);
        }
    }
    if has_bare(job, &wanted) {
        let mut free = (0..).map(Letter).filter(|letter| !taken.contains(letter));
        for (joint, _) in network::letters(job) {
            let id = job.joints.at(joint).id;
            if !wanted.contains_key(&id) {
                wanted.extend(free.next().map(|letter| (id, letter)));
            }
        }
    }
    wanted
}

#[cfg(test)]
mod tests {
    use crate::editor::edit::{Gap, Lay, Pen, copy, delete, lay, paste, place, set_title};
    use crate::editor::fixture::{J, R, at, house};
    use crate::editor::{CommandId, Editor, Spot};
    use crate::job::{Appliance, Device, Job, JointId, Placed, TitleBlock};

    /// The letters of the appliances at places, as the job keeps them.
    fn letter(editor: &Editor, east: i32, north: i32, up: i32) -> String {
        let mut joints = editor.job().joints.iter();
        let joint = joints.find(|joint| joint.at == at(east, north, up)).unwrap();
        let letter = joint.placed.as_ref().unwrap().letter;
        letter.map_or_else(|| "-".to_owned(), |letter| letter.to_string())
    }

    fn grill() -> Placed {
        Placed::new(Device::Appliance(Appliance::default()))
    }

    /// A branch off the main at the meter's side of everything, with an appliance at its end.
    fn upstream_branch(editor: &mut Editor) {
        let what = Lay {
            from: Spot::at(at(0, 0, 2)),
            to: Spot::at(at(0, -3, 2)),
            length: None,
            offset: None,
            pen: Pen::default(),
        };
        editor.edit(|job| lay(job, &what)).unwrap();
        editor.edit(|job| place(job, grill(), Spot::at(at(0, -3, 2)))).unwrap();
    }

    #[test]
    fn a_stays_a_when_another_appliance_comes_before_it_or_goes() {
        let mut editor = Editor::new(house());
        upstream_branch(&mut editor);
        assert_eq!(
            (letter(&editor, 6, 0, 1), letter(&editor, 0, -3, 2)),
            ("A".into(), "B".into())
        );
        let grill = editor.job().joints.get(JointId(6)).unwrap().id;
        editor
            .edit(|job| delete(job, &[J(grill.0)].into_iter().collect(), Gap::Keep))
            .unwrap();
        assert_eq!(letter(&editor, 0, -3, 2), "B");
        // The first free letter is for the next one.
        editor
            .edit(|job| place(job, super::tests::grill(), Spot::at(at(6, 0, 1))))
            .unwrap();
        assert_eq!(
            (letter(&editor, 6, 0, 1), letter(&editor, 0, -3, 2)),
            ("A".into(), "B".into())
        );
    }

    #[test]
    fn letters_are_written_down_by_the_step_that_could_change_them_and_undone_with_it() {
        let job = house();
        let mut editor = Editor::new(job.clone());
        let title = TitleBlock {
            job: "House".into(),
            ..TitleBlock::default()
        };
        editor.edit(|job| set_title(job, title)).unwrap();
        assert_eq!(letter(&editor, 6, 0, 1), "-", "a title changes no letter");
        upstream_branch(&mut editor);
        for _ in 0..3 {
            editor.run(CommandId::Undo);
        }
        assert_eq!(*editor.job(), job);
    }

    #[test]
    fn a_copy_gets_a_letter_of_its_own() {
        let mut editor = Editor::new(house());
        upstream_branch(&mut editor);
        let drop = copy(editor.job(), &[R(5), J(6)].into_iter().collect());
        editor.edit(|job| paste(job, &drop, at(2, 0, 4))).unwrap();
        assert_eq!(
            (letter(&editor, 6, 0, 1), letter(&editor, 2, 0, 1)),
            ("A".into(), "C".into())
        );
    }

    #[test]
    fn an_appliance_that_no_gas_reaches_is_lettered_once_it_does() {
        let mut editor = Editor::new(Job::default());
        editor.edit(|job| place(job, grill(), Spot::at(at(4, 0, 0)))).unwrap();
        assert_eq!(letter(&editor, 4, 0, 0), "-");
        let supply = Placed::new(Device::Supply(crate::job::Supply::default()));
        editor.edit(|job| place(job, supply, Spot::at(at(0, 0, 0)))).unwrap();
        let what = Lay {
            from: Spot::at(at(0, 0, 0)),
            to: Spot::at(at(4, 0, 0)),
            length: None,
            offset: None,
            pen: Pen::default(),
        };
        editor.edit(|job| lay(job, &what)).unwrap();
        assert_eq!(letter(&editor, 4, 0, 0), "A");
    }
}

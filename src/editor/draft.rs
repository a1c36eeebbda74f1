//! A job with changes pencilled in: where an edit is put together before anything is touched.
//!
//! Reads through to the job; what is written stays in the draft until [`Draft::finish`] has checked it and made a step.

use super::change::{Change, Side, Swap};
use super::ground::Ground;
use super::legs::Legs;
use super::refusal::Called;
use super::{Part, Refusal, line};
use crate::job::{
    ByHand, Gas, Id, Job, Joint, JointId, LatticePoint, Named, Note, Run, RunId, Settings, Store, TitleBlock,
};
use crate::units::Length;
use std::cell::{Cell, OnceCell};
use std::collections::{BTreeMap, HashMap};

/// Parts that differ from those of the job; `None` for what is taken out.
type Overlay<T> = BTreeMap<<T as Named>::Id, Option<T>>;

/// A thing before and after, if it changes at all.
type Changed<T> = Option<Box<Swap<T>>>;

/// A job with changes pencilled in.
pub struct Draft<'a> {
    /// The job that is edited, untouched.
    pub job: &'a Job,
    joints: Overlay<Joint>,
    runs: Overlay<Run>,
    notes: Option<Vec<Note>>,
    gas: Option<Gas>,
    settings: Option<Settings>,
    title: Option<TitleBlock>,
    by_hand: Option<ByHand>,
    /// Where the parts of the job lie, once asked for.
    ground: OnceCell<Ground>,
    /// Which runs meet at the joints of the job, once asked for often.
    legs: OnceCell<Legs>,
    legs_asked: Cell<u32>,
    /// Runs that were ever pencilled in at a joint.
    pencilled: BTreeMap<JointId, Vec<RunId>>,
    /// Joints of the job by place, once asked for often.
    places: OnceCell<HashMap<LatticePoint, JointId>>,
    places_asked: Cell<u32>,
}

/// So many questions for neighbours are answered by looking at all; then an index is made.
const FEW: u32 = 8;

impl<'a> Draft<'a> {
    /// A draft without changes.
    pub fn new(job: &'a Job) -> Draft<'a> {
        Draft {
            job,
            joints: Overlay::<Joint>::new(),
            runs: Overlay::<Run>::new(),
            notes: None,
            gas: None,
            settings: None,
            title: None,
            by_hand: None,
            ground: OnceCell::new(),
            legs: OnceCell::new(),
            legs_asked: Cell::new(0),
            pencilled: BTreeMap::new(),
            places: OnceCell::new(),
            places_asked: Cell::new(0),
        }
    }

    /// A draft with the changes of a step.
    pub fn of_changes(job: &'a Job, changes: &[Change]) -> Draft<'a> {
        let mut draft = Draft::new(job);
        for change in changes {
            match change {
                Change::Joint(id, swap) => drop(draft.joints.insert(*id, swap.side(Side::After).clone())),
                Change::Run(id, swap) => draft.write_run(*id, swap.side(Side::After).clone()),
                Change::Notes(swap) => draft.notes = Some(swap.after.clone()),
                Change::Gas(_) | Change::Settings(_) | Change::Title(_) | Change::ByHand(_) | Change::Variants(_) => {}
            }
        }
        draft
    }

    /// What is pencilled in and differs from the job, part by part; nothing is checked.
    pub fn into_changes(self) -> Vec<Change> {
        fn part<T: Named + Clone + PartialEq>(store: &Store<T>, id: T::Id, after: Option<T>) -> Changed<Option<T>> {
            let before = store.get(id);
            (before != after.as_ref()).then(|| {
                let before = before.cloned();
                Box::new(Swap { before, after })
            })
        }
        fn whole<T: Clone + PartialEq>(before: &T, after: Option<T>) -> Changed<T> {
            let after = after.filter(|after| before != after)?;
            let before = before.clone();
            Some(Box::new(Swap { before, after }))
        }
        let job = self.job;
        let joint = |(id, after)| Some(Change::Joint(id, part(&job.joints, id, after)?));
        let run = |(id, after)| Some(Change::Run(id, part(&job.runs, id, after)?));
        let joints = self.joints.into_iter().filter_map(joint);
        joints
            .chain(self.runs.into_iter().filter_map(run))
            .chain(whole(&job.notes, self.notes).map(Change::Notes))
            .chain(whole(&job.gas, self.gas).map(Change::Gas))
            .chain(whole(&job.settings, self.settings).map(Change::Settings))
            .chain(whole(&job.title, self.title).map(Change::Title))
            .chain(whole(&job.by_hand, self.by_hand).map(Change::ByHand))
            .collect()
    }

    /// A joint as pencilled.
    pub fn joint(&self, id: JointId) -> Option<&Joint> {
        read(&self.job.joints, &self.joints, id)
    }

    /// A run as pencilled.
    pub fn run(&self, id: RunId) -> Option<&Run> {
        read(&self.job.runs, &self.runs, id)
    }

    /// A joint, or why there is none.
    pub fn want_joint(&self, id: JointId) -> Result<&Joint, Refusal> {
        self.joint(id).ok_or(Refusal::Gone(Part::Joint(id)))
    }

    /// A run, or why there is none.
    pub fn want_run(&self, id: RunId) -> Result<&Run, Refusal> {
        self.run(id).ok_or(Refusal::Gone(Part::Run(id)))
    }

    /// What a joint is called on the drawing as it is: one that is only pencilled in has no number there.
    pub fn call_joint(&self, id: JointId) -> Called {
        if let Some(joint) = self.job.joints.get(id) {
            return match joint.label.as_deref().map(str::trim) {
                Some(label) if !label.is_empty() => Called::new(label),
                _ => id.into(),
            };
        }
        let at = self.joint(id).map(|joint| joint.at);
        match at.and_then(|at| Draft::new(self.job).run_over(at, None)) {
            Some(run) => Called::new(format!("the new joint in {run}")),
            None => Called::new("the new joint"),
        }
    }

    /// What a run is called on the drawing as it is: a piece of a run that is parted has the name of the whole.
    pub fn call_run(&self, id: RunId) -> Called {
        if self.job.runs.get(id).is_some() {
            return id.into();
        }
        let end = |joint| Some(self.joint(joint)?.at);
        let ends = self.run(id).and_then(|run| Some([end(run.from)?, end(run.to)?]));
        let whole = ends.and_then(|ends| {
            let is_whole = |run: &&Run| {
                let [Some(from), Some(to)] = [run.from, run.to].map(|end| Some(self.job.joints.get(end)?.at)) else {
                    return false;
                };
                ends.iter()
                    .all(|at| *at == from || *at == to || line::passes(from, to, *at))
            };
            self.job.runs.iter().find(is_whole)
        });
        whole.map_or(Called::new("the new pipe"), |run| run.id.into())
    }

    /// A joint to be changed. Its id must stay.
    pub fn joint_mut(&mut self, id: JointId) -> Result<&mut Joint, Refusal> {
        let slot = self
            .joints
            .entry(id)
            .or_insert_with(|| self.job.joints.get(id).cloned());
        slot.as_mut().ok_or(Refusal::Gone(Part::Joint(id)))
    }

    /// Changes a run. Its id must stay.
    pub fn change_run(&mut self, id: RunId, change: impl FnOnce(&mut Run)) -> Result<(), Refusal> {
        let mut run = self.want_run(id)?.clone();
        change(&mut run);
        self.write_run(id, Some(run));
        Ok(())
    }

    /// Adds a joint under a new id.
    pub fn add_joint(&mut self, joint: Joint) -> JointId {
        let id = fresh(&self.job.joints, &self.joints);
        self.joints.insert(id, Some(Joint { id, ..joint }));
        id
    }

    /// Adds a run under a new id.
    pub fn add_run(&mut self, run: Run) -> RunId {
        let id = fresh(&self.job.runs, &self.runs);
        self.write_run(id, Some(Run { id, ..run }));
        id
    }

    /// Takes a joint out, with the notes that point at it. Its runs must go by themselves.
    pub fn remove_joint(&mut self, id: JointId) {
        self.joints.insert(id, None);
        if self.notes().iter().any(|note| note.at == id) {
            self.notes_mut().retain(|note| note.at != id);
        }
    }

    /// Takes a run out.
    pub fn remove_run(&mut self, id: RunId) {
        self.write_run(id, None);
    }

    fn write_run(&mut self, id: RunId, run: Option<Run>) {
        for end in run.iter().flat_map(|run| [run.from, run.to]) {
            let runs = self.pencilled.entry(end).or_default();
            if !runs.contains(&id) {
                runs.push(id);
            }
        }
        self.runs.insert(id, run);
    }

    /// The notes as pencilled.
    pub fn notes(&self) -> &[Note] {
        self.notes.as_ref().unwrap_or(&self.job.notes)
    }

    /// The notes, to be changed.
    pub fn notes_mut(&mut self) -> &mut Vec<Note> {
        self.notes.get_or_insert_with(|| self.job.notes.clone())
    }

    /// Pencils another gas.
    pub fn set_gas(&mut self, gas: Gas) {
        self.gas = Some(gas);
    }

    /// Pencils other settings.
    pub fn set_settings(&mut self, settings: Settings) {
        self.settings = Some(settings);
    }

    /// Pencils another title block.
    pub fn set_title(&mut self, title: TitleBlock) {
        self.title = Some(title);
    }

    /// Pencils what else is added to lists.
    pub fn set_by_hand(&mut self, by_hand: ByHand) {
        self.by_hand = Some(by_hand);
    }

    /// All runs as pencilled, in the order of their ids.
    pub fn all_runs(&self) -> impl Iterator<Item = &Run> {
        merged(&self.job.runs, &self.runs)
    }

    /// Joints that differ from the job's, or may: each as it was and as it is now.
    pub fn touched_joints(&self) -> impl Iterator<Item = (JointId, Option<&Joint>, Option<&Joint>)> {
        let joints = self.joints.iter();
        joints.map(|(id, after)| (*id, self.job.joints.get(*id), after.as_ref()))
    }

    /// Runs that differ from the job's, or may: each as it was and as it is now.
    pub fn touched_runs(&self) -> impl Iterator<Item = (RunId, Option<&Run>, Option<&Run>)> {
        let runs = self.runs.iter();
        runs.map(|(id, after)| (*id, self.job.runs.get(*id), after.as_ref()))
    }

    /// Where the parts of the job lie.
    pub fn ground(&self) -> &Ground {
        self.ground.get_or_init(|| Ground::of(self.job))
    }

    /// Whether a joint came, moved or went, or a run came, went or got another end.
    pub fn touches_geometry(&self) -> bool {
        let place = |joint: Option<&Joint>| joint.map(|joint| joint.at);
        let ends = |run: Option<&Run>| run.map(|run| [run.from, run.to]);
        self.touched_joints()
            .any(|(_, before, after)| place(before) != place(after))
            || self
                .touched_runs()
                .any(|(_, before, after)| ends(before) != ends(after))
    }

    /// The runs that meet at a joint, in the order of their ids.
    pub fn runs_at(&self, joint: JointId) -> Vec<RunId> {
        let id = |run: usize| self.job.runs.at(run).id;
        let mut runs: Vec<RunId> = match self.job.joints.position(joint) {
            None => Vec::new(),
            Some(position) if often(&self.legs_asked) => {
                let legs = self.legs.get_or_init(|| Legs::of(self.job));
                legs.at(position).map(id).collect()
            }
            Some(position) => self.ground().runs_at(position).map(id).collect(),
        };
        runs.extend(self.pencilled.get(&joint).into_iter().flatten());
        runs.sort_unstable();
        runs.dedup();
        runs.retain(|run| self.run(*run).is_some_and(|run| run.from == joint || run.to == joint));
        runs
    }

    /// The joint at a place.
    pub fn joint_at(&self, at: LatticePoint) -> Option<JointId> {
        let new = self.joints.values().flatten().find(|joint| joint.at == at);
        if let Some(joint) = new {
            return Some(joint.id);
        }
        let id = |joint: usize| self.job.joints.at(joint).id;
        let untouched = |id: &JointId| !self.joints.contains_key(id);
        if often(&self.places_asked) {
            let joints = || self.job.joints.iter().map(|joint| (joint.at, joint.id)).collect();
            let index = self.places.get_or_init(joints);
            return index.get(&at).copied().filter(untouched);
        }
        self.ground().joint_at(at, |joint| untouched(&id(joint))).map(id)
    }

    /// The run that passes over a place: the wanted one if it does, else the first of the job, else the first new one.
    pub fn run_over(&self, at: LatticePoint, wanted: Option<RunId>) -> Option<RunId> {
        let over = |run: &Run| self.ends(run).is_some_and(|[a, b]| line::passes(a, b, at));
        if let Some(run) = wanted.and_then(|id| self.run(id)).filter(|run| over(run)) {
            return Some(run.id);
        }
        let moved = self.touched_joints().any(|(_, before, after)| match (before, after) {
            (Some(before), Some(after)) => before.at != after.at,
            _ => false,
        });
        if moved {
            return self.all_runs().find(|run| over(run)).map(Run::id);
        }
        let id = |run: usize| self.job.runs.at(run).id;
        let old = self.ground().run_over(at, |run| !self.runs.contains_key(&id(run)));
        old.map(id)
            .or_else(|| self.runs.values().flatten().find(|run| over(run)).map(Run::id))
    }

    /// The places of a run's ends.
    pub fn ends(&self, run: &Run) -> Option<[LatticePoint; 2]> {
        Some([self.joint(run.from)?.at, self.joint(run.to)?.at])
    }

    /// The true length of a run, as [`Job::true_length`] gives it.
    pub fn true_length(&self, run: &Run) -> Length {
        run.given_length().unwrap_or_else(|| match self.ends(run) {
            Some([from, to]) => self.job.settings.step.times((to - from).steps()),
            None => Length::ZERO,
        })
    }
}

/// Counts a question, and says whether there have been many.
fn often(asked: &Cell<u32>) -> bool {
    asked.set(asked.get().saturating_add(1));
    asked.get() > FEW
}

fn read<'a, T: Named>(store: &'a Store<T>, overlay: &'a Overlay<T>, id: T::Id) -> Option<&'a T> {
    match overlay.get(&id) {
        Some(part) => part.as_ref(),
        None => store.get(id),
    }
}

/// Parts of the store and the overlay in the order of their ids.
fn merged<'a, T: Named>(store: &'a Store<T>, overlay: &'a Overlay<T>) -> impl Iterator<Item = &'a T> {
    let mut old = store.iter().peekable();
    let mut new = overlay.iter().peekable();
    std::iter::from_fn(move || {
        loop {
            match (old.peek(), new.peek()) {
                (Some(part), Some((id, _))) if part.id() < **id => return old.next(),
                (Some(part), Some((id, _))) if part.id() == **id => drop(old.next()),
                (_, Some(_)) => {
                    if let Some(part) = new.next().and_then(|(_, part)| part.as_ref()) {
                        return Some(part);
                    }
                }
                (_, None) => return old.next(),
            }
        }
    })
}

/// An id that neither the store nor the overlay has ever had: one more than the largest, or the first gap when there is
/// none larger.
fn fresh<T: Named>(store: &Store<T>, overlay: &Overlay<T>) -> T::Id {
    let last = store.iter().next_back().map_or(0, |part| part.id().number());
    let last = overlay.last_key_value().map_or(last, |(id, _)| id.number().max(last));
    let free = |number: &u32| {
        let id = T::Id::new(*number);
        store.get(id).is_none() && !overlay.contains_key(&id)
    };
    let number = last.checked_add(1).or_else(|| (1..=u32::MAX).find(free));
    T::Id::new(number.unwrap_or(u32::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::Spot;
    use crate::editor::edit::{Cut, split};
    use crate::editor::fixture::house;

    #[test]
    fn a_draft_reads_through_to_the_job_and_leaves_it_alone() {
        let job = house();
        let mut draft = Draft::new(&job);
        draft.joint_mut(JointId(2)).unwrap().at.up = 9;
        draft.remove_run(RunId(4));
        let new = draft.add_joint(Joint::default());
        assert_eq!(draft.joint(JointId(2)).unwrap().at.up, 9);
        assert_eq!(draft.joint(JointId(1)), job.joints.get(JointId(1)));
        assert_eq!(draft.run(RunId(4)), None);
        assert_eq!(draft.runs_at(JointId(4)), [RunId(3)]);
        assert!(draft.joint(new).is_some() && job.joints.get(new).is_none());
        assert_eq!(draft.all_runs().count(), job.runs.len() - 1);
    }

    #[test]
    fn what_is_only_pencilled_in_is_named_by_what_is_drawn() {
        let job = house();
        let at = Spot::at(LatticePoint::new(3, 0, 4));
        let parted = split(&job, at, Cut::InProportion).unwrap();
        let mut draft = Draft::of_changes(&job, parted.changes());
        let joint = draft.joint_at(at.at).unwrap();
        let pieces: Vec<RunId> = draft.all_runs().map(Run::id).collect();
        let piece = *pieces.last().unwrap();
        assert!(job.joints.get(joint).is_none() && job.runs.get(piece).is_none());
        assert_eq!(draft.call_joint(joint).to_string(), "the new joint in R2");
        assert_eq!(draft.call_run(piece).to_string(), "R2");
        let open = draft.add_joint(Joint {
            at: LatticePoint::new(3, 3, 4),
            ..Joint::default()
        });
        let new = draft.add_run(Run {
            from: joint,
            to: open,
            ..Run::default()
        });
        assert_eq!(draft.call_joint(open).to_string(), "the new joint");
        assert_eq!(draft.call_run(new).to_string(), "the new pipe");
        assert_eq!(draft.call_joint(JointId(1)).to_string(), "J1");
    }

    #[test]
    fn the_joint_at_a_place_is_found_however_often_one_asks() {
        let job = house();
        let mut draft = Draft::new(&job);
        let (old, new) = (job.joints.at(1).at, LatticePoint::new(50, 0, 0));
        draft.joint_mut(JointId(2)).unwrap().at = new;
        for _ in 0..3 * FEW {
            assert_eq!(draft.joint_at(new), Some(JointId(2)));
            assert_eq!(draft.joint_at(old), None);
            assert_eq!(draft.joint_at(job.joints.at(0).at), Some(JointId(1)));
        }
    }

    #[test]
    fn a_fresh_id_is_free_even_when_the_largest_number_is_taken() {
        let last = Joint {
            id: JointId(u32::MAX),
            ..Joint::default()
        };
        let first = Joint {
            id: JointId(1),
            ..Joint::default()
        };
        let job = Job {
            joints: [first, last].into_iter().collect(),
            ..Job::default()
        };
        let mut draft = Draft::new(&job);
        assert_eq!(draft.add_joint(Joint::default()), JointId(2));
        assert_eq!(draft.add_joint(Joint::default()), JointId(3));
    }
}

//! Several ways to do one job, kept in one file: each variant has joints, runs, notes and lists of its own, while title
//! block, settings and gas are those of the job. One of them is shown; the job's own drawing is that one's.

use super::{ByHand, Device, Job, Joint, Note, Placed, Run, State, Store};
use std::sync::Arc;

/// What a variant has of its own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// Its joints.
    pub joints: Store<Joint>,
    /// Its runs.
    pub runs: Store<Run>,
    /// Its notes.
    pub notes: Vec<Note>,
    /// What is added to its lists.
    pub by_hand: ByHand,
}

/// A variant that is not shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// Its name.
    pub name: String,
    /// What it has of its own; shared, so that a copy of a job is cheap.
    pub drawing: Arc<Drawing>,
}

/// The variants of a job in their order, with a gap where the shown one stands. A job without variants has the default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Variants {
    /// The name of the one that is shown; empty where the job has no variants.
    pub name: String,
    /// Those before it.
    pub before: Vec<Variant>,
    /// Those after it.
    pub after: Vec<Variant>,
}

impl Variants {
    /// Whether the job is one drawing and no more.
    pub fn is_empty(&self) -> bool {
        self.count() == 0
    }

    /// How many there are, the shown one among them; 0 where the job is one drawing and no more.
    pub fn count(&self) -> usize {
        match self.before.len() + self.after.len() {
            0 if self.name.is_empty() => 0,
            others => others + 1,
        }
    }

    /// The position of the one that is shown.
    pub fn shown(&self) -> usize {
        self.before.len()
    }

    /// All names in order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let shown = Some(self.name.as_str()).filter(|_| !self.is_empty());
        (self.before.iter().map(|variant| variant.name.as_str()))
            .chain(shown)
            .chain(self.after.iter().map(|variant| variant.name.as_str()))
    }

    /// The position of a name, whatever its case and the spaces around it.
    pub fn position(&self, name: &str) -> Option<usize> {
        let plain = |name: &str| name.trim().to_lowercase();
        self.names().position(|known| plain(known) == plain(name))
    }

    /// Those that are not shown, to be changed.
    fn others_mut(&mut self) -> impl Iterator<Item = &mut Variant> {
        self.before.iter_mut().chain(&mut self.after)
    }
}

impl Job {
    /// The drawing that is shown.
    pub fn drawing(&self) -> Drawing {
        Drawing {
            joints: self.joints.clone(),
            runs: self.runs.clone(),
            notes: self.notes.clone(),
            by_hand: self.by_hand.clone(),
        }
    }

    /// The job with another drawing in place of the shown one; its variants stay as they are.
    pub fn with_drawing(&self, drawing: Drawing) -> Job {
        let Drawing {
            joints,
            runs,
            notes,
            by_hand,
        } = drawing;
        Job {
            title: self.title.clone(),
            settings: self.settings.clone(),
            gas: self.gas.clone(),
            joints,
            runs,
            notes,
            by_hand,
            variants: self.variants.clone(),
        }
    }

    /// The job with the variant at a position shown; `None` where there is none.
    pub fn showing(&self, at: usize) -> Option<Job> {
        let variants = &self.variants;
        if variants.is_empty() || at >= variants.count() {
            return None;
        }
        let mut all: Vec<Variant> = variants.before.clone();
        all.push(Variant {
            name: variants.name.clone(),
            drawing: Arc::new(self.drawing()),
        });
        all.extend(variants.after.iter().cloned());
        let after = all.split_off(at + 1);
        let shown = all.pop()?;
        let mut job = self.with_drawing(Arc::unwrap_or_clone(shown.drawing));
        job.variants = Variants {
            name: shown.name,
            before: all,
            after,
        };
        Some(job)
    }

    /// Each variant as a job that shows it, in order; the job alone where it has no variants.
    pub fn each_variant(&self) -> Vec<Job> {
        match self.variants.is_empty() {
            true => vec![self.clone()],
            false => (0..self.variants.count()).filter_map(|at| self.showing(at)).collect(),
        }
    }

    /// Tells the other variants what was entered about a shared part: the supply, an appliance, existing pipe and devices.
    /// Each takes it where the part was the same as here. Parts are given as they were and as they are.
    pub fn share<'a>(
        &mut self,
        joints: impl Iterator<Item = (&'a Joint, &'a Joint)>,
        runs: impl Iterator<Item = (&'a Run, &'a Run)>,
    ) {
        let devices: Vec<(&Joint, &Joint)> = joints
            .filter(|(before, after)| match (&before.placed, &after.placed) {
                (Some(before), Some(after)) => before != after && is_shared(before, after),
                _ => false,
            })
            .collect();
        let runs: Vec<(&Run, &Run)> = runs
            .filter(|(before, after)| {
                let stands = |run: &Run| run.state == State::Existing;
                stands(before) && stands(after) && (before.from, before.to) == (after.from, after.to)
            })
            .collect();
        for other in self.variants.others_mut() {
            let takes_device = |(before, after): &&(&Joint, &Joint)| {
                let here = other
                    .drawing
                    .joints
                    .get(after.id)
                    .and_then(|joint| joint.placed.as_ref());
                here.is_some_and(|here| before.placed.as_ref().is_some_and(|placed| same(here, placed)))
            };
            let takes_run = |(before, after): &&(&Run, &Run)| other.drawing.runs.get(after.id) == Some(*before);
            let devices: Vec<_> = devices.iter().filter(takes_device).collect();
            let runs: Vec<_> = runs.iter().filter(takes_run).collect();
            if devices.is_empty() && runs.is_empty() {
                continue;
            }
            let drawing = Arc::make_mut(&mut other.drawing);
            for (_, after) in devices {
                if let (Some(here), Some(placed)) = (drawing.joints.get_mut(after.id), &after.placed) {
                    let letter = here.placed.as_ref().and_then(|placed| placed.letter);
                    here.placed = Some(Placed {
                        letter,
                        ..placed.clone()
                    });
                }
            }
            for (_, after) in runs {
                drawing.runs.insert((*after).clone());
            }
        }
    }
}

/// Whether what is entered about a device is so in every variant: it is no choice of one of them.
fn is_shared(before: &Placed, after: &Placed) -> bool {
    let is_given = matches!(after.device, Device::Supply(_) | Device::Appliance(_)) || after.state == State::Existing;
    is_given && before.state == after.state && before.device.kind() == after.device.kind()
}

/// Whether two devices are the same but for their letters.
fn same(one: &Placed, other: &Placed) -> bool {
    let letter = one.letter;
    *one == Placed {
        letter,
        ..other.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{JointId, Named, RunId};
    use crate::units::{HeatRate, Length, NominalSize};

    /// Shares what is otherwise in a job than it was.
    fn shared(job: &mut Job, was: &Job) {
        fn pairs<T: Named + Clone + PartialEq>(was: &Store<T>, is: &Store<T>) -> Vec<(T, T)> {
            let both = is
                .iter()
                .filter_map(|part| Some((was.get(part.id())?.clone(), part.clone())));
            both.filter(|(before, after)| before != after).collect()
        }
        let (joints, runs) = (pairs(&was.joints, &job.joints), pairs(&was.runs, &job.runs));
        let joints = joints.iter().map(|(before, after)| (before, after));
        job.share(joints, runs.iter().map(|(before, after)| (before, after)));
    }

    /// The patio kitchen as three variants, the second shown.
    fn kitchen() -> Job {
        let mut job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let other = |name: &str| Variant {
            name: name.to_owned(),
            drawing: Arc::new(job.drawing()),
        };
        job.variants = Variants {
            name: "Along the fence".to_owned(),
            before: vec![other("Through the house")],
            after: vec![other("Underground")],
        };
        job
    }

    #[test]
    fn showing_another_one_and_going_back_leaves_all_as_they_were() {
        let mut job = kitchen();
        let id = job.runs.at(0).id;
        job.runs.get_mut(id).unwrap().length = Some(Length::from_feet(77.0));
        let other = job.showing(2).unwrap();
        assert_eq!(
            (other.variants.shown(), other.variants.name.as_str()),
            (2, "Underground")
        );
        assert_ne!(other.runs, job.runs, "what was edited here is not edited there");
        assert!(other.variants.names().eq(job.variants.names()));
        assert_eq!(other.showing(1).unwrap(), job);
        assert_eq!(job.showing(3), None);
        assert_eq!(Job::default().showing(0), None);
        assert_eq!(job.variants.position(" underground "), Some(2));
    }

    #[test]
    fn what_is_entered_about_supply_appliances_and_existing_pipe_is_so_in_every_variant() {
        let was = kitchen();
        let mut job = was.clone();
        let is_appliance = |joint: &&Joint| matches!(joint.device(), Some(Device::Appliance(_)));
        let grill: JointId = job.joints.iter().find(is_appliance).unwrap().id;
        let input = Some(HeatRate::from_mbh(123.0));
        if let Some(Placed {
            device: Device::Appliance(appliance),
            ..
        }) = &mut job.joints.get_mut(grill).unwrap().placed
        {
            appliance.input = input;
        }
        let stands: RunId = job.runs.iter().find(|run| run.state == State::Existing).unwrap().id;
        job.runs.get_mut(stands).unwrap().size = Some(NominalSize::Inch(48));
        let new: RunId = job.runs.iter().find(|run| run.state == State::New).unwrap().id;
        job.runs.get_mut(new).unwrap().length = Some(Length::from_feet(77.0));
        shared(&mut job, &was);
        for at in [0, 2] {
            let other = job.showing(at).unwrap();
            assert_eq!(other.joints.get(grill), job.joints.get(grill));
            assert_eq!(other.runs.get(stands), job.runs.get(stands));
            assert_eq!(
                other.runs.get(new),
                was.runs.get(new),
                "new pipe is a choice of its own"
            );
        }
    }

    #[test]
    fn a_part_that_is_a_choice_of_another_variant_stays_as_it_is_there() {
        let mut was = kitchen();
        let stands: RunId = was.runs.iter().find(|run| run.state == State::Existing).unwrap().id;
        let drawing = Arc::make_mut(&mut was.variants.before[0].drawing);
        drawing.runs.get_mut(stands).unwrap().state = State::Removed;
        let mut job = was.clone();
        job.runs.get_mut(stands).unwrap().length = Some(Length::from_feet(31.0));
        shared(&mut job, &was);
        assert_eq!(job.variants.before, was.variants.before);
        assert_ne!(job.variants.after, was.variants.after, "the third takes it");
        // To remove it is a choice of this one.
        let was = job.clone();
        job.runs.get_mut(stands).unwrap().state = State::Removed;
        shared(&mut job, &was);
        assert_eq!(job.variants, was.variants);
    }
}

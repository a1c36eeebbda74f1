//! The parts of each drawing in a file with the way to each: the job's own, and each variant as it is put together.

use super::outline::Step;
use super::v1::{Extra, Job, Joint, Note, OwnStep, Run};

/// Where in a file a part is listed.
#[derive(Clone, Copy)]
pub struct Listed {
    variant: Option<usize>,
    list: &'static str,
    index: usize,
}

impl Listed {
    /// The steps to one of its keys.
    pub fn key(self, key: &'static str) -> Vec<Step> {
        let variant = self.variant.map(|at| [Step::Key("variants"), Step::Item(at)]);
        let own = [Step::Key(self.list), Step::Item(self.index), Step::Key(key)];
        variant.into_iter().flatten().chain(own).collect()
    }
}

/// The parts of one drawing.
pub struct Parts<'a> {
    /// Which variant it is; `None` for the job's own drawing.
    pub variant: Option<usize>,
    pub joints: Vec<(Listed, &'a Joint)>,
    pub runs: Vec<(Listed, &'a Run)>,
    pub notes: Vec<(Listed, &'a Note)>,
    pub extra: Vec<(Listed, &'a Extra)>,
    pub work_steps: Vec<(Listed, &'a OwnStep)>,
}

/// Things of one list with their places.
fn listed<'a, T>(variant: Option<usize>, list: &'static str, all: &'a [T]) -> impl Iterator<Item = (Listed, &'a T)> {
    all.iter()
        .enumerate()
        .map(move |(index, one)| (Listed { variant, list, index }, one))
}

impl<'a> Parts<'a> {
    /// The job's own drawing, and after it each variant that is not shown.
    pub fn all(file: &'a Job) -> impl Iterator<Item = Parts<'a>> {
        let others = file.variants.0.iter().enumerate().filter(|(_, variant)| !variant.shown);
        std::iter::once(Parts::own(file)).chain(others.map(|(at, _)| Parts::of(file, at)))
    }

    fn own(file: &'a Job) -> Parts<'a> {
        Parts {
            variant: None,
            joints: listed(None, "joints", &file.joints.0).collect(),
            runs: listed(None, "runs", &file.runs.0).collect(),
            notes: listed(None, "notes", &file.notes.0).collect(),
            extra: listed(None, "extra", &file.extra.0).collect(),
            work_steps: listed(None, "work_steps", &file.work_steps.0).collect(),
        }
    }

    fn of(file: &'a Job, at: usize) -> Parts<'a> {
        let (own, variant) = (Parts::own(file), &file.variants.0[at]);
        let [joints, runs] = variant.own();
        let shared = own.joints.into_iter().filter(|(_, joint)| !joints.contains(&joint.id));
        let shared_runs = own.runs.into_iter().filter(|(_, run)| !runs.contains(&run.id));
        let it = Some(at);
        Parts {
            variant: it,
            joints: shared.chain(listed(it, "joints", &variant.joints.0)).collect(),
            runs: shared_runs.chain(listed(it, "runs", &variant.runs.0)).collect(),
            notes: match &variant.notes {
                Some(notes) => listed(it, "notes", &notes.0).collect(),
                None => own.notes,
            },
            extra: match &variant.extra {
                Some(extra) => listed(it, "extra", &extra.0).collect(),
                None => own.extra,
            },
            work_steps: match &variant.work_steps {
                Some(steps) => listed(it, "work_steps", &steps.0).collect(),
                None => own.work_steps,
            },
        }
    }
}

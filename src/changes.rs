//! What is different between a job as it was issued and as it is now.
//!
//! Two jobs can be read beside each other in more than one way: by ids, or by where things stand, with or without the
//! whole drawing having been moved. [`reading`] makes the readings, [`compare`] tells each, and of them the one that
//! tells least is taken: a job that was typed again under other ids is the same job. What is told of a part are its
//! [`facts`]; what follows from the changes without being drawn is in [`follow`]. Where words stand on paper is no
//! change, nor is the list of revisions, nor what is added by hand to take-off and order of work: it is not issued.
//! Swapping the jobs swaps what is added and what is taken away.

mod compare;
mod facts;
mod follow;
mod reading;

use crate::codebook::{Codebook, SizeNames};
use crate::job::{Job, JointId, LatticePoint, Revision, RunId};
use crate::study::Study;
use reading::Reading;

/// What changed between two jobs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// The changes: title and settings, then pipe, joints, devices, passages, notes, and what follows in the study.
    pub list: Vec<Change>,
    /// The last issue in the list of revisions of the job as it was issued.
    pub issued: Option<Revision>,
    /// The mark of the revision that these changes make, where it is listed in the job already.
    pub mark: Option<String>,
}

/// One part that is not as it was.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What happened to it.
    pub turn: Turn,
    /// What it is. Ids are those of the job as it is now; of what was taken away, those that it had.
    pub part: ChangedPart,
    /// What it is called: "J7–J12".
    pub name: String,
    /// What is told of it, one thing after the other: "length 12'-6\", was 10'-0\"".
    pub words: Vec<String>,
    /// Where it stands on the lattice of the job as it is now, or stood; nowhere for what is of the whole job.
    pub spots: Vec<Spot>,
}

/// What happened to a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Turn {
    /// It was not there.
    Added,
    /// It is there no longer.
    TakenAway,
    /// It is otherwise.
    Changed,
    /// Nothing was drawn there, but what the study says of it is otherwise.
    Follows,
}

/// A part that can change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ChangedPart {
    /// A field of the title block.
    Title,
    /// Settings, the gas, or where the whole drawing lies.
    Settings,
    /// A run.
    Run(RunId),
    /// A joint itself: its place, its name, its turn.
    Joint(JointId),
    /// What stands on a joint.
    Device(JointId),
    /// A passage of a run, by its number there.
    Passage(RunId, usize),
    /// A note, by its number.
    Note(usize),
}

/// A place on the lattice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spot {
    /// A joint.
    At(LatticePoint),
    /// A whole run.
    Run(LatticePoint, LatticePoint),
    /// A place on a run, at this share of the way.
    On(LatticePoint, LatticePoint, f64),
}

impl Spot {
    /// The places of the lattice by which it is given.
    pub fn places(self) -> impl Iterator<Item = LatticePoint> {
        let (one, other) = match self {
            Spot::At(at) => (at, None),
            Spot::Run(from, to) | Spot::On(from, to, _) => (from, Some(to)),
        };
        [one].into_iter().chain(other)
    }
}

impl Change {
    /// What is told of it in one line: "taken away: existing pipe, 10'-0\"".
    pub fn said(&self) -> String {
        let words = self.words.join("; ");
        match self.turn {
            Turn::Added => format!("added: {words}"),
            Turn::TakenAway => format!("removed: {words}"),
            Turn::Changed => words,
            Turn::Follows => format!("as a result: {words}"),
        }
    }
}

impl Changes {
    /// What is drawn or typed otherwise in `job` than in `issued`; all sizes are nominal, for no profile is looked up.
    pub fn between(issued: &Job, job: &Job) -> Changes {
        let names = SizeNames::nominal(job.settings.units);
        let list = best(issued, job, names).map(|(_, list)| list);
        Changes::of(issued, job, list.unwrap_or_default())
    }

    /// The same, with what follows from it in the studies of both.
    pub fn studied(issued: &Job, was: &Study, job: &Job, study: &Study) -> Changes {
        let Some((reading, mut list)) = best(issued, job, study.names) else {
            return Changes::default();
        };
        list.extend(follow::told((issued, was), (job, study), &reading));
        Changes::of(issued, job, list)
    }

    /// The same for one who has not studied the job that was issued.
    pub fn since(issued: &Job, job: &Job, study: &Study, book: &Codebook) -> Changes {
        Changes::studied(issued, &Study::of(issued, book), job, study)
    }

    fn of(issued: &Job, job: &Job, list: Vec<Change>) -> Changes {
        let last = |job: &Job| job.title.revisions.last().cloned();
        let listed = job.title.revisions.len() > issued.title.revisions.len();
        let mark = last(job).map(|last| last.mark.trim().to_owned());
        Changes {
            list,
            issued: last(issued),
            mark: mark.filter(|mark| listed && !mark.is_empty()),
        }
    }

    /// The same changes in a drawing whose places are elsewhere.
    pub fn placed(&self, place: impl Fn(LatticePoint) -> LatticePoint) -> Changes {
        let mut changes = self.clone();
        for spot in changes.list.iter_mut().flat_map(|change| &mut change.spots) {
            *spot = match *spot {
                Spot::At(at) => Spot::At(place(at)),
                Spot::Run(from, to) => Spot::Run(place(from), place(to)),
                Spot::On(from, to, share) => Spot::On(place(from), place(to), share),
            };
        }
        changes
    }

    /// What the job is compared with, for a heading: "Changes since revision A".
    pub fn heading(&self) -> String {
        let said = |words: &str| (!words.trim().is_empty()).then(|| words.trim().to_owned());
        let issued = self.issued.as_ref();
        match issued.and_then(|issued| said(&issued.mark)) {
            Some(mark) => format!("Changes since revision {mark}"),
            None => match issued.and_then(|issued| said(&issued.date)) {
                Some(date) => format!("Changes since the issue of {date}"),
                None => "Changes since the last issue".to_owned(),
            },
        }
    }
}

/// The reading that tells least, with what it tells; of equals the first, which is by ids.
fn best(issued: &Job, job: &Job, names: SizeNames) -> Option<(Reading, Vec<Change>)> {
    let readings = Reading::all(issued, job).into_iter().map(|reading| {
        let told = compare::told(issued, job, &reading, names);
        (reading, told)
    });
    readings.min_by_key(|(_, told)| weight(told))
}

/// How much is told: the changes, and what is told of each.
fn weight(list: &[Change]) -> usize {
    list.iter().map(|change| 1 + change.words.len()).sum()
}

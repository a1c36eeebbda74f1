//! Another start for the new branch, nearer to the point of delivery.

use super::{Change, NoRemedy, Remedy};
use crate::advice::{TieIn, TieInPlace, TieIns};
use crate::codebook::Codebook;
use crate::editor::Step;
use crate::editor::draft::Draft;
use crate::editor::edit::tie_in;
use crate::job::{Job, JointId, State};
use crate::study::Study;
use crate::study::places::{Places, known};
use crate::units::{Length, Show};

/// So many other joints are tried at most, those nearest to the present tie-in.
const MOST: usize = 6;

/// The branch that carries most, parted from its tie-in.
struct Parted {
    step: Step,
    apart: Job,
    head: JointId,
    /// Where it starts now, a position in `job.joints`.
    tie_in: usize,
}

/// The new run by which gas enters new pipe from old: of several the one that carries most.
fn first_new_run(job: &Job, study: &Study) -> Option<usize> {
    let stands = |run: usize| {
        let run = job.runs.at(run);
        run.state == State::Existing || run.replaced().is_some()
    };
    let enters = |run: &usize| {
        let Some((from, _)) = study.network.ends[*run] else {
            return false;
        };
        !stands(*run) && study.network.feed[from].is_some_and(stands)
    };
    let load = |run: usize| {
        let section = study.runs[run].section.map(|section| &study.sections[section]);
        section.map_or(0.0, |section| section.load.flow.cfh())
    };
    let entries = (0..job.runs.len()).filter(enters);
    entries.max_by(|a, b| load(*a).total_cmp(&load(*b)).then(b.cmp(a)))
}

impl Parted {
    fn of(job: &Job, study: &Study) -> Result<Parted, NoRemedy> {
        let none = NoRemedy::NothingToDo("no new branch is tied into existing pipe");
        let Some(run) = first_new_run(job, study) else {
            return Err(none);
        };
        let Some((tie_in, head)) = study.network.ends[run] else {
            return Err(none);
        };
        let mut draft = Draft::new(job);
        draft.remove_run(job.runs.at(run).id);
        let step = draft.finish("Separate the branch")?;
        let mut apart = job.clone();
        step.apply(&mut apart)?;
        Ok(Parted {
            step,
            apart,
            head: job.joints.at(head).id,
            tie_in,
        })
    }

    /// Places nearer to the point of delivery than the present tie-in, nearest to the point of delivery first.
    fn starts(
        &self,
        study: &Study,
        book: &Codebook,
        wanted: impl Fn(TieInPlace) -> bool,
    ) -> Result<impl Iterator<Item = TieIn>, NoRemedy> {
        let there = study.joints[self.tie_in].distance.unwrap_or(Length::ZERO);
        let starts = TieIns::starts(&self.apart, book, self.head, wanted);
        let starts = starts.map_err(|why| NoRemedy::NoAnswer(why.to_string()))?;
        Ok(starts
            .take_while(move |(distance, _)| *distance < there)
            .map(|(_, row)| row))
    }

    /// The branch laid at another place; `None` where that cannot be drawn.
    fn laid(&self, remedy: Remedy, job: &Job, study: &Study, row: &TieIn) -> Option<Change> {
        let laid = tie_in(&self.apart, row).ok()?;
        let places = Places::of(job, study);
        let called = |joint: usize| known(&places.mark(joint), job.joints.at(joint).id);
        let start = match row.place {
            TieInPlace::Joint(joint) => job.joints.position(joint).map(called),
            TieInPlace::Run { .. } => None,
        };
        let does = format!(
            "The new branch starts at {} instead of {}: {} of line.",
            start.unwrap_or_else(|| row.place.words(&self.apart)),
            called(self.tie_in),
            row.route_length().show(job.settings.units)
        );
        Some(Change {
            step: Step::merged(remedy.name(), vec![self.step.clone(), laid]),
            does: vec![does],
        })
    }
}

const NO_PLACE: NoRemedy = NoRemedy::NothingToDo(
    "no place closer to the point of delivery can be tapped by a line along the drawing's directions",
);

/// A line of the branch's own from as near to the point of delivery as can be.
pub fn own_line(job: &Job, book: &Codebook, study: &Study) -> Result<Change, NoRemedy> {
    let parted = Parted::of(job, study)?;
    let mut laid = parted
        .starts(study, book, |_| true)?
        .filter_map(|row| parted.laid(Remedy::SeparateLine, job, study, &row));
    laid.next().ok_or(NO_PLACE)
}

/// Starts at other joints on the way to the present one.
pub fn nearer(job: &Job, book: &Codebook, study: &Study) -> Result<Vec<Change>, NoRemedy> {
    let parted = Parted::of(job, study)?;
    let way = study.network.way_up(parted.tie_in).skip(1);
    // The point of delivery itself is for a line of its own.
    let way = way.filter(|joint| study.network.feed[*joint].is_some());
    let way: Vec<JointId> = way.take(MOST).map(|joint| job.joints.at(joint).id).collect();
    let on_way = |place| matches!(place, TieInPlace::Joint(joint) if way.contains(&joint));
    let laid = parted
        .starts(study, book, on_way)?
        .filter_map(|row| parted.laid(Remedy::NearerStart, job, study, &row));
    match laid.collect::<Vec<Change>>() {
        none if none.is_empty() => Err(NO_PLACE),
        some => Ok(some),
    }
}

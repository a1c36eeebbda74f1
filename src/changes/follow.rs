//! What is otherwise in the study although nobody drew it: sizes that were found anew, pipe that carries its load no more.

use super::compare::{run_name, run_spot};
use super::reading::Reading;
use super::{Change, ChangedPart, Turn};
use crate::job::{Direction, Job, Run};
use crate::sizing::{Origin, Verdict};
use crate::study::Study;
use crate::units::NominalSize;

/// What the studies say of one run.
#[derive(Clone, Copy, PartialEq)]
struct Said {
    size: Option<NominalSize>,
    is_too_small: bool,
    /// Part of a listed connector, which has no size of its own.
    is_connector: bool,
}

/// What follows, a change for each section of the job.
pub fn told(was: (&Job, &Study), now: (&Job, &Study), reading: &Reading) -> Vec<Change> {
    let (job, study) = now;
    let mut list: Vec<Change> = Vec::new();
    let mut last: Option<(Option<usize>, Vec<String>)> = None;
    for (at, run) in runs_in_flow(job, study) {
        let Some(old) = reading.runs[at] else { continue };
        let before = was.0.runs.at(old);
        let words = differ(was.1, (old, before), now, (at, run));
        if words.is_empty() {
            continue;
        }
        let of = (section(study, at), words);
        let spot = run_spot(job, run, Direction::default());
        match list.last_mut().filter(|_| last.as_ref() == Some(&of)) {
            Some(change) => change.spots.extend(spot),
            None => list.push(Change {
                turn: Turn::Follows,
                part: ChangedPart::Run(run.id),
                name: match of
                    .0
                    .and_then(|at| study.sections.get(at))
                    .filter(|section| section.is_pipe())
                {
                    Some(section) => format!("section {}, {}", section.number, run_name(job, run)),
                    None => run_name(job, run),
                },
                words: of.1.clone(),
                spots: spot.into_iter().collect(),
            }),
        }
        last = Some(of);
    }
    list
}

/// Runs section by section, so that those of one section are told together.
fn runs_in_flow<'a>(job: &'a Job, study: &'a Study) -> impl Iterator<Item = (usize, &'a Run)> {
    let sections = study.sections.iter().flat_map(|section| section.runs.iter().copied());
    sections
        .filter(|at| *at < job.runs.len())
        .map(|at| (at, job.runs.at(at)))
}

fn section(study: &Study, run: usize) -> Option<usize> {
    study.runs.get(run)?.section
}

fn said(study: &Study, at: usize, run: &Run) -> Said {
    let sizing = section(study, at).and_then(|section| Some(&study.sections.get(section)?.sizing));
    Said {
        size: sizing.map_or(run.size, |sizing| sizing.size),
        is_connector: sizing.is_some_and(|sizing| sizing.origin == Origin::Connector),
        is_too_small: sizing.is_some_and(|sizing| sizing.verdict == Verdict::TooSmall),
    }
}

fn differ(
    was_study: &Study,
    (old, before): (usize, &Run),
    (job, study): (&Job, &Study),
    (at, run): (usize, &Run),
) -> Vec<String> {
    let (was, now) = (said(was_study, old, before), said(study, at, run));
    if was.is_connector || now.is_connector {
        return Vec::new();
    }
    let named = |size| study.names.show(job.material(run), size);
    let shown = |size: Option<NominalSize>| size.map_or("no size found".to_owned(), named);
    let mut words = Vec::new();
    // A size that somebody typed, or took away, is told with the run.
    if was.size != now.size && before.size == run.size && section(was_study, old).is_some() {
        words.push(format!("size {}, was {}", shown(now.size), shown(was.size)));
    }
    match (was.is_too_small, now.is_too_small) {
        (false, true) => words.push("now undersized for its load".to_owned()),
        (true, false) => words.push("no longer undersized for its load".to_owned()),
        (false, false) | (true, true) => {}
    }
    words
}

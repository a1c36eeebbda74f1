//! Drawn lengths arranged so that the drawing can be read: a pipe isometric is not to scale, and a draftsman stretches
//! and shifts it until no line falls on a stranger.
//!
//! [`arrange`] is one pure function from a job to an equal job: only drawn lengths differ. Directions, the order along
//! lines, closed loops, notes, words that a person put somewhere and the place of the point of delivery stay; a length
//! that nobody typed is written down first, so that no figure that follows from the job changes. [`frame`] tells which
//! drawn lengths may change and what moves with each, [`ink`] what lies on paper and what two strangers there cost,
//! [`order`] keeps what is higher above what is lower,
//! [`board`] what a change would cost, [`search`] looks for changes: of the lengths on the way between two things that
//! meet it takes the change that helps most. Work is counted, never timed. Nothing here knows tables, study or sheets.

mod board;
mod frame;
mod ink;
mod order;
mod search;
mod walk;
mod wish;

pub use ink::{Clash, Meets, Party};

use crate::job::{Job, LatticePoint};
use board::Board;
use frame::Frame;
use search::{Start, search};

/// Paper mm of one lattice step for which lengths are arranged; a sheet may draw it larger or smaller.
pub const STEP_MM: f64 = 5.0;

/// Paper mm of one lattice step at which a drawing is seen as it was drawn.
const DRAWN_MM: f64 = 12.0;

/// From so many runs on a search begins from what was drawn only: there would be too much to part.
const MANY_RUNS: usize = 400;

/// No job with more runs is arranged, nor one that is drawn farther out: both are past reading.
const MOST_RUNS: usize = 5_000;
const FARTHEST: i32 = 1_000_000;

/// A job arranged.
#[derive(Clone, Debug, PartialEq)]
pub struct Arranged {
    /// The same job, other drawn lengths.
    pub job: Job,
    /// What still meets on its paper, at [`STEP_MM`] a step.
    pub clashes: Vec<Clash>,
}

/// Arranges the drawn lengths of a job so that it reads.
///
/// Equal jobs give equal jobs. Where nothing can be done, as in a job too large or drawn too far out, the job itself.
pub fn arrange(job: &Job) -> Arranged {
    let unchanged = |clashes| Arranged {
        job: job.clone(),
        clashes,
    };
    let Some(frame) = is_sound(job).then(|| Frame::of(job)).flatten() else {
        return unchanged(Vec::new());
    };
    let as_drawn = Board::new(job, &frame, DRAWN_MM);
    let (drawn, disorder) = (as_drawn.clashes(job), as_drawn.upside_down());
    let starts: &[Start] = match job.runs.len() {
        0..MANY_RUNS => &[Start::Wished, Start::Drawn, Start::Loose],
        _ => &[Start::Drawn],
    };
    let mut best: Option<((usize, usize), Arranged)> = None;
    for &start in starts {
        let mut board = Board::new(job, &frame, STEP_MM);
        search(&mut board, start);
        let clashes = board.clashes(job);
        let lacks = (touching(&clashes), meetings(&clashes));
        // Never a new crossing for the sake of room, nor anything below what it is above.
        if lacks.1 <= meetings(&drawn)
            && board.upside_down() <= disorder
            && best.as_ref().is_none_or(|best| lacks < best.0)
        {
            let job = with_places(job, &frame, &board.places());
            best = Some((lacks, Arranged { job, clashes }));
        }
        if best.as_ref().is_some_and(|(lacks, _)| lacks.0 == 0) {
            break;
        }
    }
    best.map_or_else(|| unchanged(drawn), |(_, arranged)| arranged)
}

/// How many pairs of strangers touch, or hide one another.
fn touching(clashes: &[Clash]) -> usize {
    clashes.iter().filter(|clash| clash.meets == Meets::Touch).count()
}

/// How many pairs of strangers touch or cross.
pub fn meetings(clashes: &[Clash]) -> usize {
    clashes
        .iter()
        .filter(|clash| !matches!(clash.meets, Meets::Near(..)))
        .count()
}

/// What meets on paper as the job is drawn, at so many paper mm a lattice step.
pub fn clashes(job: &Job, step: f64) -> Vec<Clash> {
    match is_sound(job).then(|| Frame::of(job)).flatten() {
        Some(frame) => Board::new(job, &frame, step).clashes(job),
        None => Vec::new(),
    }
}

/// How many walls and floors are covered by what stands beside them as the job is drawn, at so many paper mm a lattice step.
pub fn cramped(job: &Job, step: f64) -> usize {
    let frame = is_sound(job).then(|| Frame::of(job)).flatten();
    frame.map_or(0, |frame| wish::cramped(job, &frame, step))
}

fn is_sound(job: &Job) -> bool {
    let near = |at: LatticePoint| {
        [at.east, at.north, at.up]
            .iter()
            .all(|steps| steps.unsigned_abs() < FARTHEST as u32)
    };
    job.runs.len() <= MOST_RUNS && job.joints.iter().all(|joint| near(joint.at))
}

/// The job with its joints at other places, every length that was drawn written down.
fn with_places(job: &Job, frame: &Frame, places: &[LatticePoint]) -> Job {
    let mut arranged = job.clone();
    for run in frame.written() {
        let drawn = job.runs.at(run);
        let length = job.true_length(drawn);
        if let Some(run) = arranged.runs.get_mut(drawn.id) {
            run.length = Some(length);
        }
    }
    for (joint, at) in job.joints.iter().zip(places) {
        if let Some(joint) = arranged.joints.get_mut(joint.id) {
            joint.at = *at;
        }
    }
    arranged
}

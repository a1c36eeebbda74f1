//! Whether the drawing of a job is arranged for its sheets, and the changes since an issue where they then stand.

use super::Composer;
use super::first::First;
use super::notice::left_out;
use crate::arrange::{arrange, clashes, cramped, meetings};
use crate::changes::Changes;
use crate::drawing::{Isometric, Lettering, Options};
use crate::job::{Direction, Job, LatticePoint};
use crate::sheet::about::Arrange;
use std::cell::LazyCell;
use std::collections::HashMap;

/// A place where nothing stands now is drawn no farther than this from what stood nearest to it, in steps to each side.
const FARTHEST: i32 = 4;

/// What is drawn.
pub struct Judged {
    /// The job to draw in place of the one that a person drew; none where that one is drawn.
    pub job: Option<Job>,
    /// The first permit sheet of it, where it was composed to judge by.
    pub first: Option<First>,
}

/// Judges by the first permit sheet, whatever the sheets are about, so that all sheets of a job look alike. `permit`
/// composes the job as it is.
pub fn arranged(permit: &Composer<'_>, how: Arrange) -> Judged {
    let job = match how {
        Arrange::Never => None,
        Arrange::Always => Some(arrange(permit.job).job),
        Arrange::WhenNeeded => return needed(permit),
    };
    Judged { job, first: None }
}

fn needed(permit: &Composer<'_>) -> Judged {
    let arranged = LazyCell::new(|| arrange(permit.job).job);
    // Strangers that meet are seen in bare pipe: nothing has to be lettered to judge by them.
    let meet = strangers(permit);
    if meet > 0 {
        let then = strangers(&permit.drawing_of(&arranged));
        if then != meet {
            let job = (then < meet).then(|| LazyCell::force(&arranged).clone());
            return Judged { job, first: None };
        }
    }
    let now = permit.first_sheet();
    let was = lacks(permit.job, &now.around.drawing);
    if was > [0; 4] {
        let first = permit.drawing_of(&arranged).first_sheet();
        if lacks(&arranged, &first.around.drawing) < was {
            return Judged {
                job: Some(LazyCell::force(&arranged).clone()),
                first: Some(first),
            };
        }
    }
    Judged {
        job: None,
        first: Some(now),
    }
}

/// How many pairs of strangers touch or cross on the first sheet.
fn strangers(composer: &Composer<'_>) -> usize {
    let plan = composer.first_plan();
    let lettering = Lettering::Nothing;
    let bare = composer.draw_in(
        plan.body,
        Options {
            lettering,
            ..composer.options()
        },
    );
    meetings(&clashes(composer.drawn, bare.projection.step))
}

/// What is wrong with a drawing, the worst first: strangers that touch or cross, words left out, walls and floors that are
/// covered and words in a table of numbered points, strangers that come near.
fn lacks(job: &Job, drawing: &Isometric) -> [usize; 4] {
    let clashes = clashes(job, drawing.projection.step);
    let meet = meetings(&clashes);
    let covered = cramped(job, drawing.projection.step);
    [
        meet,
        left_out(drawing),
        covered + drawing.numbered.len() + 2 * drawing.demoted,
        clashes.len() - meet,
    ]
}

/// Changes of a job where they stand in the same job drawn otherwise. What is no longer there stands as it stood to the
/// joint that was nearest.
pub fn moved(changes: &Changes, job: &Job, drawn: &Job) -> Changes {
    let pairs = || job.joints.iter().zip(&drawn.joints).map(|(was, now)| (was.at, now.at));
    let known: HashMap<LatticePoint, LatticePoint> = pairs().collect();
    let place = |at: LatticePoint| match known.get(&at) {
        Some(now) => *now,
        None => {
            let nearest = pairs().min_by(|one, other| (at - one.0).steps().total_cmp(&(at - other.0).steps()));
            nearest.map_or(at, |(was, now)| now + within(at - was))
        }
    };
    changes.placed(place)
}

fn within(way: Direction) -> Direction {
    let part = |steps: i32| steps.clamp(-FARTHEST, FARTHEST);
    Direction::new(part(way.east), part(way.north), part(way.up))
}

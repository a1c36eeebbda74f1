//! Whether the drawing of a job is arranged for its sheets, and the changes since an issue where they then stand.

use super::Composer;
use crate::arrange::{Meets, arrange, clashes};
use crate::changes::Changes;
use crate::drawing::{Crowding, Isometric};
use crate::job::{Direction, Job, LatticePoint};
use crate::sheet::about::Arrange;
use std::collections::HashMap;

/// A place where nothing stands now is drawn no farther than this from what stood nearest to it, in steps to each side.
const FARTHEST: i32 = 4;

/// The job to draw in place of the one that a person drew; `None` where that one is drawn. `permit` composes the permit
/// sheet of it as it is, so that all sheets of a job look alike.
pub fn arranged(permit: &Composer<'_>, how: Arrange) -> Option<Job> {
    match how {
        Arrange::Never => None,
        Arrange::Always => Some(arrange(permit.job).job),
        Arrange::WhenNeeded => {
            let was = lacks(permit.job, &permit.first_sheet().0.drawing);
            if was == [0; 4] {
                return None;
            }
            let job = arrange(permit.job).job;
            let drawn = lacks(&job, &permit.drawing_of(&job).first_sheet().0.drawing);
            (drawn < was).then_some(job)
        }
    }
}

/// What is wrong with a drawing, the worst first: strangers that touch or cross, words left out, words in a table of numbered
/// points, strangers that come near.
fn lacks(job: &Job, drawing: &Isometric) -> [usize; 4] {
    let left_out = match drawing.crowding {
        Crowding::Fits => 0,
        Crowding::TooDense { left_out } => left_out,
    };
    let clashes = clashes(job, drawing.projection.step);
    let near = clashes
        .iter()
        .filter(|clash| matches!(clash.meets, Meets::Near(..)))
        .count();
    [clashes.len() - near, left_out, drawing.numbered.len(), near]
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

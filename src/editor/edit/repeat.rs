//! Copies of parts at equal steps along a way.

use super::paste::{copy, put_down};
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Selection, Step};
use crate::job::{Direction, Job};
use crate::study::how_many;

/// The most copies that are made at once.
pub const MOST_COPIES: u32 = 200;

/// Repeats parts so many times, each copy a way farther than the one before. Joints that fall together become one.
///
/// # Errors
/// When nothing is given, the way is none, the number is not from 1 to [`MOST_COPIES`], or a copy would collide.
pub fn repeat(job: &Job, parts: &Selection, way: Direction, times: u32) -> Result<Step, Refusal> {
    if way.is_zero() {
        return Err(Refusal::NoDirection);
    }
    if times == 0 || times > MOST_COPIES {
        return Err(Refusal::Copies { most: MOST_COPIES });
    }
    let what = copy(job, parts);
    if what.is_empty() {
        return Err(Refusal::Choose("what to repeat"));
    }
    let mut draft = Draft::new(job);
    let mut by = Direction::default();
    for _ in 0..times {
        by = Direction {
            east: by.east.saturating_add(way.east),
            north: by.north.saturating_add(way.north),
            up: by.up.saturating_add(way.up),
        };
        put_down(&mut draft, &what, by)?;
    }
    draft.finish(format!("Repeat {}", how_many(times as usize, "time")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{J, R, done, house, refused};

    #[test]
    fn a_header_with_drops_grows_by_repetition() {
        let job = house();
        // The run from the elbow to the tee, with the drop and its appliance, twice more.
        let parts: Selection = [R(2), R(5), J(6)].into_iter().collect();
        let mut start = job.clone();
        for part in [3, 4] {
            start.runs.remove(crate::job::RunId(part));
        }
        for part in [4, 5] {
            start.joints.remove(crate::job::JointId(part));
        }
        let after = done(&start, repeat(&start, &parts, Direction::new(6, 0, 0), 2));
        assert_eq!(after.runs.len(), start.runs.len() + 4);
        assert_eq!(
            after.joints.len(),
            start.joints.len() + 4,
            "each copy hangs on the one before"
        );
    }

    #[test]
    fn what_cannot_be_repeated_says_why() {
        let job = house();
        let parts: Selection = [R(2)].into_iter().collect();
        let east = Direction::new(6, 0, 0);
        refused(&job, repeat(&job, &parts, Direction::default(), 2), "direction");
        refused(&job, repeat(&job, &parts, east, 0), "from 1 to 200");
        refused(&job, repeat(&job, &parts, east, 4_000_000), "from 1 to 200");
        refused(&job, repeat(&job, &Selection::none(), east, 2), "select");
        refused(
            &job,
            repeat(&job, &parts, Direction::new(0, 0, -3), 1),
            "no end for another pipe",
        );
    }
}

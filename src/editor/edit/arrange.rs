//! Drawn lengths arranged so that the drawing can be read.

use crate::arrange;
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step};
use crate::job::Job;

/// One step that arranges the drawn lengths of a job, and how many joints it moves. True lengths stay: those that nobody
/// typed are written down as they were drawn.
///
/// # Errors
/// When there is nothing to arrange.
pub fn arrange_lengths(job: &Job) -> Result<(Step, usize), Refusal> {
    let arranged = arrange::arrange(job).job;
    let mut draft = Draft::new(job);
    let mut moved = 0;
    for (was, now) in job.joints.iter().zip(&arranged.joints) {
        if was.at != now.at {
            draft.joint_mut(was.id)?.at = now.at;
            moved += 1;
        }
    }
    if moved == 0 {
        return Err(Refusal::NotNow("the drawn lengths cannot be arranged any better"));
    }
    for (was, now) in job.runs.iter().zip(&arranged.runs) {
        if was != now {
            let now = now.clone();
            draft.change_run(was.id, |run| *run = now)?;
        }
    }
    Ok((draft.finish("Arrange drawn lengths")?, moved))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::done;
    use crate::file;

    #[test]
    fn the_step_gives_the_arranged_job_with_every_true_length_as_it_was() {
        let job = file::read(include_str!("../../../tests/jobs/restaurant-row-12.ron")).unwrap();
        let (step, moved) = arrange_lengths(&job).unwrap();
        let after = done(&job, Ok(step));
        assert_eq!(after, arrange::arrange(&job).job);
        let places = job.joints.iter().zip(&after.joints);
        assert_eq!(places.filter(|(was, now)| was.at != now.at).count(), moved);
        for (was, now) in job.runs.iter().zip(&after.runs) {
            assert_eq!(job.true_length(was), after.true_length(now), "{}", was.id);
        }
    }

    #[test]
    fn an_empty_job_has_nothing_to_arrange() {
        assert!(matches!(arrange_lengths(&Job::default()), Err(Refusal::NotNow(_))));
    }
}

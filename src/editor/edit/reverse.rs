//! Turning runs end for end.

use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step};
use crate::job::{Job, RunId};
use crate::study::how_many;

/// Swaps the `from` and `to` ends of runs; passages stay where they are on the drawing.
///
/// # Errors
/// When nothing is given or a run is gone.
pub fn reverse(job: &Job, runs: &[RunId]) -> Result<Step, Refusal> {
    if runs.is_empty() {
        return Err(Refusal::Choose("runs"));
    }
    let mut draft = Draft::new(job);
    for id in runs {
        let length = draft.true_length(draft.want_run(*id)?);
        draft.change_run(*id, |run| {
            std::mem::swap(&mut run.from, &mut run.to);
            for passage in &mut run.penetrations {
                passage.at = passage.at.map(|at| length - at);
            }
        })?;
    }
    draft.finish(format!("Reverse {}", how_many(runs.len(), "run")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{done, house, refused, run};
    use crate::job::{JointId, Penetration};
    use crate::units::Length;

    #[test]
    fn a_passage_stays_where_it_is() {
        let mut job = house();
        let at = Some(Length::from_feet(2.0));
        job.runs.get_mut(RunId(2)).unwrap().penetrations.push(Penetration {
            at,
            ..Penetration::default()
        });
        let after = done(&job, reverse(&job, &[RunId(2)]));
        assert_eq!((run(&after, 2).from, run(&after, 2).to), (JointId(3), JointId(2)));
        assert_eq!(
            run(&after, 2).penetrations[0].at,
            Some(Length::from_feet(4.0)),
            "of six feet"
        );
        assert_eq!(done(&after, reverse(&after, &[RunId(2)])), job);
        refused(&job, reverse(&job, &[RunId(9)]), "R9 is no longer there");
        refused(&job, reverse(&job, &[]), "select runs");
    }
}

//! Passages of pipe through walls, floors, roofs, slabs and the ground.

use crate::editor::draft::Draft;
use crate::editor::{Part, Refusal, Step};
use crate::job::{Job, Penetration, RunId};
use crate::units::Length;

/// Puts a passage on a run.
///
/// # Errors
/// When the run is gone, or the passage would not lie on it.
pub fn penetrate(job: &Job, run: RunId, passage: Penetration) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    within(&draft, run, passage.at)?;
    let name = format!("Pass through {}", passage.barrier.with_article());
    draft.change_run(run, |run| run.penetrations.push(passage))?;
    draft.finish(name)
}

/// Moves a passage along its run, to a true distance from the run's `from` end.
///
/// # Errors
/// When the passage is gone, or would leave its run.
pub fn slide(job: &Job, run: RunId, passage: usize, at: Length) -> Result<Step, Refusal> {
    if !Part::Penetration(run, passage).is_in(job) {
        return Err(Refusal::Gone(Part::Penetration(run, passage)));
    }
    let mut draft = Draft::new(job);
    within(&draft, run, Some(at))?;
    draft.change_run(run, |run| run.penetrations[passage].at = Some(at))?;
    draft.finish(format!("Move penetration of {run}"))
}

/// Refuses a distance that is not on the run.
pub fn within(draft: &Draft, run: RunId, at: Option<Length>) -> Result<(), Refusal> {
    let length = draft.true_length(draft.want_run(run)?);
    match at {
        Some(at) if at < Length::ZERO || at > length => Err(Refusal::BeyondEnd(run)),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{done, house, refused, run};

    #[test]
    fn a_passage_lies_on_its_run_and_stays_on_it() {
        let job = house();
        let passage = |feet| Penetration {
            at: Some(Length::from_feet(feet)),
            ..Penetration::default()
        };
        let step = penetrate(&job, RunId(2), passage(5.0));
        assert_eq!(step.as_ref().unwrap().name(), "Pass through an exterior wall");
        let after = done(&job, step);
        let after = done(&after, slide(&after, RunId(2), 0, Length::from_feet(2.0)));
        assert_eq!(run(&after, 2).penetrations, [passage(2.0)]);
        refused(&job, penetrate(&job, RunId(2), passage(6.5)), "R2 is not that long");
        refused(
            &after,
            slide(&after, RunId(2), 0, Length::from_feet(-1.0)),
            "R2 is not that long",
        );
        refused(
            &after,
            slide(&after, RunId(2), 1, Length::ZERO),
            "penetration 2 of R2 is no longer there",
        );
        refused(&job, penetrate(&job, RunId(8), passage(1.0)), "R8 is no longer there");
    }
}

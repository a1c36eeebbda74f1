//! The drawing of a permit made into the drawing of what was installed.

use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step};
use crate::job::{Job, State, Status};
use crate::sizing::Origin;
use crate::study::Study;
use crate::units::NominalSize;

/// One step that issues the job as built: new pipe keeps the sizes that it was found, since pipe that is laid is not sized
/// again. States stay: the drawing tells what this work put in and what was there before.
///
/// # Errors
/// When the job says already that it is as built.
pub fn as_built(job: &Job, study: &Study) -> Result<Step, Refusal> {
    if job.title.status == Status::AsBuilt {
        return Err(Refusal::BuiltAlready);
    }
    let mut draft = Draft::new(job);
    let mut title = job.title.clone();
    title.status = Status::AsBuilt;
    draft.set_title(title);
    let laid: Vec<_> = (job.runs.iter().enumerate())
        .filter(|(_, run)| run.state == State::New && run.size.is_none())
        .filter_map(|(at, run)| Some((run.id, found(study, at)?)))
        .collect();
    for (id, size) in laid {
        draft.change_run(id, |run| run.size = Some(size))?;
    }
    draft.finish("Convert to as-built")
}

/// The size that the study found for a run; none for part of a listed connector.
fn found(study: &Study, run: usize) -> Option<NominalSize> {
    let section = study.sections.get(study.runs.get(run)?.section?)?;
    (section.sizing.origin == Origin::Found).then_some(section.sizing.size)?
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::file;
    use crate::job::RunId;

    const KITCHEN: &str = include_str!("../../../examples/patio-kitchen.ron");

    fn kitchen() -> (Job, Study) {
        let job = file::read(KITCHEN).expect("the example is read");
        let study = Study::of(&job, Codebook::published());
        (job, study)
    }

    #[test]
    fn laid_pipe_keeps_its_sizes_and_states_stay() {
        let (job, study) = kitchen();
        let mut built = job.clone();
        let step = as_built(&job, &study).expect("it can be made");
        step.apply(&mut built).expect("it fits");
        assert_eq!(built.title.status, Status::AsBuilt);
        let mut fixed = 0;
        for (at, (was, now)) in job.runs.iter().zip(&built.runs).enumerate() {
            assert_eq!(
                (was.state, was.length, &was.penetrations),
                (now.state, now.length, &now.penetrations)
            );
            match found(&study, at).filter(|_| was.state == State::New && was.size.is_none()) {
                Some(size) => {
                    assert_eq!(now.size, Some(size));
                    fixed += 1;
                }
                None => assert_eq!(now.size, was.size),
            }
        }
        assert!(fixed > 5, "{fixed}");
        let again = Study::of(&built, Codebook::published());
        for at in 0..job.runs.len() {
            let size = |study: &Study| {
                study.runs[at]
                    .section
                    .map(|section| study.sections[section].sizing.size)
            };
            assert_eq!(size(&again), size(&study), "run {}", RunId(at as u32 + 1));
        }
        // One step takes all of it back.
        step.inverse().apply(&mut built).expect("it fits");
        assert_eq!(built, job);
    }

    #[test]
    fn what_is_built_is_not_built_again() {
        let (mut job, study) = kitchen();
        job.title.status = Status::AsBuilt;
        assert_eq!(as_built(&job, &study), Err(Refusal::BuiltAlready));
    }
}

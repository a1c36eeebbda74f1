//! Words that a person puts somewhere, and words that find their own place again.

use super::named;
use crate::editor::draft::Draft;
use crate::editor::{Part, Refusal, Selection, Step};
use crate::job::{Job, WordsAt};

/// Puts the words of a part somewhere; `None` lets them find their own place.
///
/// # Errors
/// When the part is gone.
pub fn put_words(job: &Job, part: Part, at: Option<WordsAt>) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    put(&mut draft, part, at)?;
    draft.finish("Move label")
}

/// Lets the words of parts find their own places again, those of passages on chosen runs and of notes at chosen joints
/// too.
///
/// # Errors
/// When a part is gone, or none of the parts has words that were put somewhere.
pub fn free_words(job: &Job, parts: &Selection) -> Result<Step, Refusal> {
    let with = parts.iter().flat_map(|part| belongings(job, part));
    let all: Selection = parts.iter().chain(with).collect();
    let put_somewhere: Vec<Part> = all.iter().filter(|part| words_at(job, *part).is_some()).collect();
    if put_somewhere.is_empty() {
        return Err(Refusal::Choose("something whose label was moved"));
    }
    let mut draft = Draft::new(job);
    for part in &put_somewhere {
        put(&mut draft, *part, None)?;
    }
    draft.finish(format!("Auto-place label of {}", named(put_somewhere.into_iter())))
}

/// Where the words of a part were put.
fn words_at(job: &Job, part: Part) -> Option<WordsAt> {
    match part {
        Part::Joint(id) => job.joints.get(id)?.words_at,
        Part::Run(id) => job.runs.get(id)?.words_at,
        Part::Penetration(id, at) => job.runs.get(id)?.penetrations.get(at)?.words_at,
        Part::Note(at) => job.notes.get(at)?.words_at,
    }
}

fn belongings(job: &Job, part: Part) -> Vec<Part> {
    match part {
        Part::Joint(id) => {
            let here = |at: &usize| job.notes[*at].at == id;
            (0..job.notes.len()).filter(here).map(Part::Note).collect()
        }
        Part::Run(id) => {
            let count = job.runs.get(id).map_or(0, |run| run.penetrations.len());
            (0..count).map(|at| Part::Penetration(id, at)).collect()
        }
        Part::Penetration(..) | Part::Note(_) => Vec::new(),
    }
}

fn put(draft: &mut Draft, part: Part, at: Option<WordsAt>) -> Result<(), Refusal> {
    if !part.is_in(draft.job) {
        return Err(Refusal::Gone(part));
    }
    match part {
        Part::Joint(id) => draft.joint_mut(id)?.words_at = at,
        Part::Run(id) => draft.change_run(id, |run| run.words_at = at)?,
        Part::Penetration(id, passage) => draft.change_run(id, |run| run.penetrations[passage].words_at = at)?,
        Part::Note(note) => draft.notes_mut()[note].words_at = at,
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::Spot;
    use crate::editor::edit::{Cut, Gap, add_note, copy, delete, join, paste, shared_joint, split};
    use crate::editor::fixture::{J, R, at, done, house, refused, run};
    use crate::job::{JointId, Penetration, RunId};

    fn there() -> WordsAt {
        WordsAt::from_mm(6.0, -4.5)
    }

    fn put_all() -> Job {
        let mut job = house();
        job.runs.get_mut(RunId(2)).unwrap().penetrations = vec![Penetration::default()];
        let job = done(&job, add_note(&job, JointId(6), "strap"));
        [J(6), R(2), Part::Penetration(RunId(2), 0), Part::Note(0)]
            .into_iter()
            .fold(job, |job, part| done(&job, put_words(&job, part, Some(there()))))
    }

    #[test]
    fn words_are_put_somewhere_and_find_their_own_place_again() {
        let job = put_all();
        for part in [J(6), R(2), Part::Penetration(RunId(2), 0), Part::Note(0)] {
            assert_eq!(words_at(&job, part), Some(there()), "{part}");
        }
        let free = done(&job, free_words(&job, &[J(6), R(2)].into_iter().collect()));
        for part in [J(6), R(2), Part::Penetration(RunId(2), 0), Part::Note(0)] {
            assert_eq!(words_at(&free, part), None, "{part}");
        }
        refused(
            &free,
            free_words(&free, &Selection::all(&free)),
            "whose label was moved",
        );
        refused(&job, put_words(&job, Part::Note(7), None), "note 8 is no longer there");
        assert!(
            put_words(&job, R(2), Some(there())).unwrap().is_empty(),
            "they stand there already"
        );
    }

    #[test]
    fn copies_and_halves_keep_words_where_they_were_put() {
        let job = put_all();
        let copied = copy(&job, &[J(6), R(5), R(2)].into_iter().collect());
        let after = done(&job, paste(&job, &copied, at(0, 0, 30)));
        assert_eq!(
            after
                .joints
                .iter()
                .filter(|joint| joint.words_at == Some(there()))
                .count(),
            2
        );
        assert_eq!(after.runs.iter().filter(|run| run.words_at == Some(there())).count(), 2);
        assert_eq!(
            after.notes.iter().filter(|note| note.words_at == Some(there())).count(),
            2
        );

        let parted = done(&job, split(&job, Spot::on(RunId(2), at(2, 0, 4)), Cut::InProportion));
        assert_eq!(
            (run(&parted, 2).words_at, run(&parted, 6).words_at),
            (Some(there()), None)
        );
        let middle = shared_joint(&parted, RunId(2), RunId(6)).unwrap();
        assert_eq!(run(&done(&parted, join(&parted, middle)), 2).words_at, Some(there()));
    }

    #[test]
    fn words_go_with_the_device_that_they_spoke_of() {
        let job = put_all();
        let after = done(&job, delete(&job, &[J(6)].into_iter().collect(), Gap::Keep));
        assert_eq!(after.joints.get(JointId(6)).map(|joint| joint.words_at), Some(None));
    }
}

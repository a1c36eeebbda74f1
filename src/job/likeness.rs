//! How much of a job an edit left as it was, for whoever keeps what follows from it.

use super::{Job, Joint, Run};

/// What two states of a job have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Likeness {
    /// Settings, gas, joints and runs, but for where a person put their words: all that a study asks.
    pub piping: bool,
    /// The notes, and where a person put words: what a drawing asks beside its study.
    pub words: bool,
    /// The title block, what is added by hand and the names of variants: what only sheets, lists and rules ask.
    pub papers: bool,
}

impl Likeness {
    /// Compares two states of a job; in time that grows with it, most of it spent where they are alike.
    pub fn of(one: &Job, other: &Job) -> Likeness {
        let is_same_length = one.runs.len() == other.runs.len() && one.joints.len() == other.joints.len();
        let is_same_ground = one.settings == other.settings && one.gas == other.gas;
        let runs = || one.runs.iter().zip(&other.runs);
        let joints = || one.joints.iter().zip(&other.joints);
        let passages = |run: &Run| {
            run.penetrations
                .iter()
                .map(|passage| passage.words_at)
                .collect::<Vec<_>>()
        };
        let is_put_alike = |one: &Run, other: &Run| {
            let is_plain = one.penetrations.is_empty() && other.penetrations.is_empty();
            one.words_at == other.words_at && (is_plain || passages(one) == passages(other))
        };
        Likeness {
            piping: is_same_ground
                && is_same_length
                && runs().all(|(one, other)| one == other || without_words(one) == without_words(other))
                && joints().all(|(one, other)| one == other || bare(one) == bare(other)),
            words: is_same_length
                && one.notes == other.notes
                && joints().all(|(one, other)| one.words_at == other.words_at)
                && runs().all(|(one, other)| is_put_alike(one, other)),
            papers: one.title == other.title
                && one.by_hand == other.by_hand
                && one.variants.names().eq(other.variants.names()),
        }
    }
}

fn bare(joint: &Joint) -> Joint {
    let mut joint = joint.clone();
    joint.words_at = None;
    joint
}

fn without_words(run: &Run) -> Run {
    let mut run = run.clone();
    run.words_at = None;
    run.penetrations.iter_mut().for_each(|passage| passage.words_at = None);
    run
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Extra, Note, RunId, WordsAt};
    use crate::units::Length;

    /// What is told of an edit: whether piping, words and papers are as they were.
    #[track_caller]
    fn check(expected: [bool; 3], edit: impl Fn(&mut Job)) {
        let job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let mut edited = job.clone();
        edit(&mut edited);
        assert_ne!(job, edited);
        let Likeness { piping, words, papers } = Likeness::of(&job, &edited);
        assert_eq!([piping, words, papers], expected);
    }

    #[test]
    fn each_part_of_a_job_belongs_to_one_of_the_three() {
        check([true, true, false], |job| job.title.owner += "!");
        check([true, true, false], |job| job.by_hand.extra.push(Extra::default()));
        check([true, false, true], |job| job.notes.push(Note::default()));
        check([false, true, true], |job| job.settings.step = Length::from_feet(2.0));
        check([false, true, true], |job| job.gas.specific_gravity = Some(0.61));
        let first = |job: &Job| job.runs.at(0).id;
        check([false, true, true], |job| {
            let id: RunId = first(job);
            job.runs.get_mut(id).unwrap().length = Some(Length::from_feet(77.0));
        });
        check([true, false, true], |job| {
            let id: RunId = first(job);
            job.runs.get_mut(id).unwrap().words_at = Some(WordsAt::default());
        });
        check([true, false, true], |job| {
            let id = job.joints.at(0).id;
            job.joints.get_mut(id).unwrap().words_at = Some(WordsAt::default());
        });
        let passage = |job: &mut Job, edit: fn(&mut crate::job::Penetration)| {
            let id = job.runs.iter().find(|run| !run.penetrations.is_empty()).unwrap().id;
            edit(&mut job.runs.get_mut(id).unwrap().penetrations[0]);
        };
        check([true, false, true], |job| {
            passage(job, |it| it.words_at = Some(WordsAt::default()))
        });
        check([false, true, true], |job| passage(job, |it| it.sleeved = !it.sleeved));
        check([false, false, true], |job| {
            let id = first(job);
            job.runs.remove(id);
        });
    }
}

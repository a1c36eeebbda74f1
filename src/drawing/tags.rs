//! The keys by which parts of a drawing are found again in a scene.
//!
//! | role | key | what |
//! | --- | --- | --- |
//! | `Line` | number of the run's id | pipe with its arrows, break and crosses |
//! | `Symbol` | number of the joint's id | device, tick or dot at a joint |
//! | `Plane` | number of the run's id | helper plane or penetration of a run |
//! | `Label`, `Leader` | [`Subject::key`] | words and the thin line that leads from them |
//!
//! A label and its leader share one key.

use crate::job::{Job, JointId, RunId};
use crate::scene::{Role, Tag};

/// What a label speaks of, by position in the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Subject {
    /// A run, a position in `job.runs`.
    Run(usize),
    /// A joint, a position in `job.joints`.
    Joint(usize),
    /// A note, a position in `job.notes`.
    Note(usize),
    /// A passage, its position among the passages of all runs, in the order of runs.
    Passage(usize),
    /// Changes since the issue, by the number of their cloud.
    Change(usize),
    /// A section, its position in `study.sections`: its number beside pipe that is too short to bear it.
    Section(usize),
    /// The elevation written at a joint, a position in `job.joints`.
    Level(usize),
    /// The drawing as a whole: axes, north arrow, scale.
    Sheet,
}

impl Subject {
    /// The key of labels and leaders of this subject. Positions beyond a thousand million share the last key.
    pub fn key(self) -> u32 {
        let (kind, position) = match self {
            Subject::Run(position) => (0, position),
            Subject::Joint(position) => (1, position),
            Subject::Note(position) => (2, position),
            Subject::Sheet => (3, 0),
            // Four kinds take turns.
            Subject::Passage(position) => (3, position.saturating_mul(4).saturating_add(1)),
            Subject::Change(cloud) => (3, cloud.saturating_mul(4).saturating_add(2)),
            Subject::Section(position) => (3, position.saturating_mul(4).saturating_add(3)),
            Subject::Level(position) => (3, position.saturating_mul(4).saturating_add(4)),
        };
        u32::try_from(position).unwrap_or(u32::MAX).min(u32::MAX >> 2) << 2 | kind
    }

    /// The subject of a label or leader; `None` for a tag of another role.
    pub fn of(tag: Tag) -> Option<Subject> {
        let position = (tag.key >> 2) as usize;
        matches!(tag.role, Role::Label | Role::Leader).then_some(match tag.key & 3 {
            0 => Subject::Run(position),
            1 => Subject::Joint(position),
            2 => Subject::Note(position),
            _ => match position.checked_sub(1) {
                None => Subject::Sheet,
                Some(place) => match place % 4 {
                    0 => Subject::Passage(place / 4),
                    1 => Subject::Change(place / 4),
                    2 => Subject::Section(place / 4),
                    _ => Subject::Level(place / 4),
                },
            },
        })
    }
}

/// The run, by its position in `job.runs`, that a passage is on, and its position there.
pub fn passage(job: &Job, mut position: usize) -> Option<(usize, usize)> {
    for (number, run) in job.runs.iter().enumerate() {
        let count = run.penetrations.len();
        if position < count {
            return Some((number, position));
        }
        position -= count;
    }
    None
}

/// The tag of a run's line.
pub fn line(run: RunId) -> Tag {
    Tag {
        role: Role::Line,
        key: run.0,
    }
}

/// The tag of what is drawn at a joint.
pub fn symbol(joint: JointId) -> Tag {
    Tag {
        role: Role::Symbol,
        key: joint.0,
    }
}

/// The tag of a run's helper plane or penetration.
pub fn plane(run: RunId) -> Tag {
    Tag {
        role: Role::Plane,
        key: run.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Penetration, Run};

    #[test]
    fn a_label_leads_back_to_its_subject() {
        for subject in [
            Subject::Run(0),
            Subject::Run(9_999),
            Subject::Joint(7),
            Subject::Note(3),
            Subject::Passage(0),
            Subject::Passage(12),
            Subject::Change(0),
            Subject::Change(7),
            Subject::Section(0),
            Subject::Section(41),
            Subject::Level(0),
            Subject::Level(5),
            Subject::Sheet,
        ] {
            let tag = Tag {
                role: Role::Label,
                key: subject.key(),
            };
            assert_eq!(Subject::of(tag), Some(subject));
        }
        assert_eq!(Subject::of(line(RunId(4))), None);
    }

    #[test]
    fn passages_are_counted_through_all_runs() {
        let mut job = Job::default();
        for (id, count) in [(1, 2), (2, 0), (3, 1)] {
            job.runs.insert(Run {
                id: RunId(id),
                penetrations: vec![Penetration::default(); count],
                ..Run::default()
            });
        }
        let found: Vec<_> = (0..4).map(|position| passage(&job, position)).collect();
        assert_eq!(found, [Some((0, 0)), Some((0, 1)), Some((2, 0)), None]);
    }
}

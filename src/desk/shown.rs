//! A job with all that follows from it, as the canvas shows it at one revision. Knows no widgets.

use crate::changes::Changes;
use crate::codebook::Codebook;
use crate::desk::issued::Issued;
use crate::desk::later::both;
use crate::drawing::tags::{self, Subject};
use crate::drawing::{Compass, Isometric, Lettering, Options, OtherWords, Projection, Scale, isometric};
use crate::editor::tool::Tool;
use crate::editor::{Part, Words};
use crate::job::{Job, JointId, Likeness, RunId};
use crate::rules::{Checked, Finding};
use crate::scene::{Point, Rect, Role, Tag, hit};
use crate::study::{Place, Study};
use std::sync::Arc;

/// Where the lattice lies on the paper of the canvas: steps as long as on a roomy sheet, so that words keep their
/// proportion to pipe.
pub const VIEW: Projection = Projection {
    origin: Point::new(0.0, 0.0),
    step: 5.0,
};

/// So many times farther than another tool one that places something on pipe is led to it.
const SNAP: f64 = 2.0;

/// A joint is meant within so many steps of its place, so that short runs can be pointed at beside it.
const JOINT_REACH: f64 = 0.3;

/// How the drawing is lettered on the canvas.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Face {
    /// As on the permit drawing.
    #[default]
    Usual,
    /// With the marks and lengths of the cut list.
    Pieces,
}

/// A job with all that follows from it, at one revision.
#[derive(Clone, Debug)]
pub struct Shown {
    /// The editor's revision that it was made of.
    pub revision: u64,
    /// The revision of which the picture was drawn: an earlier one where nothing has changed since that it shows.
    pub drawn: u64,
    /// How it is lettered.
    pub face: Face,
    /// The job as it was then.
    pub job: Arc<Job>,
    /// What follows from it, and what the rules found.
    pub checked: Arc<Checked>,
    /// What it looks like on the canvas; its axes stay in a corner of it.
    pub picture: Arc<Isometric>,
    /// What changed since the issue that it is compared with.
    pub changes: Option<Arc<Changes>>,
}

impl Shown {
    /// Studies and draws a job.
    pub fn of(job: Arc<Job>, book: &Codebook, revision: u64, issued: Option<&Issued>) -> Shown {
        Shown::after(None, job, book, revision, issued)
    }

    /// The same; of an earlier state, which was studied by the same book, everything is kept that has not changed: the
    /// study where only words have, the picture where it shows none of them.
    pub fn after(
        before: Option<&Shown>,
        job: Arc<Job>,
        book: &Codebook,
        revision: u64,
        issued: Option<&Issued>,
    ) -> Shown {
        let like = before.map(|before| (before, Likeness::of(&before.job, &job)));
        let study = match like.filter(|(_, like)| like.piping) {
            Some((before, _)) => Arc::clone(&before.checked.study),
            None => Arc::new(Study::of(&job, book)),
        };
        let changes = issued.map(|issued| Arc::new(issued.changes(&job, &study)));
        let is_drawn = |(before, like): &(&Shown, Likeness)| {
            like.piping && like.words && before.face == Face::Usual && before.changes == changes
        };
        // The rules read notes, but not where they stand; whoever moves words does not wait for them.
        let is_checked =
            |(before, like): &(&Shown, Likeness)| like.piping && like.papers && before.job.notes == job.notes;
        let picture = || match like.filter(is_drawn) {
            Some((before, _)) => (before.drawn, Arc::clone(&before.picture)),
            None => (revision, draw(&job, &study, Lettering::OnScreen, changes.as_deref())),
        };
        let checked = || match like.filter(is_checked) {
            Some((before, _)) => Arc::clone(&before.checked),
            None => Arc::new(Checked::with(Arc::clone(&study), &job, book)),
        };
        // The rules need no picture, and a picture needs no rules.
        let ((drawn, picture), checked) = both(picture, checked);
        Shown {
            revision,
            drawn,
            face: Face::Usual,
            job,
            checked,
            picture,
            changes,
        }
    }

    /// Whether it shows another state of the job as well, where that is compared with no issue.
    pub fn shows(&self, job: &Job) -> bool {
        let like = Likeness::of(&self.job, job);
        like.piping && like.words && self.changes.is_none()
    }

    /// A job with a study and words that are there already: those of its pieces.
    pub fn of_pieces(job: Arc<Job>, checked: Arc<Checked>, revision: u64, words: &OtherWords) -> Shown {
        Shown {
            revision,
            drawn: revision,
            face: Face::Pieces,
            picture: draw(&job, &checked.study, Lettering::Other(words), None),
            job,
            checked,
            changes: None,
        }
    }

    /// The part that stands for a place; of a section its first run.
    pub fn part_at(&self, place: Place) -> Option<Part> {
        match place {
            Place::Joint(id) => Some(Part::Joint(id)),
            Place::Run(id) => Some(Part::Run(id)),
            Place::Section(number) => {
                let section = self.checked.study.sections.get(number.checked_sub(1)?)?;
                Some(Part::Run(self.job.runs.at(*section.runs.first()?).id))
            }
            Place::Job => None,
        }
    }

    /// The part to which a finding leads: the penetration itself where one is meant.
    pub fn part_of(&self, finding: &Finding) -> Option<Part> {
        match (self.part_at(finding.place)?, finding.penetration) {
            (Part::Run(run), Some(at)) => Some(Part::Penetration(run, at)),
            (part, _) => Some(part),
        }
    }

    /// What a tool means at a point of paper, within `radius` mm: a hand that chooses may point at words, one that draws or
    /// places means the pipe, whatever words lie there, and is led to it from farther away where it can go nowhere else.
    pub fn meant_at(&self, at: Point, radius: f64, tool: &Tool) -> Vec<Part> {
        let drawn = |radius, near| self.found_at(at, [radius, near], |tag| !is_wordy(tag));
        let near = radius.min(VIEW.step * JOINT_REACH);
        match tool {
            Tool::Choose(_) | Tool::Preview(_) => self.parts_at(at, radius),
            Tool::Draw(_) | Tool::Put(_) => drawn(radius, near),
            Tool::Place(_) => {
                let here = drawn(radius, near);
                match here.is_empty() {
                    true => drawn(radius * SNAP, 0.0).into_iter().take(1).collect(),
                    false => here,
                }
            }
        }
    }

    /// The parts drawn within `radius` mm of a point of paper: joints whose place is meant, then the rest, nearest first.
    /// An elbow or an open end has no symbol of its own, yet one can point at it.
    pub fn parts_at(&self, at: Point, radius: f64) -> Vec<Part> {
        self.found_at(at, [radius, radius.min(VIEW.step * JOINT_REACH)], |_| true)
    }

    /// The parts drawn within the first of two radii; joints whose place lies within the second come before them.
    fn found_at(&self, at: Point, [radius, near]: [f64; 2], which: impl Fn(&Tag) -> bool) -> Vec<Part> {
        let places = self.job.joints.iter().map(|joint| (VIEW.point(joint.at), joint.id));
        let mut meant: Vec<(f64, JointId)> = places
            .map(|(place, id)| (place.distance(at), id))
            .filter(|(distance, _)| *distance <= near)
            .collect();
        meant.sort_by(|(a, _), (b, _)| a.total_cmp(b));
        let mut parts: Vec<Part> = meant.into_iter().map(|(_, id)| Part::Joint(id)).collect();
        for tag in hit(&self.picture.group, at, radius).into_iter().filter(which) {
            if let Some(part) = self.part(tag, at)
                && !parts.contains(&part)
            {
                parts.push(part);
            }
        }
        parts
    }

    /// The words at a point of paper, which a person may put elsewhere; those of the cut list may not be.
    pub fn words_at(&self, at: Point) -> Option<Words> {
        if self.face == Face::Pieces {
            return None;
        }
        let here = self
            .picture
            .lettered
            .iter()
            .find(|lettered| lettered.room.contains(at))?;
        Some(Words {
            part: self.speaks_of(here.subject)?,
            room: here.room,
            anchor: here.anchor,
        })
    }

    /// The part that words speak of.
    fn speaks_of(&self, subject: Subject) -> Option<Part> {
        match subject {
            Subject::Run(position) => Some(Part::Run(self.job.runs.iter().nth(position)?.id)),
            Subject::Joint(position) | Subject::Level(position) => {
                Some(Part::Joint(self.job.joints.iter().nth(position)?.id))
            }
            Subject::Section(position) => {
                let run = *self.checked.study.sections.get(position)?.runs.first()?;
                Some(Part::Run(self.job.runs.iter().nth(run)?.id))
            }
            Subject::Note(position) => Some(Part::Note(position)),
            Subject::Passage(position) => {
                let (run, passage) = tags::passage(&self.job, position)?;
                Some(Part::Penetration(self.job.runs.iter().nth(run)?.id, passage))
            }
            Subject::Change(_) | Subject::Sheet => None,
        }
    }

    /// What a tag of the picture stands for, seen from a point of paper.
    fn part(&self, tag: Tag, at: Point) -> Option<Part> {
        match tag.role {
            Role::Line => Some(Part::Run(RunId(tag.key))),
            Role::Symbol => Some(Part::Joint(JointId(tag.key))),
            Role::Plane => self.passage(RunId(tag.key), at),
            Role::Label | Role::Leader => self.speaks_of(Subject::of(tag)?),
            Role::Frame | Role::Table | Role::Mark => None,
        }
    }

    /// The passage of a run that lies nearest to a point; the run itself when it has none.
    fn passage(&self, run: RunId, at: Point) -> Option<Part> {
        let it = self.job.runs.get(run)?;
        let (from, to) = (self.job.joints.get(it.from)?, self.job.joints.get(it.to)?);
        let (a, b) = (VIEW.point(from.at), VIEW.point(to.at));
        let whole = self.job.true_length(it).feet();
        let distance = |passage: usize| {
            let share = it.penetrations[passage]
                .at
                .map_or(0.5, |along| along.feet() / whole.max(1e-9));
            a.toward(b, share.clamp(0.0, 1.0)).distance(at)
        };
        let nearest = (0..it.penetrations.len()).min_by(|a, b| distance(*a).total_cmp(&distance(*b)));
        Some(nearest.map_or(Part::Run(run), |passage| Part::Penetration(run, passage)))
    }
}

/// Draws a job as the canvas shows it.
fn draw(job: &Job, study: &Study, lettering: Lettering<'_>, since: Option<&Changes>) -> Arc<Isometric> {
    let options = Options {
        scale: Scale::Fixed(VIEW),
        lettering,
        since,
        compass: Compass::Apart,
        ..Options::default()
    };
    let area = Rect::new(Point::new(-90.0, -60.0), Point::new(90.0, 60.0));
    Arc::new(isometric(job, study, area, options))
}

/// Whether a tag is one of words or of the line that leads to them.
fn is_wordy(tag: &Tag) -> bool {
    matches!(tag.role, Role::Label | Role::Leader)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Note, WordsAt};
    use crate::units::Length;

    /// Whether study and picture of before serve after an edit; what is shown is the same as if made anew.
    #[track_caller]
    fn check(expected: [bool; 2], edit: impl Fn(&mut Job)) {
        let book = Codebook::published();
        let mut job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let before = Shown::of(Arc::new(job.clone()), book, 1, None);
        edit(&mut job);
        let (after, anew) = (Arc::new(job.clone()), Shown::of(Arc::new(job), book, 2, None));
        let after = Shown::after(Some(&before), after, book, 2, None);
        assert_eq!(after.picture, anew.picture);
        assert_eq!(after.checked.findings, anew.checked.findings);
        let kept = [
            Arc::ptr_eq(&after.checked.study, &before.checked.study),
            Arc::ptr_eq(&after.picture, &before.picture),
        ];
        assert_eq!(kept, expected);
        assert_eq!((after.revision, after.drawn), (2, if expected[1] { 1 } else { 2 }));
    }

    #[test]
    fn what_an_edit_leaves_as_it_was_is_not_made_again() {
        check([true, true], |_| ());
        check([true, true], |job| job.title.date.clear());
        check([true, false], |job| {
            let at = job.joints.at(0).id;
            job.notes.push(Note {
                at,
                text: "漢 before the test".to_owned(),
                words_at: None,
            });
        });
        let first = |job: &Job| job.runs.at(0).id;
        check([true, false], |job| {
            let id: RunId = first(job);
            job.runs.get_mut(id).unwrap().words_at = Some(WordsAt::from_mm(9.0, 4.0));
        });
        check([false, false], |job| {
            let id: RunId = first(job);
            job.runs.get_mut(id).unwrap().length = Some(Length::from_feet(77.0));
        });
    }
}

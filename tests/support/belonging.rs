//! Whether each label of a finished drawing is read as what it speaks of: judged by the scene alone, its tags and its
//! geometry, without a thought for how places were found.
//!
//! Used as a module: `#[path = "support/belonging.rs"] mod belonging;`, beside `readable`.
#![allow(dead_code)]

use crate::readable::own_pipe;
use std::collections::HashSet;
use stubout::drawing::NumberedPoint;
use stubout::drawing::tags::Subject;
use stubout::job::Job;
use stubout::scene::{Face, Item, Point, Quad, Rect, Role, Scene, Segment, Tag, Vector, measure};

/// A leader whose dot, 0.6 mm in radius, begins so near to ink is seen on it, mm.
const ON_INK: f64 = 0.8;
/// Words are read on foreign pipe that is nearer by more than this, mm.
const NEARER: f64 = 0.5;
/// Words that keep so much from everything have a free place, mm.
const CLEAR: f64 = 1.2;
/// A leader may be so long, mm.
const LONGEST: f64 = 25.0;
/// Height of capitals and distance from line to line that words in a place of their own would have, mm.
const LETTERING: f64 = 3.0;
const PITCH: f64 = 4.4;

/// What is drawn on a sheet, by whom it belongs to.
pub struct Ink {
    /// Pieces of lines with half their width, and boxes of words, each with its tag.
    pieces: Vec<(Tag, Segment, f64)>,
    words: Vec<(Tag, Quad)>,
    /// For each leader its first point and its end.
    leaders: Vec<(Subject, Point)>,
}

impl Ink {
    /// Everything with a tag.
    pub fn of(scene: &Scene) -> Ink {
        let mut ink = Ink {
            pieces: Vec::new(),
            words: Vec::new(),
            leaders: Vec::new(),
        };
        let mut begun = HashSet::new();
        scene.walk(|tags, item| {
            let Some(&tag) = tags.last() else { return };
            match item {
                Item::Group(_) => {}
                Item::Text(text) if text.extent().width() > 0.0 => ink.words.push((tag, text.quad())),
                Item::Text(_) => {}
                Item::Path(path) => {
                    let mut first = None;
                    path.outline.flatten(|piece| {
                        first.get_or_insert(piece.a);
                        ink.pieces.push((tag, piece, path.reach()));
                    });
                    if let (Role::Leader, Some(subject), Some(first), true) =
                        (tag.role, Subject::of(tag), first, path.stroke.is_some())
                        && begun.insert(tag.key)
                    {
                        ink.leaders.push((subject, first));
                    }
                }
            }
        });
        ink
    }

    /// The leaders that end, with their dot, on nothing of what they speak of, each with how far off, mm.
    pub fn beside_their_item(&self, job: &Job) -> Vec<(Subject, f64)> {
        let mut found = Vec::new();
        for (subject, start) in &self.leaders {
            let pipe = own_pipe(job, *subject);
            let joint = match subject {
                Subject::Joint(joint) => Some(job.joints.at(*joint).id.0),
                Subject::Note(note) => Some(job.notes[*note].at.0),
                Subject::Run(_) | Subject::Passage(_) => None,
                // A level stands on a line, a section's number on any of its pipe.
                Subject::Level(_) | Subject::Section(_) | Subject::Change(_) | Subject::Sheet => continue,
            };
            let ends: Vec<u32> = (pipe.iter())
                .filter_map(|run| job.runs.iter().find(|it| it.id.0 == *run))
                .flat_map(|run| [run.from.0, run.to.0])
                .collect();
            let is_own = |tag: &Tag| match tag.role {
                Role::Line | Role::Plane => pipe.contains(&tag.key),
                // Pipe that is hidden by the symbols at its ends is spoken of there.
                Role::Symbol => joint.map_or(ends.contains(&tag.key), |joint| joint == tag.key),
                Role::Label | Role::Leader | Role::Frame | Role::Table | Role::Mark => false,
            };
            let own = self.pieces.iter().filter(|(tag, ..)| is_own(tag));
            let off = own.map(|(_, piece, reach)| piece.distance(*start) - reach);
            let off = off.fold(f64::INFINITY, f64::min);
            if off > ON_INK {
                found.push((*subject, off));
            }
        }
        found
    }

    /// The sizes and lengths without a leader that stand nearer to the pipe of a stranger than to their own, each with by
    /// how much, mm.
    pub fn nearer_to_a_stranger(&self, job: &Job) -> Vec<(Subject, f64)> {
        let led = |subject: Subject| self.leaders.iter().any(|(its, _)| *its == subject);
        let mut found: Vec<(Subject, f64)> = Vec::new();
        for (tag, words) in self.words.iter().filter(|(tag, _)| tag.role == Role::Label) {
            let Some(subject @ Subject::Run(run)) = Subject::of(*tag) else {
                continue;
            };
            if run >= job.runs.len() || led(subject) {
                continue;
            }
            let own = own_pipe(job, subject);
            let gap = |is_own: bool| {
                let pipe = self.pieces.iter().filter(|(tag, ..)| tag.role == Role::Line);
                let pipe = pipe.filter(|(tag, ..)| own.contains(&tag.key) == is_own);
                let gaps = pipe.map(|(_, piece, reach)| words.gap_to_segment(*piece) - reach);
                gaps.fold(f64::INFINITY, f64::min)
            };
            let nearer = gap(true) - gap(false);
            // A chain of dimensions is read by its extension lines.
            if nearer > NEARER && gap(true) < 6.0 {
                match found.last_mut() {
                    Some((last, by)) if *last == subject => *by = by.max(nearer),
                    _ => found.push((subject, nearer)),
                }
            }
        }
        found
    }

    /// Whether the words of a numbered point, in lines at their ends of `; `, would have a free place within reach of the
    /// point, with a straight leader to them that touches nothing but pipe of the point itself. Only places whose leader
    /// meets the side of the words are tried: that something is found is certain, that nothing is found is not.
    pub fn has_free_place(&self, job: &Job, area: Rect, point: &NumberedPoint, anchor: Point) -> bool {
        let lines: Vec<&str> = point.text.split("; ").collect();
        let widths = lines.iter().map(|line| measure(line, LETTERING, Face::Regular));
        let wide = widths.fold(0.0, f64::max);
        let tall = LETTERING + PITCH * (lines.len() - 1) as f64;
        let own = own_pipe(job, point.subject);
        let number = point.subject.key();
        let is_mark = |tag: &Tag| matches!(tag.role, Role::Label | Role::Leader) && tag.key == number;
        let is_free = |room: &Quad| {
            let words = self.words.iter().filter(|(tag, _)| !is_mark(tag));
            let pieces = self.pieces.iter().filter(|(tag, ..)| !is_mark(tag));
            area.encloses(room.bounds())
                && words.clone().all(|(_, other)| !room.overlaps(other))
                && pieces
                    .clone()
                    .all(|(_, piece, reach)| !room.overlaps_segment(*piece, 2.0 * reach))
        };
        // From the joint itself what stands there is left within this way, mm.
        const LEAVE: f64 = 5.0;
        let is_clear = |line: Segment| {
            let strip = Quad::strip(line, 0.8);
            let words = self.words.iter().filter(|(tag, _)| !is_mark(tag));
            let mut pieces = self.pieces.iter().filter(|(tag, ..)| !is_mark(tag));
            let is_own = |tag: &Tag| tag.role == Role::Line && own.contains(&tag.key);
            words.clone().all(|(_, other)| !strip.overlaps(other))
                && pieces.all(|(tag, piece, reach)| {
                    is_own(tag) || piece.distance(line.a) < LEAVE || !strip.overlaps_segment(*piece, 2.0 * reach)
                })
        };
        let ways = (0..24).map(|way| f64::from(way) * 15.0f64.to_radians());
        ways.flat_map(|angle| [4.0, 7.0, 10.0, 14.0, 18.0, 22.0].map(|far| (angle, far)))
            .any(|(angle, far)| {
                let knee = anchor + Vector::new(angle.cos(), angle.sin()) * far;
                let side = if angle.cos() >= 0.0 { 1.0 } else { -1.0 };
                let near = knee + Vector::new(side * 3.0, 0.0);
                let left = if side > 0.0 { near.x } else { near.x - wide };
                let room = Rect::sized(Point::new(left, near.y - LETTERING / 2.0), wide, tall).grown(CLEAR);
                far + 3.0 <= LONGEST
                    && is_free(&Quad(room.corners()))
                    && is_clear(Segment::new(anchor, knee))
                    && is_clear(Segment::new(knee, near + Vector::new(-side * CLEAR, 0.0)))
            })
    }
}

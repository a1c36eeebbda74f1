//! Everything that wants to be written on the drawing, and where each belongs.

use super::block::{Block, Lead, Line, wrap};
use super::spots::Home;
use super::{joint_words, levels, passage_words, run_words, stretch};
use crate::drawing::Lettering;
use crate::drawing::layout::Layout;
use crate::drawing::lines::Look;
use crate::drawing::picture::{Owner, Picture};
use crate::drawing::tags::Subject;
use crate::drawing::used::{Symbol, SymbolSet};
use crate::job::WordsAt;
use crate::scene::{Point, Quad, Rect, Vector};

/// A label that wants a place.
pub struct Wish {
    /// What it speaks of.
    pub subject: Subject,
    /// Its words.
    pub block: Block,
    /// Where it belongs.
    pub home: Home,
    /// Pipe that its leader may touch.
    pub runs: Vec<usize>,
    /// From where it is put where a person puts it: the middle of a run, a joint, the place of a passage.
    pub anchor: Point,
    /// Where a person put it.
    pub words_at: Option<WordsAt>,
}

impl Wish {
    /// Where a person put its middle.
    pub fn put(&self) -> Option<Point> {
        let at = self.words_at?;
        Some(self.anchor + Vector::new(at.right_mm(), at.down_mm()))
    }
}

/// Letters on a line of a note at most.
const NOTE: usize = 36;

/// All labels of a drawing: joints first, then penetrations, notes and runs.
pub fn all(layout: &Layout<'_>, picture: &Picture, lettering: Lettering, used: &mut SymbolSet) -> Vec<Wish> {
    let mut rooms = vec![Vec::new(); layout.places.len()];
    for (room, owner) in &picture.rooms {
        if let Owner::Symbol(joint) = owner {
            rooms[*joint].push(*room);
        }
    }
    let mut wishes = Vec::new();
    joints(layout, &rooms, used, &mut wishes);
    passages(layout, picture, &mut wishes);
    notes(layout, &rooms, &mut wishes);
    runs(layout, lettering, &mut wishes);
    wishes
}

fn joints(layout: &Layout<'_>, rooms: &[Vec<Quad>], used: &mut SymbolSet, wishes: &mut Vec<Wish>) {
    let mut outlets = vec![None; layout.places.len()];
    for outlet in &layout.study.outlets {
        if let Some(slot) = outlets.get_mut(outlet.joint) {
            *slot = Some(outlet);
        }
    }
    let marked = levels::marked(layout);
    for joint in 0..layout.places.len() {
        let mut lines = joint_words::lines(layout, joint, outlets[joint]);
        if marked[joint] {
            used.insert(Symbol::Elevation);
            let elevation = layout.study.joints[joint].elevation;
            lines.push(Line {
                lead: Lead::Level,
                words: levels::words(elevation, layout.job.settings.units),
            });
        }
        if !lines.is_empty() {
            wishes.push(Wish {
                subject: Subject::Joint(joint),
                block: Block::new(lines),
                home: around(layout, joint, rooms),
                runs: layout.legs_at(joint).map(|leg| leg.run).collect(),
                anchor: layout.places[joint],
                words_at: layout.job.joints.at(joint).words_at,
            });
        }
    }
}

fn around(layout: &Layout<'_>, joint: usize, rooms: &[Vec<Quad>]) -> Home {
    let place = layout.places[joint];
    let mut rooms = rooms[joint].clone();
    rooms.push(Quad(Rect::sized(place, 0.0, 0.0).grown(0.4).corners()));
    Home::Around { place, rooms }
}

fn passages(layout: &Layout<'_>, picture: &Picture, wishes: &mut Vec<Wish>) {
    let mut before = 0;
    for (run, passages) in picture.passages.iter().enumerate() {
        let penetrations = &layout.job.runs.at(run).penetrations;
        for (number, (passage, penetration)) in passages.iter().zip(penetrations).enumerate() {
            wishes.push(Wish {
                subject: Subject::Passage(before + number),
                block: Block::new(passage_words::lines(penetration, layout.job.settings.units)),
                home: Home::Around {
                    place: passage.place,
                    rooms: passage.rooms.clone(),
                },
                runs: vec![run],
                anchor: passage.place,
                words_at: penetration.words_at,
            });
        }
        before += penetrations.len();
    }
}

fn notes(layout: &Layout<'_>, rooms: &[Vec<Quad>], wishes: &mut Vec<Wish>) {
    for (number, note) in layout.job.notes.iter().enumerate() {
        let Some(joint) = layout.job.joints.position(note.at) else {
            continue;
        };
        let lines: Vec<Line> = wrap(&note.text, NOTE).into_iter().map(Line::plain).collect();
        if !lines.is_empty() {
            wishes.push(Wish {
                subject: Subject::Note(number),
                block: Block::new(lines),
                home: around(layout, joint, rooms),
                runs: layout.legs_at(joint).map(|leg| leg.run).collect(),
                anchor: layout.places[joint],
                words_at: note.words_at,
            });
        }
    }
}

fn runs(layout: &Layout<'_>, lettering: Lettering, wishes: &mut Vec<Wish>) {
    for stretch in stretch::stretches(layout) {
        let words = run_words::words(layout, stretch.run, stretch.length, lettering);
        let run = layout.job.runs.at(stretch.run);
        let look = Look::of(run, layout.job.material(run).bends());
        let (half, below) = look.reach();
        // Words that a person put somewhere stay with the run for which they were put.
        let is_put = |run: &&usize| layout.job.runs.at(**run).words_at.is_some();
        let holder = [stretch.run];
        let holder = *holder.iter().chain(&stretch.runs).find(is_put).unwrap_or(&stretch.run);
        wishes.push(Wish {
            subject: Subject::Run(holder),
            block: Block::of_size(words),
            home: Home::Along {
                line: stretch.line,
                half,
                below,
            },
            anchor: layout.legs[holder]
                .as_ref()
                .map_or(stretch.line.at(0.5), |leg| leg.line.at(0.5)),
            words_at: layout.job.runs.at(holder).words_at,
            runs: stretch.runs,
        });
    }
}

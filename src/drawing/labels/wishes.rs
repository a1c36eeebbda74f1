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
use crate::scene::{Quad, Rect};

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
    for (run, passages) in picture.passages.iter().enumerate() {
        let penetrations = &layout.job.runs.at(run).penetrations;
        for (passage, penetration) in passages.iter().zip(penetrations) {
            wishes.push(Wish {
                subject: Subject::Run(run),
                block: Block::new(passage_words::lines(penetration, layout.job.settings.units)),
                home: Home::Around {
                    place: passage.place,
                    rooms: passage.rooms.clone(),
                },
                runs: vec![run],
            });
        }
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
        wishes.push(Wish {
            subject: Subject::Run(stretch.run),
            block: Block::of_size(words),
            home: Home::Along {
                line: stretch.line,
                half,
                below,
            },
            runs: stretch.runs,
        });
    }
}

//! Choosing parts, and moving what is chosen.
//!
//! A click chooses what is nearest; a click again at the same place the next thing that lies there. A drag from open
//! paper chooses what lies inside the box; a drag from a part moves it along the axes, a drag from words puts them
//! somewhere else.

use super::{Draw, Effect, Tool};
use crate::editor::aim::Aim;
use crate::editor::edit::{Stretch, Stretched, Typed, put_words, shift, slide, stretched};
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::input::{Input, Key, Pointer, Words};
use crate::editor::legs::Flow;
use crate::editor::look::Look;
use crate::editor::toward::times;
use crate::editor::{CommandId, Part, Plane, Refusal, Selection, Spot, Step};
use crate::job::{Direction, Joint, RunId};
use crate::scene::{Point, Rect};

/// Choosing and moving.
#[derive(Clone, Debug, PartialEq)]
pub enum Choose {
    /// Nothing is going on.
    Idle(Clicked),
    /// The button went down and the pointer has not moved away yet.
    Pressed(Pointer, Clicked),
    /// A box is drawn from this corner.
    Boxing(Point),
    /// What is chosen is dragged, held at this point.
    Moving(Point),
    /// A passage is dragged along its run.
    Sliding(RunId, usize),
    /// Words are dragged, held at this point.
    Carrying(Words, Point),
}

/// So far, in lattice steps, a hand may slip without meaning a drag or another place.
const SLACK: f64 = 0.3;

/// The last click, so that the next one at the same place can choose another thing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Clicked {
    at: Pointer,
    /// How many clicks there were.
    count: usize,
}

impl Default for Choose {
    fn default() -> Choose {
        Choose::Idle(Clicked::default())
    }
}

impl Choose {
    /// The state after an input, and what is to be done.
    pub fn transition(self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        if let Input::Key(key) = input {
            return self.key(*key, look);
        }
        let Some(pointer) = look.pointer else {
            return (Tool::Choose(self), Vec::new());
        };
        let mut effects = Vec::new();
        let next = match (self, input) {
            (Choose::Idle(clicked), Input::Press) => Choose::Pressed(pointer.clone(), clicked),
            (Choose::Pressed(from, clicked), Input::Pointer(_)) => {
                if from.at.distance(pointer.at) < look.view.step * SLACK {
                    Choose::Pressed(from, clicked)
                } else {
                    drag(&from, look, &mut effects)
                }
            }
            (Choose::Pressed(_, clicked), Input::Release) => Choose::Idle(click(clicked, pointer, look, &mut effects)),
            (Choose::Boxing(from), Input::Release) => {
                let mut inside = parts_in(Rect::new(from, pointer.at), look);
                if look.held.add {
                    inside.extend(look.selection.iter());
                }
                effects.push(Effect::Select(inside));
                Choose::default()
            }
            (state @ (Choose::Moving(_) | Choose::Sliding(..) | Choose::Carrying(..)), Input::Release) => {
                let told = state
                    .lengths(look)
                    .and_then(|lengths| done_words(&lengths, typed(look), look));
                match state.plan(look) {
                    Some(Ok(step)) => {
                        effects.push(Effect::Apply(step));
                        effects.extend(told.map(Effect::Tell));
                    }
                    Some(Err(refusal)) => effects.push(Effect::Say(refusal)),
                    None => {}
                }
                Choose::default()
            }
            (state, _) => state,
        };
        (Tool::Choose(next), effects)
    }

    fn key(self, key: Key, look: &Look) -> (Tool, Vec<Effect>) {
        let idle = Tool::Choose(Choose::default());
        match (key, look.selection.single()) {
            (Key::Escape, _) => match self {
                Choose::Idle(_) => (idle, vec![Effect::Select(Selection::none())]),
                _ => (idle, Vec::new()),
            },
            (Key::Way(toward), _) if !look.selection.is_empty() => match nudge(toward.way(), look) {
                Ok(step) => {
                    let lengths = stretched(look.job, &look.selection.places(look.job), toward.way(), stretch(look));
                    let told = done_words(&lengths, Typed::Kept, look).map(Effect::Tell);
                    (idle, std::iter::once(Effect::Apply(step)).chain(told).collect())
                }
                Err(refusal) => (idle, vec![Effect::Say(refusal)]),
            },
            (Key::Next | Key::Previous, chosen) => match Flow::neighbor(look.job, chosen, key, |_| true) {
                Some(part) => (idle, vec![Effect::Select([part].into_iter().collect())]),
                None => (idle, Vec::new()),
            },
            (Key::Enter, Some(Part::Joint(id))) => match look.job.joints.get(id) {
                Some(joint) => Draw::put_down(Spot::at(joint.at), look),
                None => (idle, vec![Effect::Say(Refusal::Gone(Part::Joint(id)))]),
            },
            (Key::Enter, Some(Part::Run(_))) => (Tool::draw(look), Vec::new()),
            _ => (Tool::Choose(self), Vec::new()),
        }
    }

    fn plan(&self, look: &Look) -> Option<Result<Step, Refusal>> {
        match self {
            Choose::Moving(from) => {
                let by = moved_by(*from, look)?;
                Some(shift(
                    look.job,
                    &look.selection.places(look.job),
                    by,
                    stretch(look),
                    typed(look),
                ))
            }
            Choose::Sliding(run, passage) => {
                let (along, _) = look.along(look.job.runs.get(*run)?, look.pointer?.at)?;
                Some(slide(look.job, *run, *passage, along))
            }
            Choose::Carrying(words, from) => {
                let moved = words.moved(look.pointer?.at - *from);
                Some(put_words(look.job, words.part, Some(moved.at())))
            }
            Choose::Idle(_) | Choose::Pressed(..) | Choose::Boxing(_) => None,
        }
    }

    /// The typed lengths that the move stretches.
    fn lengths(&self, look: &Look) -> Option<Vec<Stretched>> {
        match self {
            Choose::Moving(from) => {
                let by = moved_by(*from, look)?;
                Some(stretched(look.job, &look.selection.places(look.job), by, stretch(look)))
            }
            _ => None,
        }
    }

    /// What would be done next.
    pub fn hint(&self, look: &Look) -> Hint {
        match self {
            Choose::Idle(_) | Choose::Pressed(..) => Hint {
                words: idle_words(look),
                ..Hint::default()
            },
            Choose::Boxing(from) => {
                let frame = look.pointer.map(|pointer| Rect::new(*from, pointer.at));
                Hint {
                    words: "Release: select everything inside the box".to_owned(),
                    ghost: Ghost {
                        frame,
                        ..Ghost::default()
                    },
                    step: None,
                }
            }
            Choose::Moving(_) | Choose::Sliding(..) | Choose::Carrying(..) => self.moving_hint(look),
        }
    }

    fn moving_hint(&self, look: &Look) -> Hint {
        let (step, lengths) = (self.plan(look), self.lengths(look));
        let words = match &step {
            None => "Drag along an axis to move the selection".to_owned(),
            Some(Ok(step)) => {
                let lengths = lengths
                    .as_deref()
                    .and_then(|lengths| move_words(lengths, typed(look), look));
                format!("Release: {}{}", lower(step.name()), lengths.unwrap_or_default())
            }
            Some(Err(refusal)) => refusal.to_string(),
        };
        let lines = match (&step, self) {
            // Words that move leave the pipe where it is.
            (_, Choose::Carrying(..)) | (None | Some(Err(_)), _) => Vec::new(),
            (Some(Ok(step)), _) => Ghost::lines_of(look.job, step),
        };
        let passage = match self {
            Choose::Sliding(run, _) => look.job.runs.get(*run).zip(look.pointer).and_then(|(run, pointer)| {
                let (_, share) = look.along(run, pointer.at)?;
                Some((run.id, share))
            }),
            _ => None,
        };
        let frame = match self {
            Choose::Carrying(words, from) => look.pointer.map(|pointer| words.moved(pointer.at - *from).room),
            _ => None,
        };
        let at_runs = lengths
            .into_iter()
            .flatten()
            .map(|it| (it.run, length_words(&it, typed(look), look)));
        let ghost = Ghost {
            lines,
            passage,
            frame,
            at_runs: at_runs.collect(),
            refused: matches!(step, Some(Err(_))),
            ..Ghost::default()
        };
        Hint { words, ghost, step }
    }
}

/// What a click at the pointer chooses.
fn click(last: Clicked, pointer: &Pointer, look: &Look, effects: &mut Vec<Effect>) -> Clicked {
    let again = last.count > 0
        && last.at.hits == pointer.hits
        && last.at.at.distance(pointer.at) < look.view.step * SLACK
        && !look.held.add;
    let count = if again { last.count } else { 0 };
    let part = pointer.hits.get(count % pointer.hits.len().max(1)).copied();
    match part {
        Some(part) if look.held.add => {
            let mut chosen = look.selection.clone();
            chosen.toggle(part);
            effects.push(Effect::Select(chosen));
        }
        None if look.held.add => {}
        part => effects.push(Effect::Select(part.into_iter().collect())),
    }
    Clicked {
        at: pointer.clone(),
        count: count + 1,
    }
}

/// What a drag that began there does: move what is chosen there, else what is nearest there, else draw a box.
fn drag(from: &Pointer, look: &Look, effects: &mut Vec<Effect>) -> Choose {
    if let Some(words) = from.words_meant() {
        effects.push(Effect::Select([words.part].into_iter().collect()));
        return Choose::Carrying(words, from.at);
    }
    let chosen = from.hits.iter().copied().find(|part| look.selection.contains(*part));
    let Some(part) = chosen.or(from.hits.first().copied()) else {
        return Choose::Boxing(from.at);
    };
    if chosen.is_none() {
        effects.push(Effect::Select([part].into_iter().collect()));
    }
    match part {
        Part::Penetration(run, passage) => Choose::Sliding(run, passage),
        Part::Joint(_) | Part::Run(_) | Part::Note(_) => Choose::Moving(from.at),
    }
}

fn moved_by(from: Point, look: &Look) -> Option<Direction> {
    let to = look.pointer?.at;
    if look.held.skew {
        let plane = Plane {
            through: Default::default(),
            ..look.plane
        };
        let by = plane.place(look.view, look.view.origin + (to - from)) - Default::default();
        return (!by.is_zero()).then_some(by);
    }
    let free = Pointer {
        at: look.view.origin + (to - from),
        ..Pointer::default()
    };
    let look = Look {
        pointer: Some(&free),
        ..*look
    };
    let Aim { way, steps, .. } = look.aim(Default::default())?;
    Some(times(way, steps))
}

fn stretch(look: &Look) -> Stretch {
    if look.held.skew {
        Stretch::Loose
    } else {
        Stretch::Straight
    }
}

/// What becomes of typed lengths: with the key that adds held they are measured anew.
fn typed(look: &Look) -> Typed {
    match look.held.add {
        true => Typed::Measured,
        false => Typed::Kept,
    }
}

/// A name within a sentence.
fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters
        .next()
        .map_or(String::new(), |first| first.to_lowercase().chain(letters).collect())
}

/// What becomes of one typed length.
fn length_words(it: &Stretched, typed: Typed, look: &Look) -> String {
    match (typed, it.measured) {
        (Typed::Measured, Some(now)) => format!("{} → {}", look.show(it.was), look.show(now)),
        (Typed::Kept, _) | (Typed::Measured, None) => format!("{} stays", look.show(it.was)),
    }
}

/// What is said of the typed lengths while something is moved.
fn move_words(lengths: &[Stretched], typed: Typed, look: &Look) -> Option<String> {
    let first = lengths.first()?;
    let more = match lengths.len() {
        1 => String::new(),
        many => format!(" and {} more", many - 1),
    };
    let words = length_words(first, typed, look);
    Some(match (typed, first.measured) {
        (Typed::Kept, Some(now)) => {
            format!(
                "; {words}{more}: only the drawing changes. Hold Ctrl to re-measure: {}",
                look.show(now)
            )
        }
        (Typed::Kept, None) => format!("; {words}{more}: only the drawing changes"),
        (Typed::Measured, _) => format!("; {words}{more}"),
    })
}

/// What is said of them afterwards.
fn done_words(lengths: &[Stretched], typed: Typed, look: &Look) -> Option<String> {
    lengths.first()?;
    let all: Vec<String> = lengths
        .iter()
        .take(3)
        .map(|it| format!("{} {}", it.run, length_words(it, typed, look)))
        .collect();
    let more = match lengths.len() {
        0..=3 => String::new(),
        many => format!(" and {} more", many - 3),
    };
    let all = all.join(", ") + &more;
    Some(match typed {
        Typed::Kept => {
            format!("Moved on the drawing only; typed lengths: {all}. Hold Ctrl while you drag to re-measure")
        }
        Typed::Measured => format!("Moved and re-measured: {all}"),
    })
}

fn nudge(by: Direction, look: &Look) -> Result<Step, Refusal> {
    shift(
        look.job,
        &look.selection.places(look.job),
        by,
        stretch(look),
        Typed::Kept,
    )
}

/// Joints whose place is inside a box of paper, and runs with both ends inside.
fn parts_in(area: Rect, look: &Look) -> Selection {
    let inside = |joint: &Joint| area.contains(look.view.point(joint.at));
    let joints: Vec<bool> = look.job.joints.iter().map(inside).collect();
    let end = |id| look.job.joints.position(id).is_some_and(|at| joints[at]);
    let runs = look.job.runs.iter().filter(|run| end(run.from) && end(run.to));
    let chosen = look.job.joints.iter().zip(&joints).filter(|(_, inside)| **inside);
    chosen
        .map(|(joint, _)| Part::Joint(joint.id))
        .chain(runs.map(|run| Part::Run(run.id)))
        .collect()
}

/// What to begin with.
fn nothing_drawn() -> String {
    let keys = CommandId::DrawPipe.row().and_then(|row| row.keys.first());
    let keys = keys.map(|keys| format!("{keys}: ")).unwrap_or_default();
    format!("Nothing is drawn yet. Place a point of delivery; then {keys}draw pipe from it")
}

fn idle_words(look: &Look) -> String {
    let hits = look.pointer.map_or(&[][..], |pointer| &pointer.hits);
    let words = look.pointer.and_then(Pointer::words_meant);
    let drag = if words.is_some() { "move its label" } else { "move it" };
    let click = match hits {
        [part, _, ..] => format!("Click: select {part}, again for what is under it; drag: {drag}"),
        [part] => format!("Click: select {part}; drag: {drag}"),
        [] if look.job.joints.is_empty() => nothing_drawn(),
        [] if look.selection.is_empty() => {
            "Click a part to select it; drag a box to select everything inside it".to_owned()
        }
        [] => "Click here: clear the selection; arrow keys: move the selection".to_owned(),
    };
    match look.selection.single() {
        Some(part @ (Part::Joint(_) | Part::Run(_))) => {
            format!("Enter: draw pipe from {part}; Ctrl+Enter: its fields. {click}")
        }
        _ => click,
    }
}

//! Drawing pipe: from a start, leg by leg, by pointer or by keys.
//!
//! Press or click where pipe starts; the pencil then follows the six ways of the axes. A click lays the run as shown,
//! Enter too; a length typed at any moment is its true length. The next leg starts where the last one ended, until it
//! ends on what was there before. Backspace takes back the last leg, Escape ends.

mod hint;

use super::{CLICK_OR_ENTER, ENTER, Effect, Tool, type_on};
use crate::editor::aim::{Aim, Measure};
use crate::editor::check::ends_of;
use crate::editor::edit::{Lay, Pen, lay};
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::input::{Input, Key};
use crate::editor::look::Look;
use crate::editor::tee::Tee;
use crate::editor::toward::times;
use crate::editor::typed::Typed;
use crate::editor::{Flow, Held, Part, Refusal, Spot, Standing, Step};
use crate::job::{Device, JointId, LatticePoint, Run};
use crate::units::{NominalSize, Parse};

/// Drawing pipe.
#[derive(Clone, Debug, PartialEq)]
pub enum Draw {
    /// Looking for the place where pipe starts.
    Seeking(Start),
    /// The start is set; the pencil points on from it.
    Drawing(Pencil),
}

/// Where pipe is to start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// Where the pointer is.
    Pointer,
    /// Where the direction keys have led.
    Cursor(LatticePoint),
}

/// The pencil on its way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pencil {
    /// Where the leg starts.
    pub start: Spot,
    /// Where it points.
    pub aim: Option<Aim>,
    /// What was typed of its length.
    pub typed: String,
    /// The legs laid since the pencil was put down.
    pub laid: Vec<Laid>,
    /// Whether the button that set the start is still down.
    grip: Grip,
}

/// A leg that was laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Laid {
    /// Where it started.
    pub start: Spot,
    /// How many steps were done once it was laid.
    pub depth: usize,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Grip {
    Down,
    #[default]
    Up,
}

impl Draw {
    /// A pencil that starts at the chosen joint, in the middle of the chosen run, or where the pointer will be.
    pub fn new(look: &Look) -> Draw {
        Draw::Seeking(
            match look.selection.single() {
                Some(Part::Joint(id)) => look.job.joints.get(id).map(|joint| joint.at),
                Some(Part::Run(id)) => look.middle(id),
                _ => None,
            }
            .map_or(Start::Pointer, Start::Cursor),
        )
    }

    /// Puts the pencil down at a spot, if pipe can start there.
    pub fn put_down(spot: Spot, look: &Look) -> (Tool, Vec<Effect>) {
        pencil_down(spot, Grip::Up, look)
    }

    /// The state after an input, and what is to be done.
    pub fn transition(self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        match self {
            Draw::Seeking(start) => seek(start, input, look),
            Draw::Drawing(pencil) => pencil.transition(input, look),
        }
    }

    /// What would be done next.
    pub fn hint(&self, look: &Look) -> Hint {
        match self {
            Draw::Seeking(start) => {
                let Some(spot) = start.spot(look) else {
                    return Hint {
                        words: "Click where pipe starts, or find the place with the arrow keys".to_owned(),
                        ..Hint::default()
                    };
                };
                let standing = spot.standing(look.job);
                let refusal = can_start(standing, look).err();
                let does = match start {
                    Start::Pointer => CLICK_OR_ENTER,
                    Start::Cursor(_) => ENTER,
                };
                Hint {
                    ghost: Ghost {
                        refused: refusal.is_some() && *start == Start::Pointer,
                        ..Ghost::default().at(spot.at, standing)
                    },
                    words: match refusal {
                        // Nobody has meant to draw on from where something was just placed.
                        Some(_) if matches!(start, Start::Cursor(_)) => {
                            format!(
                                "At {standing}. Point where the next pipe starts, or find the place with the arrow keys"
                            )
                        }
                        Some(refusal) => refusal.to_string(),
                        None => format!("{does}: pipe starts at {standing}"),
                    },
                    step: None,
                }
            }
            Draw::Drawing(pencil) => pencil.hint(look),
        }
    }

    /// The state after the step at this depth was taken back: without the last leg if it was that, else the line goes on
    /// from where it stands.
    pub fn taken_back(self, depth: usize) -> Draw {
        match self {
            Draw::Drawing(mut pencil) => match pencil.laid.last().copied() {
                Some(laid) if laid.depth == depth => {
                    pencil.laid.pop();
                    pencil.goes_on_from(laid.start)
                }
                Some(_) => Draw::Drawing(pencil),
                None => Draw::Seeking(Start::Cursor(pencil.start.at)),
            },
            seeking @ Draw::Seeking(_) => seeking,
        }
    }

    /// The state after a step was done again: if it was the next leg of the line, the line goes on from its end.
    pub fn done_again(self, step: &Step, look: &Look) -> Draw {
        let mut pencil = match self {
            Draw::Drawing(pencil) => pencil,
            seeking @ Draw::Seeking(_) => return seeking,
        };
        let place = |id: JointId| Some(look.job.joints.get(id)?.at);
        let leg = |run: &Run| match (place(run.from)?, place(run.to)?) {
            (from, to) if from == pencil.start.at => Some((run.to, to)),
            (from, to) if to == pencil.start.at => Some((run.from, from)),
            _ => None,
        };
        let added: Vec<Part> = step.added().collect();
        let runs = added.iter().filter_map(|part| look.job.runs.get(part.run()?));
        let ends = runs.filter_map(leg).find(|(end, _)| added.contains(&Part::Joint(*end)));
        let Some((_, at)) = ends else {
            return Draw::Drawing(pencil);
        };
        pencil.laid.push(Laid {
            start: pencil.start,
            depth: look.depth,
        });
        pencil.goes_on_from(Spot::at(at))
    }

    /// What was typed so far.
    pub fn typed(&self) -> &str {
        match self {
            Draw::Seeking(_) => "",
            Draw::Drawing(pencil) => &pencil.typed,
        }
    }
}

impl Start {
    fn spot(self, look: &Look) -> Option<Spot> {
        match self {
            Start::Pointer => look.spot(),
            Start::Cursor(at) => Some(Spot::at(at)),
        }
    }
}

fn seek(start: Start, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
    let here = start.spot(look).map_or(look.plane.through, |spot| spot.at);
    let seeking = |start| (Tool::Draw(Draw::Seeking(start)), Vec::new());
    match input {
        Input::Pointer(_) => seeking(Start::Pointer),
        Input::Press | Input::Key(Key::Enter) => {
            let (start, grip) = match input {
                Input::Press => (Start::Pointer, Grip::Down),
                _ => (start, Grip::Up),
            };
            pencil_down(start.spot(look).unwrap_or(Spot::at(here)), grip, look)
        }
        Input::Key(Key::Way(toward)) => seeking(Start::Cursor(here + toward.way())),
        Input::Key(key @ (Key::Next | Key::Previous)) => {
            // From what is chosen, which the details show, else from the place itself.
            let here = look.selection.single().or(match Spot::at(here).standing(look.job) {
                Standing::Joint(joint) => Some(Part::Joint(joint)),
                Standing::Run(run) => Some(Part::Run(run)),
                Standing::Open => None,
            });
            let next = Flow::neighbor(look.job, here, *key, |_| true);
            let place = next.and_then(|part| match part {
                Part::Joint(id) => look.job.joints.get(id).map(|joint| joint.at),
                part => {
                    let run = look.job.runs.get(part.run()?)?;
                    look.middle(run.id).or(Some(look.ends(run)?[0]))
                }
            });
            let (tool, _) = seeking(place.map_or(start, Start::Cursor));
            (tool, vec![Effect::Select(next.into_iter().collect())])
        }
        Input::Key(Key::Escape) => (Tool::default(), Vec::new()),
        _ => seeking(start),
    }
}

fn pencil_down(start: Spot, grip: Grip, look: &Look) -> (Tool, Vec<Effect>) {
    match can_start(start.standing(look.job), look) {
        Err(refusal) => {
            let seeking = Draw::Seeking(Start::Cursor(start.at));
            (Tool::Draw(seeking), vec![Effect::Say(refusal)])
        }
        Ok(()) => {
            let pencil = Pencil {
                start,
                grip,
                ..Pencil::default()
            };
            (Tool::Draw(Draw::Drawing(pencil)), vec![Effect::Through(start.at)])
        }
    }
}

/// Refuses a start on a device without a free end. A cap comes off.
fn can_start(standing: Standing, look: &Look) -> Result<(), Refusal> {
    let Standing::Joint(joint) = standing else {
        return Ok(());
    };
    let placed = look.job.joints.get(joint).and_then(|joint| joint.placed.as_ref());
    let Some(device) = placed
        .map(|placed| &placed.device)
        .filter(|device| !matches!(device, Device::Cap(_)))
    else {
        return Ok(());
    };
    let runs = look
        .job
        .runs
        .iter()
        .filter(|run| run.from == joint || run.to == joint)
        .count();
    match ends_of(device) {
        Some((most, _)) if runs >= most => Err(Refusal::NoEndLeft {
            joint: joint.into(),
            device: device.name(),
        }),
        _ => Ok(()),
    }
}

impl Pencil {
    fn transition(mut self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        match input {
            // What is typed of the tee is not taken for a length of pipe because a hand moved.
            Input::Pointer(_) if self.is_asked(look) && !self.typed.is_empty() => {}
            Input::Pointer(_) => self.aim = self.pointed(look),
            // Shift is let go to type: what is aslant stays so until the pointer moves.
            Input::Held(held)
                if self
                    .aim
                    .is_some_and(|aim| aim.by == Measure::Pointer && (held.skew || aim.way.axis().is_some())) =>
            {
                self.aim = self.pointed(look);
            }
            Input::Held(_) => {}
            Input::Press => return self.click(look),
            Input::Release => {
                if self.grip == Grip::Down && self.aim.is_some() {
                    self.grip = Grip::Up;
                    return self.lay(look);
                }
                self.grip = Grip::Up;
            }
            Input::Text(' ') if self.typed.is_empty() => self.aim = self.aim.map(|aim| aim.longer(1)),
            Input::Text(character) => {
                type_on(&mut self.typed, *character);
                if self.types_offset() && self.aim.is_some_and(|aim| aim.by == Measure::Pointer) {
                    self.aim = self.pointed(look);
                }
            }
            Input::Key(key) => return self.key(*key, look),
        }
        self.goes_on()
    }

    /// Where the pointer points: aslant too while an offset is typed.
    fn pointed(&self, look: &Look) -> Option<Aim> {
        let held = Held {
            skew: look.held.skew || self.types_offset(),
            ..look.held
        };
        Look { held, ..*look }.aim(self.start.at)
    }

    fn types_offset(&self) -> bool {
        self.typed.contains(Typed::OFFSET_SIGNS)
    }

    /// The tee with which the line starts, where it is cut into a run of typed length.
    fn tee(&self, look: &Look) -> Option<Tee> {
        Tee::at(self.start, look)
    }

    /// Whether what is typed says where that tee is: until the line is led away from it.
    fn is_asked(&self, look: &Look) -> bool {
        self.aim.is_none() && self.tee(look).is_some()
    }

    /// Takes what was typed of the tee.
    fn measured(mut self, tee: Tee, look: &Look) -> (Tool, Vec<Effect>) {
        match tee.typed(&self.typed, self.start, look) {
            Ok(start) => {
                self.start = start;
                self.typed.clear();
                self.goes_on()
            }
            Err(refusal) => (Tool::Draw(Draw::Drawing(self)), vec![Effect::Say(refusal)]),
        }
    }

    fn key(mut self, key: Key, look: &Look) -> (Tool, Vec<Effect>) {
        if let (Key::Enter | Key::Way(_), Some(tee), false) = (key, self.tee(look), self.typed.is_empty())
            && self.aim.is_none()
        {
            let (tool, effects) = self.measured(tee, look);
            return match (tool, key) {
                (Tool::Draw(Draw::Drawing(pencil)), Key::Way(_)) if effects.is_empty() => pencil.key(key, look),
                (tool, _) => (tool, effects),
            };
        }
        match key {
            Key::Enter if self.aim.is_none() && self.typed.is_empty() => return self.ends(look),
            Key::Enter => return self.lay(look),
            Key::Backspace if self.typed.pop().is_some() => {}
            Key::Backspace => {
                return match self.laid.last() {
                    Some(laid) if laid.depth == look.depth => (Tool::Draw(Draw::Drawing(self)), vec![Effect::TakeBack]),
                    _ => (Tool::Draw(Draw::Seeking(Start::Cursor(self.start.at))), Vec::new()),
                };
            }
            Key::Escape if !self.typed.is_empty() => self.typed.clear(),
            Key::Escape => return self.ends(look),
            Key::Way(toward) if look.held.skew => self.aim = Aim::end_key(self.aim, toward),
            Key::Way(toward) => self.aim = Some(Aim::key(self.aim, toward)),
            Key::Longer => self.aim = self.aim.map(|aim| aim.longer(1)),
            Key::Shorter => self.aim = self.aim.map(|aim| aim.longer(-1)),
            Key::Other | Key::Next | Key::Previous | Key::Arrow(_) => {}
        }
        self.goes_on()
    }

    /// The same line, to be drawn on from a spot.
    fn goes_on_from(self, start: Spot) -> Draw {
        Draw::Drawing(Pencil {
            start,
            laid: self.laid,
            ..Pencil::default()
        })
    }

    fn goes_on(self) -> (Tool, Vec<Effect>) {
        (Tool::Draw(Draw::Drawing(self)), Vec::new())
    }

    /// A click where the pencil stands ends the line; anywhere else it lays the run.
    fn click(self, look: &Look) -> (Tool, Vec<Effect>) {
        if let (Some(tee), None, false) = (self.tee(look), self.aim, self.typed.is_empty()) {
            self.measured(tee, look)
        } else if self.aim.is_none() {
            self.ends(look)
        } else {
            self.lay(look)
        }
    }

    /// The pencil is taken up; the joint where it stood is chosen.
    fn ends(self, look: &Look) -> (Tool, Vec<Effect>) {
        let at = self.start.at;
        let effects = match self.start.standing(look.job) {
            Standing::Joint(joint) => vec![Effect::Select([Part::Joint(joint)].into_iter().collect())],
            Standing::Run(_) | Standing::Open => Vec::new(),
        };
        (Tool::Draw(Draw::Seeking(Start::Cursor(at))), effects)
    }

    fn lay(mut self, look: &Look) -> (Tool, Vec<Effect>) {
        let (step, end) = match (self.plan(look), self.end(look)) {
            (Ok(step), Some(end)) => (step, end),
            (Err(refusal), _) => return (Tool::Draw(Draw::Drawing(self)), vec![Effect::Say(refusal)]),
            (_, None) => return (Tool::Draw(Draw::Drawing(self)), vec![Effect::Say(Refusal::NoDirection)]),
        };
        let mut effects = vec![
            Effect::Apply(step),
            Effect::SelectLaid([self.start.at, end.at]),
            Effect::Through(end.at),
        ];
        effects.extend(self.pen(look).ok().map(Effect::Take));
        let cuts = [self.start, end].map(|spot| Some(Tee::at(spot, look)?.told(spot, look)));
        let told: Vec<String> = cuts.into_iter().flatten().collect();
        if !told.is_empty() {
            effects.push(Effect::Tell(told.join(". ")));
        }
        if end.standing(look.job) != Standing::Open {
            return (Tool::Draw(Draw::Seeking(Start::Cursor(end.at))), effects);
        }
        self.laid.push(Laid {
            start: self.start,
            depth: look.depth + 1,
        });
        (Tool::Draw(self.goes_on_from(Spot::at(end.at))), effects)
    }

    /// What was typed of the run, drawn as it points now.
    fn read(&self, look: &Look) -> Result<Typed, Refusal> {
        let way = self.aim.map(|aim| times(aim.way, aim.steps));
        Typed::read(self.split().0, way, look.job.settings.units)
    }

    /// What was typed of its length, and of its size after a comma. A comma before three figures groups thousands.
    fn split(&self) -> (&str, Option<&str>) {
        let groups = |size: &str| size.len() == 3 && size.bytes().all(|letter| letter.is_ascii_digit());
        match self.typed.rsplit_once(',') {
            Some((length, size)) if !groups(size) => (length, Some(size.trim())),
            _ => (&self.typed, None),
        }
    }

    /// What the run is like: as the pen, but for a size that was typed.
    fn pen(&self, look: &Look) -> Result<Pen, Refusal> {
        let size = match self.split().1 {
            None | Some("") => look.pen.size,
            Some(size) => Some(NominalSize::parse(size)?),
        };
        Ok(Pen {
            size,
            ..look.pen.clone()
        })
    }

    /// Where the run will end.
    fn end(&self, look: &Look) -> Option<Spot> {
        let aim = self.aim?;
        let aim = match (aim.by, self.read(look)) {
            (Measure::Scale, Ok(Typed::Length(length))) => aim.to_scale(length, look.job.settings.step),
            _ => aim,
        };
        let on = look
            .pointer
            .and_then(|pointer| pointer.hits.iter().find_map(|hit| hit.run()));
        let at = self.start.at + times(aim.way, aim.steps);
        Some(Spot { at, on, along: None })
    }

    fn plan(&self, look: &Look) -> Result<Step, Refusal> {
        let (length, offset) = match self.read(look)? {
            Typed::Nothing => (None, None),
            Typed::Length(length) => (Some(length), None),
            Typed::Offset(offset) => (None, Some(offset)),
        };
        let what = Lay {
            from: self.start,
            to: self.end(look).ok_or(Refusal::NoDirection)?,
            length,
            offset,
            pen: self.pen(look)?,
        };
        lay(look.job, &what)
    }
}

//! Drawing pipe: from a start, leg by leg, by pointer or by keys.
//!
//! Press or click where pipe starts; the pencil then follows the six ways of the axes. A click lays the run as shown,
//! Enter too; a length typed at any moment is its true length. The next leg starts where the last one ended, until it
//! ends on what was there before. Backspace takes back the last leg, Escape ends.

use super::{CLICK_OR_ENTER, ENTER, Effect, Tool, type_on};
use crate::editor::aim::{Aim, Measure};
use crate::editor::check::ends_of;
use crate::editor::edit::{Lay, lay};
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::input::{Input, Key};
use crate::editor::look::Look;
use crate::editor::tee::Tee;
use crate::editor::toward::{spelled, times};
use crate::editor::typed::Typed;
use crate::editor::{Held, Part, Refusal, Spot, Standing, Step, Toward};
use crate::job::{Device, LatticePoint};

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
                        refused: refusal.is_some(),
                        ..Ghost::default().at(spot.at, standing)
                    },
                    words: match refusal {
                        Some(refusal) => refusal.to_string(),
                        None => format!("{does}: pipe starts at {standing}"),
                    },
                    step: None,
                }
            }
            Draw::Drawing(pencil) => pencil.hint(look),
        }
    }

    /// The state after the step at this depth was taken back.
    pub fn taken_back(self, depth: usize) -> Draw {
        match self {
            Draw::Drawing(mut pencil) => match pencil.laid.pop() {
                Some(laid) if laid.depth == depth => Draw::Drawing(Pencil {
                    start: laid.start,
                    aim: None,
                    typed: String::new(),
                    ..pencil
                }),
                _ => Draw::Seeking(Start::Cursor(pencil.start.at)),
            },
            seeking @ Draw::Seeking(_) => seeking,
        }
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
        Input::Key(Key::Next | Key::Previous) => {
            let mut joints: Vec<LatticePoint> = look.job.joints.iter().map(|joint| joint.at).collect();
            if *input == Input::Key(Key::Previous) {
                joints.reverse();
            }
            let next = joints.iter().position(|at| *at == here).map_or(0, |at| at + 1);
            let next = joints.get(next).or(joints.first());
            seeking(next.map_or(start, |at| Start::Cursor(*at)))
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
            Key::Clockwise => self.aim = Some(turned(self.aim, Toward::clockwise)),
            Key::Counterclockwise => self.aim = Some(turned(self.aim, counterclockwise)),
            Key::Longer => self.aim = self.aim.map(|aim| aim.longer(1)),
            Key::Shorter => self.aim = self.aim.map(|aim| aim.longer(-1)),
            Key::Other | Key::Next | Key::Previous => {}
        }
        self.goes_on()
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
        let mut effects = vec![Effect::Apply(step), Effect::Through(end.at)];
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
        let pencil = Pencil {
            start: Spot::at(end.at),
            laid: self.laid,
            ..Pencil::default()
        };
        (Tool::Draw(Draw::Drawing(pencil)), effects)
    }

    /// What was typed of the run, drawn as it points now.
    fn read(&self, look: &Look) -> Result<Typed, Refusal> {
        let way = self.aim.map(|aim| times(aim.way, aim.steps));
        Typed::read(&self.typed, way, look.job.settings.units)
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
            pen: look.pen.clone(),
        };
        lay(look.job, &what)
    }

    fn hint(&self, look: &Look) -> Hint {
        let typing = self.typed.trim();
        let Some(end) = self.end(look) else {
            let standing = self.start.standing(look.job);
            let tee = self.tee(look);
            let words = match (typing, tee) {
                (_, Some(tee)) if self.start.along.is_none() || !typing.is_empty() => {
                    format!("{}; or draw on", tee.question(look))
                }
                ("", _) => format!("From {standing}: point or press an arrow key; a click here, Enter or Esc ends"),
                (typed, _) => format!("{typed}: give a direction, then Enter"),
            };
            let measured = tee.map(|tee| match typing {
                "" if self.start.along.is_none() => tee.asked(look),
                "" => tee.parts(look),
                typed => typed.to_owned(),
            });
            let ghost = Ghost {
                words: measured,
                ..Ghost::default().at(self.start.at, standing)
            };
            return Hint {
                words,
                ghost,
                step: None,
            };
        };
        let (plan, to) = (self.plan(look), end.standing(look.job));
        let drawn = look.job.settings.step.times((end.at - self.start.at).steps());
        let length = match self.read(look) {
            Ok(Typed::Nothing) => look.show(drawn),
            Ok(Typed::Length(length)) => look.show(length),
            Ok(Typed::Offset(offset)) => offset
                .made(None)
                .map_or(typing.to_owned(), |made| look.show(made.travel)),
            Err(_) => typing.to_owned(),
        };
        let way = spelled(end.at - self.start.at);
        let does = match self.aim.map(|aim| aim.by) {
            Some(Measure::Pointer) => CLICK_OR_ENTER,
            Some(Measure::Keys | Measure::Scale) | None => ENTER,
        };
        let words = match &plan {
            Ok(_) if typing.is_empty() && (end.at - self.start.at).axis().is_none() => format!(
                "{does}: draw {length} {way} to {to}; or first type its true length, or rise x roll @ angle (8\"x12\"@45)"
            ),
            Ok(_) if typing.is_empty() => format!("{does}: draw {length} {way} to {to}; or first type its true length"),
            Ok(_) => format!("{does}: draw {length} {way} to {to}, as shown"),
            Err(refusal) => refusal.to_string(),
        };
        let ghost = Ghost {
            lines: vec![[self.start.at, end.at]],
            words: Some(length),
            refused: plan.is_err(),
            ..Ghost::default().at(end.at, to)
        };
        Hint {
            words,
            ghost,
            step: Some(plan),
        }
    }
}

fn turned(aim: Option<Aim>, turn: fn(Toward) -> Toward) -> Aim {
    let toward = aim.and_then(|aim| Toward::of(aim.way)).map_or(Toward::East, turn);
    Aim::key(None, toward)
}

fn counterclockwise(toward: Toward) -> Toward {
    (0..5).fold(toward, |toward, _| toward.clockwise())
}

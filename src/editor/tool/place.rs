//! Placing a thing of the palette: a device on a joint or in a run, a passage on a run, a note at a joint.
//!
//! The place is where the pointer is, or the part that was chosen or found with the keys. What is typed is the distance
//! of a passage from the run's `from` end, or the words of a note. What is placed is as the pipe is, existing where that
//! is. The thing stays in hand until Escape; where a line is in hand its pencil comes back, and after a point of delivery,
//! of which there is one, the tool before.

use super::{CLICK_OR_ENTER, Draw, ENTER, Effect, Start, Tool, type_on};
use crate::editor::check::ends_of;
use crate::editor::edit::{add_note, penetrate, place};
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::input::{Input, Key};
use crate::editor::legs::Flow;
use crate::editor::look::Look;
use crate::editor::tee::Tee;
use crate::editor::{Item, Part, Refusal, Spot, Standing, Step, Toward, line};
use crate::job::{Device, DeviceKind, JointId, LatticePoint, Penetration, Placed, Run, RunId, State};
use crate::scene::Point;
use crate::units::Length;

/// What can only end a line goes to an open end not more than so many steps away.
const SHORT_OF_END: f64 = 2.5;

/// So far, in lattice steps, a hand may slip without meaning another place.
const SLACK: f64 = 0.3;

/// Placing a thing of the palette.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// What is placed.
    pub item: Item,
    /// Where it would go.
    target: Target,
    typed: String,
    /// Where one has just been placed: nothing is said of that place until the hand moves on.
    placed: Option<Point>,
    /// The tool that comes back.
    back: Box<Tool>,
}

/// Where a thing would go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// Where the pointer is.
    Pointer,
    /// At a spot found without the pointer.
    Spot(Spot),
    /// On a run that has no place between its ends, found without the pointer.
    Run(RunId),
}

impl Place {
    /// Placing an item, at the chosen part or where the pencil stands if there is one.
    pub fn new(item: Item, back: Tool, look: &Look) -> Place {
        let chosen = look.selection.single();
        let target = match (&back, chosen) {
            // Of a joint it is the run that leads there.
            (_, Some(part)) if matches!(item, Item::Passage(_)) => run_at(part, look)
                .and_then(|part| at_part(part, look))
                .unwrap_or(Target::Pointer),
            (Tool::Draw(Draw::Drawing(pencil)), _) => Target::Spot(pencil.start),
            (Tool::Draw(Draw::Seeking(Start::Cursor(at))), _) => Target::Spot(Spot::at(*at)),
            (_, Some(part)) => at_part(part, look).unwrap_or(Target::Pointer),
            _ if look.pointer.is_none() => Target::Spot(Spot::at(look.plane.through)),
            _ => Target::Pointer,
        };
        Place {
            item,
            target,
            typed: String::new(),
            placed: None,
            back: Box::new(back),
        }
    }

    /// The tool that comes back when nothing is placed.
    pub fn into_back(self) -> Tool {
        *self.back
    }

    /// Whether it goes where the pointer is.
    pub fn follows_pointer(&self) -> bool {
        self.target == Target::Pointer
    }

    /// What was typed so far.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// The state after an input, and what is to be done.
    pub fn transition(mut self, input: &Input, look: &Look) -> (Tool, Vec<Effect>) {
        if self.rests(look) {
            match input {
                // The same again at the same place is a slip.
                Input::Pointer(_) | Input::Release | Input::Held(_) | Input::Press => {
                    return (Tool::Place(self), Vec::new());
                }
                Input::Text(_) | Input::Key(_) => {}
            }
        }
        self.placed = None;
        match input {
            Input::Pointer(_) => self.target = Target::Pointer,
            Input::Press => {
                self.target = Target::Pointer;
                return self.put(look);
            }
            Input::Text(character) if self.takes_text(look) => {
                type_on(&mut self.typed, *character);
            }
            Input::Key(Key::Enter) => return self.put(look),
            Input::Key(Key::Backspace) => drop(self.typed.pop()),
            Input::Key(Key::Escape) if self.typed.is_empty() => return (*self.back, Vec::new()),
            Input::Key(Key::Escape) => self.typed.clear(),
            Input::Key(Key::Way(toward)) => self.go(*toward, look),
            Input::Key(key @ (Key::Next | Key::Previous)) => self.step_on(*key, look),
            _ => {}
        }
        (Tool::Place(self), Vec::new())
    }

    fn put(self, look: &Look) -> (Tool, Vec<Effect>) {
        let step = match self.plan(look) {
            Ok(step) => step,
            Err(refusal) => return (Tool::Place(self), vec![Effect::Say(refusal)]),
        };
        let mut effects = vec![Effect::Apply(step)];
        let spot = self.measured(look).ok().flatten().filter(|_| self.stands_on_joint());
        effects.extend(spot.and_then(|spot| Some(Effect::Tell(Tee::at(spot, look)?.told(spot, look)))));
        effects.push(Effect::SelectPlaced);
        let line = match &*self.back {
            Tool::Draw(Draw::Drawing(pencil)) => Some(pencil.start),
            _ => None,
        };
        if let Some(start) = line {
            // What has one end is the end of the line, wherever it stands: elsewhere the hand has left the line.
            let ends = self.item.device().and_then(|device| ends_of(&device));
            return match ends {
                Some((1, _)) if self.spot(look).is_some_and(|spot| spot.at == start.at) => {
                    (Tool::Draw(Draw::Seeking(Start::Cursor(start.at))), effects)
                }
                Some((1, _)) => (Tool::default(), effects),
                Some(_) | None => (*self.back, effects),
            };
        }
        if self.item == Item::Device(DeviceKind::Supply) {
            return (*self.back, effects);
        }
        let place = Place {
            typed: String::new(),
            placed: look.pointer.map(|pointer| pointer.at).or(Some(Point::default())),
            ..self
        };
        (Tool::Place(place), effects)
    }

    /// Whether the hand is still where it has placed something.
    fn rests(&self, look: &Look) -> bool {
        self.placed.is_some_and(|placed| {
            let away = look.pointer.map_or(0.0, |pointer| pointer.at.distance(placed));
            away < look.view.step * SLACK
        })
    }

    /// How what is put at a spot is: as the pipe there, new where unlike pipes meet, and as the pen where there is none.
    fn state(spot: Spot, look: &Look) -> State {
        let states: Vec<State> = match spot.standing(look.job) {
            Standing::Run(run) => look.job.runs.get(run).map(|run| run.state).into_iter().collect(),
            Standing::Joint(joint) => {
                let meets = |run: &&Run| run.from == joint || run.to == joint;
                look.job.runs.iter().filter(meets).map(|run| run.state).collect()
            }
            Standing::Open => Vec::new(),
        };
        match states.split_first() {
            Some((first, rest)) if rest.iter().all(|state| state == first) => *first,
            Some(_) => State::New,
            None => look.pen.state,
        }
    }

    fn plan(&self, look: &Look) -> Result<Step, Refusal> {
        match self.item {
            Item::Passage(barrier) => {
                let (run, at) = self.passage(look)?;
                let passage = Penetration {
                    barrier,
                    at,
                    ..Penetration::default()
                };
                penetrate(look.job, run, passage)
            }
            Item::Note => {
                let joint = self.joint(look).ok_or(Refusal::NeedsJoint)?;
                let text = if self.typed.trim().is_empty() {
                    "Note"
                } else {
                    self.typed.trim()
                };
                add_note(look.job, joint, text)
            }
            Item::Device(_) | Item::Appliance(_) => match (self.item.device(), self.measured(look)?) {
                (Some(device), Some(spot)) => {
                    let state = Place::state(spot, look);
                    place(
                        look.job,
                        Placed {
                            state,
                            ..Placed::new(device)
                        },
                        spot,
                    )
                }
                _ => Err(Refusal::NeedsPipe(self.item.row().name)),
            },
        }
    }

    fn spot(&self, look: &Look) -> Option<Spot> {
        match self.target {
            Target::Spot(spot) => Some(spot),
            // Nothing can stand in it; the refusal says so.
            Target::Run(run) => Some(Spot::on(run, look.ends(look.job.runs.get(run)?)?[0])),
            Target::Pointer => look.spot().map(|spot| self.at_open_end(spot, look).unwrap_or(spot)),
        }
    }

    /// Whether it stands on a joint of its own, and cuts the run in which it is put.
    const fn stands_on_joint(&self) -> bool {
        match self.item {
            Item::Device(_) | Item::Appliance(_) => true,
            Item::Passage(_) | Item::Note => false,
        }
    }

    /// Whether what is typed is for it: where a passage or a device in a run of typed length lies, or the words of a note.
    pub fn takes_text(&self, look: &Look) -> bool {
        let cuts = || self.spot(look).is_some_and(|spot| Tee::at(spot, look).is_some());
        !self.rests(look) && (!self.stands_on_joint() || cuts())
    }

    /// Where a device goes, with the distance that was typed.
    fn measured(&self, look: &Look) -> Result<Option<Spot>, Refusal> {
        let Some(spot) = self.spot(look) else { return Ok(None) };
        match Tee::at(spot, look).filter(|_| !self.typed.trim().is_empty()) {
            Some(tee) => tee.typed(&self.typed, spot, look).map(Some),
            None => Ok(Some(spot)),
        }
    }

    /// The open end beside a spot in a run, for what mostly ends a line: a hand may be a little short of it.
    fn at_open_end(&self, spot: Spot, look: &Look) -> Option<Spot> {
        let device = self.item.device()?;
        let ends_a_line = matches!(ends_of(&device), Some((1, _))) || matches!(device, Device::Cap(_));
        if !ends_a_line {
            return None;
        }
        let Standing::Run(run) = spot.standing(look.job) else {
            return None;
        };
        let run = look.job.runs.get(run)?;
        let open = [run.from, run.to].into_iter().filter_map(|id| {
            let joint = look.job.joints.get(id)?;
            let ends_here = |run: &&Run| run.from == id || run.to == id;
            let is_open = joint.placed.is_none() && look.job.runs.iter().filter(ends_here).count() == 1;
            is_open.then_some(joint.at)
        });
        let away = |at: &LatticePoint| look.view.point(*at).distance(look.view.point(spot.at));
        open.filter(|at| away(at) < look.view.step * SHORT_OF_END)
            .min_by(|a, b| away(a).total_cmp(&away(b)))
            .map(Spot::at)
    }

    fn joint(&self, look: &Look) -> Option<JointId> {
        match self.spot(look)?.standing(look.job) {
            Standing::Joint(joint) => Some(joint),
            Standing::Run(_) | Standing::Open => None,
        }
    }

    /// The run that is meant, and how far along it; half way when neither typed nor pointed.
    fn passage(&self, look: &Look) -> Result<(RunId, Option<Length>), Refusal> {
        let run = match self.target {
            Target::Run(run) => Some(run),
            Target::Spot(spot) => spot.on,
            Target::Pointer => look
                .pointer
                .and_then(|pointer| pointer.hits.iter().find_map(|hit| hit.run())),
        };
        let run = run.ok_or(Refusal::NeedsRun)?;
        let typed = self.typed.trim();
        if !typed.is_empty() {
            return Ok((run, Some(Length::parse_in(typed, look.job.settings.units)?)));
        }
        let pointed = look.pointer.filter(|_| self.target == Target::Pointer);
        let along = pointed.and_then(|pointer| look.along(look.job.runs.get(run)?, pointer.at));
        Ok((run, along.map(|(length, _)| length)))
    }

    /// Moves the place by a step: along the run that it lies on, place by place, or off it into the open.
    fn go(&mut self, toward: Toward, look: &Look) {
        let here = self.spot(look).unwrap_or(Spot::at(look.plane.through));
        let run = here.on.and_then(|run| look.job.runs.get(run));
        let along = run.and_then(|run| {
            let [from, to] = look.ends(run)?;
            let one = line::place(from, to, 1) - from;
            let next = match one.dot(toward.way()).signum() {
                1 => here.at + one,
                -1 => here.at + -one,
                _ => return None,
            };
            line::passes(from, to, next).then_some(Spot::on(run.id, next))
        });
        self.target = Target::Spot(along.unwrap_or(Spot::at(here.at + toward.way())));
    }

    /// Goes to the next part along the pipe on which the item can stand.
    fn step_on(&mut self, key: Key, look: &Look) {
        let here = match self.target {
            Target::Spot(spot) => match (spot.on, spot.standing(look.job)) {
                (Some(run), _) | (None, Standing::Run(run)) => Some(Part::Run(run)),
                (None, Standing::Joint(joint)) => Some(Part::Joint(joint)),
                (None, Standing::Open) => None,
            },
            Target::Run(run) => Some(Part::Run(run)),
            Target::Pointer => look.selection.single(),
        };
        let next = Flow::neighbor(look.job, here, key, |part| match self.item {
            Item::Passage(_) => matches!(part, Part::Run(_)),
            Item::Note => matches!(part, Part::Joint(_)),
            Item::Device(_) | Item::Appliance(_) => true,
        });
        self.target = next.and_then(|part| at_part(part, look)).unwrap_or(self.target);
    }

    /// What would be done next.
    pub fn hint(&self, look: &Look) -> Hint {
        let name = self.item.row().name;
        if self.rests(look) {
            return Hint {
                words: format!("{name} is placed. Point at another place for one more; Esc puts it down"),
                ..Hint::default()
            };
        }
        if self.target == Target::Pointer && look.pointer.is_none() {
            return Hint {
                words: format!("{name}: click where it goes, or find the place along the pipe with the keys"),
                ..Hint::default()
            };
        }
        let plan = self.plan(look);
        let ghost = match self.item {
            Item::Passage(_) => Ghost {
                passage: self.passage(look).ok().and_then(|(run, at)| share(look, run, at)),
                ..Ghost::default()
            },
            _ => self.spot(look).map_or(Ghost::default(), |spot| {
                Ghost::default().at(spot.at, spot.standing(look.job))
            }),
        };
        Hint {
            words: match &plan {
                Ok(_) => self.words(look),
                Err(refusal) => refusal.to_string(),
            },
            ghost: Ghost {
                refused: plan.is_err(),
                words: match self.typed.as_str() {
                    "" => self
                        .spot(look)
                        .filter(|_| self.stands_on_joint())
                        .and_then(|spot| Some(Tee::at(spot, look)?.parts(look))),
                    typed => Some(typed.to_owned()),
                },
                ..ghost
            },
            step: Some(plan),
        }
    }

    fn words(&self, look: &Look) -> String {
        let name = self.item.row().name;
        let does = match self.target {
            Target::Pointer => CLICK_OR_ENTER,
            Target::Spot(_) | Target::Run(_) => ENTER,
        };
        match self.item {
            Item::Passage(_) => match self.passage(look) {
                Ok((run, Some(at))) => format!("{does}: {name} on {run}, {} along", look.show(at)),
                Ok((run, None)) => format!("Enter: {name} halfway along {run}; or type how far along"),
                Err(refusal) => refusal.to_string(),
            },
            Item::Note => match self.joint(look) {
                Some(joint) => format!("Type the note. {does}: it points at {joint}"),
                None => Refusal::NeedsJoint.to_string(),
            },
            Item::Device(_) | Item::Appliance(_) => {
                let spot = self.spot(look);
                let state = match spot.map_or(State::New, |spot| Place::state(spot, look)) {
                    State::New => String::new(),
                    other => format!(", {}", other.planned()),
                };
                match spot.map(|spot| spot.standing(look.job)) {
                    Some(Standing::Joint(joint)) => format!("{does}: {name} on {joint}{state}; Esc puts it down"),
                    Some(Standing::Run(run)) => match spot.and_then(|spot| Tee::at(spot, look)) {
                        Some(tee) => format!("{does}: {name} in {run}{state}. {}", tee.question(look)),
                        None => format!("{does}: {name} in {run}{state}; Esc puts it down"),
                    },
                    _ => format!("{does}: {name} unconnected{state}; then draw pipe from it"),
                }
            }
        }
    }
}

/// A passage as a share of its run.
fn share(look: &Look, run: RunId, at: Option<Length>) -> Option<(RunId, f64)> {
    let whole = look.job.true_length(look.job.runs.get(run)?);
    let share = match at {
        Some(at) => at.eighths_of_um() as f64 / whole.eighths_of_um().max(1) as f64,
        None => 0.5,
    };
    Some((run, share.clamp(0.0, 1.0)))
}

/// The run that a part is or lies on; of a joint the one that comes before it along the pipe.
fn run_at(part: Part, look: &Look) -> Option<Part> {
    match part.run() {
        Some(run) => Some(Part::Run(run)),
        None => Flow::neighbor(look.job, Some(part), Key::Previous, |part| matches!(part, Part::Run(_))),
    }
}

/// The middle of a run, or the place of a joint.
fn at_part(part: Part, look: &Look) -> Option<Target> {
    let place: Option<LatticePoint> = match part {
        Part::Joint(id) => return look.job.joints.get(id).map(|joint| Target::Spot(Spot::at(joint.at))),
        Part::Run(run) | Part::Penetration(run, _) => look.middle(run),
        Part::Note(_) => return None,
    };
    let run = part.run()?;
    Some(place.map_or(Target::Run(run), |at| Target::Spot(Spot::on(run, at))))
}

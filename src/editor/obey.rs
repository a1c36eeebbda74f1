//! What each command does to an editor.

use super::edit::{
    Cut, Gap, Pen, RunField, add_variant, arrange_lengths, copy, delete, free_words, hinge, join, mirror, next_variant,
    reverse, set_runs, set_state, shared_joint, split, take_off,
};
use super::input::{Input, Key};
use super::legs::Flow;
use super::tool::{Choose, Preview, Put, Tool};
use super::{CommandId, Editor, Part, Plane, Refusal, Selection, Spot, Step, When};
use crate::job::{Job, JointId};
use crate::study::how_many;

/// What came of a command.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// The editor did it.
    Done,
    /// It is for the window to do: files, sheets, views, help.
    ForWindow,
    /// It could not be done; the status line says the same.
    Refused(Refusal),
}

impl Editor {
    /// Whether a command can be used now.
    pub fn can(&self, id: CommandId) -> bool {
        match id.row().map_or(When::Always, |row| row.when) {
            When::Always => true,
            When::SomethingDone => self.undo_name().is_some(),
            When::SomethingUndone => self.redo_name().is_some(),
            When::SomethingChosen => !self.selection.is_empty(),
            When::OneChosen => self.selection.single().is_some(),
            When::RunChosen => self.selection.iter().any(|part| matches!(part, Part::Run(_))),
            When::DeviceChosen => {
                let joint = self.selection.joints().first().and_then(|id| self.job.joints.get(*id));
                joint.is_some_and(|joint| joint.placed.is_some())
            }
            When::LineChosen => between(&self.job, &self.selection).is_ok(),
            When::SomethingCopied => !self.clipboard.is_empty(),
            When::SeveralVariants => self.job.variants.count() > 1,
        }
    }

    /// Does a command.
    pub fn run(&mut self, id: CommandId) -> Outcome {
        (self.said, self.told) = (None, None);
        let outcome = if self.can(id) {
            self.obey(id)
        } else {
            let instead = id.row().map_or("", |row| row.when.instead());
            Err(Refusal::NotNow(instead))
        };
        match outcome {
            Ok(outcome) => {
                self.refresh();
                outcome
            }
            Err(refusal) => {
                self.said = Some(refusal.clone());
                self.refresh();
                Outcome::Refused(refusal)
            }
        }
    }

    fn obey(&mut self, id: CommandId) -> Result<Outcome, Refusal> {
        match id {
            CommandId::NewJob
            | CommandId::OpenJob
            | CommandId::SaveJob
            | CommandId::SaveJobAs
            | CommandId::ExportSheet
            | CommandId::Print
            | CommandId::CopyPicture
            | CommandId::Compare
            | CommandId::StopComparing
            | CommandId::MakeAsBuilt
            | CommandId::OwnFiles
            | CommandId::Quit
            | CommandId::Repeat
            | CommandId::ZoomIn
            | CommandId::ZoomOut
            | CommandId::ZoomFit
            | CommandId::ShowDraw
            | CommandId::ShowCheck
            | CommandId::ShowSheet
            | CommandId::ShowDetails
            | CommandId::GoToDetails
            | CommandId::ShowLists
            | CommandId::ShowKeys
            | CommandId::ShowGuide
            | CommandId::FirstDrawing
            | CommandId::About => return Ok(Outcome::ForWindow),
            CommandId::Undo => self.undo(),
            CommandId::Redo => self.redo(),
            CommandId::Cut => {
                let copied = copy(&self.job, &self.selection);
                self.step_of_chosen(|job, parts| delete(job, parts, Gap::Keep))?;
                self.clipboard = copied;
            }
            CommandId::Copy => self.clipboard = copy(&self.job, &self.selection),
            CommandId::Paste => self.tool = Tool::Put(Put::new(self.clipboard.clone(), &self.look())),
            CommandId::Delete => self.step_of_chosen(|job, parts| delete(job, parts, Gap::Keep))?,
            CommandId::DeleteAndClose => self.step_of_chosen(|job, parts| delete(job, parts, Gap::Close))?,
            CommandId::ChooseAll => self.selection = Selection::all(&self.job),
            CommandId::ChooseNothing => self.selection = Selection::none(),
            CommandId::ChooseDownstream => {
                let part = self.selection.single().ok_or(Refusal::Choose("one part"))?;
                self.selection = Flow::of(&self.job).downstream(&self.job, part)?;
            }
            CommandId::NextPart => self.handle(Input::Key(Key::Next)),
            CommandId::PreviousPart => self.handle(Input::Key(Key::Previous)),
            CommandId::OtherPart => self.handle(Input::Key(Key::Other)),
            CommandId::Choose => self.tool = Tool::Choose(Choose::default()),
            CommandId::DrawPipe => self.tool = Tool::draw(&self.look()),
            CommandId::Place(item) => {
                // What is being placed already is not what comes back.
                let back = match std::mem::take(&mut self.tool) {
                    Tool::Place(place) => place.into_back(),
                    other => other,
                };
                self.tool = Tool::place(item, back, &self.look());
            }
            CommandId::Plane(facing) => self.look_in(Plane { facing, ..self.plane }),
            CommandId::PlaneNearer => self.look_in(self.plane.nearer(1)),
            CommandId::PlaneFarther => self.look_in(self.plane.nearer(-1)),
            CommandId::State(state) if self.sets_the_pen() => {
                self.pen.turn(state);
                self.tell_of_the_pen();
            }
            CommandId::State(state) => self.step_of_chosen(|job, parts| set_state(job, parts, state))?,
            CommandId::Lies(surroundings) if self.sets_the_pen() => {
                self.pen.surroundings = surroundings;
                self.tell_of_the_pen();
            }
            CommandId::Lies(surroundings) => {
                let field = RunField::Surroundings(surroundings);
                self.step_of_chosen(|job, parts| set_runs(job, &parts.runs(), &field))?;
            }
            CommandId::Split => {
                let Some(Part::Run(run)) = self.selection.single() else {
                    return Err(Refusal::Choose("one run"));
                };
                let middle = self.look().middle(run).ok_or(Refusal::NoRoom(run.into()))?;
                self.step_of_chosen(|job, _| split(job, Spot::on(run, middle), Cut::InProportion))?;
            }
            CommandId::Join => self.step_of_chosen(|job, parts| join(job, between(job, parts)?))?,
            CommandId::Reverse => self.step_of_chosen(|job, parts| reverse(job, &parts.runs()))?,
            CommandId::TakeOff => {
                let joint = self
                    .selection
                    .joints()
                    .first()
                    .copied()
                    .ok_or(Refusal::Choose("a joint"))?;
                self.step_of_chosen(|job, _| take_off(job, joint))?;
            }
            CommandId::Arrange => {
                let (step, moved) = arrange_lengths(&self.job)?;
                let words = format!(
                    "move {} so that the drawing reads, true lengths stay",
                    how_many(moved, "joint")
                );
                self.tool = Tool::Preview(Preview::new(step, words));
            }
            CommandId::AddVariant => {
                self.edit(|job| add_variant(job, ""))?;
                self.tell_variant();
            }
            CommandId::NextVariant | CommandId::PreviousVariant => {
                self.edit(|job| next_variant(job, id == CommandId::NextVariant))?;
                self.tell_variant();
            }
            CommandId::FreeWords => self.step_of_chosen(free_words)?,
            CommandId::Mirror(axis) => self.step_of_chosen(|job, parts| {
                let about = hinge(job, parts).ok_or(Refusal::Choose("a whole branch, which connects to one joint"))?;
                mirror(job, &parts.places(job), about, axis)
            })?,
        }
        Ok(Outcome::Done)
    }

    /// Tells which variant is shown.
    fn tell_variant(&mut self) {
        let variants = &self.job.variants;
        let (at, of) = (variants.shown() + 1, variants.count());
        self.tell(format!("Variant {at} of {of} is shown: {}", variants.name));
    }

    /// Looks for places in another plane from now on; what the pointer means there is found anew.
    fn look_in(&mut self, plane: Plane) {
        self.plane = plane;
        self.handle(Input::Held(self.held));
    }

    /// While pipe is drawn, or nothing is chosen, state and surroundings are those of the next run.
    pub fn sets_the_pen(&self) -> bool {
        matches!(self.tool, Tool::Draw(_)) || self.selection.is_empty()
    }

    /// What is drawn next is said where no strip shows it.
    fn tell_of_the_pen(&mut self) {
        if !matches!(self.tool, Tool::Draw(_)) {
            let Pen {
                state, surroundings, ..
            } = &self.pen;
            let words = format!(
                "The pipe that you draw next is {}, {}",
                state.planned(),
                surroundings.name()
            );
            self.told = Some(words);
        }
    }

    fn step_of_chosen(&mut self, edit: impl FnOnce(&Job, &Selection) -> Result<Step, Refusal>) -> Result<(), Refusal> {
        let chosen = self.selection.clone();
        self.edit(|job| edit(job, &chosen))
    }
}

/// The joint between two chosen runs, or the chosen joint.
fn between(job: &Job, parts: &Selection) -> Result<JointId, Refusal> {
    let joint = match (&parts.runs()[..], &parts.joints()[..]) {
        ([a, b], _) => shared_joint(job, *a, *b),
        ([], [joint]) => Some(*joint),
        _ => None,
    };
    joint.ok_or(Refusal::Choose("two runs in line, or the joint between them"))
}

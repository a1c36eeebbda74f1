//! Everything of the drawing window that needs no window.
//!
//! An [`Editor`] holds a job and what is in hand. It is fed with [`Input`]s over the canvas and with commands by
//! [`CommandId`]; it gives back the job, a [`Hint`] of what comes next, and what is chosen. It computes no study and no
//! scene and knows neither window nor files: whoever holds it looks at [`Editor::revision`] and makes them anew.
//!
//! ```
//! use stubout::editor::{CommandId, Editor, Input, Item, Key, Toward};
//! use stubout::job::{DeviceKind, Job};
//!
//! let mut editor = Editor::new(Job::default());
//! editor.run(CommandId::Place(Item::Device(DeviceKind::Supply)));
//! editor.handle(Input::Key(Key::Enter)); // It stands in the middle of the lattice and is chosen.
//! editor.run(CommandId::DrawPipe);
//! editor.handle(Input::Key(Key::Enter)); // Pipe starts at what is chosen.
//! editor.handle(Input::Key(Key::Way(Toward::Up)));
//! for letter in "12-6".chars() {
//!     editor.handle(Input::Text(letter));
//! }
//! assert!(editor.hint().words.starts_with("Enter: draw 12'-6\" up to a new joint"));
//! editor.handle(Input::Key(Key::Enter));
//! assert_eq!((editor.job().runs.len(), editor.undo_name()), (1, Some("Draw run")));
//! editor.run(CommandId::Undo);
//! editor.run(CommandId::Undo);
//! assert!(editor.job().joints.is_empty() && editor.is_saved());
//! ```
//!
//! | what | where |
//! | --- | --- |
//! | one edit, invertible; all that was done | [`Step`], [`History`] |
//! | the edits, job + arguments → step or refusal in words | [`edit`] |
//! | tools, each a state and its transitions | [`tool`] |
//! | a place on paper → a place in space | [`Plane`], [`Look::spot`] |
//! | commands, shortcuts, palette, as data | [`COMMANDS`], [`PENCIL_KEYS`], [`PALETTE`] |
//!
//! Invariant: whatever is fed in, the job holds what `check` demands if it held it before, and undoing everything gives
//! the job that the editor was opened with.

mod aim;
mod change;
mod changed_ground;
mod check;
mod command;
mod cut;
mod draft;
pub mod edit;
mod finish;
#[cfg(test)]
mod fixture;
mod ghost;
mod ground;
mod history;
mod input;
mod legs;
mod letters;
mod look;
mod obey;
mod palette;
mod part;
mod plane;
mod refusal;
mod spot;
mod step;
mod tee;
pub mod tool;
mod toward;
mod typed;

pub use aim::{Aim, LONGEST_TO_SCALE, Measure};
pub use change::{Change, Swap};
pub use check::FARTHEST;
pub use command::{COMMANDS, Cap, Command, CommandId, Menu, PENCIL_KEYS, PencilKey, Shortcut, When};
pub use ghost::{Ghost, Hint};
pub use history::History;
pub use input::{Arrow, Held, Input, Key, Pointer, Words};
pub use legs::Flow;
pub use look::Look;
pub use obey::Outcome;
pub use palette::{ApplianceKind, Group, Item, PALETTE, PaletteRow};
pub use part::{Part, Selection};
pub use plane::{Facing, Plane};
pub use refusal::Refusal;
pub use spot::{Spot, Standing};
pub use step::Step;
pub use toward::Toward;

use crate::drawing::{LARGEST_STEP, Projection};
use crate::job::{Job, Run, line};
use crate::scene::Point;
use change::Side;
use edit::{Clipboard, Pen};
use tool::{Effect, Tool};

/// A job in the making, with what is in hand.
#[derive(Clone, Debug)]
pub struct Editor {
    job: Job,
    history: History,
    selection: Selection,
    tool: Tool,
    clipboard: Clipboard,
    view: Projection,
    plane: Plane,
    pen: Pen,
    pointer: Option<Pointer>,
    held: Held,
    revision: u64,
    /// Why the last thing was not done; until something else is done.
    said: Option<Refusal>,
    /// What the last thing did, where that is not plain; until something else is done.
    told: Option<String>,
    hint: Hint,
}

impl Editor {
    /// An editor on a job that lies saved as it is.
    pub fn new(job: Job) -> Editor {
        let mut editor = Editor {
            job,
            history: History::saved(),
            selection: Selection::none(),
            tool: Tool::default(),
            clipboard: Clipboard::default(),
            view: Projection {
                origin: Point::default(),
                step: LARGEST_STEP,
            },
            plane: Plane::default(),
            pen: Pen::default(),
            pointer: None,
            held: Held::default(),
            revision: 0,
            said: None,
            told: None,
            hint: Hint::default(),
        };
        editor.refresh();
        editor
    }

    /// Goes over to another job that lies saved as it is. What was copied and the view stay; the pen is that of a new job.
    pub fn open(&mut self, job: Job) {
        let (clipboard, view) = (std::mem::take(&mut self.clipboard), self.view);
        let revision = self.revision + 1;
        *self = Editor {
            clipboard,
            view,
            revision,
            ..Editor::new(job)
        };
        self.refresh();
    }

    /// The job as it is.
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// Counts every change of the job, undone ones too: as long as it stays, study and scene are good.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// What comes next: words, ghost and step.
    pub fn hint(&self) -> &Hint {
        &self.hint
    }

    /// What the status line says: why the last thing was not done, or what it did where that is not plain, else what a click
    /// or key will do.
    pub fn status(&self) -> String {
        match (&self.said, &self.told) {
            (Some(refusal), _) => refusal.to_string(),
            (None, Some(told)) => told.clone(),
            (None, None) => self.hint.words.clone(),
        }
    }

    /// Why the last thing was not done.
    pub fn said(&self) -> Option<&Refusal> {
        self.said.as_ref()
    }

    /// Says why something was not done.
    pub fn say(&mut self, why: Refusal) {
        self.said = Some(why);
    }

    /// Tells what was done, until something else is.
    pub fn tell(&mut self, words: String) {
        (self.said, self.told) = (None, Some(words));
    }

    /// What is in the hand.
    pub fn tool(&self) -> &Tool {
        &self.tool
    }

    /// Whether what is typed over the paper is for what is in the hand.
    pub fn takes_text(&self) -> bool {
        self.tool.takes_text(&self.look())
    }

    /// What is chosen.
    pub fn selection(&self) -> &Selection {
        &self.selection
    }

    /// The plane in which places are looked for.
    pub fn plane(&self) -> Plane {
        self.plane
    }

    /// What the next run is like.
    pub fn pen(&self) -> &Pen {
        &self.pen
    }

    /// Where the lattice lies on paper.
    pub fn view(&self) -> Projection {
        self.view
    }

    /// What was copied.
    pub fn clipboard(&self) -> &Clipboard {
        &self.clipboard
    }

    /// The name of the step that undo takes back.
    pub fn undo_name(&self) -> Option<&str> {
        self.history.next_undo()
    }

    /// The name of the step that redo does again.
    pub fn redo_name(&self) -> Option<&str> {
        self.history.next_redo()
    }

    /// Whether the job is as it was when last saved or opened.
    pub fn is_saved(&self) -> bool {
        self.history.is_saved()
    }

    /// Notes that the job lies saved as it is now.
    pub fn mark_saved(&mut self) {
        self.history.mark_saved();
    }

    /// Notes that the job does not lie saved, and did not at any step of before: it was recovered.
    pub fn mark_unsaved(&mut self) {
        self.history.mark_unsaved();
    }

    /// Chooses parts; those that the job does not have are left out.
    pub fn select(&mut self, mut parts: Selection) {
        parts.refresh(&self.job);
        self.selection = parts;
        self.refresh();
    }

    /// Says where the lattice lies on paper.
    pub fn set_view(&mut self, view: Projection) {
        self.view = view;
        self.refresh();
    }

    /// Says what the next run is like.
    pub fn set_pen(&mut self, pen: Pen) {
        self.pen = pen;
        self.refresh();
    }

    /// Does an edit, as the details panel wants it. One that changes nothing is no step.
    ///
    /// # Errors
    /// What the edit says; the job is then as it was.
    pub fn edit(&mut self, edit: impl FnOnce(&Job) -> Result<Step, Refusal>) -> Result<(), Refusal> {
        let step = edit(&self.job)?;
        // The edit may have looked at another job.
        if !step.is_empty() {
            let letters = letters::Shown::before(&self.job, &step);
            step.apply(&mut self.job)?;
            self.done(letters, step);
        }
        (self.said, self.told) = (None, None);
        self.refresh();
        Ok(())
    }

    /// Takes what a person does over the canvas.
    pub fn handle(&mut self, input: Input) {
        // What a press was refused for is still to be read when the button goes up.
        if !matches!(input, Input::Pointer(_) | Input::Held(_) | Input::Release) {
            (self.said, self.told) = (None, None);
        }
        let input = match input {
            Input::Pointer(pointer) => self.point(pointer),
            Input::Key(Key::Other) => match &mut self.pointer {
                Some(pointer) if !pointer.hits.is_empty() => {
                    pointer.hits.rotate_left(1);
                    Input::Pointer(pointer.clone())
                }
                _ => return,
            },
            Input::Key(Key::Arrow(arrow)) => Input::Key(Key::Way(self.plane.facing.along(arrow))),
            Input::Held(held) => {
                self.held = held;
                Input::Held(held)
            }
            other => other,
        };
        let tool = std::mem::take(&mut self.tool);
        let (tool, effects) = tool.transition(&input, &self.look());
        self.tool = tool;
        for effect in effects {
            self.take_effect(effect);
        }
        self.refresh();
    }

    /// Keeps where the pointer is. While the same things lie under it, they keep the order in which they were gone through.
    fn point(&mut self, mut pointer: Pointer) -> Input {
        if let Some(last) = &self.pointer {
            let sorted = |hits: &[Part]| {
                let mut hits = hits.to_vec();
                hits.sort_unstable();
                hits
            };
            if sorted(&last.hits) == sorted(&pointer.hits) {
                pointer.hits.clone_from(&last.hits);
            }
        }
        self.pointer = Some(pointer.clone());
        Input::Pointer(pointer)
    }

    fn look(&self) -> Look<'_> {
        Look {
            job: &self.job,
            selection: &self.selection,
            view: &self.view,
            plane: self.plane,
            pen: &self.pen,
            pointer: self.pointer.as_ref(),
            held: self.held,
            depth: self.history.depth(),
        }
    }

    fn take_effect(&mut self, effect: Effect) {
        match effect {
            Effect::Apply(step) if step.is_empty() => {}
            Effect::Apply(step) => {
                // The tool made it of this very job, so that it has been checked.
                let letters = letters::Shown::before(&self.job, &step);
                step.put(&mut self.job, Side::After);
                self.done(letters, step);
                self.said = None;
            }
            Effect::Select(parts) => self.selection = parts,
            Effect::SelectNew => self.selection = self.last_step().map(Step::added).into_iter().flatten().collect(),
            Effect::SelectPlaced => self.selection = self.last_step().map(Step::placed).into_iter().flatten().collect(),
            Effect::SelectLaid(ends) => {
                let place = |id| Some(self.job.joints.get(id)?.at);
                let ends = ends.map(Some);
                let is_laid = |run: &&Run| {
                    let [from, to] = [place(run.from), place(run.to)];
                    [from, to] == ends || [to, from] == ends
                };
                let laid = self.job.runs.iter().rev().find(is_laid);
                self.selection = laid.map(|run| Part::Run(run.id)).into_iter().collect();
            }
            Effect::Take(pen) => self.pen = pen,
            Effect::Say(refusal) => self.said = Some(refusal),
            Effect::Tell(words) => self.told = Some(words),
            Effect::Through(at) => self.plane.through = at,
            Effect::TakeBack => self.undo(),
        }
    }

    fn last_step(&self) -> Option<&Step> {
        self.history.last()
    }

    fn done(&mut self, letters: letters::Shown, step: Step) {
        let step = letters.keep(&mut self.job, step);
        let step = edit::shared(&mut self.job, step);
        self.history.record(step);
        self.changed();
    }

    fn changed(&mut self) {
        self.revision += 1;
        self.selection.refresh(&self.job);
    }

    fn undo(&mut self) {
        let depth = self.history.depth();
        if self.history.undo(&mut self.job) {
            if self.history.depth() < depth {
                self.tool = std::mem::take(&mut self.tool).taken_back(depth);
            }
            self.selection.fall_back(&self.job);
            self.changed();
        }
    }

    fn redo(&mut self) {
        if self.history.redo(&mut self.job) {
            self.changed();
            if let Some(step) = self.history.last() {
                let tool = std::mem::take(&mut self.tool);
                self.tool = tool.done_again(step, &self.look());
            }
        }
    }

    fn refresh(&mut self) {
        self.hint = self.tool.hint(&self.look());
    }
}

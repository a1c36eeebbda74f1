//! The details: what the job says of what is chosen, to be changed, and what follows from it.
//!
//! | what | where |
//! | --- | --- |
//! | texts in the making, quantities, fields over many parts | `typing`, `quantity`, `shared` |
//! | rows with their names, values offered beside them | `form`, `row`, `offers`, `names` |
//! | what a row changes | `put` |
//! | what is shown of each kind of part | `joint`, `device`, `run`, `passage`, `several`, `whole` |
//! | the title block, beside the sheet | `title_block` |
//! | the reason for a size; what was found | `reason`, `found` |

mod device;
pub mod form;
mod found;
mod joint;
mod more;
pub mod names;
mod next;
mod offers;
mod passage;
pub mod put;
mod quantity;
mod reason;
mod row;
mod run;
mod several;
pub mod shared;
mod title_block;
pub mod typing;
mod whole;

pub use found::{needed, open_field};
pub use run::sizes;

use crate::desk::Desk;
use crate::desk::settings::Settings;
use crate::editor::Part;
use crate::job::Detail;
use crate::rules::Finding;
use crate::sheet::Field;
use crate::study::words::capital;
use egui::{AsIdSalt, Color32, Context, Id, Key, ScrollArea, Stroke, Ui};
use form::Form;
use typing::{Typing, Wanted};

/// The details, with the texts that are being typed into them.
#[derive(Default)]
pub struct Details {
    typing: Typing<Id>,
    /// The job whose fields they are, by [`Desk::opened`].
    opened: u64,
    /// What was found of the part that is shown.
    found: Option<(Chosen, Vec<Finding>)>,
}

impl Details {
    /// Shows them.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let chosen = match desk.editor().selection().single() {
            Some(part) => Chosen::One(part),
            None if desk.editor().selection().is_empty() => Chosen::Nothing,
            None => Chosen::Many,
        };
        // A press takes what was typed before, and what was found of that field goes: no row moves away from under the hand
        // until the button is up again.
        let is_held = ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
        let is_kept = is_held && self.found.as_ref().is_some_and(|(of, _)| *of == chosen);
        if !is_kept {
            let findings = match chosen {
                Chosen::Nothing => found::of(desk, None),
                Chosen::One(part) => found::of(desk, Some(part)),
                Chosen::Many => Vec::new(),
            };
            self.found = Some((chosen, findings));
        }
        let findings = self.found.as_ref().map_or(Vec::new(), |(_, findings)| findings.clone());
        // Another part begins at its top.
        self.rows(ui, desk, chosen, |ui, desk, typing| {
            let scope = Id::unique(("details of", chosen));
            show(&mut Form::new(ui, desk, typing, scope).with_findings(findings), chosen);
        });
    }

    /// Shows the title block in their place, beside the sheet.
    pub fn title_block(&mut self, ui: &mut Ui, desk: &mut Desk, settings: &mut Settings) {
        self.rows(ui, desk, "title block", |ui, desk, typing| {
            let scope = Id::unique("title block");
            title_block::show(&mut Form::new(ui, desk, typing, scope), settings);
        });
    }

    /// Shows rows that scroll; `of` is what they belong to.
    fn rows(
        &mut self,
        ui: &mut Ui,
        desk: &mut Desk,
        of: impl AsIdSalt,
        rows: impl FnOnce(&mut Ui, &mut Desk, &mut Typing<Id>),
    ) {
        self.meet(desk);
        self.typing.begin();
        ScrollArea::vertical().id_salt(of).auto_shrink(false).show(ui, |ui| {
            // The scroll bar that comes under the pointer covers nothing.
            ui.set_max_width(ui.available_width() - 9.0);
            ui.add_space(4.0);
            edge(ui);
            rows(ui, desk, &mut self.typing);
            ui.add_space(12.0);
        });
        self.typing.end(desk);
    }

    /// Puts the cursor into a field, else into the first, from the next frame on.
    pub fn go(&mut self, field: Option<Detail>) {
        self.typing.wanted = Some(field.map_or(Wanted::First, Wanted::Field));
    }

    /// Puts the cursor into a field, and a text before it.
    pub fn type_into(&mut self, field: Detail, text: &str) {
        self.go(Some(field));
        self.typing.begun.push_str(text);
    }

    /// Puts the cursor into a field of the title block.
    pub fn go_to_title(&mut self, field: Field) {
        self.typing.wanted = Some(Wanted::Words(field.caption()));
    }

    /// Before anything else in a frame: when a field was left with Enter, which gives the keys to the drawing, Tab goes on
    /// from there.
    pub fn resume(&mut self, ctx: &Context) {
        let is_free = ctx.memory(|memory| memory.focused().is_none());
        let (tab, pressed) = ctx.input(|input| (input.key_pressed(Key::Tab), input.pointer.any_pressed()));
        if pressed || !is_free {
            self.typing.left = None;
        } else if let Some(left) = self.typing.left.filter(|_| tab) {
            ctx.memory_mut(|memory| memory.request_focus(left));
        }
    }

    /// Takes what is typed and not yet taken: before anything is saved, or done by a command.
    pub fn settle(&mut self, desk: &mut Desk) {
        self.meet(desk);
        self.typing.take_all(desk);
    }

    /// What was typed for another job is of no use in this one.
    fn meet(&mut self, desk: &Desk) {
        if self.opened != desk.opened() {
            self.opened = desk.opened();
            self.typing.forget();
        }
    }
}

/// Gives fields an edge that can be told from the panel (3:1).
fn edge(ui: &mut Ui) {
    let grey = match ui.visuals().dark_mode {
        true => Color32::from_rgb(0x78, 0x81, 0x85),
        false => Color32::from_rgb(0x80, 0x88, 0x8c),
    };
    ui.visuals_mut().widgets.inactive.bg_stroke = Stroke::new(1.0, grey);
}

/// What the details are of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Chosen {
    Nothing,
    One(Part),
    Many,
}

fn show(form: &mut Form<'_>, chosen: Chosen) {
    form.title(title(form.desk, chosen));
    if !form.desk.is_current() {
        form.warn("Updating: sizes and findings shown are from before the last change.");
    }
    match chosen {
        Chosen::Nothing => {
            whole::show(form);
            found::show(form);
        }
        Chosen::One(part) => match part {
            Part::Joint(id) => joint::show(form, id),
            Part::Run(id) => run::show(form, id),
            Part::Penetration(id, at) => {
                passage::passage(form, id, at);
                found::show(form);
            }
            Part::Note(at) => {
                passage::note(form, at);
                found::show(form);
            }
        },
        Chosen::Many => {
            let parts = form.desk.editor().selection().clone();
            // What is typed for some parts is not for others.
            form.within(&parts, |form| several::show(form, &parts));
        }
    }
}

/// What is chosen, in a line.
fn title(desk: &Desk, chosen: Chosen) -> String {
    let job = desk.job();
    match chosen {
        Chosen::Nothing => match job.title.job.trim() {
            "" => "This job".to_owned(),
            name => name.to_owned(),
        },
        Chosen::Many => several::counted(desk.editor().selection()),
        Chosen::One(Part::Joint(id)) => match job.joints.get(id).and_then(|joint| joint.placed.as_ref()) {
            Some(placed) => format!("{} at {id}", capital(placed.device.name())),
            None => format!("Joint {id}"),
        },
        Chosen::One(Part::Run(id)) => {
            let shown = desk.shown();
            let position = shown.job.runs.position(id);
            let section = position.and_then(|position| shown.checked.study.runs.get(position)?.section);
            let section = section.and_then(|section| shown.checked.study.sections.get(section));
            match section.filter(|section| section.is_pipe()) {
                Some(section) => format!("Run {id} in section {}", section.number),
                None => format!("Run {id}"),
            }
        }
        Chosen::One(part) => capital(&part.to_string()),
    }
}

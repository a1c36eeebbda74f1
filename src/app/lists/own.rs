//! What a person adds to the take-off and says of the order of work: fields above the list, each change one step.

use crate::app::desk::Desk;
use crate::app::details::form::Form;
use crate::app::details::put;
use crate::app::details::shared::Shared;
use crate::app::details::typing::{Done, Typing, Wanted};
use crate::editor::Refusal;
use crate::editor::edit::{add_extra, set_extra, set_step};
use crate::job::{Extra, OwnStep};
use crate::work::{OrderOfWork, Step};
use egui::{Id, Ui};

/// What is chosen, and what is being typed.
#[derive(Default)]
pub struct Own {
    typing: Typing<Id>,
    /// The job to which it belongs, by [`Desk::opened`].
    opened: u64,
    /// The chosen line of one's own in the take-off.
    pub extra: Option<usize>,
    /// The id of the chosen step.
    pub step: Option<String>,
}

impl Own {
    /// Starts a frame.
    pub fn begin(&mut self, desk: &Desk) {
        if self.opened != desk.opened() {
            *self = Own {
                opened: desk.opened(),
                ..Own::default()
            };
        }
        self.typing.begin();
    }

    /// Ends a frame: texts whose fields are no longer shown are taken.
    pub fn end(&mut self, desk: &mut Desk) {
        self.typing.end(desk);
    }

    /// Takes what is typed and not yet taken.
    pub fn settle(&mut self, desk: &mut Desk) {
        if self.opened == desk.opened() {
            self.typing.take_all(desk);
        }
    }

    /// The fields of the take-off.
    pub fn take_off(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let count = desk.job().by_hand.extra.len();
        self.extra = self.extra.filter(|at| *at < count);
        ui.horizontal_wrapped(|ui| {
            if ui.button("Add a line of your own").clicked() {
                self.typing.take_all(desk);
                let at = desk.job().by_hand.extra.len();
                if put::edit(desk, |job| add_extra(job, Extra::default())).is_ok() {
                    self.extra = Some(at);
                    self.typing.wanted = Some(Wanted::First);
                }
            }
            match self.extra {
                Some(at) if ui.button("Delete this line").clicked() => {
                    self.typing.forget();
                    self.extra = None;
                    // It is there: nothing can be refused.
                    drop(put::edit(desk, |job| set_extra(job, at, None)));
                }
                None if count > 0 => drop(ui.weak("Click a line that was added by hand to change it.")),
                Some(_) | None => {}
            }
        });
        let Some(at) = self.extra else { return };
        let Some(extra) = desk.job().by_hand.extra.get(at).cloned() else {
            return;
        };
        let scope = Id::unique(("line of the take-off", at));
        ui.columns(4, |columns| {
            let mut form = |column: usize, show: &dyn Fn(&mut Form<'_>)| {
                show(&mut Form::new(&mut columns[column], desk, &mut self.typing, scope));
            };
            form(0, &|form| {
                form.words("what", &extra.what, "what it is", move |desk, text| {
                    line(desk, at, |extra| extra.what = text)
                });
            });
            form(1, &|form| {
                let shown = extra.quantity.to_string();
                form.words("how much", &shown, "a number", move |desk, text| {
                    let quantity = text.parse().map_err(|_| Refusal::NoQuantity.to_string())?;
                    line(desk, at, |extra| extra.quantity = quantity)
                });
            });
            form(2, &|form| {
                form.words("unit", &extra.unit, "each, ft, can …", move |desk, text| {
                    line(desk, at, |extra| extra.unit = text)
                });
            });
            form(3, &|form| {
                form.words("remark", &extra.note, "nothing", move |desk, text| {
                    line(desk, at, |extra| extra.note = text)
                });
            });
        });
        ui.add_space(2.0);
    }

    /// The fields of the order of work.
    pub fn order(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let Some(id) = self.step.clone() else {
            ui.weak("Click a step to change its words, to add lines after it or to leave it out.");
            return;
        };
        let own = desk.job().by_hand.of_step(&id).cloned().unwrap_or_default();
        let scope = Id::unique(("step of the order", &id));
        let step = desk.order().and_then(|order| order.step(&id).cloned());
        match step {
            Some(step) => self.step(ui, desk, &step, &own, scope),
            None if own.is_empty() => self.step = None,
            None => {
                ui.horizontal_wrapped(|ui| {
                    ui.label("The order has this step no longer. Its words are kept until you delete them.");
                    if ui.button("Delete these words").clicked() {
                        // Nothing can be refused.
                        drop(step_of(desk, &id, |own| *own = OwnStep::default()));
                    }
                });
            }
        }
    }

    /// Which row of the take-off or of the order is the chosen one.
    pub fn row(&self, tab: super::Tab, desk: &Desk) -> Option<usize> {
        match tab {
            super::Tab::TakeOff => self.extra,
            super::Tab::Order => {
                let chosen = self.step.as_deref()?;
                ids(desk.order_by_now()?).position(|id| id == chosen)
            }
            _ => None,
        }
    }

    /// Chooses the step of a row.
    pub fn choose_step(&mut self, row: usize, desk: &Desk) {
        let id = desk.order_by_now().and_then(|order| ids(order).nth(row));
        self.step = id.map(str::to_owned);
    }

    fn step(&mut self, ui: &mut Ui, desk: &mut Desk, step: &Step, own: &OwnStep, scope: Id) {
        let id = step.id;
        ui.columns(2, |columns| {
            let mut left = Form::new(&mut columns[0], desk, &mut self.typing, scope);
            let made = step.made.clone();
            let shown = own.words.as_ref().unwrap_or(&step.made);
            left.lines(step.heading, shown, "", move |desk, text| {
                let words = Some(text).filter(|text| !text.trim().is_empty() && *text != made);
                step_of(desk, id, |own| own.words = words)
            });
            let mut right = Form::new(&mut columns[1], desk, &mut self.typing, scope);
            right.lines(
                "lines after it",
                &own.after.join("\n"),
                "one step a line",
                move |desk, text| {
                    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
                    let lines = lines.map(str::to_owned).collect();
                    step_of(desk, id, |own| own.after = lines)
                },
            );
        });
        ui.horizontal_wrapped(|ui| {
            let mut form = Form::new(ui, desk, &mut self.typing, scope);
            form.check("Leave this step out", Shared::Same(own.left_out), |desk, left_out| {
                step_of(desk, id, |own| own.left_out = left_out)
            });
            if own.words.is_some() && ui.button("Back to the words of the drawing").clicked() {
                self.typing.forget();
                // Nothing can be refused.
                drop(step_of(desk, id, |own| own.words = None));
            }
            ui.weak("{places} stands for the places of the step, {words} for what follows from the drawing.");
        });
        ui.add_space(2.0);
    }
}

/// The ids of all rows of the order: steps, then what is said of steps that are gone.
fn ids(order: &OrderOfWork) -> impl Iterator<Item = &str> {
    let gone = order.no_longer.iter().map(|own| own.step.as_str());
    order.steps.iter().map(|step| step.id).chain(gone)
}

/// Changes a line of one's own in the take-off.
fn line(desk: &mut Desk, at: usize, change: impl FnOnce(&mut Extra)) -> Done {
    put::edit(desk, |job| {
        let mut extra = job.by_hand.extra.get(at).cloned().ok_or(Refusal::NoLine)?;
        change(&mut extra);
        set_extra(job, at, Some(extra))
    })
}

/// Changes what is said of a step.
fn step_of(desk: &mut Desk, id: &str, change: impl FnOnce(&mut OwnStep)) -> Done {
    put::edit(desk, |job| set_step(job, id, change))
}

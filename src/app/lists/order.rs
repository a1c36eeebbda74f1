//! The work in turn, with what a person says of its steps, each change one step.

use super::list::{Chosen, List, Then};
use super::own::Fields;
use super::row::{Column, Leads, Lines, Row, Table};
use crate::desk::{Desk, Shown};
use crate::details::form::Form;
use crate::details::put;
use crate::details::shared::Shared;
use crate::details::typing::Done;
use crate::editor::edit::set_step;
use crate::job::OwnStep;
use crate::rules::Severity;
use crate::work::{EDITED, OrderOfWork, Step};
use egui::{Id, Ui};

/// The list of steps.
#[derive(Default)]
pub struct Steps {
    fields: Fields,
    /// The id of the chosen step.
    step: Option<String>,
}

impl List for Steps {
    fn name(&self) -> &'static str {
        "Work steps"
    }

    fn tip(&self) -> &'static str {
        "What is shut off, and what is done in turn; a row leads to its places and lets you change its words"
    }

    /// The fields of the order of work.
    fn head(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let Some(id) = self.step.clone() else {
            ui.weak("Click a step to change its words, to add lines after it or to leave it out.");
            return;
        };
        let own = desk.job().by_hand.of_step(&id).cloned().unwrap_or_default();
        let scope = Id::unique(("work step", &id));
        let step = desk.order().and_then(|order| order.step(&id).cloned());
        match step {
            Some(step) => self.step(ui, desk, &step, &own, scope),
            None if own.is_empty() => self.step = None,
            None => {
                ui.horizontal_wrapped(|ui| {
                    ui.label("This step is no longer needed. Its words are kept until you delete them.");
                    if ui.button("Delete these words").clicked() {
                        // Nothing can be refused.
                        drop(step_of(desk, &id, |own| *own = OwnStep::default()));
                    }
                });
            }
        }
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let order = desk.order()?;
        Some(table(desk.shown(), &order))
    }

    fn chosen(&self, desk: &mut Desk) -> Chosen {
        let at = self.step.as_deref().and_then(|chosen| {
            let order = desk.order()?;
            ids(&order).position(|id| id == chosen)
        });
        Chosen::Row(at)
    }

    fn choose(&mut self, at: usize, desk: &mut Desk) -> Then {
        self.step = desk.order().and_then(|order| ids(&order).nth(at).map(str::to_owned));
        Then::Lead
    }

    fn begin(&mut self, desk: &Desk) {
        if self.fields.begin(desk) {
            self.step = None;
        }
    }

    fn end(&mut self, desk: &mut Desk) {
        self.fields.end(desk);
    }

    fn settle(&mut self, desk: &mut Desk) {
        self.fields.settle(desk);
    }
}

impl Steps {
    /// The fields of one step.
    fn step(&mut self, ui: &mut Ui, desk: &mut Desk, step: &Step, own: &OwnStep, scope: Id) {
        let id = step.id;
        ui.columns(2, |columns| {
            let mut left = Form::new(&mut columns[0], desk, &mut self.fields.typing, scope);
            let made = step.made.clone();
            let shown = own.words.as_ref().unwrap_or(&step.made);
            left.lines(step.heading, shown, "", move |desk, text| {
                let words = Some(text).filter(|text| !text.trim().is_empty() && *text != made);
                step_of(desk, id, |own| own.words = words)
            });
            let mut right = Form::new(&mut columns[1], desk, &mut self.fields.typing, scope);
            right.lines(
                "lines after it",
                &own.after.join("\n"),
                "one step per line",
                move |desk, text| {
                    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
                    let lines = lines.map(str::to_owned).collect();
                    step_of(desk, id, |own| own.after = lines)
                },
            );
        });
        ui.horizontal_wrapped(|ui| {
            let mut form = Form::new(ui, desk, &mut self.fields.typing, scope);
            form.check("Leave this step out", Shared::Same(own.left_out), |desk, left_out| {
                step_of(desk, id, |own| own.left_out = left_out)
            });
            if own.words.is_some() && ui.button("Restore the original words").clicked() {
                self.fields.typing.forget();
                // Nothing can be refused.
                drop(step_of(desk, id, |own| own.words = None));
            }
            ui.weak("{places} is replaced by the places of the step, {words} by the words that come from the drawing.");
        });
        ui.add_space(2.0);
    }
}

/// The ids of all rows of the order: steps, then what is said of steps that are gone.
fn ids(order: &OrderOfWork) -> impl Iterator<Item = &str> {
    let gone = order.no_longer.iter().map(|own| own.step.as_str());
    order.steps.iter().map(|step| step.id).chain(gone)
}

/// Changes what is said of a step.
fn step_of(desk: &mut Desk, id: &str, change: impl FnOnce(&mut OwnStep)) -> Done {
    put::edit(desk, |job| set_step(job, id, change))
}

/// The steps of the work, with what a person said of them, and at last what was said of steps that are gone.
fn table(shown: &Shown, order: &OrderOfWork) -> Table {
    let step = |(at, step): (usize, &Step)| {
        let after = step.after.iter().map(|line| format!(" + {line}"));
        let cells = vec![
            (at + 1).to_string(),
            step.heading.to_owned(),
            format!("{}{}", step.words, after.collect::<String>()),
            match step.left_out {
                true => "left out by hand",
                false => step.basis(),
            }
            .to_owned(),
        ];
        let places = step.places.iter().filter_map(|place| shown.part_at(*place));
        Row::new(cells, Leads::Together(places.collect()))
    };
    let gone = order.said_of_no_step().map(|words| {
        let cells = ["", "no longer needed", words.as_str(), EDITED].map(str::to_owned);
        Row {
            mark: Some(Severity::Check),
            ..Row::new(cells.to_vec(), Leads::Together(Vec::new()))
        }
    });
    Table {
        rows: order.steps.iter().enumerate().map(step).chain(gone).collect(),
        columns: vec![
            Column::figures("no."),
            Column::words("step"),
            Column::wide("what is done", 3.0),
            Column::wide("basis", 1.0),
        ],
        lines: Lines::Two,
        empty: "Nothing new and nothing to be removed is drawn.".to_owned(),
    }
}

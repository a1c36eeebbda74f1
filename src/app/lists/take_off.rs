//! The take-off: everything that is bought, kept or taken out, with lines that a person adds, each change one step.

use super::list::{Chosen, List, Then};
use super::own::Fields;
use super::row::{Column, Leads, Lines, Row, Table};
use crate::desk::{Desk, Shown, Takes};
use crate::details::form::Form;
use crate::details::put;
use crate::details::typing::{Done, Wanted};
use crate::editor::Refusal;
use crate::editor::edit::{add_extra, set_extra};
use crate::job::Extra;
use crate::rules::Severity;
use crate::work::{Group, Line};
use egui::{Id, Ui};

/// The list of what is bought.
#[derive(Default)]
pub struct Bought {
    fields: Fields,
    /// The chosen line of the person's own.
    extra: Option<usize>,
}

impl List for Bought {
    fn name(&self) -> &'static str {
        "Take-off"
    }

    fn tip(&self) -> &'static str {
        "Everything to buy, salvage or remove, with lines of your own; a row leads to its places"
    }

    /// The fields of the take-off.
    fn head(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let count = desk.job().by_hand.extra.len();
        self.extra = self.extra.filter(|at| *at < count);
        ui.horizontal_wrapped(|ui| {
            if ui.button("Add a line of your own").clicked() {
                self.fields.typing.take_all(desk);
                let at = desk.job().by_hand.extra.len();
                if put::edit(desk, |job| add_extra(job, Extra::default())).is_ok() {
                    self.extra = Some(at);
                    self.fields.typing.wanted = Some(Wanted::First);
                }
            }
            match self.extra {
                Some(at) if ui.button("Delete this line").clicked() => {
                    self.fields.typing.forget();
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
                show(&mut Form::new(
                    &mut columns[column],
                    desk,
                    &mut self.fields.typing,
                    scope,
                ));
            };
            form(0, &|form| {
                form.words("item", &extra.what, "what it is", move |desk, text| {
                    line(desk, at, |extra| extra.what = text)
                });
            });
            form(1, &|form| {
                let shown = extra.quantity.to_string();
                form.words("quantity", &shown, "a number", move |desk, text| {
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
                form.words("remark", &extra.note, "none", move |desk, text| {
                    line(desk, at, |extra| extra.note = text)
                });
            });
        });
        ui.add_space(2.0);
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let takes = desk.takes()?;
        Some(table(desk.shown(), &takes))
    }

    fn chosen(&self, _: &mut Desk) -> Chosen {
        self.extra.map_or(Chosen::Selected, |at| Chosen::Row(Some(at)))
    }

    fn choose(&mut self, at: usize, desk: &mut Desk) -> Then {
        self.extra = Some(at).filter(|at| *at < desk.job().by_hand.extra.len());
        Then::Lead
    }

    fn begin(&mut self, desk: &Desk) {
        if self.fields.begin(desk) {
            self.extra = None;
        }
    }

    fn end(&mut self, desk: &mut Desk) {
        self.fields.end(desk);
    }

    fn settle(&mut self, desk: &mut Desk) {
        self.fields.settle(desk);
    }
}

/// Changes a line of one's own in the take-off.
fn line(desk: &mut Desk, at: usize, change: impl FnOnce(&mut Extra)) -> Done {
    put::edit(desk, |job| {
        let mut extra = job.by_hand.extra.get(at).cloned().ok_or(Refusal::NoLine)?;
        change(&mut extra);
        set_extra(job, at, Some(extra))
    })
}

/// Everything that is bought, kept or taken out.
fn table(shown: &Shown, takes: &Takes) -> Table {
    let units = shown.job.settings.units;
    // Those of the person's own first: a line that has just been added is in view.
    let (drawn, own) = takes.take_off.lines.split_at(takes.take_off.drawn);
    let row = |line: &Line| {
        let cells = vec![
            line.quantity.show(units),
            line.named(),
            line.size.clone(),
            line.material.to_owned(),
            line.heading(),
            line.mark.map_or_else(String::new, |mark| mark.letter().to_string()),
            line.remark.clone(),
        ];
        let places = line.places.iter().filter_map(|place| shown.part_at(*place));
        let mark = (line.group == Group::Settle).then_some(Severity::Check);
        Row {
            aside: "Leads to all of them".to_owned(),
            mark,
            ..Row::new(cells, Leads::Together(places.collect()))
        }
    };
    Table {
        rows: own.iter().chain(drawn).map(row).collect(),
        columns: vec![
            Column::figures("quantity"),
            Column::wide("item", 1.0),
            Column::words("size"),
            Column::words("material"),
            Column::words("action"),
            Column::words("mark"),
            Column::wide("remark", 1.5),
        ],
        lines: Lines::One,
        empty: "Nothing is drawn yet.".to_owned(),
    }
}

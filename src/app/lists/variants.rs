//! The variants of the job, a row for each: shown, added, renamed, removed, compared.

use super::list::{Chosen, List, Then};
use super::own::Fields;
use super::row::{Column, Leads, Lines, Row, Table};
use crate::advice::{ComparedVariant, ComparedVariants};
use crate::desk::Desk;
use crate::desk::issued::Issued;
use crate::details::form::Form;
use crate::details::put;
use crate::editor::edit::{add_variant, remove_variant, rename_variant, show_variant};
use crate::rules::Severity;
use egui::{Button, Id, Ui};

/// The list of variants.
#[derive(Default)]
pub struct Variants {
    fields: Fields,
    /// The row that is chosen; the shown variant's where none is.
    chosen: Option<usize>,
    /// Counts choices, so that a list knows whether it is of before.
    stamp: u64,
}

impl List for Variants {
    fn name(&self) -> &'static str {
        "Variants"
    }

    fn tip(&self) -> &'static str {
        "Other ways to do this job, in the same file: each with its own pipe, compared with the others"
    }

    fn head(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let (count, shown) = (desk.job().variants.count(), desk.job().variants.shown());
        self.chosen = self.chosen.filter(|at| *at < count);
        if count == 0 {
            ui.label(
                "This job is one drawing. A variant is another way to do it: it starts as a copy, and its pipe is edited apart. Title block, \
                 settings and gas are those of the job; what you enter about the supply, appliances and existing pipe goes to every variant.",
            );
        }
        let at = self.chosen.unwrap_or(shown);
        ui.horizontal_wrapped(|ui| {
            let add = ui.button("Add a variant");
            if add.on_hover_text("Copy what is shown, and go on in the copy").clicked() {
                self.fields.typing.take_all(desk);
                desk.attempt(|job| add_variant(job, ""));
                self.choose_shown();
            }
            if count == 0 {
                return;
            }
            let is_other = at != shown;
            if ui
                .add_enabled(is_other, Button::new("Show"))
                .on_disabled_hover_text("It is shown")
                .clicked()
            {
                desk.attempt(|job| show_variant(job, at));
                self.choose_shown();
            }
            let compare = ui.add_enabled(is_other, Button::new("Cloud what differs"));
            let compare = compare.on_hover_text("Cloud and list what is different in the shown variant from this one");
            if compare.on_disabled_hover_text("Click another variant first").clicked() {
                cloud(desk, at);
            }
            if ui.add_enabled(count > 1, Button::new("Remove")).clicked() {
                self.fields.typing.forget();
                desk.attempt(|job| remove_variant(job, at));
                self.choose_shown();
            }
        });
        let Some(name) = desk.job().variants.names().nth(at).map(str::to_owned) else {
            return;
        };
        ui.scope(|ui| {
            ui.set_max_width(420.0);
            let mut form = Form::new(ui, desk, &mut self.fields.typing, Id::unique(("variant", at)));
            form.words("name", &name, "the way that the pipe goes", move |desk, text| {
                put::edit(desk, |job| rename_variant(job, at, &text))
            });
        });
        ui.add_space(2.0);
    }

    fn stamp(&self) -> u64 {
        self.stamp
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        if desk.job().variants.is_empty() {
            return Some(Table::default());
        }
        let found = desk.variants()?;
        Some(table(&found))
    }

    fn chosen(&self, desk: &mut Desk) -> Chosen {
        Chosen::Row(Some(self.chosen.unwrap_or(desk.job().variants.shown())))
    }

    fn choose(&mut self, at: usize, desk: &mut Desk) -> Then {
        self.fields.typing.take_all(desk);
        self.chosen = Some(at);
        self.stamp += 1;
        Then::Stay
    }

    fn begin(&mut self, desk: &Desk) {
        if self.fields.begin(desk) {
            self.choose_shown();
        }
    }

    fn end(&mut self, desk: &mut Desk) {
        self.fields.end(desk);
    }

    fn settle(&mut self, desk: &mut Desk) {
        self.fields.settle(desk);
    }
}

impl Variants {
    fn choose_shown(&mut self) {
        self.chosen = None;
        self.stamp += 1;
    }
}

/// Compares the shown variant with another one, as with an issue.
fn cloud(desk: &mut Desk, at: usize) {
    let Some(other) = desk.job().showing(at) else { return };
    let name = format!("the variant {}", other.variants.name);
    let book = desk.book();
    desk.compare(Some(Issued::of(name, other, &book)));
}

/// The figures side by side: a row for each variant.
fn table(found: &ComparedVariants) -> Table {
    let figures = found.rows();
    let row = |(at, variant): (usize, &ComparedVariant)| {
        let name = match variant.is_shown {
            true => format!("{} (shown)", variant.name),
            false => variant.name.clone(),
        };
        let cells = std::iter::once(name).chain(figures.iter().map(|(_, cells)| cells[at].clone()));
        let lines = found.differences.iter().map(|line| {
            let quantity = line.quantities[at].as_deref().unwrap_or("none");
            format!("{}: {}: {quantity}", line.group.name(), line.label)
        });
        let aside = std::iter::once(found.said()).chain(lines);
        Row {
            mark: (variant.outcome.blocking > 0).then_some(Severity::MustFix),
            aside: aside.collect::<Vec<_>>().join("\n"),
            ..Row::new(cells.collect(), Leads::Job)
        }
    };
    let rows: Vec<Row> = found.variants.iter().enumerate().map(row).collect();
    Table {
        columns: Column::shared(std::iter::once("").chain(figures.iter().map(|(head, _)| *head)), &rows),
        rows,
        lines: Lines::All,
        empty: String::new(),
    }
}

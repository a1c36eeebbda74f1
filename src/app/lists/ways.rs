//! Ways to make the system carry its load, a row for each beside the job as drawn.

use super::list::List;
use super::row::{Column, Leads, Lines, Row, Table};
use crate::advice::{Outcome, Variant};
use crate::desk::Desk;
use crate::desk::request::Request;
use crate::editor::Step;
use crate::editor::edit::{Fix, Fixes, open_as_variant};
use crate::rules::Severity;
use crate::units::UnitSystem;
use egui::{Button, Ui};

/// The list of ways.
#[derive(Default)]
pub struct Ways;

impl List for Ways {
    fn name(&self) -> &'static str {
        "Fixes"
    }

    fn tip(&self) -> &'static str {
        "Fixes for what is over its limit, least pipe and work first, compared with the job as drawn"
    }

    fn head(&mut self, ui: &mut Ui, desk: &mut Desk) {
        match desk.fixes().and_then(|fixes| offer(ui, &fixes)) {
            Some(Asked::Adopt(step)) => desk.attempt(|_| Ok(*step)),
            Some(Asked::Vary(name, step)) => desk.attempt(|job| open_as_variant(job, name, &step)),
            Some(Asked::Open(step)) => {
                let mut job = desk.job().clone();
                if step.apply(&mut job).is_ok() {
                    desk.ask(Request::Begin(Box::new(job)));
                }
            }
            None => {}
        }
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let fixes = desk.fixes()?;
        Some(table(&fixes, desk.shown().checked.study.names.units()))
    }
}

/// What a person wants done with one of them.
enum Asked {
    /// It is laid on the job, as one step.
    Adopt(Box<Step>),
    /// The job with it is a variant of this name.
    Vary(&'static str, Box<Step>),
    /// The job with it is opened as a job of its own.
    Open(Box<Step>),
}

/// The figures side by side: a row for each, least to buy and do first.
fn table(fixes: &Fixes, units: UnitSystem) -> Table {
    let rows = fixes.variants().into_iter().map(|variant| {
        let cells = std::iter::once(variant.head()).chain(variant.outcome.column(units));
        Row {
            mark: (variant.outcome.blocking > 0).then_some(Severity::MustFix),
            aside: aside(&variant),
            ..Row::new(cells.collect(), Leads::Job)
        }
    });
    let rows: Vec<Row> = rows.collect();
    Table {
        columns: Column::shared(std::iter::once("").chain(Outcome::HEADS), &rows),
        rows,
        lines: Lines::All,
        empty: String::new(),
    }
}

fn aside(variant: &Variant) -> String {
    let said = variant.does.iter().chain(std::iter::once(&variant.said));
    said.filter(|words| !words.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join("\n")
}

/// Which is least, and a button for each way; what is not offered says why when it is pointed at.
fn offer(ui: &mut Ui, fixes: &Fixes) -> Option<Asked> {
    let mut asked = None;
    ui.label(fixes.least());
    ui.horizontal_wrapped(|ui| {
        for fix in fixes.all() {
            let menu = ui.menu_button(fix.start.name(), |ui| {
                ui.set_max_width(360.0);
                for words in &fix.does {
                    ui.label(words);
                }
                ui.label(fix.verdict());
                ui.label(fix.start.caution());
                asked = buttons(ui, fix).or(asked.take());
            });
            menu.response.on_hover_text(fix.verdict());
        }
        for (remedy, why) in &fixes.not_offered {
            ui.add_enabled(false, Button::new(remedy.name()))
                .on_disabled_hover_text(format!("Not offered: {why}."));
        }
    });
    asked
}

/// What can be done with a way: sizes that are not for a permit are only opened as a job of their own.
fn buttons(ui: &mut Ui, fix: &Fix) -> Option<Asked> {
    let mut asked = None;
    if fix.start.is_for_permit() && ui.button("Apply to this job").clicked() {
        asked = Some(Asked::Adopt(Box::new(fix.step.clone())));
        ui.close();
    }
    if fix.start.is_for_permit() && ui.button("Open as a variant").clicked() {
        asked = Some(Asked::Vary(fix.start.name(), Box::new(fix.step.clone())));
        ui.close();
    }
    if ui.button("Open as a job of its own").clicked() {
        asked = Some(Asked::Open(Box::new(fix.step.clone())));
        ui.close();
    }
    asked
}

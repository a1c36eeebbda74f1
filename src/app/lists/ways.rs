//! Ways to make the system carry its load, a row for each beside the job as drawn.

use super::row::{Column, Leads, Lines, Row, Table};
use crate::app::desk::Beside;
use crate::editor::Step;
use crate::study::{Outcome, Severity};
use crate::units::UnitSystem;
use egui::{Button, Ui};

/// What a person wants done with one of them.
pub enum Asked {
    /// It is laid on the job, as one step.
    Adopt(Box<Step>),
    /// The job with it is opened as a job of its own.
    Open(Box<Step>),
}

/// The figures side by side: a row for each.
pub fn table(beside: &Beside, units: UnitSystem) -> Table {
    let offered = beside
        .remedies
        .iter()
        .filter_map(|(remedy, outcome)| Some((remedy.name(), &outcome.as_ref().ok()?.outcome)));
    let rows = std::iter::once(("As drawn", &beside.drawn))
        .chain(offered)
        .map(|(name, outcome)| {
            let cells = std::iter::once(name.to_owned()).chain(outcome.column(units));
            Row {
                mark: (outcome.blocking > 0).then_some(Severity::Blocking),
                ..Row::new(cells.collect(), Leads::Job)
            }
        });
    let heads = Outcome::HEADS.iter().map(|head| Column::wide(*head, 1.0));
    Table {
        rows: rows.collect(),
        columns: std::iter::once(Column::words("")).chain(heads).collect(),
        lines: Lines::One,
        empty: String::new(),
    }
}

/// A button for each way; what is not offered says why when it is pointed at.
pub fn offer(ui: &mut Ui, beside: &Beside) -> Option<Asked> {
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        for (remedy, outcome) in &beside.remedies {
            match outcome {
                Ok(way) => {
                    let menu = ui.menu_button(remedy.name(), |ui| {
                        ui.set_max_width(320.0);
                        ui.label(remedy.caution());
                        if remedy.is_for_permit() && ui.button("Lay it on this job").clicked() {
                            asked = Some(Asked::Adopt(Box::new(way.step.clone())));
                            ui.close();
                        }
                        if ui.button("Open as a job of its own").clicked() {
                            asked = Some(Asked::Open(Box::new(way.step.clone())));
                            ui.close();
                        }
                    });
                    menu.response.on_hover_text(remedy.caution());
                }
                Err(why) => {
                    let button = Button::new(remedy.name());
                    ui.add_enabled(false, button)
                        .on_disabled_hover_text(format!("Not offered: {why}."));
                }
            }
        }
    });
    asked
}

//! The lists under the paper: what was found, the sections, the fittings, the appliances. Each row leads to its place.

mod grid;
mod row;
mod tables;

use super::desk::{Desk, Shown};
use super::look;
use crate::editor::Selection;
use egui::Ui;
use grid::Grid;
use row::{Leads, Row, Table, next};

/// Which list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Tab {
    #[default]
    Found,
    Sections,
    Fittings,
    Appliances,
}

impl Tab {
    const ALL: [Tab; 4] = [Tab::Found, Tab::Sections, Tab::Fittings, Tab::Appliances];

    const fn name(self) -> &'static str {
        match self {
            Tab::Found => "Found",
            Tab::Sections => "Sections",
            Tab::Fittings => "Fittings",
            Tab::Appliances => "Appliances",
        }
    }

    fn table(self, shown: &Shown) -> Table {
        match self {
            Tab::Found => tables::found(shown),
            Tab::Sections => tables::sections(shown),
            Tab::Fittings => tables::fittings(shown),
            Tab::Appliances => tables::outlets(shown),
        }
    }

    fn count(self, shown: &Shown) -> usize {
        match self {
            Tab::Found => shown.study.findings.len(),
            Tab::Sections => shown.study.sections.len(),
            Tab::Fittings => shown.study.fittings.len(),
            Tab::Appliances => shown.study.outlets.len(),
        }
    }
}

/// The lists.
#[derive(Default)]
pub struct Lists {
    tab: Tab,
    grid: Grid,
    kept: Option<Kept>,
}

/// The rows of a list, for as long as they serve.
struct Kept {
    of: (Tab, u64),
    table: Table,
}

impl Lists {
    /// Shows them.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        ui.add_space(2.0);
        ui.horizontal_wrapped(|ui| {
            for tab in Tab::ALL {
                let words = format!("{} {}", tab.name(), tab.count(desk.shown()));
                ui.selectable_value(&mut self.tab, tab, words);
            }
            if !desk.is_current() {
                let color = look::warning(ui.visuals().dark_mode);
                ui.label(look::strong("Of before the last change: working").color(color));
            }
        });
        let now = (self.tab, desk.shown().revision);
        let kept = match self.kept.take().filter(|kept| kept.of == now) {
            Some(kept) => self.kept.insert(kept),
            None => {
                self.grid.renew();
                let table = self.tab.table(desk.shown());
                self.kept.insert(Kept { of: now, table })
            }
        };
        if kept.table.rows.is_empty() {
            ui.label(&kept.table.empty);
            // The panel keeps its height.
            ui.allocate_space(ui.available_size());
            return;
        }
        let selection = desk.editor().selection();
        let is_chosen = |row: &Row| row.is_of(|part| selection.contains(part));
        let asked = self.grid.ui(ui, self.tab.name(), &kept.table, is_chosen);
        if let Some(row) = asked.and_then(|at| kept.table.rows.get(at)) {
            lead(desk, &row.leads);
        }
    }
}

/// Leads to where a row belongs.
fn lead(desk: &mut Desk, leads: &Leads) {
    match leads {
        Leads::Job => desk.editor_mut().select(Selection::none()),
        Leads::Each(parts) => {
            if let Some(part) = next(parts, desk.editor().selection().single()) {
                desk.seek(part);
            }
        }
        Leads::Together(parts) => {
            if let Some(first) = parts.first() {
                desk.seek(*first);
                desk.editor_mut().select(parts.iter().copied().collect());
            }
        }
    }
}

//! The lists: what was found, sections, fittings, appliances, what stands, what can be added and ways to mend, under the
//! questions that they answer ([`Question`]). Each row leads to its place. Every list is one struct ([`list::List`]).

mod changes;
mod cuts;
mod grid;
mod list;
mod order;
mod own;
mod permit;
mod row;
mod survey;
mod tab;
mod tables;
mod take_off;
mod variants;
mod ways;

use crate::desk::request::Request;
use crate::desk::{Desk, Face};
use crate::editor::Selection;
use crate::export::csv;
use crate::look;
use crate::view::canvas::Over;
use egui::{Label, RichText, Ui, vec2};
use grid::Grid;
use list::{Chosen, List, Then};
use row::{Leads, Row, Table, next};
use tab::Tab;

pub use tab::Question;

/// Every list.
#[derive(Default)]
struct All {
    found: tables::Found,
    changes: changes::ChangedSince,
    sections: tables::Sections,
    take_off: take_off::Bought,
    cuts: cuts::Cuts,
    order: order::Steps,
    permit: permit::Permit,
    appliances: tables::Appliances,
    existing: tables::Existing,
    room: tables::Room,
    ways: ways::Ways,
    variants: variants::Variants,
    tie_in: survey::Survey,
}

impl All {
    fn get(&mut self, tab: Tab) -> &mut dyn List {
        match tab {
            Tab::Found => &mut self.found,
            Tab::Changes => &mut self.changes,
            Tab::Sections => &mut self.sections,
            Tab::TakeOff => &mut self.take_off,
            Tab::Cuts => &mut self.cuts,
            Tab::Order => &mut self.order,
            Tab::Permit => &mut self.permit,
            Tab::Appliances => &mut self.appliances,
            Tab::Existing => &mut self.existing,
            Tab::Room => &mut self.room,
            Tab::Ways => &mut self.ways,
            Tab::Variants => &mut self.variants,
            Tab::TieIn => &mut self.tie_in,
        }
    }
}

/// The lists.
#[derive(Default)]
pub struct Lists {
    tab: Tab,
    /// The list of each question that was looked at last.
    last: [Option<Tab>; Question::ALL.len()],
    all: All,
    grid: Grid,
    kept: Option<Kept>,
    /// Whether the list is to be copied, and whether it is to be saved for a spreadsheet.
    copies: bool,
    saves: bool,
}

/// The rows of a list, for as long as they serve.
struct Kept {
    of: (Tab, u64, u64),
    table: Table,
    over: Over,
}

impl Lists {
    /// What is to be marked over the drawing.
    pub fn over(&self) -> &Over {
        static NOTHING: Over = Over {
            strokes: Vec::new(),
            way: Vec::new(),
        };
        self.kept.as_ref().map_or(&NOTHING, |kept| &kept.over)
    }

    /// Shows what changed.
    pub fn show_changes(&mut self) {
        self.tab = Tab::Changes;
    }

    /// The question to which the list that is shown belongs.
    pub fn question(&self) -> Question {
        self.tab.question()
    }

    /// Shows the list of a question that was looked at last, or its first.
    pub fn ask(&mut self, question: Question) {
        let last = self.last.iter().flatten().find(|tab| tab.question() == question);
        if let Some(tab) = last.or(question.tabs().first()) {
            self.tab = *tab;
        }
    }

    /// How the canvas is to be lettered for the list that is shown.
    pub fn face(&mut self) -> Face {
        self.all.get(self.tab).face()
    }

    /// Takes what is typed and not yet taken: before anything is saved, or done by a command.
    pub fn settle(&mut self, desk: &mut Desk) {
        for tab in Tab::all() {
            self.all.get(tab).settle(desk);
        }
    }

    /// Shows them.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        for tab in Tab::all() {
            self.all.get(tab).begin(desk);
        }
        self.show(ui, desk);
        for tab in Tab::all() {
            self.all.get(tab).end(desk);
        }
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        ui.add_space(2.0);
        if !self.all.get(self.tab).is_offered(desk) {
            self.tab = Tab::default();
        }
        self.tabs(ui, desk);
        let of = self.tab.question();
        self.last[of as usize] = Some(self.tab);
        let list = self.all.get(self.tab);
        list.head(ui, desk);
        let now = (self.tab, desk.shown().revision, list.stamp());
        let kept = match self.kept.take().filter(|kept| kept.of == now) {
            Some(kept) => self.kept.insert(kept),
            None => {
                let Some(table) = list.table(desk) else {
                    ui.label("Updating…");
                    ui.allocate_space(ui.available_size());
                    return;
                };
                self.grid.renew();
                let over = list.over(desk);
                self.kept.insert(Kept { of: now, table, over })
            }
        };
        if std::mem::take(&mut self.copies) {
            ui.ctx().copy_text(kept.table.text());
        }
        if std::mem::take(&mut self.saves) {
            let text = csv::write(kept.table.cells().map(|row| row.into_iter().map(str::to_owned)));
            desk.ask(Request::SaveList(list.name().to_owned(), text));
        }
        if kept.table.rows.is_empty() {
            ui.label(&kept.table.empty);
            // The panel keeps its height.
            ui.allocate_space(ui.available_size());
            return;
        }
        let chosen = list.chosen(desk);
        let selection = desk.editor().selection();
        let is_chosen = |at: usize, row: &Row| match chosen {
            Chosen::Row(chosen) => chosen == Some(at),
            Chosen::Selected => row.is_of(|part| selection.contains(part)),
        };
        let asked = self.grid.ui(ui, list.name(), &kept.table, is_chosen);
        let Some((at, row)) = asked.and_then(|at| Some((at, kept.table.rows.get(at)?))) else {
            return;
        };
        match list.choose(at, desk) {
            Then::Lead => lead(desk, &row.leads),
            Then::Stay => {}
        }
    }

    /// The names of the lists, each question's beneath it, and whether the lists are of before.
    fn tabs(&mut self, ui: &mut Ui, desk: &Desk) {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing = vec2(18.0, 2.0);
            for question in Question::ALL {
                ui.vertical(|ui| {
                    ui.add(Label::new(RichText::new(question.words()).small().weak()).extend());
                    ui.horizontal(|ui| self.tabs_of(ui, desk, question));
                });
            }
            let copy = ui.small_button("Copy list");
            self.copies |= copy
                .on_hover_text("Copy this list for a spreadsheet or a message")
                .clicked();
            let save = ui.small_button("Save as CSV…");
            self.saves |= save.on_hover_text("Save this list for a spreadsheet").clicked();
            if !desk.is_current() {
                let color = look::warning(ui.visuals().dark_mode);
                ui.label(look::strong("Updating…").color(color));
            }
        });
    }

    fn tabs_of(&mut self, ui: &mut Ui, desk: &Desk, question: Question) {
        ui.spacing_mut().item_spacing.x = 2.0;
        for tab in question.tabs() {
            let list = self.all.get(*tab);
            if !list.is_offered(desk) {
                continue;
            }
            let words = match list.count(desk.shown()) {
                Some(count) => format!("{} {count}", list.name()),
                None => list.name().to_owned(),
            };
            let tip = list.tip();
            ui.selectable_value(&mut self.tab, *tab, words).on_hover_text(tip);
        }
    }
}

/// Leads to where a row belongs.
fn lead(desk: &mut Desk, leads: &Leads) {
    match leads {
        Leads::Job => desk.editor_mut().select(Selection::none()),
        Leads::Place(at) => desk.seek_place(*at),
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

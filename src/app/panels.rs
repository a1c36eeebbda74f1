//! What is around the paper, from the edges of the window inward, on each side of the work.

use super::{App, standing, status, strip};
use crate::desk::Face;
use crate::desk::settings::Side;
use crate::editor::Menu;
use crate::look;
use crate::view::canvas::Over;
use crate::view::menu;
use crate::view::pencil;
use crate::view::sheet_view;
use crate::view::shelf;
use egui::{CentralPanel, Frame, Panel, Ui};

/// Width of the shelf at first, points.
const SHELF: f32 = 165.0;
/// Share of the window's width that the details have at first.
const DETAILS: f32 = 0.175;

impl App {
    /// The panels around the paper, from the edges inward.
    pub(super) fn panels(&mut self, ui: &mut Ui) {
        let (settings, files, help) = (&mut self.settings, &mut self.files, &mut self.help);
        Panel::top("menus").show(ui, |ui| {
            menu::ui(ui, &mut self.desk, |ui, desk, menu| {
                match menu {
                    Menu::Job => files.recent(ui, desk, settings),
                    Menu::View => look::choice(ui, settings),
                    Menu::Edit | Menu::Draw | Menu::Place | Menu::Change | Menu::Help => {}
                }
                help.examples(ui, desk, menu);
            });
        });
        let side = self.settings.side;
        Panel::top("strip").show(ui, |ui| strip::ui(ui, &mut self.desk, side));
        self.help.lesson(ui, &self.desk, self.files.has_exported());
        let scale = match self.is_sheet_meant() {
            true => self.sheet.scale(),
            false => self.canvas.camera.scale,
        };
        let sheet = self.is_sheet_meant().then_some(sheet_view::WHAT_A_CLICK_DOES);
        Panel::bottom("status").show(ui, |ui| status::ui(ui, &self.desk, scale, sheet));
        let open = self.are_lists_shown().then(|| self.lists.question());
        if let Some(question) = standing::ui(ui, &self.desk, open) {
            self.ask(question);
        }
        if self.are_lists_shown() {
            self.lists_panel(ui);
        }
        if side == Side::Draw {
            Panel::left("shelf")
                .default_size(SHELF)
                .size_range(90.0..=260.0)
                .show(ui, |ui| shelf::ui(ui, &mut self.desk));
        }
        let room = ui.available_width();
        match side {
            Side::Draw | Side::Check if self.settings.details => {
                let most = (room * 0.45).clamp(200.0, 640.0);
                Panel::right("details")
                    .default_size((ui.ctx().content_rect().width() * DETAILS).clamp(240.0, 330.0))
                    .size_range(200.0..=most)
                    .show(ui, |ui| self.details.ui(ui, &mut self.desk));
            }
            Side::Draw | Side::Check => {}
            Side::Sheet => {
                let most = (room * 0.45).clamp(200.0, 640.0);
                Panel::right("title block")
                    .default_size(310.0)
                    .size_range(200.0..=most)
                    .show(ui, |ui| {
                        self.details.title_block(ui, &mut self.desk, &mut self.settings)
                    });
            }
        }
        self.settle(ui);
    }

    /// The lists: all the room that they need where they are what is looked at.
    fn lists_panel(&mut self, ui: &mut Ui) {
        let room = ui.available_height();
        let (name, size) = match self.settings.side {
            Side::Check => ("lists to check", room * 0.6),
            Side::Draw | Side::Sheet => ("lists", 230.0),
        };
        Panel::bottom(name)
            .resizable(true)
            .default_size(size)
            .size_range(90.0..=(room - 60.0).max(90.0))
            .show(ui, |ui| self.lists.ui(ui, &mut self.desk));
    }

    /// Takes what is typed in panels that are gone.
    fn settle(&mut self, ui: &Ui) {
        let closes = ui.input(|input| input.viewport().close_requested());
        let has_fields = self.settings.details || self.is_sheet_meant();
        if !has_fields || closes {
            self.details.settle(&mut self.desk);
        }
        if !self.are_lists_shown() || closes {
            self.lists.settle(&mut self.desk);
        }
    }

    /// What lies in the middle.
    pub(super) fn middle(&mut self, ui: &mut Ui) {
        let (shown, nothing) = (self.are_lists_shown(), Over::default());
        self.desk.letter(match shown {
            true => self.lists.face(),
            false => Face::Usual,
        });
        let over = match shown {
            true => self.lists.over(),
            false => &nothing,
        };
        let dim = self.settings.dim_paper && ui.visuals().dark_mode;
        (self.canvas.dim, self.sheet.dim) = (dim, dim);
        CentralPanel::default()
            .frame(Frame::NONE)
            .show(ui, |ui| match self.settings.side {
                Side::Draw | Side::Check => {
                    self.canvas.ui(ui, &mut self.desk, over);
                    if let Some(paper) = self.canvas.area() {
                        pencil::ui(ui.ctx(), paper, &mut self.desk);
                        self.files.recent_on(paper, ui.ctx(), &mut self.desk, &self.settings);
                    }
                }
                Side::Sheet => self.sheet.ui(ui, &mut self.desk, &mut self.settings),
            });
    }
}

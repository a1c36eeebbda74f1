//! TODO
use super::desk::Desk;
use egui::Ui;

/// The details.
#[derive(Default)]
pub struct Details {}

impl Details {
    /// Shows them.
    pub fn ui(&mut self, ui: &mut Ui, _desk: &mut Desk) {
        ui.label("Details");
    }
}

//! TODO
use super::desk::Desk;
use egui::Ui;

/// The lists.
#[derive(Default)]
pub struct Lists {}

impl Lists {
    /// Shows them.
    pub fn ui(&mut self, ui: &mut Ui, _desk: &mut Desk) {
        ui.label("Lists");
    }
}

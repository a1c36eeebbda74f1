//! The very sheet that will be handed over.
use super::desk::Desk;
use egui::Ui;

/// The sheet, and how it is looked at.
#[derive(Default)]
pub struct SheetView {}

impl SheetView {
    /// Shows the sheet.
    pub fn ui(&mut self, ui: &mut Ui, _desk: &mut Desk) {
        ui.label("Sheet");
    }
}

//! What is explained: keys, a first drawing, what this program is and is not.
use super::desk::Desk;
use super::settings::Settings;
use crate::editor::CommandId;
use egui::Ui;

/// Open help.
#[derive(Default)]
pub struct Help {}

impl Help {
    /// Does a command of help; says whether it was one.
    pub fn obey(&mut self, id: CommandId) -> bool {
        matches!(id, CommandId::ShowKeys | CommandId::FirstDrawing | CommandId::About)
    }

    /// Shows what is open; called once a frame, after the panels.
    pub fn ui(&mut self, _ui: &mut Ui, _desk: &mut Desk, _settings: &mut Settings) {}
}

//! The job as a file: new, open, save, hand over, and the question before anything is lost.
use super::desk::Desk;
use super::settings::Settings;
use crate::editor::CommandId;
use egui::Ui;
use std::path::PathBuf;

/// Files and the questions about them.
#[derive(Default)]
pub struct Files {
    path: Option<PathBuf>,
}

impl Files {
    /// Opens a job file in place of what is on the desk, once what is there is safe.
    pub fn open(&mut self, path: PathBuf, desk: &mut Desk) {
        if let Some(job) = std::fs::read(&path)
            .ok()
            .and_then(|bytes| crate::file::read_bytes(&bytes).ok())
        {
            desk.open(job);
            self.path = Some(path);
        }
    }

    /// Does a command of files; says whether it was one.
    pub fn obey(&mut self, ui: &Ui, _desk: &mut Desk, id: CommandId) -> bool {
        if id == CommandId::Quit {
            ui.ctx().send_viewport_cmd(egui::ViewportCommand::Close);
        }
        matches!(
            id,
            CommandId::NewJob
                | CommandId::OpenJob
                | CommandId::SaveJob
                | CommandId::SaveJobAs
                | CommandId::ExportSheet
                | CommandId::Quit
        )
    }

    /// Shows open questions, takes dropped files and the wish to close; called once a frame, after the panels.
    pub fn ui(&mut self, _ui: &mut Ui, _desk: &mut Desk, _settings: &mut Settings) {}

    /// The window's title.
    pub fn title(&self, desk: &Desk) -> String {
        let name = self.path.as_ref().and_then(|path| path.file_name());
        let name = name.map_or("untitled".into(), |name| name.to_string_lossy());
        let mark = if desk.editor().is_saved() { "" } else { "* " };
        format!("{mark}{name} - Stubout")
    }
}

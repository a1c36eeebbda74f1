//! The drawing window. The only room that knows egui, and with `cli` the only one that touches files.
//!
//! | what | where |
//! | --- | --- |
//! | the job in the making and what follows from it, without widgets | `desk` |
//! | the paper: camera, triangles, marks, names | `canvas`, `ink` |
//! | menus, keys and shelf, from the editor's tables | `menu`, `keys`, `shelf` |
//!
//! A frame: keys, then panels, then the paper; what they ask for is done at the end. Whatever changes the job goes
//! through the editor, so that it can be undone.

pub mod canvas;
pub mod desk;
mod ink;
mod keys;
mod look;
mod menu;
mod shelf;
mod status;

use crate::editor::CommandId;
use crate::job::Job;
use canvas::Canvas;
use desk::Desk;
use egui::{CentralPanel, Frame, Panel, Ui};
use std::path::PathBuf;
use std::process::ExitCode;

/// The window.
pub struct App {
    desk: Desk,
    canvas: Canvas,
}

impl App {
    /// A window with an empty job.
    pub fn new(cc: &eframe::CreationContext<'_>) -> App {
        look::set(&cc.egui_ctx);
        let ctx = cc.egui_ctx.clone();
        App {
            desk: Desk::new(Job::default(), move || ctx.request_repaint()),
            canvas: Canvas::default(),
        }
    }

    /// The job in the making with what follows from it.
    pub fn desk(&self) -> &Desk {
        &self.desk
    }

    /// The paper and how it is looked at.
    pub fn canvas(&self) -> &Canvas {
        &self.canvas
    }

    /// Goes over to another job.
    pub fn open(&mut self, job: Job) {
        self.desk.open(job);
        self.canvas.fit();
    }

    /// Does what only the window can do.
    fn obey(&mut self, ui: &Ui, id: CommandId) {
        match id {
            CommandId::ZoomIn => self.canvas.zoom(1.25),
            CommandId::ZoomOut => self.canvas.zoom(0.8),
            CommandId::ZoomFit => self.canvas.fit(),
            CommandId::Quit => ui.ctx().send_viewport_cmd(egui::ViewportCommand::Close),
            _ => {}
        }
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        keys::hear(ui.ctx(), self.canvas.id(), &mut self.desk);
        Panel::top("menus").show(ui, |ui| menu::ui(ui, &mut self.desk, |_, _, _| {}));
        Panel::bottom("status").show(ui, |ui| status::ui(ui, &self.desk, self.canvas.camera.scale));
        Panel::left("shelf")
            .default_size(190.0)
            .show(ui, |ui| shelf::ui(ui, &mut self.desk));
        CentralPanel::default()
            .frame(Frame::NONE)
            .show(ui, |ui| self.canvas.ui(ui, &mut self.desk));
        for id in self.desk.take_asked() {
            self.obey(ui, id);
        }
    }
}

/// Opens the window, with the job of a file if one is given, and returns when it is closed.
pub fn run(file: Option<PathBuf>) -> ExitCode {
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title("Stubout")
            .with_inner_size([1360.0, 860.0])
            .with_min_inner_size([760.0, 480.0]),
        ..Default::default()
    };
    match eframe::run_native(
        "stubout",
        options,
        Box::new(|cc| {
            let mut app = App::new(cc);
            if let Some(job) = file.and_then(|file| crate::file::read_bytes(&std::fs::read(file).ok()?).ok()) {
                app.open(job);
            }
            Ok(Box::new(app))
        }),
    ) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!(
                "The window could not be opened ({error}). It needs a display and OpenGL; without them the commands \
                 work: stubout help"
            );
            ExitCode::from(crate::cli::TROUBLE)
        }
    }
}

//! The drawing window. The only room that knows egui, and with `cli` the only one that touches files.
//!
//! | what | where |
//! | --- | --- |
//! | the job in the making and what follows from it, without widgets | `desk` |
//! | the paper: camera, triangles, marks, names | `canvas`, `ink` |
//! | menus, keys and shelf, from the editor's tables | `menu`, `keys`, `shelf` |
//! | what is said of the chosen part; what was found, sized and counted | `details`, `lists` |
//! | the sheet as it will be handed over | `sheet_view` |
//! | files, and the question before anything is lost | `files` |
//! | keys, a first drawing, examples, cautions | `help` |
//! | what is remembered from one day to the next | `settings` |
//! | whether there can be a window at all | `start` |
//!
//! A frame: keys, what was asked by them and in the last one, panels, the paper, open questions. Whatever changes the job goes
//! through the editor, so that it can be undone.

pub mod canvas;
pub mod desk;
pub mod details;
pub mod files;
pub mod help;
mod ink;
mod issued;
mod keys;
mod later;
mod lists;
pub mod look;
mod menu;
mod repeat;
pub mod request;
pub mod settings;
pub mod sheet_view;
mod shelf;
mod shown;
mod start;
mod status;

use crate::editor::{CommandId, Menu};
use crate::job::Job;
use canvas::{Canvas, Over};
use desk::{Desk, Face};
use details::Details;
use egui::{CentralPanel, Frame, Panel, Ui, ViewportCommand};
use files::Files;
use help::Help;
use lists::Lists;
use repeat::Repeat;
use request::Request;
use settings::{Light, Middle, Settings};
use sheet_view::SheetView;
use start::NAME;
pub use start::run;
use std::path::PathBuf;

/// The window.
pub struct App {
    desk: Desk,
    canvas: Canvas,
    details: Details,
    lists: Lists,
    sheet: SheetView,
    files: Files,
    help: Help,
    repeat: Option<Repeat>,
    settings: Settings,
    title: String,
    /// What waits until what is typed in a field has come on the desk.
    waiting: Vec<Request>,
}

impl App {
    /// A window with an empty job, the settings of the day before, and the work that was not saved then; at the very first
    /// start it asks what to begin with.
    pub fn new(cc: &eframe::CreationContext<'_>) -> App {
        let settings = cc.storage.and_then(|storage| eframe::get_value(storage, settings::KEY));
        let folder = eframe::storage_dir(NAME).map(|folder| folder.join("not saved"));
        let mut app = App::with(cc, settings.unwrap_or_default()).recovering_in(folder);
        app.help = Help::at_start(&app.settings);
        app.files.ask_the_system();
        app
    }

    /// The same window, which keeps copies of unsaved work in a folder and offers those that it finds there.
    pub fn recovering_in(mut self, folder: Option<PathBuf>) -> App {
        self.files.recover_in(folder);
        self
    }

    /// A window with an empty job and these settings, which asks nothing and keeps no copies of unsaved work.
    pub fn with(cc: &eframe::CreationContext<'_>, settings: Settings) -> App {
        look::set(&cc.egui_ctx);
        let ctx = cc.egui_ctx.clone();
        let mut app = App {
            desk: Desk::new(Job::default(), move || ctx.request_repaint()),
            canvas: Canvas::default(),
            details: Details::default(),
            lists: Lists::default(),
            sheet: SheetView::default(),
            files: Files::default(),
            help: Help::default(),
            repeat: None,
            settings,
            title: String::new(),
            waiting: Vec::new(),
        };
        if !app.settings.own.is_empty() {
            app.files.read_own(&app.settings, &mut app.desk);
        }
        app
    }

    /// The job in the making with what follows from it.
    pub fn desk(&self) -> &Desk {
        &self.desk
    }

    /// The same, for whoever drives the window from outside.
    pub fn desk_mut(&mut self) -> &mut Desk {
        &mut self.desk
    }

    /// The paper and how it is looked at.
    pub fn canvas(&self) -> &Canvas {
        &self.canvas
    }

    /// What is remembered.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The sheet and how it is looked at.
    pub fn sheet(&self) -> &SheetView {
        &self.sheet
    }

    /// Files and the questions about them.
    pub fn files(&self) -> &Files {
        &self.files
    }

    /// Goes over to a job that lies in no file, whatever is on the desk.
    pub fn open(&mut self, job: Job) {
        self.files.replace(job, &mut self.desk);
        self.help.skip_welcome();
        self.canvas.fit();
    }

    /// Opens a job file.
    pub fn open_file(&mut self, path: PathBuf) {
        self.files.open(path, &mut self.desk);
        self.help.skip_welcome();
    }

    /// Does what only the window can do.
    fn obey(&mut self, id: CommandId) {
        if self.files.obey(&mut self.desk, id) || self.help.obey(id) {
            return;
        }
        match id {
            CommandId::ZoomIn if self.is_sheet_meant() => self.sheet.zoom(1.25),
            CommandId::ZoomOut if self.is_sheet_meant() => self.sheet.zoom(0.8),
            CommandId::ZoomFit if self.is_sheet_meant() => self.sheet.fit(),
            CommandId::ZoomIn => self.canvas.zoom(1.25),
            CommandId::ZoomOut => self.canvas.zoom(0.8),
            CommandId::ZoomFit => self.canvas.fit(),
            CommandId::ShowSheet => {
                self.settings.middle = self.settings.middle.next();
                self.canvas.fit();
            }
            CommandId::ShowDetails => self.settings.details = !self.settings.details,
            CommandId::GoToDetails => {
                self.settings.details = true;
                self.details.go();
            }
            CommandId::Repeat => self.repeat = Some(Repeat::default()),
            CommandId::StopComparing => self.desk.compare(None),
            CommandId::MakeAsBuilt => self.desk.make_as_built(),
            CommandId::ShowLists => self.settings.lists = !self.settings.lists,
            _ => {}
        }
    }

    /// Whether commands of the view are for the sheet.
    fn is_sheet_meant(&self) -> bool {
        match self.settings.middle {
            Middle::Paper => false,
            Middle::Both => self.sheet.has_focus(),
            Middle::Sheet => true,
        }
    }

    /// Does what keys have just asked, and whatever else since the last frame, oldest first. Before a command of files what is typed in a field goes to the
    /// desk: the field loses the focus, and everything waits for a frame.
    fn serve(&mut self, ui: &Ui) {
        let mut requests = std::mem::take(&mut self.waiting);
        requests.extend(self.desk.take_requests());
        let ctx = ui.ctx();
        let closes = ctx.input(|input| input.viewport().close_requested());
        let is_of_files = |request: &Request| matches!(request, Request::Command(id) if Files::is_one(*id));
        if (closes || requests.iter().any(is_of_files))
            && ctx.text_edit_focused()
            && ctx.memory(|memory| memory.top_modal_layer()).is_none()
            && let Some(field) = ctx.memory(|memory| memory.focused())
        {
            ctx.memory_mut(|memory| memory.surrender_focus(field));
            if closes {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                requests.push(Request::Command(CommandId::Quit));
            }
            self.waiting = requests;
            ctx.request_repaint();
            return;
        }
        // A command is done to the job as typed.
        if requests.iter().any(|request| matches!(request, Request::Command(_))) {
            self.details.settle(&mut self.desk);
            self.lists.settle(&mut self.desk);
        }
        for request in requests {
            self.fulfil(request);
        }
    }

    fn fulfil(&mut self, request: Request) {
        match request {
            Request::Command(id) => self.obey(id),
            Request::Begin(job) => self.files.begin(*job, &mut self.desk),
            Request::ShowWhole => {
                self.canvas.fit();
                self.sheet.fit();
            }
            Request::ShowPart(part) => self.canvas.show_part(part, self.desk.job()),
            Request::ShowPlace(at) => self.canvas.show_place(at),
            Request::ShowChanges => {
                self.settings.lists = true;
                self.lists.show_changes();
            }
            Request::FillIn(field) => {
                if self.settings.middle == Middle::Paper {
                    self.settings.middle = Middle::Sheet;
                }
                self.sheet.open_field(field, &self.desk);
            }
            Request::GoToDetail(field) => {
                self.settings.details = true;
                self.details.go_to(field);
            }
        }
    }

    /// Sets light and size as remembered.
    fn follow_settings(&self, ui: &Ui) {
        ui.ctx().set_theme(match self.settings.light {
            Light::System => egui::ThemePreference::System,
            Light::Day => egui::ThemePreference::Light,
            Light::Night => egui::ThemePreference::Dark,
        });
        let size = self.settings.size.clamp(0.6, 2.5);
        if (ui.ctx().zoom_factor() - size).abs() > 1e-3 {
            ui.ctx().set_zoom_factor(size);
        }
    }

    /// Keeps the window's title true.
    fn title(&mut self, ui: &Ui) {
        let title = self.files.title(&self.desk);
        if title != self.title {
            ui.ctx().send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.follow_settings(ui);
        self.details.resume(ui.ctx());
        keys::hear(ui.ctx(), self.canvas.id(), &mut self.desk);
        self.serve(ui);
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
        let scale = match self.is_sheet_meant() {
            true => self.sheet.scale(),
            false => self.canvas.camera.scale,
        };
        let sheet = (self.settings.middle == Middle::Sheet).then_some(sheet_view::WHAT_A_CLICK_DOES);
        Panel::bottom("status").show(ui, |ui| status::ui(ui, &self.desk, scale, sheet));
        Panel::left("shelf")
            .default_size(190.0)
            .show(ui, |ui| shelf::ui(ui, &mut self.desk));
        self.help.lesson(ui, &self.desk);
        if self.settings.details {
            Panel::right("details")
                .default_size(330.0)
                .size_range(240.0..=640.0)
                .show(ui, |ui| self.details.ui(ui, &mut self.desk));
        }
        let closes = ui.input(|input| input.viewport().close_requested());
        if !self.settings.details || closes {
            self.details.settle(&mut self.desk);
        }
        if !self.settings.lists || closes {
            self.lists.settle(&mut self.desk);
        }
        if self.settings.lists {
            Panel::bottom("lists")
                .resizable(true)
                .default_size(190.0)
                .size_range(90.0..=600.0)
                .show(ui, |ui| self.lists.ui(ui, &mut self.desk));
        }
        self.desk.letter(match self.settings.lists {
            true => self.lists.face(),
            false => Face::Usual,
        });
        let nothing = Over::default();
        let over = match self.settings.lists {
            true => self.lists.over(),
            false => &nothing,
        };
        if self.settings.middle == Middle::Both {
            let half = ui.available_width() / 2.0;
            Panel::right("sheet")
                .default_size(half)
                .frame(Frame::NONE)
                .show(ui, |ui| self.sheet.ui(ui, &mut self.desk, &mut self.settings));
        }
        CentralPanel::default()
            .frame(Frame::NONE)
            .show(ui, |ui| match self.settings.middle {
                Middle::Paper | Middle::Both => self.canvas.ui(ui, &mut self.desk, over),
                Middle::Sheet => self.sheet.ui(ui, &mut self.desk, &mut self.settings),
            });
        if self.waiting.is_empty() {
            self.files.ui(ui, &mut self.desk, &mut self.settings, &mut self.sheet);
        }
        self.help.ui(ui, &mut self.desk, &mut self.settings);
        if let Some(repeat) = &mut self.repeat
            && repeat.ui(ui, &mut self.desk)
        {
            self.repeat = None;
        }
        self.title(ui);
        if !self.desk.requests().is_empty() {
            ui.ctx().request_repaint();
        }
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        eframe::set_value(storage, settings::KEY, &self.settings);
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.files.close(&self.desk);
    }

    /// Panels remember their own sizes only for as long as the window is open.
    fn persist_egui_memory(&self) -> bool {
        false
    }
}

//! The drawing window, put together: what is asked is done here, and the panels stand around the paper.
//!
//! | what | where |
//! | --- | --- |
//! | what is pressed, and what waits for the caret | `keys`, `beat` |
//! | the sides of the work, the panels of each | `strip`, `panels` |
//! | what was found, sized and counted; how the job stands | `lists`, `standing`, `status` |
//! | the guide, keys, a first drawing, examples, cautions | `help` |
//! | whether there can be a window at all | `start` |
//!
//! A frame: keys, what was asked by them and in the last one, panels, the paper, open questions. Whatever changes the job goes
//! through the editor, so that it can be undone.

mod beat;
pub mod help;
mod keys;
mod lists;
mod panels;
mod repeat;
mod standing;
mod start;
mod status;
mod strip;

use crate::desk::Desk;
use crate::desk::request::Request;
use crate::desk::settings::{self, Light, Settings, Side};
use crate::details::Details;
use crate::editor::tool::Tool;
use crate::editor::{CommandId, Item, Part};
use crate::export::png;
use crate::filing::{Files, question};
use crate::job::{DeviceKind, Job, Run, State};
use crate::look;
use crate::study::how_many;
use crate::view::canvas::{Camera, Canvas};
use crate::view::sheet_view::{self, SheetView};
use beat::Beat;
use egui::{Ui, ViewportCommand};
use help::Help;
use help::guide::Chapter;
use lists::{Lists, Question};
use repeat::Repeat;
use start::NAME;
pub use start::run;
use std::path::PathBuf;

/// A sheet on the clipboard has so many dots to an inch: it is read on a telephone, and is no larger than a photograph.
const PICTURE_DPI: f64 = 150.0;

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
    /// Whether it is asked if the job is to be converted to as-built.
    confirms_as_built: bool,
    /// Whether a sheet is to be copied as a picture, once it is made.
    copies_picture: bool,
    settings: Settings,
    title: String,
    /// Where the paper lay when the side that draws was turned away from.
    camera_of_draw: Option<Camera>,
    /// What waits until what is typed in a field has come on the desk.
    waiting: Vec<Request>,
    /// What is typed before the caret has come where it was sent.
    beat: Beat,
}

impl App {
    /// A window with an empty job, the settings of the day before, and the work that was not saved then; at the very first
    /// start it asks what to begin with, unless work is left over.
    pub fn new(cc: &eframe::CreationContext<'_>) -> App {
        let settings = cc.storage.and_then(|storage| eframe::get_value(storage, settings::KEY));
        let folder = eframe::storage_dir(NAME).map(|folder| folder.join("not saved"));
        let mut app = App::with(cc, settings.unwrap_or_default()).recovering_in(folder);
        if !app.files.has_left() {
            app.help = Help::at_start(&app.settings);
        }
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
            confirms_as_built: false,
            copies_picture: false,
            settings,
            title: String::new(),
            camera_of_draw: None,
            waiting: Vec::new(),
            beat: Beat::default(),
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
        let meant = chapter(&self.desk, self.settings.side);
        if self.files.obey(&mut self.desk, id) || self.help.obey(id, || meant) {
            return;
        }
        match id {
            CommandId::ZoomIn if self.is_sheet_meant() => self.sheet.zoom(1.25),
            CommandId::ZoomOut if self.is_sheet_meant() => self.sheet.zoom(0.8),
            CommandId::ZoomFit if self.is_sheet_meant() => self.sheet.fit(),
            CommandId::ZoomIn => self.canvas.zoom(1.25),
            CommandId::ZoomOut => self.canvas.zoom(0.8),
            CommandId::ZoomFit => self.canvas.fit(),
            CommandId::ShowDraw => self.turn_to(Side::Draw),
            CommandId::ShowCheck => self.turn_to(Side::Check),
            CommandId::ShowSheet => self.turn_to(Side::Sheet),
            CommandId::ShowDetails => self.settings.details = !self.settings.details,
            CommandId::GoToDetails => {
                self.settings.details = true;
                let field = crate::details::open_field(&self.desk).filter(|_| !self.is_sheet_meant());
                self.details.go(field);
            }
            CommandId::Repeat => self.repeat = Some(Repeat::default()),
            CommandId::StopComparing => self.desk.compare(None),
            CommandId::MakeAsBuilt => self.confirms_as_built = true,
            CommandId::CopyPicture => self.copies_picture = true,
            CommandId::ShowLists => match self.settings.side {
                Side::Draw => self.settings.lists_open = !self.settings.lists_open,
                Side::Check | Side::Sheet => self.turn_to(Side::Draw),
            },
            _ => {}
        }
    }

    /// Turns to a side of the work. What is drawn is checked as a whole; who draws on finds the paper as it lay.
    fn turn_to(&mut self, side: Side) {
        let now = self.settings.side;
        if side == now {
            return;
        }
        if side == Side::Sheet {
            // There is nothing to draw on.
            self.desk.run(CommandId::Choose);
        }
        if now == Side::Draw {
            self.camera_of_draw = Some(self.canvas.camera);
        }
        match (side, self.camera_of_draw) {
            (Side::Draw, Some(camera)) => self.canvas.camera = camera,
            (Side::Draw, None) | (Side::Check, _) => self.canvas.fit(),
            (Side::Sheet, _) => {}
        }
        self.settings.side = side;
    }

    /// Whether commands of the view are for the sheet.
    fn is_sheet_meant(&self) -> bool {
        self.settings.side == Side::Sheet
    }

    /// The lists of a question are asked for, or those that lie open are closed.
    fn ask(&mut self, question: Question) {
        let is_open = self.are_lists_shown() && self.lists.question() == question;
        match self.settings.side {
            Side::Draw => self.settings.lists_open = !is_open,
            Side::Check => {}
            Side::Sheet => self.turn_to(Side::Check),
        }
        self.lists.ask(question);
    }

    fn are_lists_shown(&self) -> bool {
        match self.settings.side {
            Side::Draw => self.settings.lists_open,
            Side::Check => true,
            Side::Sheet => false,
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
                self.camera_of_draw = None;
                self.canvas.fit();
                self.sheet.fit();
            }
            Request::ShowPart(part) => self.canvas.show_part(part, self.desk.job()),
            Request::ShowPlace(at) => self.canvas.show_place(at),
            Request::ShowChanges => {
                self.settings.lists_open = true;
                self.lists.show_changes();
            }
            Request::GoToPart(part) => {
                self.turn_to(Side::Draw);
                self.desk.seek(part);
            }
            Request::FillIn(field) => {
                self.turn_to(Side::Sheet);
                self.details.go_to_title(field);
            }
            Request::GoToDetail(field) => {
                self.settings.details = true;
                self.details.go(Some(field));
            }
            Request::TypeInto(field, text) => {
                self.settings.details = true;
                self.details.type_into(field, &text);
            }
            Request::SaveList(name, text) => self.files.save_list(&self.desk, &name, text),
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

    /// Asks before the job is converted to as-built, and says what that does.
    fn confirm_as_built(&mut self, ui: &Ui) {
        let job = self.desk.job();
        let runs = |which: fn(&Run) -> bool| job.runs.iter().filter(|run| which(run)).count();
        let open = runs(|run| run.state == State::New && run.size.is_none());
        let removed = runs(|run| run.state == State::Removed);
        let mut words = vec!["The drawing is marked AS BUILT.".to_owned()];
        if open > 0 {
            let runs = how_many(open, "new run");
            words.push(format!(
                "{runs} not sized by hand: the sizes found are written down and stay as installed."
            ));
        }
        if removed > 0 {
            let runs = how_many(removed, "run");
            words.push(format!("{runs} to be removed: off the drawing."));
        }
        words.push("Then enter the lengths as measured. Undo takes it back.".to_owned());
        let answer = question::ask(
            ui.ctx(),
            "as built",
            "Convert to as-built?",
            &words,
            ["Convert", "Cancel"],
        );
        if answer == Some(0) {
            self.desk.make_as_built();
        }
        self.confirms_as_built = answer.is_none();
    }

    /// Puts a sheet on the clipboard as a picture: the one that is looked at, else the first.
    fn copy_picture(&mut self, ui: &Ui) {
        let composed = self.sheet.composed(&self.desk, &self.settings);
        let composed = composed.filter(|composed| sheet_view::is_current(composed, &self.desk, &self.settings));
        let Some(composed) = composed else { return };
        self.copies_picture = false;
        let number = match self.is_sheet_meant() {
            true => self.sheet.looked_at(&composed),
            false => 0,
        };
        let sheet = composed.packet.sheets.get(number);
        let words = match sheet.map(|sheet| png::pixels(sheet, PICTURE_DPI)) {
            Some(Ok((size, pixels))) => {
                ui.ctx()
                    .copy_image(egui::ColorImage::from_rgba_unmultiplied(size, &pixels));
                format!(
                    "Sheet {} is on the clipboard as a picture: paste it into a message",
                    number + 1
                )
            }
            Some(Err(error)) => format!("Can't copy the sheet: {}. {}", error.what(), error.remedy()),
            None => "There is no sheet to copy yet".to_owned(),
        };
        self.desk.editor_mut().tell(words);
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

/// The chapter of the guide that explains what is selected, else what is in hand, else the side that is looked at.
fn chapter(desk: &Desk, side: Side) -> Chapter {
    let editor = desk.editor();
    let device = |kind| match kind {
        DeviceKind::Supply => Chapter::Delivery,
        DeviceKind::Appliance | DeviceKind::Cap => Chapter::Appliance,
        _ => Chapter::Device,
    };
    match (side, editor.selection().single(), editor.tool()) {
        (Side::Sheet, ..) => Chapter::Sheet,
        (_, Some(Part::Joint(id)), _) => {
            let joint = desk.job().joints.get(id);
            let placed = joint.and_then(|joint| joint.placed.as_ref());
            placed.map_or(Chapter::Length, |placed| device(placed.device.kind()))
        }
        (_, Some(Part::Run(id)), _) => match desk.job().runs.get(id).map(|run| run.state) {
            Some(State::New) | None => Chapter::Sizes,
            Some(State::Existing | State::Removed) => Chapter::Existing,
        },
        (_, Some(Part::Penetration(..)), _) => Chapter::Building,
        (_, _, Tool::Draw(_)) => Chapter::Draw,
        (_, _, Tool::Place(place)) => match place.item {
            Item::Device(kind) => device(kind),
            Item::Appliance(_) => Chapter::Appliance,
            Item::Passage(_) => Chapter::Building,
            Item::Note => Chapter::Start,
        },
        (Side::Check, ..) => Chapter::Check,
        (Side::Draw, _, Tool::Choose(_) | Tool::Put(_) | Tool::Preview(_)) => Chapter::Start,
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.follow_settings(ui);
        self.details.resume(ui.ctx());
        let paper = match self.is_sheet_meant() {
            true => None,
            false => self.canvas.id(),
        };
        keys::hear(ui.ctx(), paper, &mut self.desk);
        self.serve(ui);
        // Whatever was taken in hand, it is used on the paper.
        if self.is_sheet_meant() && !matches!(self.desk.editor().tool(), Tool::Choose(_)) {
            self.turn_to(Side::Draw);
        }
        self.panels(ui);
        self.middle(ui);
        if self.waiting.is_empty() {
            self.files.ui(ui, &mut self.desk, &mut self.settings, &mut self.sheet);
        }
        self.help.ui(ui, &mut self.desk, &mut self.settings);
        if let Some(repeat) = &mut self.repeat
            && repeat.ui(ui, &mut self.desk)
        {
            self.repeat = None;
        }
        if self.confirms_as_built {
            self.confirm_as_built(ui);
        }
        if self.copies_picture {
            self.copy_picture(ui);
        }
        self.title(ui);
        if !self.desk.requests().is_empty() {
            ui.ctx().request_repaint();
        }
    }

    fn raw_input_hook(&mut self, ctx: &egui::Context, raw: &mut egui::RawInput) {
        if self.beat.cut(&mut raw.events) {
            ctx.request_repaint();
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

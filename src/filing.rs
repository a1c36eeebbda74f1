//! The job as a file of the window: new, open, save, give out, and the question before anything is lost.
//!
//! Whatever would take the job off the desk goes through [`Files::leave`]: unsaved work is asked about first. While a
//! question is open nothing else happens. Copies of unsaved work are kept beside all this ([`recovery`]).

mod answer;
mod browser;
mod choice;
mod chooser;
mod dropped;
mod folder;
mod hand_over;
mod lists;
mod name_field;
mod offer;
pub mod outside;
mod own;
mod own_file;
mod place;
pub mod question;
mod recent;
mod recovery;
mod unsaved;

use crate::desk::Desk;
use crate::desk::request::Request;
use crate::desk::settings::Settings;
use crate::disk::{self, Print, Source, Trouble};
use crate::editor::CommandId;
use crate::editor::tool::Tool;
use crate::job::Job;
use crate::view::sheet_view::SheetView;
use chooser::{Chooser, Dialogs, Purpose};
use egui::epaint::Shadow;
use egui::{Align2, Area, Context, Frame, Id, Order, Popup, Rect, Ui, ViewportCommand, vec2};
use hand_over::HandOver;
use offer::Offer;
use own_file::OwnFile;
use recovery::{Left, Recovery};
use std::path::{Path, PathBuf};

/// Files and the questions about them.
#[derive(Default)]
pub struct Files {
    path: Option<PathBuf>,
    /// The drawing that the job was read out of, as long as the job lies in no file of its own.
    drawing: Option<PathBuf>,
    /// What the file held when it was last read or written here.
    print: Option<Print>,
    asking: Option<Asking>,
    recovery: Recovery,
    /// Work left behind by windows of before, the next to be asked about last.
    left: Vec<Left>,
    /// The piece that is being asked about.
    offered: Option<Offer>,
    /// The revision of which there is a copy, and when it was made.
    copied: Option<(u64, f64)>,
    /// Whether it has been said that copies cannot be written.
    warned: bool,
    /// Whether the window may close.
    leaving: bool,
    /// A file that goes to the head of the recent ones.
    worked_on: Option<PathBuf>,
    recent: Recent,
    /// How the sheet was last handed over.
    handed: choice::Choice,
    /// Whether any has been, since the window was opened.
    has_exported: bool,
    /// The tables and profiles of the person's own.
    own: Vec<OwnFile>,
    dialogs: Dialogs,
}

/// Lines of the recent files, looked up anew every second.
#[derive(Default)]
struct Recent {
    lines: Vec<recent::Line>,
    of: Vec<PathBuf>,
    at: f64,
}

/// What is to be done once the job on the desk is safe.
#[derive(Clone, Debug, PartialEq)]
enum Next {
    New,
    Begin(Box<Job>),
    Open(PathBuf),
    Quit,
}

/// What saving to the job's own file would lose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Loss {
    /// What something else wrote there.
    Changes,
    /// Notes between its lines.
    Notes,
}

/// The window that is open.
enum Asking {
    /// The work on the desk is not saved.
    Leave(Next),
    /// Which job to open.
    Open(Chooser),
    /// With which job to compare.
    Compare(Chooser),
    /// Where to save, and what comes after.
    Save(Chooser, Option<Next>),
    /// Saving would lose something of the file; what comes after.
    Losing(Loss, Option<Next>),
    /// Something went wrong.
    Trouble(Trouble),
    /// Something went wrong with saving; what was to come after.
    NotSaved(Trouble, Option<Next>),
    /// Which tables and profiles of the person's own there are.
    Own,
    /// Which one to open.
    AddOwn(Chooser),
    /// The sheet is handed over.
    HandOver(Box<HandOver>),
    /// Where to save a list for a spreadsheet, and its text.
    SaveList(Chooser, String),
}

impl Files {
    /// Keeps copies of unsaved work in a folder, and offers those that are there.
    pub fn recover_in(&mut self, folder: Option<PathBuf>) {
        self.recovery = Recovery::in_folder(folder);
        self.left = self.recovery.left();
        self.left.reverse();
    }

    /// Whether work was left behind about which nobody has been asked yet.
    pub fn has_left(&self) -> bool {
        !self.left.is_empty()
    }

    /// Files are chosen in the dialogs of the system, where it has any.
    pub fn ask_the_system(&mut self) {
        self.dialogs = Dialogs::SystemFirst;
    }

    /// Reads the tables and profiles of the person's own that the settings remember; what is wrong with one is told, and the
    /// others serve.
    pub fn read_own(&mut self, settings: &Settings, desk: &mut Desk) {
        let (book, own) = own_file::read_all(&settings.own);
        desk.take_book(book);
        self.own = own;
        if self.own.iter().any(|file| file.read.is_err()) {
            self.asking = Some(Asking::Own);
        }
    }

    /// Whether sheets were exported since the window was opened.
    pub fn has_exported(&self) -> bool {
        self.has_exported
    }

    /// The file of the job on the desk.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// Opens a job file, or a drawing that carries a job, in place of what is on the desk, once what is there is safe.
    pub fn open(&mut self, path: PathBuf, desk: &mut Desk) {
        self.leave(Next::Open(path), desk);
    }

    /// Puts a job that lies in no file in place of what is on the desk, once what is there is safe.
    pub fn begin(&mut self, job: Job, desk: &mut Desk) {
        self.leave(Next::Begin(Box::new(job)), desk);
    }

    /// Puts a job that lies in no file in place of what is on the desk, and asks nothing.
    pub fn replace(&mut self, job: Job, desk: &mut Desk) {
        self.go_on(Next::Begin(Box::new(job)), desk);
    }

    /// Whether a command is one of files, for which what is typed anywhere must be on the desk first.
    pub const fn is_one(id: CommandId) -> bool {
        matches!(
            id,
            CommandId::NewJob
                | CommandId::OpenJob
                | CommandId::SaveJob
                | CommandId::SaveJobAs
                | CommandId::ExportSheet
                | CommandId::Print
                | CommandId::Compare
                | CommandId::OwnFiles
                | CommandId::Quit
        )
    }

    /// Does a command of files; says whether it was one.
    pub fn obey(&mut self, desk: &mut Desk, id: CommandId) -> bool {
        if self.asking.is_some() && Files::is_one(id) {
            return true;
        }
        match id {
            CommandId::NewJob => self.leave(Next::New, desk),
            CommandId::OpenJob => {
                let chooser = Chooser::new(self.dialogs, Purpose::Open, &self.folder(), String::new());
                self.asking = Some(Asking::Open(chooser));
            }
            CommandId::Compare => {
                let chooser = Chooser::new(self.dialogs, Purpose::Compare, &self.folder(), String::new());
                self.asking = Some(Asking::Compare(chooser));
            }
            CommandId::OwnFiles => self.asking = Some(Asking::Own),
            CommandId::SaveJob => self.save(desk, None),
            CommandId::SaveJobAs => self.choose_place(desk, None),
            CommandId::ExportSheet => {
                let stem = place::stem(self.origin(), &desk.job().title.job);
                let hand_over = HandOver::new(&self.folder(), &stem, self.handed, self.drawing.clone());
                self.asking = Some(Asking::HandOver(Box::new(hand_over)));
            }
            CommandId::Print => {
                let stem = place::stem(self.origin(), &desk.job().title.job);
                match HandOver::to_print(&stem) {
                    Ok(hand_over) => self.asking = Some(Asking::HandOver(Box::new(hand_over))),
                    Err(trouble) => self.asking = Some(Asking::Trouble(trouble)),
                }
            }
            CommandId::Quit => self.leave(Next::Quit, desk),
            _ => return false,
        }
        true
    }

    /// Asks where a list is to be saved for a spreadsheet.
    pub fn save_list(&mut self, desk: &Desk, list: &str, text: String) {
        if self.asking.is_none() {
            let mut name = place::stem(self.origin(), &desk.job().title.job);
            name.push(format!("-{}.csv", list.to_lowercase().replace(' ', "-")));
            let name = name.to_string_lossy().into_owned();
            let chooser = Chooser::new(self.dialogs, Purpose::List, &self.folder(), name);
            self.asking = Some(Asking::SaveList(chooser, text));
        }
    }

    /// Shows open questions, takes dropped files and the wish to close; called once a frame, after the panels.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk, settings: &mut Settings, sheet: &mut SheetView) {
        let ctx = &ui.ctx().clone();
        if ctx.input(|input| input.viewport().close_requested()) && !self.leaving && !desk.editor().is_saved() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.asking = Some(Asking::Leave(Next::Quit));
        }
        self.dropped(ctx, desk, settings);
        match self.asking.take() {
            Some(asking) => self.answer(ctx, asking, desk, settings, sheet),
            None => self.offer_left(ctx, desk),
        }
        if let Some(path) = self.worked_on.take() {
            recent::remember(&mut settings.recent, &path);
        }
        self.keep_copy(ctx, desk);
        if self.leaving && !ctx.input(|input| input.viewport().close_requested()) {
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    /// The recent files as lines of a menu.
    pub fn recent(&mut self, ui: &mut Ui, desk: &mut Desk, settings: &Settings) {
        if settings.recent.is_empty() {
            return;
        }
        ui.separator();
        if let Some(path) = self.recent_lines(ui, settings) {
            ui.close();
            self.reopen(path, desk);
        }
    }

    /// The recent files on blank paper, in its lower left corner.
    pub fn recent_on(&mut self, paper: Rect, ctx: &Context, desk: &mut Desk, settings: &Settings) {
        let is_blank = desk.job().joints.is_empty() && desk.editor().is_saved();
        let is_free =
            self.asking.is_none() && !Popup::is_any_open(ctx) && matches!(desk.editor().tool(), Tool::Choose(_));
        if settings.recent.is_empty() || !is_blank || !is_free {
            return;
        }
        let area = Area::new(Id::unique("recent jobs"))
            .order(Order::Middle)
            .pivot(Align2::LEFT_BOTTOM)
            .fixed_pos(paper.left_bottom() + vec2(16.0, -16.0));
        let shown = area.show(ctx, |ui| {
            let frame = Frame::window(ui.style()).shadow(Shadow::NONE);
            frame.show(ui, |ui| self.recent_lines(ui, settings)).inner
        });
        if let Some(path) = shown.inner {
            self.reopen(path, desk);
        }
    }

    fn reopen(&mut self, path: PathBuf, desk: &mut Desk) {
        if self.asking.is_none() {
            self.leave(Next::Open(path), desk);
        }
    }

    /// A line for each recent file; gives the one that is wanted.
    fn recent_lines(&mut self, ui: &mut Ui, settings: &Settings) -> Option<PathBuf> {
        let now = ui.input(|input| input.time);
        if self.recent.of != settings.recent || now - self.recent.at > 1.0 {
            self.recent = Recent {
                lines: recent::lines(&settings.recent),
                of: settings.recent.clone(),
                at: now,
            };
        }
        ui.weak("Recent jobs");
        let mut chosen = None;
        for line in &self.recent.lines {
            let button = ui.add_enabled(line.missing.is_none(), egui::Button::new(&line.words));
            let path = line.path.display().to_string();
            let button = button.on_hover_text(&path);
            if let Some(missing) = line.missing {
                button.clone().on_disabled_hover_text(format!("{missing}: {path}"));
            }
            if button.clicked() {
                chosen = Some(line.path.clone());
            }
        }
        chosen
    }

    /// The window's title.
    pub fn title(&self, desk: &Desk) -> String {
        let name = match (&self.path, &self.drawing) {
            (Some(path), _) => place::shown_name(path),
            (None, Some(drawing)) => format!("untitled, from {}", place::shown_name(drawing)),
            (None, None) => "untitled".to_owned(),
        };
        let mark = if desk.editor().is_saved() { "" } else { "* " };
        format!("{mark}{name} - Stubout")
    }

    /// The window closes: unsaved work about which nobody was asked stays as a copy.
    pub fn close(&mut self, desk: &Desk) {
        if desk.editor().is_saved() || self.leaving {
            self.recovery.forget();
        } else {
            // There is nobody left to tell.
            let _ = self.recovery.keep(desk.job(), self.path.as_deref());
        }
    }

    /// Where the job on the desk comes from: its own file, or the drawing that it was read out of.
    fn origin(&self) -> Option<&Path> {
        self.path.as_deref().or(self.drawing.as_deref())
    }

    /// The folder that is shown first.
    fn folder(&self) -> PathBuf {
        let own = self.origin().and_then(|path| std::path::absolute(path).ok());
        let own = own.and_then(|path| path.parent().map(Path::to_owned));
        let here = || std::env::current_dir().ok().filter(|here| here.parent().is_some());
        own.or_else(here)
            .or_else(place::home)
            .unwrap_or_else(|| PathBuf::from("/"))
    }

    /// Goes on to what takes the job off the desk; asks first when it is not saved.
    fn leave(&mut self, next: Next, desk: &mut Desk) {
        if desk.editor().is_saved() {
            self.go_on(next, desk);
        } else {
            self.asking = Some(Asking::Leave(next));
        }
    }

    /// Takes the job off the desk.
    fn go_on(&mut self, next: Next, desk: &mut Desk) {
        match next {
            Next::New => {
                desk.open(Job::default());
                self.on_desk(desk, None, None);
            }
            Next::Begin(job) => {
                desk.open(*job);
                self.on_desk(desk, None, None);
            }
            Next::Open(path) => match disk::read(&path) {
                Ok((job, source)) => {
                    // Whoever takes up a copy of it later may stand in another folder.
                    let path = std::path::absolute(&path).unwrap_or(path);
                    desk.open(job);
                    self.worked_on = Some(path.clone());
                    match source {
                        Source::JobFile(print) => self.on_desk(desk, Some(path), Some(print)),
                        Source::Drawing => {
                            self.on_desk(desk, None, None);
                            self.drawing = Some(path);
                        }
                    }
                }
                Err(trouble) => self.asking = Some(Asking::Trouble(trouble)),
            },
            Next::Quit => self.leaving = true,
        }
    }

    /// Notes which file the job on the desk belongs to; the copy of the one before has served.
    fn on_desk(&mut self, desk: &mut Desk, path: Option<PathBuf>, print: Option<Print>) {
        (self.path, self.print, self.drawing) = (path, print, None);
        desk.ask(Request::ShowWhole);
        self.copied = None;
        self.recovery.forget();
    }

    /// Saves to the job's own file, if it has one and that is as it was.
    fn save(&mut self, desk: &mut Desk, next: Option<Next>) {
        let Some(path) = self.path.clone() else {
            self.choose_place(desk, next);
            return;
        };
        let now = Print::now(&path);
        if now.is_some() && now != self.print {
            self.asking = Some(Asking::Losing(Loss::Changes, next));
            return;
        }
        if self.print.is_some_and(|print| print.has_notes()) {
            self.asking = Some(Asking::Losing(Loss::Notes, next));
            return;
        }
        self.write_own(path, desk, next);
    }

    /// Saves to the job's own file, whatever lies there.
    fn write_own(&mut self, path: PathBuf, desk: &mut Desk, next: Option<Next>) {
        if let Err(trouble) = self.write(path, desk, next.clone()) {
            self.asking = Some(Asking::NotSaved(trouble, next));
        }
    }

    fn choose_place(&mut self, desk: &Desk, next: Option<Next>) {
        let mut name = place::stem(self.origin(), &desk.job().title.job);
        name.push(".");
        name.push(place::ENDING);
        let chooser = Chooser::new(
            self.dialogs,
            Purpose::Save,
            &self.folder(),
            name.to_string_lossy().into_owned(),
        );
        self.asking = Some(Asking::Save(chooser, next));
    }

    fn write(&mut self, path: PathBuf, desk: &mut Desk, next: Option<Next>) -> Result<(), Trouble> {
        let print = disk::save(&path, desk.job())?;
        desk.editor_mut().mark_saved();
        self.worked_on = Some(path.clone());
        (self.path, self.print, self.drawing) = (Some(path), Some(print), None);
        self.copied = None;
        self.recovery.forget();
        if let Some(next) = next {
            self.go_on(next, desk);
        }
        Ok(())
    }
}

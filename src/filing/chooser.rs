//! How a file is chosen: in the dialog of the system, or where none answers in a window of our own with a path to type and
//! a folder to walk through.

use super::browser::{Browser, Picked};
use super::name_field::finish;
use super::place::{self, DRAWING, ENDING, Meant};
use super::{own_file, question};
use crate::desk::later::{Lost, Task, Wake};
use crate::look;
use egui::{Align, Context, Layout, TextEdit, Ui};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// No person cancels a dialog so soon: the system has none.
const A_MOMENT: Duration = Duration::from_millis(400);

/// Which dialogs a file is chosen in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Dialogs {
    /// Our own.
    #[default]
    Own,
    /// The system's where it has one.
    SystemFirst,
}

/// How far the system's dialog is.
#[derive(Debug)]
enum System {
    /// It is to be opened.
    Wanted,
    /// It is open, since then.
    Open(Option<Task<Option<PathBuf>>>, Instant),
    /// There is none, or it is not wanted.
    Past,
}

/// The ending of lists.
const LIST: &str = "csv";

/// What a path is chosen for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// To read a job.
    Open,
    /// To read a job that the one on the desk is compared with.
    Compare,
    /// To read a table or a profile of the person's own.
    Own,
    /// To write the job.
    Save,
    /// To write a list for a spreadsheet.
    List,
}

impl Purpose {
    /// What the files that serve are called.
    const fn filter(self) -> &'static str {
        match self {
            Purpose::Open | Purpose::Compare | Purpose::Save => "Stubout job",
            Purpose::Own => "Table or profile",
            Purpose::List => "List for a spreadsheet",
        }
    }

    /// The endings of the files that serve.
    const fn endings(self) -> &'static [&'static str] {
        match self {
            Purpose::Open | Purpose::Compare => &[ENDING, DRAWING],
            Purpose::Own => &own_file::ENDINGS,
            Purpose::Save => &[ENDING],
            Purpose::List => &[LIST],
        }
    }

    /// The ending of what is written; `None` where something is read.
    const fn writes(self) -> Option<&'static str> {
        match self {
            Purpose::Open | Purpose::Compare | Purpose::Own => None,
            Purpose::Save => Some(ENDING),
            Purpose::List => Some(LIST),
        }
    }
}

/// How the window was left.
#[derive(Clone, Debug, PartialEq)]
pub enum Left {
    /// With a path; for saving, what lies there may be written over.
    Chosen(PathBuf),
    /// Without.
    Cancelled,
}

/// The window.
#[derive(Debug)]
pub struct Chooser {
    purpose: Purpose,
    typed: String,
    browser: Browser,
    fault: Option<String>,
    /// The file that would be written over.
    over: Option<PathBuf>,
    /// Whether the path field is to have the keyboard.
    focus: bool,
    system: System,
}

impl Chooser {
    /// A choice that begins in a folder, with a name in the field.
    pub fn new(dialogs: Dialogs, purpose: Purpose, folder: &Path, name: String) -> Chooser {
        Chooser {
            purpose,
            typed: name,
            browser: Browser::new(folder, purpose.endings()),
            fault: None,
            over: None,
            focus: true,
            system: match dialogs {
                Dialogs::Own => System::Past,
                Dialogs::SystemFirst => System::Wanted,
            },
        }
    }

    /// Puts a path in the field, to be seen in our own window.
    pub fn take(&mut self, path: &Path) {
        self.system = System::Past;
        self.typed = path.display().to_string();
        (self.fault, self.over, self.focus) = (None, None, true);
    }

    /// Says beside the field why it did not go.
    pub fn refuse(&mut self, words: String) {
        (self.fault, self.over, self.focus) = (Some(words), None, true);
    }

    /// Shows the window until it is left; `wake` is called when the system's dialog has been answered.
    pub fn ui(&mut self, ctx: &Context, wake: &Wake) -> Option<Left> {
        let (name, heading) = match self.purpose {
            Purpose::Open => ("open job", "Open job"),
            Purpose::Compare => ("compare", "Compare with an issued job"),
            Purpose::Own => ("own file", "Open a table or profile of your own"),
            Purpose::Save => ("save job as", "Save job as"),
            Purpose::List => ("save list", "Save the list for a spreadsheet"),
        };
        if matches!(self.system, System::Wanted) {
            self.ask_system(wake);
        }
        if let Some(left) = self.system() {
            return Some(left);
        }
        if matches!(self.system, System::Open(..)) {
            let words = ["The file dialog of your desktop is open: choose there.".to_owned()];
            if question::ask(ctx, name, heading, &words, ["Choose here instead"]).is_some() {
                self.system = System::Past;
            }
            return None;
        }
        let window = question::window(ctx, name, 620.0, heading, |ui| self.content(ui));
        let cancelled = question::is_left(&window);
        if cancelled && self.over.take().is_some() {
            self.focus = true;
            return None;
        }
        window.inner.or(cancelled.then_some(Left::Cancelled))
    }

    fn content(&mut self, ui: &mut Ui) -> Option<Left> {
        let mut go = self.field(ui);
        let list = (ui.ctx().content_rect().height() - 300.0).clamp(0.0, 300.0);
        match self.browser.ui(ui, list) {
            Some(Picked::File(path)) => {
                self.take_name(&path);
                self.focus = true;
            }
            Some(Picked::Wanted(path)) => {
                self.take_name(&path);
                go = true;
            }
            None => {}
        }
        let mut left = None;
        if let Some(over) = self.over.clone() {
            let words = format!("{} already exists. Overwrite it?", place::shown_name(&over));
            ui.add_space(4.0);
            ui.label(look::strong(words).color(look::warning(ui.visuals().dark_mode)));
            match question::answers(ui, ["Another name", "Overwrite"]) {
                Some(1) => left = Some(Left::Chosen(over)),
                Some(_) => (self.over, self.focus) = (None, true),
                None => {}
            }
            return left;
        }
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if ui.button("Cancel").clicked() {
                    left = Some(Left::Cancelled);
                }
                let words = match self.purpose {
                    Purpose::Open | Purpose::Own => "Open",
                    Purpose::Compare => "Compare",
                    Purpose::Save | Purpose::List => "Save",
                };
                go |= ui.button(words).clicked();
            });
        });
        if go { self.confirm().or(left) } else { left }
    }

    /// The path field with what is wrong about it; says whether Enter was pressed in it.
    fn field(&mut self, ui: &mut Ui) -> bool {
        let label = ui.label("Name or path");
        let field = TextEdit::singleline(&mut self.typed)
            .desired_width(f32::INFINITY)
            .hint_text(match self.purpose {
                Purpose::Own => "tubing.tsv, or /folder/office.ron",
                Purpose::List => "sections.csv, or /folder/sections.csv",
                Purpose::Open | Purpose::Compare | Purpose::Save => "house.ron, or /folder/house.ron",
            });
        let response = ui.add(field).labelled_by(label.id);
        if response.changed() {
            (self.fault, self.over) = (None, None);
            // A folder that has been typed to its end is shown at once.
            if self.typed.ends_with(std::path::MAIN_SEPARATOR) {
                let folder = place::full(&self.typed, self.browser.folder());
                if folder.is_dir() {
                    self.browser.go(&folder);
                    self.typed.clear();
                }
            }
        }
        finish(ui, &response, &self.typed, &mut self.focus, self.fault.as_deref())
    }

    /// Goes by what is typed.
    fn confirm(&mut self) -> Option<Left> {
        let folder = self.browser.folder();
        let meant = match self.purpose.writes() {
            None => place::to_open(&self.typed, folder),
            Some(ending) => place::to_save(&self.typed, folder, ending),
        };
        self.focus = true;
        match (meant, self.purpose.writes()) {
            (Meant::Folder(folder), _) => {
                self.browser.go(&folder);
                self.typed.clear();
                None
            }
            (Meant::Old(path), Some(_)) => {
                (self.over, self.focus) = (Some(path), false);
                None
            }
            (Meant::Old(path) | Meant::New(path), _) => Some(Left::Chosen(path)),
            (Meant::Nothing(words), _) => {
                self.fault = Some(words);
                None
            }
        }
    }

    fn take_name(&mut self, path: &Path) {
        // A name that is no text can only be given by the list.
        self.typed = match path.file_name().and_then(|name| name.to_str()) {
            Some(name) => name.to_owned(),
            None => place::shown_name(path),
        };
        (self.fault, self.over) = (None, None);
    }

    /// Opens the system's own dialog; the window goes on meanwhile.
    fn ask_system(&mut self, wake: &Wake) {
        let dialog = rfd::FileDialog::new()
            .add_filter(self.purpose.filter(), self.purpose.endings())
            .set_directory(self.browser.folder());
        let (purpose, name) = (self.purpose, self.typed.clone());
        let ask = move || match purpose.writes() {
            None => dialog.pick_file(),
            Some(_) => dialog.set_file_name(name).save_file(),
        };
        let asked = Instant::now();
        let task = match cfg!(target_os = "macos") {
            // There only the main thread may open it.
            true => Task::done(ask()),
            false => Task::begin(wake, ask),
        };
        self.system = System::Open(Some(task), asked);
    }

    /// What the system's dialog has given.
    fn system(&mut self) -> Option<Left> {
        let System::Open(task, asked) = &mut self.system else {
            return None;
        };
        let (answer, asked) = (Task::ended(task)?, *asked);
        self.system = System::Past;
        match answer {
            // The system has asked about writing over, but not about the ending that is added.
            Ok(Some(path))
                if self
                    .purpose
                    .writes()
                    .is_none_or(|ending| place::with_ending(&path, ending) == path) =>
            {
                Some(Left::Chosen(path))
            }
            Ok(Some(path)) => {
                self.take(&path);
                self.confirm()
            }
            Ok(None) if asked.elapsed() > A_MOMENT => Some(Left::Cancelled),
            Ok(None) | Err(Lost) => None,
        }
    }
}

//! The window "Hand over the sheet": which format and paper, where to, what will be written, and what was.
//!
//! Files are made and written on another thread, each whole or not at all.

mod writing;

use super::browser::{Browser, Picked};
use super::choice::{Choice, Kind, Letters};
use super::name_field::finish;
use super::{outside, place, question};
use crate::desk::Desk;
use crate::desk::later::{Lost, Task};
use crate::desk::settings::Settings;
use crate::disk::Trouble;
use crate::look;
use crate::study::how_many;
use crate::view::sheet_view::{self, Composed, Of, SheetView};
use egui::{Align, Context, Layout, RichText, ScrollArea, TextEdit, Ui};
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use writing::{Done, TASK, heading, report, write};

/// The window.
pub struct HandOver {
    choice: Choice,
    /// The drawing that holds the job, as long as the job lies in no file of its own.
    drawing: Option<PathBuf>,
    typed: String,
    browser: Browser,
    fault: Option<String>,
    /// Files that would be written over.
    over: Vec<PathBuf>,
    focus: bool,
    work: Option<Task<Done>>,
    done: Option<Done>,
    /// The folder into which it goes at once, to be opened for printing.
    prints: Option<PathBuf>,
}

const PRINT: &str = "Print the sheets";

impl HandOver {
    /// A window on a folder with a name in the field. `drawing` carries the job, which lies in no file of its own: it is
    /// written over only by a drawing that carries the job as well.
    pub fn new(folder: &Path, stem: &OsStr, choice: Choice, drawing: Option<PathBuf>) -> HandOver {
        HandOver {
            choice,
            drawing,
            typed: stem.to_string_lossy().into_owned(),
            browser: Browser::new(folder, &[choice.ending()]),
            fault: None,
            over: Vec::new(),
            focus: true,
            work: None,
            done: None,
            prints: None,
        }
    }

    /// A window that makes the PDF in a folder of its own among the system's temporary ones, and opens it: the system's
    /// viewer prints.
    ///
    /// # Errors
    /// When that folder cannot be made.
    pub fn to_print(stem: &OsStr) -> Result<HandOver, Trouble> {
        let folder = std::env::temp_dir().join(format!("stubout-print-{}", std::process::id()));
        match std::fs::create_dir(&folder) {
            Err(error) if !folder.is_dir() => return Err(Trouble::of(PRINT, &folder, &error)),
            _ => {}
        }
        let choice = Choice {
            kind: Kind::Pdf,
            ..Choice::default()
        };
        Ok(HandOver {
            prints: Some(folder.clone()),
            ..HandOver::new(&folder, stem, choice, None)
        })
    }

    /// Whether it is made to be printed.
    pub const fn prints(&self) -> bool {
        self.prints.is_some()
    }

    /// How the sheet is handed over.
    pub fn choice(&self) -> Choice {
        self.choice
    }

    /// Whether everything was written.
    pub fn has_written(&self) -> bool {
        self.done.as_ref().is_some_and(|done| done.trouble.is_none())
    }

    /// Shows the window; says whether it stays open.
    pub fn ui(
        &mut self,
        ctx: &Context,
        desk: &mut Desk,
        settings: &mut Settings,
        sheet: &mut SheetView,
        job_file: Option<&Path>,
    ) -> bool {
        match Task::ended(&mut self.work) {
            Some(Ok(mut done)) => {
                if let (Some(_), Some((file, _)), None) = (&self.prints, done.written.first(), &done.trouble) {
                    done.unopened = outside::open(file).err();
                }
                self.done = Some(done);
            }
            Some(Err(Lost)) => self.fault = Some("The sheet could not be made: try another format".to_owned()),
            None => {}
        }
        if let Some(done) = &mut self.done {
            let heading = match self.prints.is_some() && done.trouble.is_none() {
                true => "Print the sheets",
                false => heading(done),
            };
            let prints = self.prints.is_some();
            let window = question::window(ctx, "exported", 560.0, heading, |ui| {
                if prints && done.unopened.is_none() && done.trouble.is_none() {
                    ui.label(
                        "The sheets open as a PDF in your PDF viewer: print from there, at actual size (100 %), or the \
                         scale is lost.",
                    );
                }
                report(ui, done)
            });
            return !(window.inner || question::is_left(&window));
        }
        let composed = sheet.composed(desk, settings);
        let composed = composed.filter(|composed| sheet_view::is_current(composed, desk, settings));
        if self.prints.is_some() && self.fault.is_none() {
            if let (Some(composed), None) = (&composed, &self.work) {
                match self.targets(composed, None) {
                    Ok(targets) => self.begin(composed, desk, targets),
                    Err(words) => self.fault = Some(words),
                }
            }
            let words = ["Making the PDF of the sheets…".to_owned()];
            let answer = question::ask(ctx, "print", PRINT, &words, ["Cancel"]);
            return answer.is_none() || self.work.is_some();
        }
        let window = question::window(ctx, "export sheets", 640.0, TASK, |ui| {
            self.content(ui, settings, composed.as_ref(), desk, job_file)
        });
        let left = question::is_left(&window);
        if left && !self.over.is_empty() {
            self.over.clear();
            self.focus = true;
            return true;
        }
        // What is being written is written to its end.
        self.work.is_some() || !(left || window.inner)
    }

    /// What stands in the window; says whether it is left.
    fn content(
        &mut self,
        ui: &mut Ui,
        settings: &mut Settings,
        composed: Option<&Arc<Composed>>,
        desk: &Desk,
        job_file: Option<&Path>,
    ) -> bool {
        let before = (self.choice, Of::now(desk, settings));
        ui.add_enabled_ui(self.work.is_none(), |ui| self.choices(ui, settings));
        if before != (self.choice, Of::now(desk, settings)) {
            (self.fault, self.over) = (None, Vec::new());
            self.browser.show_endings(&[self.choice.ending()]);
        }
        ui.separator();
        let mut go = self.field(ui);
        let list = (ui.ctx().content_rect().height() - 430.0).clamp(0.0, 200.0);
        match self.browser.ui(ui, list) {
            Some(Picked::File(path) | Picked::Wanted(path)) => {
                self.typed = place::shown_name(&path);
                (self.fault, self.over, self.focus) = (None, Vec::new(), true);
            }
            None => {}
        }
        ui.add_space(4.0);
        self.say(ui, composed, desk);
        if self.work.is_some() {
            ui.horizontal(|ui| {
                ui.spinner();
                ui.label("Writing");
            });
            return false;
        }
        let warning = look::warning(ui.visuals().dark_mode);
        if !self.over.is_empty() {
            let names: Vec<String> = self.over.iter().map(|path| place::shown_name(path)).collect();
            let words = match &names[..] {
                [one] => format!("{one} already exists. Overwrite it?"),
                many => format!("{} already exist. Overwrite them?", listed(many)),
            };
            ui.label(look::strong(words).color(warning));
            match question::answers(ui, ["Another name", "Overwrite"]) {
                Some(1) => {
                    self.over.clear();
                    if let Some(composed) = composed
                        && let Ok(targets) = self.targets(composed, job_file)
                    {
                        self.begin(composed, desk, targets);
                    }
                }
                Some(_) => {
                    self.over.clear();
                    self.focus = true;
                }
                None => {}
            }
            return false;
        }
        let mut left = false;
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            left = ui.button("Cancel").clicked();
            go |= ui
                .add_enabled(composed.is_some(), egui::Button::new("Export"))
                .clicked();
        });
        if let Some(composed) = composed.filter(|_| go) {
            self.confirm(composed, desk, job_file);
        }
        left
    }

    fn choices(&mut self, ui: &mut Ui, settings: &mut Settings) {
        ui.spacing_mut().interact_size.y = sheet_view::ROW;
        ui.horizontal_wrapped(|ui| {
            ui.label("Format");
            for (kind, words) in [
                (Kind::Pdf, "PDF"),
                (Kind::Svg, "SVG"),
                (Kind::Png, "PNG"),
                (Kind::Dxf, "DXF"),
                (Kind::Csv, "CSV"),
            ] {
                ui.selectable_value(&mut self.choice.kind, kind, words);
            }
            ui.separator();
            match self.choice.kind {
                Kind::Pdf => drop(ui.label("All sheets in one file, its text can be searched")),
                Kind::Csv => drop(ui.label("For spreadsheets: the take-off, the cut list and the sections")),
                Kind::Dxf => drop(ui.label("For drawing programs: lines and text in mm, in layers")),
                Kind::Svg => {
                    let outlines = "Looks the same in every program";
                    let live = "Can be edited; looks as intended only where the font is installed";
                    ui.label("Text");
                    ui.selectable_value(&mut self.choice.letters, Letters::Outlines, "as outlines")
                        .on_hover_text(outlines);
                    ui.selectable_value(&mut self.choice.letters, Letters::Live, "as live text")
                        .on_hover_text(live);
                    ui.checkbox(&mut self.choice.job_inside, "Job inside").on_hover_text(
                        "The SVG of the first sheet carries the job and opens like a job file. Clear this box if the reader of the sheet should \
                         not have the job",
                    );
                }
                Kind::Png => {
                    let label = ui.label("Dots per inch");
                    let drag = egui::DragValue::new(&mut self.choice.dpi)
                        .range(10.0..=2400.0)
                        .max_decimals(0);
                    ui.add(drag).labelled_by(label.id);
                }
            }
        });
        if self.choice.kind != Kind::Csv {
            ui.horizontal_wrapped(|ui| sheet_view::paper(ui, settings));
        }
    }

    /// The field of the name; says whether Enter was pressed in it.
    fn field(&mut self, ui: &mut Ui) -> bool {
        let label = ui.label("Name or path");
        let field = TextEdit::singleline(&mut self.typed).desired_width(f32::INFINITY);
        let response = ui.add_enabled(self.work.is_none(), field).labelled_by(label.id);
        if response.changed() {
            (self.fault, self.over) = (None, Vec::new());
        }
        finish(ui, &response, &self.typed, &mut self.focus, self.fault.as_deref())
    }

    /// Says what will be written, and what should be known of it.
    fn say(&self, ui: &mut Ui, composed: Option<&Arc<Composed>>, desk: &Desk) {
        let Some(composed) = composed else {
            ui.label("Preparing the sheets…");
            return;
        };
        let sheets = composed.packet.sheets.len();
        let names = self.choice.names(&self.stem(), sheets);
        let names: Vec<String> = names.iter().map(|name| name.to_string_lossy().into_owned()).collect();
        ui.label(match (self.choice.kind, sheets) {
            (Kind::Csv, _) => format!("3 lists: {}", listed(&names)),
            (Kind::Pdf, 2..) => format!("{sheets} sheets as pages of {}", listed(&names)),
            (_, 1) => format!("1 sheet, in {}", listed(&names)),
            (_, sheets) => format!("{sheets} sheets in {sheets} files: {}", listed(&names)),
        });
        let warning = look::warning(ui.visuals().dark_mode);
        match composed.to_mend() {
            0 => {}
            more => {
                let words = format!(
                    "NOT READY: {}; the sheet says so too",
                    how_many(more, "must-fix finding")
                );
                ui.label(RichText::new(words).color(warning));
            }
        }
        ScrollArea::vertical().max_height(60.0).show(ui, |ui| {
            let of_sheets = self.choice.kind != Kind::Csv;
            for remark in composed.packet.remarks.iter().filter(|_| of_sheets) {
                ui.label(RichText::new(remark).color(warning));
            }
        });
        if desk.job().joints.is_empty() {
            ui.label(RichText::new("Nothing is drawn yet").color(warning));
        }
    }

    /// The name of the files without an ending.
    fn stem(&self) -> std::ffi::OsString {
        let path = place::full(&self.typed, self.browser.folder());
        bare(&path).file_name().unwrap_or_default().to_owned()
    }

    /// The files that would be written, or why none.
    fn targets(&self, composed: &Composed, job_file: Option<&Path>) -> Result<Vec<PathBuf>, String> {
        if self.typed.trim().is_empty() {
            return Err("Enter a name for the file".to_owned());
        }
        let path = bare(&place::full(&self.typed, self.browser.folder()));
        let folder = path.parent().unwrap_or(Path::new("/"));
        if !folder.is_dir() {
            return Err(format!("There is no folder {}", folder.display()));
        }
        let names = self.choice.names(&self.stem(), composed.packet.sheets.len());
        let targets: Vec<PathBuf> = names.into_iter().map(|name| folder.join(name)).collect();
        let is_own = |path: &Path| job_file.is_some_and(|own| place::is_same(path, own));
        let would_lose = |at: usize, path: &Path| {
            let is_source = self
                .drawing
                .as_deref()
                .is_some_and(|source| place::is_same(path, source));
            is_source && !(at == 0 && self.choice.carries() && !composed.is_for_class())
        };
        for (at, path) in targets.iter().enumerate() {
            if path.is_dir() {
                return Err(format!("{} is a folder: choose another name", path.display()));
            } else if is_own(path) {
                return Err(format!("{} is the job itself: choose another name", path.display()));
            } else if would_lose(at, path) {
                return Err(format!(
                    "{} holds the job, and no other file does: choose another name, or save the job first",
                    path.display()
                ));
            }
        }
        Ok(targets)
    }

    fn confirm(&mut self, composed: &Arc<Composed>, desk: &Desk, job_file: Option<&Path>) {
        self.focus = true;
        let path = place::full(&self.typed, self.browser.folder());
        if !self.typed.trim().is_empty() && path.is_dir() && !path.with_extension("").ends_with(self.stem()) {
            self.browser.go(&path);
            return;
        }
        match self.targets(composed, job_file) {
            Ok(targets) => {
                self.over = targets.iter().filter(|path| path.exists()).cloned().collect();
                if self.over.is_empty() {
                    self.begin(composed, desk, targets);
                } else {
                    self.focus = false;
                }
            }
            Err(words) => self.fault = Some(words),
        }
    }

    /// Writes the files on another thread.
    fn begin(&mut self, composed: &Arc<Composed>, desk: &Desk, targets: Vec<PathBuf>) {
        let (composed, choice, stem, book) = (Arc::clone(composed), self.choice, self.stem(), desk.book());
        let write = move || write(&composed, &book, choice, &stem, &targets);
        self.work = Some(Task::begin(&desk.wake(), write));
    }
}

/// A path without the ending of a format; other points in the name stay.
fn bare(path: &Path) -> PathBuf {
    let is_format = |ending: &OsStr| {
        ["pdf", "svg", "png", "dxf", "csv"]
            .iter()
            .any(|one| ending.eq_ignore_ascii_case(one))
    };
    match path.extension() {
        Some(ending) if is_format(ending) => path.with_extension(""),
        _ => path.to_owned(),
    }
}

/// "a, b and 3 more".
fn listed(names: &[String]) -> String {
    const SHOWN: usize = 4;
    match names.len() {
        0..=SHOWN => names.join(", "),
        all => format!("{} and {} more", names[..SHOWN - 1].join(", "), all - SHOWN + 1),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_endings_of_formats_are_taken_off() {
        for (path, expected) in [
            ("/a/house.pdf", "/a/house"),
            ("/a/house.SVG", "/a/house"),
            ("/a/house 1.2", "/a/house 1.2"),
        ] {
            assert_eq!(bare(Path::new(path)), Path::new(expected));
        }
    }

    #[test]
    fn long_lists_are_cut() {
        let names = |count: usize| (0..count).map(|n| n.to_string()).collect::<Vec<_>>();
        assert_eq!(listed(&names(4)), "0, 1, 2, 3");
        assert_eq!(listed(&names(9)), "0, 1, 2 and 6 more");
    }
}

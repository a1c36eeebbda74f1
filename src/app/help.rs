//! What is explained: the user guide with every key, a first drawing in five steps, the examples, what this program is and is not.

mod about;
pub mod guide;
mod keys;
mod lesson;
mod welcome;

use crate::desk::Desk;
use crate::desk::request::Request;
use crate::desk::settings::Settings;
use crate::editor::{CommandId, Menu};
use egui::Ui;
use guide::Chapter;
use lesson::Lesson;

/// The worked examples that come with the program: a name and the file.
pub const EXAMPLES: [(&str, &str); 4] = [
    ("Patio kitchen", include_str!("../../examples/patio-kitchen.ron")),
    (
        "Two-pressure house",
        include_str!("../../examples/two-pressure-house.ron"),
    ),
    ("Propane cabin", include_str!("../../examples/propane-cabin.ron")),
    ("Exercise with offsets", include_str!("../../examples/classroom.ron")),
];

/// What is open, and what is asked of the window.
#[derive(Default)]
pub struct Help {
    open: Option<Page>,
    lesson: Option<Lesson>,
}

/// A window of help.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Page {
    /// The user guide, at a chapter.
    Guide(Chapter),
    /// What this program is and is not.
    About,
    /// The choice at the very first start.
    Welcome,
}

impl Help {
    /// Help as at a start: at the very first one with a choice of what to begin with.
    pub fn at_start(settings: &Settings) -> Help {
        Help {
            open: (!settings.welcomed).then_some(Page::Welcome),
            ..Help::default()
        }
    }

    /// Closes the choice of the first start: somebody has come with a file.
    pub fn skip_welcome(&mut self) {
        if self.open == Some(Page::Welcome) {
            self.open = None;
        }
    }

    /// Does a command of help; says whether it was one. The guide opens at the chapter that is meant.
    pub fn obey(&mut self, id: CommandId, meant: impl FnOnce() -> Chapter) -> bool {
        match id {
            CommandId::ShowGuide => self.open = Some(Page::Guide(meant())),
            CommandId::ShowKeys => self.open = Some(Page::Guide(Chapter::Keys)),
            CommandId::About => self.open = Some(Page::About),
            CommandId::FirstDrawing => {
                self.open = None;
                self.lesson = Some(Lesson::default());
            }
            _ => return false,
        }
        true
    }

    /// The examples, as lines of the help menu.
    pub fn examples(&self, ui: &mut Ui, desk: &mut Desk, menu: Menu) {
        if menu != Menu::Help {
            return;
        }
        ui.separator();
        ui.menu_button("Examples", |ui| {
            for (name, text) in EXAMPLES {
                if ui.button(name).clicked() {
                    want(desk, text);
                    ui.close();
                }
            }
        });
    }

    /// Shows the lesson over the paper, while there is one; `exported` says whether sheets were.
    pub fn lesson(&mut self, ui: &mut Ui, desk: &Desk, exported: bool) {
        if let Some(lesson) = &mut self.lesson
            && lesson.ui(ui, desk, exported).is_break()
        {
            self.lesson = None;
        }
    }

    /// Shows what is open; called once a frame, after the panels.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk, settings: &mut Settings) {
        let Some(page) = &mut self.open else { return };
        let closed = match page {
            Page::Guide(chapter) => guide::ui(ui, chapter),
            Page::About => about::ui(ui),
            Page::Welcome => match welcome::ui(ui) {
                None => false,
                Some(start) => {
                    settings.welcomed = true;
                    match start {
                        welcome::Start::Blank => {}
                        welcome::Start::Example => want(desk, EXAMPLES[0].1),
                        welcome::Start::Lesson => self.lesson = Some(Lesson::default()),
                    }
                    true
                }
            },
        };
        if closed {
            self.open = None;
        }
    }
}

/// Asks for an example in place of what is on the desk.
fn want(desk: &mut Desk, text: &str) {
    // The examples are read again by a test, so that this does not fail here.
    if let Ok(job) = crate::file::read(text) {
        desk.ask(Request::Begin(Box::new(job)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_can_be_read() {
        for (name, text) in EXAMPLES {
            let job = crate::file::read(text).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert!(!job.runs.is_empty());
        }
    }
}

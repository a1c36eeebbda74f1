//! A folder that is shown and walked through: up, home, and what lies in it.

use super::folder::{Entry, Folder, Kind};
use super::place;
use crate::look;
use egui::{Button, Id, Label, PointerButton, RichText, ScrollArea, Ui};
use std::path::{Path, PathBuf};

/// A second click so soon after a folder was opened belongs to the first: it is half of a double click.
const DOUBLE: f64 = 0.45;

/// A list lower than so many points is left out: the screen is too small for it, and a path can be typed.
const LEAST: f32 = 40.0;

/// A folder on show.
#[derive(Debug)]
pub struct Browser {
    folder: Folder,
    endings: Vec<&'static str>,
    /// When another folder was last opened by a click.
    opened: f64,
}

/// What was done in the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Picked {
    /// A file was pointed out.
    File(PathBuf),
    /// A file was asked for outright: by a double click, or by Enter.
    Wanted(PathBuf),
}

impl Browser {
    /// Shows a folder, or the nearest above it that is there.
    pub fn new(folder: &Path, endings: &[&'static str]) -> Browser {
        let there = folder.ancestors().find(|one| one.is_dir());
        let mut browser = Browser {
            folder: Folder::default(),
            endings: endings.to_vec(),
            opened: f64::NEG_INFINITY,
        };
        browser.go(there.unwrap_or(Path::new("/")));
        browser
    }

    /// The folder on show.
    pub fn folder(&self) -> &Path {
        &self.folder.path
    }

    /// Goes to a folder.
    pub fn go(&mut self, folder: &Path) {
        let folder = std::path::absolute(folder).unwrap_or_else(|_| folder.to_owned());
        let endings: &[&str] = &self.endings;
        self.folder = Folder::look(&folder, endings);
    }

    /// Shows files of other endings.
    pub fn show_endings(&mut self, endings: &[&'static str]) {
        if self.endings != endings {
            self.endings = endings.to_vec();
            self.go(&self.folder.path.clone());
        }
    }

    /// Shows the folder; gives what was picked.
    pub fn ui(&mut self, ui: &mut Ui, height: f32) -> Option<Picked> {
        ui.horizontal(|ui| {
            let above = self.folder.path.parent().map(Path::to_owned);
            let up = ui.add_enabled(above.is_some(), Button::new("Up"));
            if up.on_hover_text("Go to the parent folder").clicked()
                && let Some(above) = above
            {
                self.go(&above);
            }
            let home = place::home();
            let button = ui.add_enabled(home.is_some(), Button::new("Home"));
            if button.on_hover_text("Go to your home folder").clicked()
                && let Some(home) = home
            {
                self.go(&home);
            }
            let words = self.folder.path.display().to_string();
            let label = Label::new(look::strong(place::short(&self.folder.path))).truncate();
            ui.add(label).on_hover_text(words);
        });
        if height < LEAST {
            return None;
        }
        let mut picked = None;
        let mut next = None;
        egui::Frame::new()
            .fill(ui.visuals().extreme_bg_color)
            .stroke(ui.visuals().widgets.noninteractive.bg_stroke)
            .inner_margin(4)
            .show(ui, |ui| {
                ui.set_min_size(egui::vec2(ui.available_width(), height));
                if let Some(remark) = &self.folder.remark {
                    ui.label(RichText::new(remark).color(look::warning(ui.visuals().dark_mode)));
                }
                if self.folder.entries.is_empty() && self.folder.remark.is_none() {
                    let endings: Vec<String> = self.endings.iter().map(|ending| format!(".{ending}")).collect();
                    ui.weak(format!("No folders and no {} files here", endings.join(" or ")));
                }
                let row = ui.spacing().interact_size.y.max(20.0);
                ScrollArea::vertical()
                    .id_salt(("folder", &self.folder.path))
                    .max_height(height)
                    .auto_shrink([false, false])
                    .show_rows(ui, row, self.folder.entries.len(), |ui, rows| {
                        for entry in self.folder.entries.get(rows).unwrap_or_default() {
                            match self.row(ui, entry, row) {
                                Some(Done::Enter) => next = Some(entry.path.clone()),
                                Some(Done::Point) => picked = Some(Picked::File(entry.path.clone())),
                                Some(Done::Want) => picked = Some(Picked::Wanted(entry.path.clone())),
                                None => {}
                            }
                        }
                    });
            });
        if let Some(next) = next {
            self.go(&next);
            self.opened = ui.input(|input| input.time);
        }
        picked
    }

    fn row(&self, ui: &mut Ui, entry: &Entry, height: f32) -> Option<Done> {
        let words = match entry.kind {
            Kind::Folder => look::strong(format!("{}{}", entry.name, std::path::MAIN_SEPARATOR)),
            Kind::File => RichText::new(&entry.name),
        };
        let width = ui.available_width();
        let button = Button::selectable(false, words)
            .truncate()
            .min_size(egui::vec2(width, height));
        // By its path, so that the keyboard does not stay on the same line when another folder comes.
        let response = ui.push_id(Id::unique(&entry.path), |ui| ui.add(button)).inner;
        let is_echo = ui.input(|input| input.time) - self.opened < DOUBLE;
        if !response.clicked() || is_echo {
            return None;
        }
        Some(match entry.kind {
            Kind::Folder => Done::Enter,
            Kind::File if response.double_clicked() || !response.clicked_by(PointerButton::Primary) => Done::Want,
            Kind::File => Done::Point,
        })
    }
}

/// What was done with a row.
enum Done {
    Enter,
    Point,
    Want,
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable;
    use std::fs;

    fn names(browser: &Browser) -> Vec<&str> {
        browser.folder.entries.iter().map(|entry| entry.name.as_str()).collect()
    }

    #[test]
    fn a_folder_that_is_gone_gives_way_to_the_nearest_above() {
        let root = tempfile::tempdir().unwrap();
        fs::write(root.path().join("house.ron"), "").unwrap();
        fs::write(root.path().join("table.tsv"), "").unwrap();
        let mut browser = Browser::new(&root.path().join("gone/further"), &["ron"]);
        assert_eq!((browser.folder(), names(&browser)), (root.path(), vec!["house.ron"]));
        browser.show_endings(&["tsv"]);
        assert_eq!((browser.folder(), names(&browser)), (root.path(), vec!["table.tsv"]));
    }

    /// What a window of the browser alone holds: the browser and what was picked last.
    fn shown(folder: &Path) -> Harness<'static, (Browser, Option<Picked>)> {
        let state = (Browser::new(folder, &["ron"]), None);
        Harness::builder().with_step_dt(0.1).build_ui_state(
            |ui, (browser, last)| {
                if ui.ctx().cumulative_pass_nr() == 0 {
                    return look::set(ui.ctx()); // Letters come with the next frame.
                }
                if let Some(picked) = browser.ui(ui, 300.0) {
                    *last = Some(picked);
                }
            },
            state,
        )
    }

    #[test]
    fn a_click_goes_into_a_folder_and_its_echo_picks_nothing_there() {
        let root = tempfile::tempdir().unwrap();
        fs::create_dir(root.path().join("north")).unwrap();
        let house = root.path().join("north/house.ron");
        fs::write(&house, "").unwrap();
        let mut window = shown(root.path());
        let folder = format!("north{}", std::path::MAIN_SEPARATOR);
        window.get_by_label(&folder).click();
        window.step();
        window.step();
        assert_eq!(window.state().0.folder(), root.path().join("north"));
        // The second half of a double click on the folder lands on what is there now.
        window.get_by_label("house.ron").click();
        window.step();
        assert_eq!(window.state().1, None);
        for _ in 0..10 {
            window.step();
        }
        window.get_by_label("house.ron").click();
        window.step();
        assert_eq!(window.state().1, Some(Picked::File(house)));
        window.get_by_label("Up").click();
        window.step();
        assert_eq!(window.state().0.folder(), root.path());
    }
}

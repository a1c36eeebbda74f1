//! The window "Own tables and profiles": what files of the person's own bring, which of it this job uses, and what is wrong.

use super::own_file::{OwnFile, OwnPart};
use super::question;
use crate::codebook::Codebook;
use crate::desk::Desk;
use crate::editor::edit;
use crate::job::Settings;
use crate::look;
use crate::study::how_many;
use crate::units::in_units;
use egui::{Align, Button, Context, Layout, RichText, ScrollArea, Ui};
use std::path::PathBuf;

/// What is to be done.
pub enum Answer {
    /// Another file is to be opened.
    Add,
    /// All files are to be read anew.
    Again,
    /// A file is no longer wanted.
    Forget(PathBuf),
    /// Nothing more.
    Close,
}

/// Shows the window; what the job uses is set as its steps at once.
pub fn ui(ctx: &Context, files: &[OwnFile], desk: &mut Desk) -> Option<Answer> {
    let window = question::window(ctx, "own files", 640.0, "Your tables and profiles", |ui| {
        let mut answer = None;
        ui.label(
            "A tubing manufacturer's table, or another code's, comes before the published tables in the jobs that use it. Lengths of your own valves and \
             fittings (a .csv file) go into every cut list.",
        );
        ui.add_space(6.0);
        let room = (ui.ctx().content_rect().height() - 260.0).clamp(60.0, 420.0);
        ScrollArea::vertical()
            .max_height(room)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                if files.is_empty() {
                    ui.weak("No file has been opened yet. README.md explains how to write a table.");
                }
                for file in files {
                    if let Some(forgotten) = row(ui, file, desk) {
                        answer = Some(forgotten);
                    }
                    ui.separator();
                }
                not_at_hand(ui, desk);
            });
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            if ui.button("Open a file…").clicked() {
                answer = Some(Answer::Add);
            }
            let again = ui.add_enabled(!files.is_empty(), Button::new("Read again"));
            if again
                .on_hover_text("Read all files again after they were changed")
                .clicked()
            {
                answer = Some(Answer::Again);
            }
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if ui.button("Close").clicked() {
                    answer = Some(Answer::Close);
                }
            });
        });
        answer
    });
    let left = question::is_left(&window).then_some(Answer::Close);
    window.inner.or(left)
}

/// One file, with what it brings.
fn row(ui: &mut Ui, file: &OwnFile, desk: &mut Desk) -> Option<Answer> {
    let book = desk.book();
    let units = desk.shown().checked.study.names.units();
    match &file.read {
        Ok(OwnPart::Table(table)) => {
            let title = book
                .table(&table.id)
                .map_or(String::new(), |table| in_units(&table.title, units));
            let settings = &desk.job().settings;
            let mut used = settings.tables.contains(table);
            if ui
                .checkbox(&mut used, format!("Use in this job: {}, {title}", table.id))
                .changed()
            {
                let mut settings = settings.clone();
                settings.tables.retain(|known| known.id != table.id);
                if used {
                    settings.tables.push(table.clone());
                }
                set(desk, settings);
            }
        }
        Ok(OwnPart::Profile(name)) => {
            let settings = &desk.job().settings;
            let title = book.profile(name).map_or("", |profile| &profile.title);
            let instead = match Codebook::published().profile(name) {
                Some(_) => ", instead of the program's profile of this name",
                None => "",
            };
            let words = format!("Use in this job: profile {name}, {title}{instead}");
            if ui.radio(settings.profile == *name, words).clicked() {
                let mut settings = settings.clone();
                settings.profile.clone_from(name);
                set(desk, settings);
            }
        }
        Ok(OwnPart::Lengths(many)) => {
            let lengths = how_many(*many, "length");
            ui.label(format!(
                "{lengths} of your own parts: the cut lists of all jobs go by them"
            ));
        }
        Err(words) => {
            ui.label(RichText::new(words).color(look::warning(ui.visuals().dark_mode)));
        }
    }
    let mut forgotten = None;
    ui.horizontal(|ui| {
        let forget = ui.small_button("Stop using");
        if forget
            .on_hover_text("Stop using this file; the file itself is kept")
            .clicked()
        {
            forgotten = Some(Answer::Forget(file.path.clone()));
        }
        ui.add(egui::Label::new(RichText::new(file.path.display().to_string()).weak()).truncate());
    });
    forgotten
}

/// The tables that the job names and no file brings, or that have other figures now.
fn not_at_hand(ui: &mut Ui, desk: &mut Desk) {
    let book = desk.book();
    let named = desk.job().settings.tables.clone();
    for table in named {
        let known = book
            .table(&table.id)
            .filter(|known| known.is_own)
            .map(|known| known.as_own());
        let words = match known {
            Some(known) if known == table => continue,
            Some(_) => format!(
                "This job was sized by an earlier version of {}; check it to use the figures of now.",
                table.id
            ),
            None => format!(
                "This job is sized by {}, which is not loaded: open its file, or remove it from the job.",
                table.id
            ),
        };
        ui.label(RichText::new(words).color(look::warning(ui.visuals().dark_mode)));
        if ui.button(format!("Remove {} from the job", table.id)).clicked() {
            let mut settings = desk.job().settings.clone();
            settings.tables.retain(|known| known.id != table.id);
            set(desk, settings);
        }
    }
}

fn set(desk: &mut Desk, settings: Settings) {
    desk.attempt(|job| edit::set_settings(job, settings));
}

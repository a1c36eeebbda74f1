//! Files that are let go on the window: jobs are opened, tables, profiles and lengths of the person's own are taken in.

use super::chooser::{Chooser, Dialogs, Purpose};
use super::{Asking, Files, Next, own_file};
use crate::desk::Desk;
use crate::desk::settings::Settings;
use crate::look;
use egui::{Context, FontId};
use std::path::{Path, PathBuf};

impl Files {
    /// Takes the files that were dropped on the window, and says beforehand what will happen.
    pub(super) fn dropped(&mut self, ctx: &Context, desk: &mut Desk, settings: &mut Settings) {
        let (hovered, dropped) = ctx.input(|input| {
            let paths = input.raw.dropped_files.iter().map(|file| file.path().to_owned());
            (!input.raw.hovered_files.is_empty(), paths.collect::<Vec<PathBuf>>())
        });
        if hovered && self.asking.is_none() {
            say(
                ctx,
                "Drop here: a job is opened, a table or profile of your own is added",
            );
        }
        let Some(first) = dropped.first() else { return };
        match &mut self.asking {
            None | Some(Asking::Own) if own_file::is_own(first) => {
                for path in dropped.iter().filter(|path| own_file::is_own(path)) {
                    if let Err(words) = self.add_own(path, desk, settings) {
                        self.refuse_own(path, words);
                        return;
                    }
                }
                self.asking = Some(Asking::Own);
            }
            None => self.leave(Next::Open(first.clone()), desk),
            Some(
                Asking::Open(chooser) | Asking::Compare(chooser) | Asking::AddOwn(chooser) | Asking::Save(chooser, _),
            ) => chooser.take(first),
            Some(_) => {}
        }
    }

    /// Says what is wrong with a file of the person's own, where it can be read again once it is mended.
    fn refuse_own(&mut self, path: &Path, words: String) {
        let folder = path.parent().unwrap_or(Path::new(""));
        let mut chooser = Chooser::new(Dialogs::Own, Purpose::Own, folder, String::new());
        chooser.take(path);
        chooser.refuse(words);
        self.asking = Some(Asking::AddOwn(chooser));
    }
}

/// Words across the whole window.
fn say(ctx: &Context, words: &str) {
    let layer = egui::LayerId::new(egui::Order::Foreground, egui::Id::unique("dropping"));
    let painter = ctx.layer_painter(layer);
    let area = ctx.content_rect();
    painter.rect_filled(area, 0.0, egui::Color32::from_black_alpha(150));
    let (middle, font) = (egui::Align2::CENTER_CENTER, FontId::new(24.0, look::bold()));
    painter.text(area.center(), middle, words, font, egui::Color32::WHITE);
}

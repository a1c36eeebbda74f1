//! The questions that are open, and what is done once they are answered.

use super::chooser::{self, Chooser, Purpose};
use super::{Asking, Files, Loss, Next, own, own_file, place, question};
use crate::desk::Desk;
use crate::desk::issued::Issued;
use crate::desk::settings::Settings;
use crate::disk;
use crate::view::sheet_view::SheetView;
use egui::Context;
use std::path::{Path, PathBuf};

impl Files {
    /// Shows the open question and does what is answered.
    pub(super) fn answer(
        &mut self,
        ctx: &Context,
        asking: Asking,
        desk: &mut Desk,
        settings: &mut Settings,
        sheet: &mut SheetView,
    ) {
        match asking {
            Asking::Leave(next) => match self.ask_to_leave(ctx, &next) {
                Some(0) => self.save(desk, Some(next)),
                Some(1) => self.go_on(next, desk),
                Some(_) => {}
                None => self.asking = Some(Asking::Leave(next)),
            },
            Asking::Open(mut chooser) => match chooser.ui(ctx, &desk.wake()) {
                Some(chooser::Left::Chosen(path)) => self.leave(Next::Open(path), desk),
                Some(chooser::Left::Cancelled) => {}
                None => self.asking = Some(Asking::Open(chooser)),
            },
            Asking::Compare(mut chooser) => match chooser.ui(ctx, &desk.wake()) {
                Some(chooser::Left::Chosen(path)) => match disk::read(&path) {
                    Ok((job, _)) => desk.compare(Some(Issued::of(place::shown_name(&path), job, &desk.book()))),
                    Err(trouble) => {
                        chooser.refuse(trouble.words());
                        self.asking = Some(Asking::Compare(chooser));
                    }
                },
                Some(chooser::Left::Cancelled) => {}
                None => self.asking = Some(Asking::Compare(chooser)),
            },
            Asking::Own => match own::ui(ctx, &self.own, desk) {
                Some(own::Answer::Add) => {
                    let folder = settings.own.last().and_then(|path| path.parent().map(Path::to_owned));
                    let folder = folder.unwrap_or_else(|| self.folder());
                    self.asking = Some(Asking::AddOwn(Chooser::new(
                        self.dialogs,
                        Purpose::Own,
                        &folder,
                        String::new(),
                    )));
                }
                Some(own::Answer::Again) => {
                    self.read_own(settings, desk);
                    self.asking = Some(Asking::Own);
                }
                Some(own::Answer::Forget(path)) => {
                    settings.own.retain(|known| *known != path);
                    self.read_own(settings, desk);
                    self.asking = Some(Asking::Own);
                }
                Some(own::Answer::Close) => {}
                None => self.asking = Some(Asking::Own),
            },
            Asking::AddOwn(mut chooser) => match chooser.ui(ctx, &desk.wake()) {
                Some(chooser::Left::Chosen(path)) => match self.add_own(&path, desk, settings) {
                    Ok(()) => self.asking = Some(Asking::Own),
                    Err(words) => {
                        chooser.refuse(words);
                        self.asking = Some(Asking::AddOwn(chooser));
                    }
                },
                Some(chooser::Left::Cancelled) => self.asking = Some(Asking::Own),
                None => self.asking = Some(Asking::AddOwn(chooser)),
            },
            Asking::Save(mut chooser, next) => match chooser.ui(ctx, &desk.wake()) {
                Some(chooser::Left::Chosen(path)) => {
                    if let Err(trouble) = self.write(path, desk, next.clone()) {
                        chooser.refuse(trouble.words());
                        self.asking = Some(Asking::Save(chooser, next));
                    }
                }
                Some(chooser::Left::Cancelled) => {}
                None => self.asking = Some(Asking::Save(chooser, next)),
            },
            Asking::Losing(loss, next) => match self.ask_about(ctx, loss) {
                Some(0) => self.choose_place(desk, next),
                Some(1) => match self.path.clone() {
                    Some(path) => self.write_own(path, desk, next),
                    None => self.choose_place(desk, next),
                },
                Some(_) => {}
                None => self.asking = Some(Asking::Losing(loss, next)),
            },
            Asking::Trouble(trouble) => {
                if question::trouble(ctx, &trouble, ["Close"]).is_none() {
                    self.asking = Some(Asking::Trouble(trouble));
                }
            }
            Asking::NotSaved(trouble, next) => match question::trouble(ctx, &trouble, ["Save as…", "Cancel"]) {
                Some(0) => self.choose_place(desk, next),
                Some(_) => {}
                None => self.asking = Some(Asking::NotSaved(trouble, next)),
            },
            Asking::SaveList(mut chooser, text) => match chooser.ui(ctx, &desk.wake()) {
                Some(chooser::Left::Chosen(path)) => {
                    if let Err(error) = disk::write(&path, text.as_bytes()) {
                        chooser.refuse(disk::Trouble::of("Save the list", &path, &error).words());
                        self.asking = Some(Asking::SaveList(chooser, text));
                    }
                }
                Some(chooser::Left::Cancelled) => {}
                None => self.asking = Some(Asking::SaveList(chooser, text)),
            },
            Asking::HandOver(mut hand_over) => {
                let open = hand_over.ui(ctx, desk, settings, sheet, self.path.as_deref());
                if !hand_over.prints() {
                    self.handed = hand_over.choice();
                    self.has_exported |= hand_over.has_written();
                }
                if open {
                    self.asking = Some(Asking::HandOver(hand_over));
                }
            }
        }
    }

    /// Takes in a table or profile of the person's own, and remembers its file; says what is wrong with it.
    pub(super) fn add_own(&mut self, path: &Path, desk: &mut Desk, settings: &mut Settings) -> Result<(), String> {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        let others: Vec<PathBuf> = settings.own.iter().filter(|known| **known != path).cloned().collect();
        let (mut book, _) = own_file::read_all(&others);
        own_file::read(&mut book, &path)?;
        settings.own = others;
        settings.own.push(path);
        self.read_own(settings, desk);
        Ok(())
    }

    /// Asks whether to save elsewhere, to lose what is said, or to leave it.
    fn ask_about(&self, ctx: &Context, loss: Loss) -> Option<usize> {
        let name = self.path().map(place::shown_name).unwrap_or_default();
        let (window, heading, words, lose) = match loss {
            Loss::Changes => (
                "changed",
                "The file has changed",
                [
                    format!("{name} has changed since it was last read or saved here: another program wrote to it."),
                    "Overwriting it loses those changes.".to_owned(),
                ],
                "Overwrite",
            ),
            Loss::Notes => (
                "notes",
                "The file has notes",
                [
                    format!("{name} has notes written between its lines, after two slashes."),
                    "The window does not keep them: a file saved here loses them.".to_owned(),
                ],
                "Save without the notes",
            ),
        };
        question::ask(ctx, window, heading, &words, ["Save as…", lose, "Cancel"])
    }

    fn ask_to_leave(&self, ctx: &Context, next: &Next) -> Option<usize> {
        let name = self.path().map_or("This job".to_owned(), place::shown_name);
        let then = match next {
            Next::New => "a new job is started",
            Next::Begin(_) | Next::Open(_) => "another job is opened",
            Next::Quit => "the program closes",
        };
        let words = [format!(
            "{name} has changes that are not saved. Save them before {then}?"
        )];
        question::ask(ctx, "leave", "Not saved", &words, ["Save", "Don't save", "Cancel"])
    }
}

//! Fields of the title block, filled in where they stand: what each holds, and where one that is not typed comes from.

use crate::app::desk::Desk;
use crate::editor::{Part, edit};
use crate::job::bounds::MOST_LETTERS;
use crate::job::{JointId, Settings, Status, TitleBlock};
use crate::sheet::Field;
use egui::{Area, Context, Frame, Id, Key, Order, Pos2, TextEdit};

/// What a click on a field does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Its words are typed.
    Typed,
    /// It is one of a few.
    Chosen,
    /// It follows from something else.
    Follows,
}

/// What a click on a field does.
pub const fn way(field: Field) -> Way {
    match field {
        Field::Status | Field::Code => Way::Chosen,
        field if field.is_typed() => Way::Typed,
        _ => Way::Follows,
    }
}

/// What is said of a field under the pointer.
pub const fn tip(field: Field) -> &'static str {
    match field {
        Field::Title => "The title says what the sheet is for",
        Field::Scale => "An isometric is not to scale: true lengths are written at the pipe",
        Field::Gas => "Set by the gas of the job",
        Field::Delivery => "Set at the point of delivery; a click leads to it",
        Field::Load => "The inputs of all connected appliances",
        Field::Code => "The code of the profile; a click chooses another profile",
        Field::Revision => "The mark of the last line under Revisions",
        Field::Sheet => "Set by how many sheets the job needs",
        Field::Status => "What the drawing is issued for; a click chooses",
        _ => "A click, or Enter, fills it in",
    }
}

/// The words of a typed field.
fn words(title: &TitleBlock, field: Field) -> String {
    field
        .typed()
        .map_or_else(String::new, |typed| typed.of(title).to_owned())
}

/// A field that is open to be filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Open {
    /// The field.
    pub field: Field,
    /// On which sheet it was opened.
    pub sheet: usize,
    text: String,
    /// What it held when it was opened.
    before: String,
    /// Whether it is still to get the keyboard.
    fresh: bool,
}

/// What came of a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It stays open.
    Stays,
    /// It has been closed, its words given to the job or given up.
    Closed,
}

impl Open {
    /// Opens a field of the job as it is.
    pub fn new(field: Field, sheet: usize, desk: &Desk) -> Open {
        let before = words(&desk.job().title, field);
        Open {
            field,
            sheet,
            text: before.clone(),
            before,
            fresh: true,
        }
    }

    /// Shows the field at a place of the screen.
    pub fn ui(&mut self, ctx: &Context, at: Pos2, width: f32, desk: &mut Desk) -> Outcome {
        let area = Area::new(Id::unique("field of the title block"))
            .order(Order::Foreground)
            .fixed_pos(at)
            .constrain(true);
        area.show(ctx, |ui| {
            Frame::popup(ui.style())
                .show(ui, |ui| match way(self.field) {
                    Way::Typed | Way::Follows => self.typed(ui, width, desk),
                    Way::Chosen => self.chosen(ui, desk),
                })
                .inner
        })
        .inner
    }

    fn typed(&mut self, ui: &mut egui::Ui, width: f32, desk: &mut Desk) -> Outcome {
        let label = ui.label(self.field.caption());
        let field = TextEdit::singleline(&mut self.text)
            .char_limit(MOST_LETTERS)
            .desired_width(width.clamp(220.0, 560.0));
        let response = ui.add(field).labelled_by(label.id);
        if std::mem::take(&mut self.fresh) {
            response.request_focus();
            return Outcome::Stays;
        }
        if !response.lost_focus() && response.has_focus() {
            return Outcome::Stays;
        }
        if !ui.input(|input| input.key_pressed(Key::Escape)) {
            self.apply(desk);
        }
        Outcome::Closed
    }

    /// Gives what was typed to the job, as one step.
    pub fn apply(&self, desk: &mut Desk) {
        if self.text == self.before {
            return;
        }
        let mut title = desk.job().title.clone();
        if let Some(slot) = self.field.typed().map(|typed| typed.slot(&mut title)) {
            slot.clone_from(&self.text);
        }
        set_title(desk, title);
    }

    fn chosen(&mut self, ui: &mut egui::Ui, desk: &mut Desk) -> Outcome {
        ui.label(self.field.caption());
        let mut outcome = Outcome::Stays;
        let mut focused = false;
        let mut offer = |ui: &mut egui::Ui, now: bool, words: &str| {
            let response = ui.selectable_label(now, words);
            if now && self.fresh {
                response.request_focus();
            }
            focused |= response.has_focus();
            response.clicked()
        };
        match self.field {
            Field::Status => {
                for (status, words) in [
                    (Status::ForPermit, "For permit"),
                    (Status::AsBuilt, "As built"),
                    (Status::Exercise, "Exercise"),
                    (Status::Study, "Not for permit"),
                ] {
                    if offer(ui, desk.job().title.status == status, words) {
                        let title = TitleBlock {
                            status,
                            ..desk.job().title.clone()
                        };
                        set_title(desk, title);
                        outcome = Outcome::Closed;
                    }
                }
            }
            _ => {
                for profile in desk.book().profiles() {
                    let words = format!("{} {}: {}", profile.code, profile.edition, profile.title);
                    if offer(ui, desk.job().settings.profile == profile.name, words.trim()) {
                        let settings = Settings {
                            profile: profile.name.clone(),
                            ..desk.job().settings.clone()
                        };
                        // Nothing about the step of the lattice has changed, and only that could be refused.
                        let _ = desk.editor_mut().edit(|job| edit::set_settings(job, settings));
                        desk.refresh();
                        outcome = Outcome::Closed;
                    }
                }
            }
        }
        let was_fresh = std::mem::take(&mut self.fresh);
        let elsewhere = ui.input(|input| input.pointer.any_pressed() || input.key_pressed(Key::Escape))
            && !ui.rect_contains_pointer(ui.min_rect().expand(8.0));
        if !was_fresh && (elsewhere || ui.input(|input| input.key_pressed(Key::Escape))) {
            outcome = Outcome::Closed;
        }
        outcome
    }
}

fn set_title(desk: &mut Desk, title: TitleBlock) {
    // A title block is never refused.
    let _ = desk.editor_mut().edit(|job| edit::set_title(job, title));
    desk.refresh();
}

/// The part to which a field leads that follows from it.
pub fn leads_to(field: Field, desk: &Desk) -> Option<Part> {
    let supply = desk
        .shown()
        .checked
        .study
        .network
        .supply
        .filter(|_| field == Field::Delivery)?;
    let joint: JointId = desk.shown().job.joints.iter().nth(supply)?.id;
    Some(Part::Joint(joint))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_typed_field_has_a_place_and_no_other_has() {
        let mut title = TitleBlock::default();
        for (number, field) in Field::ALL.into_iter().enumerate() {
            let slot = field.typed().map(|typed| typed.slot(&mut title));
            assert_eq!(slot.is_some(), way(field) == Way::Typed, "{field:?}");
            if let Some(slot) = slot {
                assert_eq!(*slot, "", "{field:?} shares its place");
                *slot = number.to_string();
            }
        }
    }

    #[test]
    fn what_is_typed_is_one_step_and_nothing_typed_is_none() {
        let mut desk = Desk::new(crate::job::Job::default(), || {});
        let mut open = Open::new(Field::Owner, 0, &desk);
        open.apply(&mut desk);
        assert!(desk.editor().is_saved());
        open.text = "A. Invented".to_owned();
        open.apply(&mut desk);
        assert_eq!(desk.job().title.owner, "A. Invented");
        desk.run(crate::editor::CommandId::Undo);
        assert!(desk.job().title.owner.is_empty() && desk.editor().is_saved());
    }
}

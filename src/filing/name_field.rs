//! The field in which a file is named.

use crate::look;
use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Key, Response, RichText, Ui};

/// Ends a frame of the field: takes the cursor up when it is `wanted`, says under the field what is wrong. Gives whether
/// Enter was pressed in it.
pub fn finish(ui: &mut Ui, field: &Response, text: &str, wanted: &mut bool, fault: Option<&str>) -> bool {
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if std::mem::take(wanted) {
        take_up(ui, field, text, fault.is_some());
    }
    if let Some(fault) = fault {
        ui.label(RichText::new(fault).color(look::warning(ui.visuals().dark_mode)));
    }
    entered
}

/// Puts the cursor into the field. A name that was proposed is marked, so that another can be typed in its place; one
/// that was typed and found wrong is left to be mended.
fn take_up(ui: &Ui, field: &Response, text: &str, is_wrong: bool) {
    field.request_focus();
    if is_wrong {
        return;
    }
    let mut state = TextEditState::load(ui.ctx(), field.id).unwrap_or_default();
    let end = CCursor::new(text.chars().count());
    state
        .cursor
        .set_char_range(Some(CCursorRange::two(CCursor::default(), end)));
    state.store(ui.ctx(), field.id);
}

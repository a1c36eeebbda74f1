//! The cursor of a field in which a file is named.

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Response, Ui};

/// Puts the cursor into the field. A name that was proposed is marked, so that another can be typed in its place; one
/// that was typed and found wrong is left to be mended.
pub fn take_up(ui: &Ui, field: &Response, text: &str, is_wrong: bool) {
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

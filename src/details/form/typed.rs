//! A field into which a text is typed: kept while it is typed, taken when it is left, mended where it stands.

use super::Form;
use crate::details::offers::{self, Offers, offer};
use crate::details::row::{Name, row};
use crate::details::typing::Put;
use crate::job::bounds::MOST_LETTERS;
use crate::look;
use egui::text::{CCursor, CCursorRange};
use egui::{EventFilter, Id, Key, Response, RichText, TextEdit, TextStyle, TextWrapMode, WidgetText};

/// What helps when a text cannot be taken.
const WAY_OUT: &str = " Press Esc in the field to restore the old value.";

/// How a text is typed.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Lines {
    One,
    Many,
}

impl Form<'_> {
    pub(super) fn typed(&mut self, name: Name<'_>, value: &str, hint: &str, lines: Lines, offers: &Offers, put: Put) {
        let id = self.scope.with(name);
        let mut text = self.typing.text(id, value);
        let mut taken: Option<String> = None;
        let is_refused = self.typing.fault(id).is_some();
        let says_unit = text.contains(|character: char| character.is_alphabetic() || "'\"″′".contains(character));
        let response = row(self.ui, name, |ui, label| {
            let edit = match lines {
                Lines::One => TextEdit::singleline(&mut text),
                Lines::Many => TextEdit::multiline(&mut text).desired_rows(3),
            };
            // Esc is for the field: it gives the old value back.
            let filter = EventFilter {
                horizontal_arrows: true,
                vertical_arrows: true,
                tab: false,
                escape: true,
            };
            // The unit that stands beside the field needs not be said in it too.
            let hint = match offers.unit {
                "" => hint.to_owned(),
                unit => hint.replace(&format!(" {unit}"), ""),
            };
            let hint = RichText::new(hint).weak();
            let mut edit = edit
                .id(id)
                .hint_text(hint)
                .event_filter(filter)
                .char_limit(MOST_LETTERS);
            if is_refused {
                edit = edit.text_color(look::warning(ui.visuals().dark_mode));
            }
            if offers.values.is_empty() && offers.unit.is_empty() {
                return ui.add(edit.desired_width(f32::INFINITY)).labelled_by(label.id);
            }
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 2.0;
                let offering = if offers.values.is_empty() { 0.0 } else { offers::WIDTH };
                let unit = match offers.unit {
                    "" => 0.0,
                    _ if says_unit => 0.0,
                    unit => {
                        let words = WidgetText::from(unit);
                        let galley = words.into_galley(ui, Some(TextWrapMode::Extend), f32::INFINITY, TextStyle::Body);
                        galley.size().x + 4.0
                    }
                };
                let width = ui.available_width() - offering - unit;
                let field = ui.add(edit.desired_width(width)).labelled_by(label.id);
                // A text that says its own unit needs no other beside it.
                if !offers.unit.is_empty() && !says_unit {
                    ui.label(RichText::new(offers.unit).weak());
                }
                if !offers.values.is_empty() {
                    taken = offer(ui, name.label(), offers);
                }
                field
            })
            .inner
        });
        if let Some(chosen) = taken {
            self.typing.give_up(id);
            let done = put(self.desk, &chosen);
            self.typing.chosen(id, done);
            self.fault(id, "");
            self.found(name.detail());
            return;
        }
        if lines == Lines::One {
            self.choose_whole(id, &response, &text);
        }
        let (escaped, pressed) = self.ui.input(|input| {
            let away = input
                .pointer
                .press_origin()
                .is_some_and(|at| !response.rect.contains(at));
            (input.key_pressed(Key::Escape), input.pointer.any_pressed() && away)
        });
        let begins = self.typing.take_wanted(name.detail(), name.label(), true);
        if begins && !self.typing.begun.is_empty() {
            // What was typed for it takes the place of what was there, and is typed on.
            let begun = std::mem::take(&mut self.typing.begun);
            let end = CCursorRange::one(CCursor::new(begun.chars().count()));
            let mut state = TextEdit::load_state(self.ui.ctx(), id).unwrap_or_default();
            state.cursor.set_char_range(Some(end));
            state.store(self.ui.ctx(), id);
            self.typing.keep(id, value, begun, put);
            self.typing.whole = Some(id);
        } else if response.has_focus() && escaped {
            self.typing.give_up(id);
            response.surrender_focus();
        } else {
            if response.has_focus() || response.changed() {
                self.typing.keep(id, value, text, put);
            }
            let entered = response.lost_focus() && self.ui.input(|input| input.key_pressed(Key::Enter));
            if entered {
                self.typing.left = Some(id);
            }
            // Before what is pressed elsewhere has its effect, so that steps come in the order of doing.
            if response.lost_focus() || response.has_focus() && pressed {
                self.typing.take(id, self.desk);
            }
            // What is refused is mended where it stands; the next keys are not for the drawing.
            if entered && self.typing.fault(id).is_some() {
                response.request_focus();
            }
        }
        if begins {
            response.request_focus();
            response.scroll_to_me(None);
        }
        self.fault(id, WAY_OUT);
        self.found(name.detail());
    }

    /// The first click in a field, or the way into it with the keys, takes the whole text, so that what is typed then takes
    /// its place. A refused text that stays in hand is mended, until it is clicked.
    fn choose_whole(&mut self, id: Id, response: &Response, text: &str) {
        let by_keys = response.gained_focus()
            && !self.ui.input(|input| input.pointer.any_down())
            && self.typing.fault(id).is_none();
        let clicked = response.clicked() && response.has_focus();
        if (by_keys || clicked)
            && self.typing.whole != Some(id)
            && let Some(mut state) = TextEdit::load_state(self.ui.ctx(), id)
        {
            let all = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
            state.cursor.set_char_range(Some(all));
            state.store(self.ui.ctx(), id);
            self.typing.whole = Some(id);
        }
        if response.lost_focus() && self.typing.whole == Some(id) {
            self.typing.whole = None;
        }
    }
}

//! Windows that stand in front of all others until they are answered.
//!
//! Esc is the last answer, the harmless one; the keyboard starts on the first. Nothing happens by a click beside them.

use crate::disk::{Trouble, capital};
use crate::look;
use egui::{Align, Context, Id, Key, Layout, Modal, ModalResponse, Modifiers, RichText, ScrollArea, Ui};

/// Opens a window in front of all others; `width` in points, less where the screen is small.
pub fn window<T>(
    ctx: &Context,
    name: &str,
    width: f32,
    heading: &str,
    content: impl FnOnce(&mut Ui) -> T,
) -> ModalResponse<T> {
    let room = ctx.content_rect().width() - 40.0;
    let frame = egui::Frame::window(&ctx.global_style()).inner_margin(16);
    Modal::new(Id::unique(("window", name))).frame(frame).show(ctx, |ui| {
        ui.set_width(width.min(room).max(100.0));
        ui.label(look::strong(heading).heading());
        ui.add_space(6.0);
        content(ui)
    })
}

/// Whether Esc was pressed in the foremost window; a list that hangs open over it closes first.
pub fn is_left<T>(window: &ModalResponse<T>) -> bool {
    let ctx = &window.response.ctx;
    window.is_top_modal
        && !window.any_popup_open
        && ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape))
}

/// A row of answers at the right; gives the one that was chosen. One of them always has the keyboard.
pub fn answers<const N: usize>(ui: &mut Ui, words: [&str; N]) -> Option<usize> {
    row(ui, words, true)
}

/// The same where fields above them have the keyboard.
pub fn buttons<const N: usize>(ui: &mut Ui, words: [&str; N]) -> Option<usize> {
    row(ui, words, false)
}

fn row<const N: usize>(ui: &mut Ui, words: [&str; N], holds_keys: bool) -> Option<usize> {
    let mut chosen = None;
    ui.add_space(8.0);
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        // From the right, so that the first stands leftmost; the order of the Tab key is of no weight among so few.
        let buttons: Vec<_> = words.iter().rev().map(|words| ui.button(*words)).collect();
        for (at, button) in buttons.iter().rev().enumerate() {
            if button.clicked() {
                chosen = Some(at);
            }
        }
        if holds_keys
            && !buttons.iter().any(egui::Response::has_focus)
            && let Some(first) = buttons.last()
        {
            first.request_focus();
        }
    });
    chosen
}

/// Asks a question; gives the number of the answer, and the last when Esc is pressed.
pub fn ask<const N: usize>(
    ctx: &Context,
    name: &str,
    heading: &str,
    words: &[String],
    choices: [&str; N],
) -> Option<usize> {
    let window = window(ctx, name, 460.0, heading, |ui| {
        for words in words {
            ui.label(words);
        }
        answers(ui, choices)
    });
    let left = is_left(&window).then_some(N - 1);
    window.inner.or(left)
}

/// Says what went wrong, where, and what to do; gives the number of the answer.
pub fn trouble<const N: usize>(ctx: &Context, trouble: &Trouble, choices: [&str; N]) -> Option<usize> {
    let heading = format!("Can't {}", trouble.task.to_lowercase());
    let window = window(ctx, "trouble", 560.0, &heading, |ui| {
        ui.label(trouble.path.display().to_string());
        ui.add_space(4.0);
        let color = look::warning(ui.visuals().dark_mode);
        match &trouble.place {
            Some(place) => {
                let words = format!("Line {}, column {}: {}", place.line, place.column, trouble.what);
                ui.label(RichText::new(words).color(color));
                excerpt(ui, place);
            }
            None => {
                ui.label(RichText::new(capital(&trouble.what)).color(color));
            }
        }
        ui.label(format!("What to do: {}", trouble.remedy));
        answers(ui, choices)
    });
    let left = is_left(&window).then_some(N - 1);
    window.inner.or(left)
}

/// The line of the file with the offending part marked under it.
fn excerpt(ui: &mut Ui, place: &crate::file::Place) {
    let mark = "^".repeat(place.marked.len().max(1));
    let lines = format!("{}\n{}{mark}", place.excerpt, " ".repeat(place.marked.start));
    egui::Frame::new()
        .fill(ui.visuals().extreme_bg_color)
        .inner_margin(6)
        .show(ui, |ui| {
            ScrollArea::horizontal().show(ui, |ui| {
                ui.add(egui::Label::new(RichText::new(lines).monospace()).extend());
            });
        });
}

//! The choice at the very first start.

use crate::filing::question;
use crate::look;
use egui::{Button, Ui, vec2};

/// What to begin with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// Empty paper.
    Blank,
    /// The patio kitchen, to look around in.
    Example,
    /// A first drawing in five steps.
    Lesson,
}

const CHOICES: [(Start, &str, &str); 3] = [
    (
        Start::Lesson,
        "Learn by drawing",
        "Draw a short gas line in five steps, with help",
    ),
    (
        Start::Example,
        "Look at a worked example",
        "A patio kitchen on an existing house, sized and checked",
    ),
    (Start::Blank, "Empty paper", "Start a job of your own"),
];

/// Shows the choice; gives what was chosen.
pub fn ui(ui: &Ui) -> Option<Start> {
    let heading = "What would you like to start with?";
    let window = question::window(ui.ctx(), "welcome", 430.0, heading, |ui| {
        let mut chosen = None;
        for (start, name, line) in CHOICES {
            let words = egui::text::LayoutJob::simple(
                format!("{name}\n{line}"),
                egui::TextStyle::Body.resolve(ui.style()),
                ui.visuals().widgets.inactive.fg_stroke.color,
                400.0,
            );
            let mut words = words;
            if let Some(section) = words.sections.first_mut() {
                let mut rest = section.clone();
                let end = egui::text::ByteIndex(name.len());
                section.byte_range = section.byte_range.start..end;
                section.format.font_id = egui::FontId::new(16.0, look::bold());
                rest.byte_range = end..rest.byte_range.end;
                words.sections.push(rest);
            }
            let button = Button::new(words).min_size(vec2(430.0, 52.0));
            if ui.add(button).clicked() {
                chosen = Some(start);
            }
        }
        ui.add_space(6.0);
        ui.label(
            "Gas work is for licensed people. Local code, the gas supplier and the manufacturers' instructions govern.",
        );
        ui.label(
            "F1 explains what is selected, and every key; the line at the bottom always says what a click will do.",
        );
        chosen
    });
    window.inner.or(question::is_left(&window).then_some(Start::Blank))
}

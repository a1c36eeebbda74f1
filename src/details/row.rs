//! One row of the details: what it is called, and what stands beside its name.

use crate::job::Detail;
use egui::{Label, Layout, Response, Ui, vec2};

/// So much lower than a field its name stands, for the words of both to stand in line.
pub const DOWN: f32 = 2.0;

/// What a field is called: by its place among the details, or by words that are made on the spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Name<'a> {
    /// A field that can be gone to.
    Detail(Detail),
    /// Another, by its words.
    Words(&'a str),
}

impl Name<'_> {
    /// What stands on the left.
    pub fn label(&self) -> &str {
        match self {
            Name::Detail(detail) => detail.label(),
            Name::Words(words) => words,
        }
    }

    /// The field that can be gone to.
    pub const fn detail(self) -> Option<Detail> {
        match self {
            Name::Detail(detail) => Some(detail),
            Name::Words(_) => None,
        }
    }

    fn tip(&self) -> Option<&'static str> {
        match self {
            Name::Detail(detail) => detail.tip(),
            Name::Words(_) => None,
        }
    }
}

impl From<Detail> for Name<'_> {
    fn from(detail: Detail) -> Self {
        Name::Detail(detail)
    }
}

impl<'a> From<&'a str> for Name<'a> {
    fn from(words: &'a str) -> Self {
        Name::Words(words)
    }
}

/// A row: its name, and what stands beside it.
pub fn row<R>(ui: &mut Ui, name: Name<'_>, beside: impl FnOnce(&mut Ui, &Response) -> R) -> R {
    let whole = ui.available_width();
    let width = (whole * 0.38).clamp(76.0, 150.0);
    ui.with_layout(Layout::left_to_right(egui::Align::Min), |ui| {
        let label = ui
            .allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(egui::Align::Min), |ui| {
                ui.set_width(width);
                ui.add_space(DOWN);
                ui.add(Label::new(name.label()).wrap())
            })
            .inner;
        let label = match name.tip() {
            Some(tip) => label.on_hover_text(tip),
            None => label,
        };
        ui.vertical(|ui| {
            ui.set_width(ui.available_width());
            beside(ui, &label)
        })
        .inner
    })
    .inner
}

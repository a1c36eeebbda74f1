//! What this program is, what it goes by, and what must be said wherever gas piping is drawn.

use crate::filing::question;
use crate::licenses::{OWN, THIRD_PARTY};
use crate::look;
use crate::sheet::CAUTIONS;
use egui::{Id, Label, ScrollArea, TextStyle, Ui};

const WHAT: [&str; 3] = [
    "Stubout draws isometric sketches of fuel-gas piping, sizes the pipe by the published capacity tables, also computes the \
     pressure at every outlet, and says what is missing or wrong.",
    "It says what it checked, against what. It never says that a job is right: that is for those licensed to sign.",
    "Every published figure carries its mark; the cautions below say what each means.",
];

/// Shows it; says whether it is to be closed.
pub fn ui(ui: &Ui) -> bool {
    // Whether the licenses stand in the place of everything else.
    let page = Id::unique("licenses");
    let mut licenses = ui.data(|data| data.get_temp(page)).unwrap_or(false);
    let heading = format!("Stubout {}", env!("CARGO_PKG_VERSION"));
    let window = question::window(ui.ctx(), "about", 620.0, &heading, |ui| {
        let height = ui.ctx().content_rect().height() - 190.0;
        match licenses {
            true => all_licenses(ui, height),
            false => about(ui, height),
        }
        let other = if licenses { "About Stubout" } else { "All licenses" };
        let answer = question::answers(ui, ["Close", other]);
        licenses ^= answer == Some(1);
        answer == Some(0)
    });
    let closed = window.inner || question::is_left(&window);
    ui.data_mut(|data| data.insert_temp(page, licenses && !closed));
    closed
}

fn about(ui: &mut Ui, height: f32) {
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
        for words in WHAT {
            ui.label(words);
        }
        ui.add_space(8.0);
        ui.label(look::strong("Cautions"));
        ui.label("Gas can kill.");
        for words in CAUTIONS {
            ui.label(format!("–  {words}"));
        }
        ui.label("–  Demo jobs, names and addresses are invented.");
        ui.add_space(8.0);
        ui.label("License: MIT. Lettering: IBM Plex Sans Condensed, SIL Open Font License.");
    });
}

/// Thousands of lines, of which only those are laid out that are seen.
fn all_licenses(ui: &mut Ui, height: f32) {
    let lines: Vec<&str> = OWN.lines().chain([""]).chain(THIRD_PARTY.lines()).collect();
    let row = ui.text_style_height(&TextStyle::Body);
    let area = ScrollArea::both().max_height(height).auto_shrink([false, true]);
    area.id_salt("licenses").show_rows(ui, row, lines.len(), |ui, rows| {
        for line in &lines[rows] {
            ui.add(Label::new(*line).extend());
        }
    });
}

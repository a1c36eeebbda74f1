//! What this program is, what it goes by, and what must be said wherever gas piping is drawn.

use crate::app::look;
use crate::sheet::CAUTIONS;
use egui::{Modal, ScrollArea, Ui};

const WHAT: [&str; 3] = [
    "Stubout draws isometric sketches of fuel-gas piping, sizes them by the published capacity tables, computes the \
     pressure at every outlet beside it, and says what is missing or wrong.",
    "It says what it checked, against what. It never says that a job is right: that is for those licensed to sign.",
    "Every published figure carries its mark; the cautions below say what each means.",
];

/// Shows it; says whether it is to be closed.
pub fn ui(ui: &Ui) -> bool {
    let response = Modal::new(egui::Id::unique("about")).show(ui.ctx(), |ui| {
        ui.set_width(ui.ctx().content_rect().width().min(680.0) - 60.0);
        ui.heading(format!("Stubout {}", env!("CARGO_PKG_VERSION")));
        let height = ui.ctx().content_rect().height() - 190.0;
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
        ui.add_space(6.0);
        ui.button("Close").clicked()
    });
    response.inner || response.should_close()
}

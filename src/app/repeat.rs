//! Asks how often, and which way, what is chosen is to be repeated.

use super::desk::Desk;
use super::look;
use crate::editor::edit::{MOST_COPIES, repeat};
use crate::editor::{Refusal, Toward};
use crate::job::Direction;
use egui::{ComboBox, DragValue, Modal, Ui};

/// The question, while it is open.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeat {
    times: u32,
    toward: Toward,
    steps: i32,
    refusal: Option<Refusal>,
}

impl Default for Repeat {
    fn default() -> Repeat {
        Repeat {
            times: 1,
            toward: Toward::East,
            steps: 4,
            refusal: None,
        }
    }
}

impl Repeat {
    /// Shows the question; says whether it is answered or given up.
    pub fn ui(&mut self, ui: &Ui, desk: &mut Desk) -> bool {
        let response = Modal::new(egui::Id::unique("repeat")).show(ui.ctx(), |ui| {
            ui.heading("Repeat the selection");
            ui.horizontal(|ui| {
                let label = ui.label("How many times");
                ui.add(DragValue::new(&mut self.times).range(1..=MOST_COPIES))
                    .labelled_by(label.id);
            });
            ui.horizontal(|ui| {
                let label = ui.label("Direction");
                ComboBox::from_id_salt("way")
                    .selected_text(self.toward.words())
                    .show_ui(ui, |ui| {
                        for toward in Toward::ALL {
                            ui.selectable_value(&mut self.toward, toward, toward.words());
                        }
                    })
                    .response
                    .labelled_by(label.id);
            });
            ui.horizontal(|ui| {
                let label = ui.label("Grid steps apart");
                ui.add(DragValue::new(&mut self.steps).range(1..=500))
                    .labelled_by(label.id);
            });
            if let Some(refusal) = &self.refusal {
                let dark = ui.visuals().dark_mode;
                ui.label(egui::RichText::new(format!("Can't do that: {refusal}")).color(look::warning(dark)));
            }
            ui.add_space(6.0);
            ui.horizontal(|ui| {
                let go = ui.button("Repeat").clicked() || ui.input(|input| input.key_pressed(egui::Key::Enter));
                (go, ui.button("Cancel").clicked())
            })
            .inner
        });
        let (go, left) = response.inner;
        if go {
            return self.done(desk);
        }
        left || response.should_close()
    }

    /// Repeats; says whether it went.
    fn done(&mut self, desk: &mut Desk) -> bool {
        let way = self.toward.way();
        let by = |part: i32| part.saturating_mul(self.steps);
        let way = Direction::new(by(way.east), by(way.north), by(way.up));
        let (chosen, times) = (desk.editor().selection().clone(), self.times);
        self.refusal = desk.editor_mut().edit(|job| repeat(job, &chosen, way, times)).err();
        desk.refresh();
        self.refusal.is_none()
    }
}

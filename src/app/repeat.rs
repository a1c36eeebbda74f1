//! Asks how often, and which way, what is chosen is to be repeated.

use crate::desk::Desk;
use crate::editor::edit::{MOST_COPIES, repeat};
use crate::editor::{Refusal, Toward};
use crate::filing::question;
use crate::job::Direction;
use crate::look;
use egui::{ComboBox, DragValue, Grid, Ui};

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
        let window = question::window(ui.ctx(), "repeat", 380.0, "Repeat the selection", |ui| {
            Grid::new("how").num_columns(2).spacing([12.0, 6.0]).show(ui, |ui| {
                let label = ui.label("How many times");
                ui.add(DragValue::new(&mut self.times).range(1..=MOST_COPIES))
                    .labelled_by(label.id);
                ui.end_row();
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
                ui.end_row();
                let label = ui.label("Grid steps apart");
                ui.add(DragValue::new(&mut self.steps).range(1..=500))
                    .labelled_by(label.id);
                ui.end_row();
            });
            if let Some(refusal) = &self.refusal {
                let dark = ui.visuals().dark_mode;
                ui.label(egui::RichText::new(format!("Can't do that: {refusal}")).color(look::warning(dark)));
            }
            let answer = question::buttons(ui, ["Repeat", "Cancel"]);
            let entered = ui.input(|input| input.key_pressed(egui::Key::Enter));
            (answer == Some(0) || answer.is_none() && entered, answer == Some(1))
        });
        let (go, left) = window.inner;
        if go {
            return self.done(desk);
        }
        left || question::is_left(&window)
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

//! Values that are offered beside a field, to be chosen instead of typed.

use egui::{ScrollArea, Ui, WidgetInfo};

/// Width of the button that opens a list of values.
pub const WIDTH: f32 = 30.0;

/// Values to choose from beside a field.
#[derive(Default)]
pub struct Offers {
    /// What it means to leave the field empty.
    pub none: String,
    /// The values.
    pub values: Vec<String>,
    /// The unit of a plain number.
    pub unit: &'static str,
}

impl Offers {
    /// None, beside a field for a quantity.
    pub fn in_unit(unit: &'static str) -> Offers {
        Offers {
            unit,
            ..Offers::default()
        }
    }
}

/// A list of values beside a field; the first is to leave it empty.
pub fn offer(ui: &mut Ui, name: &str, offers: &Offers) -> Option<String> {
    let mut chosen = None;
    let words = format!("{name}: a list to choose from");
    let button = ui.menu_button("…", |ui| {
        ScrollArea::vertical().max_height(320.0).show(ui, |ui| {
            if ui.button(&offers.none).clicked() {
                chosen = Some(String::new());
                // With a key too, not by the mouse alone.
                ui.close();
            }
            for one in &offers.values {
                if ui.button(one).clicked() {
                    chosen = Some(one.clone());
                    // With a key too, not by the mouse alone.
                    ui.close();
                }
            }
        });
    });
    let button = button.response.on_hover_text(&words);
    button.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, &words));
    chosen
}

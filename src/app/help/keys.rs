//! Every key and what it does, from the editor's own tables.

use crate::editor::{COMMANDS, Menu, PENCIL_KEYS};
use crate::look;
use crate::view::menu;
use egui::{Grid, Ui};

/// What is done with the mouse.
const MOUSE: [(&str, &str); 11] = [
    ("Click", "Do what the status line says"),
    ("Click again at the same place", "Select another part that is there"),
    (
        "Drag a part",
        "Move it along the axes; connected runs stretch, typed lengths stay",
    ),
    ("Ctrl while dragging", "Typed lengths that stretch are re-measured"),
    ("Drag over empty paper", "Select everything inside the box"),
    ("Ctrl and click", "Add to the selection"),
    (
        "Shift while drawing",
        "Allow the 45-degree directions of the plane, and any direction to a joint",
    ),
    ("Drag a label", "Move it"),
    ("Wheel", "Zoom in and out at the pointer"),
    ("Drag with the middle or right button", "Move the paper"),
    ("Right click", "What can be done with the selection"),
];

/// Shows them in two columns.
pub fn ui(ui: &mut Ui) {
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        group(
            left,
            "Mouse",
            MOUSE.iter().map(|(keys, words)| (keys.to_string(), *words)),
        );
        let pencil = PENCIL_KEYS.iter().map(|row| (row.keys.to_string(), row.words));
        group(left, "Over the paper", pencil);
        left.label("Alt and the first letter of a menu opens it: Alt+H is Help.");
        for of in menu::MENUS {
            let rows = COMMANDS
                .iter()
                .filter(|command| command.menu == of && !command.keys.is_empty())
                .map(|command| {
                    let keys: Vec<String> = command.keys.iter().map(|keys| keys.to_string()).collect();
                    (keys.join(" or "), command.tip)
                });
            let side = if of < Menu::Edit { &mut *left } else { &mut *right };
            group(side, menu::name(of), rows);
        }
    });
}

fn group<'a>(ui: &mut Ui, name: &str, rows: impl Iterator<Item = (String, &'a str)>) {
    ui.add_space(6.0);
    ui.label(look::strong(name));
    Grid::new(("keys of", name))
        .num_columns(2)
        .striped(true)
        .show(ui, |ui| {
            for (keys, words) in rows {
                cell(ui, 110.0, look::strong(keys));
                cell(ui, (ui.available_width() - 4.0).max(120.0), words);
                ui.end_row();
            }
        });
}

fn cell(ui: &mut Ui, width: f32, words: impl Into<egui::WidgetText>) {
    ui.scope(|ui| {
        ui.set_width(width);
        ui.add(egui::Label::new(words).wrap());
    });
}

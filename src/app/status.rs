//! The status line: what a click or key will do now, where the plane lies, how large the paper is shown, and whether
//! what is shown is of the job as it is. How the job stands is said in the line above it.

use crate::desk::Desk;
use crate::{details, look};
use egui::{Align, Layout, RichText, Ui};

/// Shows the line; `scale` is screen points for one mm of paper, `sheet` what a click does where there is only the sheet.
pub fn ui(ui: &mut Ui, desk: &Desk, scale: f64, sheet: Option<&str>) {
    ui.horizontal(|ui| {
        let dark = ui.visuals().dark_mode;
        let mut status = desk.editor().status();
        // A figure goes there, if nothing in hand takes it.
        if let Some(field) = details::needed(desk)
            && desk.editor().said().is_none()
            && !desk.editor().takes_text()
        {
            status = format!("Type its {}. {status}", field.in_sentence());
        }
        let words = match desk.editor().said() {
            Some(_) => RichText::new(format!("Can't do that: {status}")).color(look::warning(dark)),
            None => RichText::new(sheet.map_or(status, str::to_owned)),
        };
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.label(format!("{:.0} %", scale * 25.4 / 96.0 * 100.0));
            ui.separator();
            ui.label(plane(desk));
            ui.separator();
            if !desk.is_current() {
                ui.label(
                    look::strong("Updating: sizes and findings shown are from before the last change")
                        .color(look::warning(dark)),
                );
                ui.separator();
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(egui::Label::new(words).truncate());
            });
        });
    });
}

/// The plane and its place.
fn plane(desk: &Desk) -> String {
    let plane = desk.editor().plane();
    let settings = &desk.job().settings;
    let height = settings.step.times(f64::from(plane.through.up)) + settings.datum;
    format!(
        "{}, elevation {}",
        plane.facing.words(),
        height.show_elevation(settings.units)
    )
}

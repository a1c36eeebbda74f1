//! All sheet thumbnails at the side: a click, or Enter, shows one whole.

use super::composed::Composed;
use super::stack::Triangles;
use crate::look;
use crate::scene::{Point, Rect};
use crate::study::words::capital;
use crate::view::ink::Glass;
use egui::{Align2, FontId, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};

/// Width of the column, points.
pub const WIDTH: f32 = 150.0;
/// Width of a sheet in it, points.
const SHEET: f32 = 118.0;
/// Height of what stands under a sheet, points.
const WORDS: f32 = 30.0;
/// Letters of a name on one line.
const LINE: usize = 22;

/// The sheet thumbnails, and their triangles.
#[derive(Default)]
pub struct Thumbs(Triangles);

impl Thumbs {
    /// Shows the column; gives the sheet that was chosen. `current` is the one that is looked at.
    pub fn ui(&mut self, ui: &mut Ui, composed: &Composed, current: usize) -> Option<usize> {
        let mut chosen = None;
        ui.spacing_mut().item_spacing.y = 8.0;
        ScrollArea::vertical()
            .id_salt("sheet thumbnails")
            .auto_shrink(false)
            .show(ui, |ui| {
                let sheets = composed.packet.sheets.iter().zip(&composed.packet.names);
                for (number, (sheet, name)) in sheets.enumerate() {
                    let scale = f64::from(SHEET) / sheet.width().max(1.0);
                    let size = vec2(SHEET, (sheet.height() * scale) as f32);
                    let (room, response) = ui.allocate_exact_size(size + vec2(0.0, WORDS), Sense::click());
                    let words = format!("{} {}", number + 1, capital(name));
                    response.widget_info(|| {
                        let label = format!("Sheet {words}");
                        WidgetInfo::selected(egui::Role::Button, true, number == current, label)
                    });
                    if !ui.is_rect_visible(room) {
                        continue;
                    }
                    let painter = ui.painter();
                    let glass = Glass {
                        origin: room.min,
                        scale,
                        pixels: ui.pixels_per_point(),
                    };
                    let whole = Rect::sized(Point::default(), sheet.width(), sheet.height());
                    self.0.paint(painter, number, composed.of, sheet, glass, whole);
                    let paper = egui::Rect::from_min_size(room.min, size);
                    if number == current || response.has_focus() || response.hovered() {
                        let pen = match number == current {
                            true => Stroke::new(2.5, look::CHOSEN),
                            false => Stroke::new(1.5, look::CHOSEN.gamma_multiply(0.6)),
                        };
                        painter.rect_stroke(paper, 0.0, pen, StrokeKind::Outside);
                    }
                    let color = ui.visuals().text_color();
                    let font = FontId::proportional(12.0);
                    painter.text(
                        paper.left_bottom() + vec2(0.0, 4.0),
                        Align2::LEFT_TOP,
                        short(&words),
                        font,
                        color,
                    );
                    let response = response.on_hover_text(words);
                    if response.clicked() {
                        chosen = Some(number);
                    }
                }
            });
        chosen
    }
}

/// Words cut to one line.
fn short(words: &str) -> String {
    if words.chars().count() <= LINE {
        return words.to_owned();
    }
    let cut: String = words.chars().take(LINE - 1).collect();
    format!("{}…", cut.trim_end_matches([' ', ',']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_are_cut_to_one_line() {
        assert_eq!(short("1 Drawing"), "1 Drawing");
        let cut = short("4 Order of work, pressure test, take-off");
        assert!(cut.chars().count() <= LINE && cut.ends_with('…'), "{cut}");
    }
}

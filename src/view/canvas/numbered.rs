//! Words that found no room beside their pipe: on the drawing a number stands for them, and a list in the corner of the
//! canvas says what it means, as the sheet does.

use crate::drawing::NumberedPoint;
use crate::look;
use crate::study::words::shortened;
use egui::{Align2, Color32, FontId, Id, Rect, Sense, Ui, WidgetInfo, pos2, vec2};

/// How many are told; of more it is said how many there are.
const MOST: usize = 10;
/// The most characters of one line.
const LONGEST: usize = 48;
/// From line to line.
const PITCH: f32 = 17.0;

/// Writes the list into the lower left corner; gives its height.
pub fn list(ui: &Ui, area: Rect, points: &[NumberedPoint]) -> f32 {
    if points.is_empty() {
        return 0.0;
    }
    let told = points.iter().take(MOST);
    let mut lines: Vec<String> = told
        .map(|point| format!("{}   {}", point.number, shortened(&point.text, LONGEST)))
        .collect();
    if points.len() > MOST {
        lines.push(format!("and {} more", points.len() - MOST));
    }
    let painter = ui.painter_at(area);
    let (font, ink) = (FontId::proportional(13.0), Color32::from_gray(0x22));
    let galleys: Vec<_> = lines
        .iter()
        .map(|line| painter.layout_no_wrap(line.clone(), font.clone(), ink))
        .collect();
    let width = galleys.iter().map(|galley| galley.size().x).fold(0.0, f32::max);
    let size = vec2(width + 12.0, PITCH * lines.len() as f32 + 8.0);
    let corner = pos2(area.left() + 8.0, area.bottom() - 8.0);
    let room = Align2::LEFT_BOTTOM.anchor_size(corner, size);
    painter.rect_filled(room, 2.0, look::PAPER.gamma_multiply(0.85));
    for (at, galley) in galleys.into_iter().enumerate() {
        painter.galley(room.min + vec2(6.0, 4.0 + PITCH * at as f32), galley, ink);
    }
    let response = ui.interact(room, Id::unique("numbered points"), Sense::hover());
    response.widget_info(|| {
        WidgetInfo::labeled(
            egui::Role::Label,
            true,
            format!("Numbered points: {}", lines.join("; ")),
        )
    });
    size.y
}

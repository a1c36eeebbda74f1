//! The very sheet that will be handed over: looked at, its parts chosen; a click on the title block leads to its form.
//!
//! What is painted is what the exports write. While a large job is composed anew, the sheets of before stay and are said
//! to be of before.

mod bar;
mod chosen;
mod composed;
mod fields;
mod parts;
mod stack;
mod thumbs;

pub use bar::{ROW, is_current, paper};
pub use composed::{Composed, Composing, Of};

use crate::desk::Desk;
use crate::desk::settings::Settings;
use crate::editor::{Part, Selection};
use crate::look;
use crate::scene::{Point, Rect, hit};
use crate::view::canvas::Camera;
use crate::view::ink::Glass;
use bar::Asked;
use egui::{Key, PointerButton, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};
use parts::parts;
use std::sync::Arc;

/// What lies within so many screen points of a click is meant by it.
const REACH: f64 = 6.0;

/// Below this width of the view the sheets are not shown in small, points.
const LEAST_WIDTH: f32 = 640.0;

/// How many times larger a notch of the wheel shows the sheet.
const NOTCH: f64 = 1.2;

/// What a click on the sheet does, for the status line.
pub const WHAT_A_CLICK_DOES: &str = "Click a field of the title block to fill it in on the right, or a part or a row to select it; Alt+1 goes back to the paper";

/// The sheet, and how it is looked at.
#[derive(Default)]
pub struct SheetView {
    composing: Composing,
    camera: Camera,
    area: Option<egui::Rect>,
    /// Whether paper is dimmed, as in the dark.
    pub dim: bool,
    fitted: bool,
    triangles: stack::Triangles,
    thumbs: thumbs::Thumbs,
    chosen: chosen::Chosen,
}

impl SheetView {
    /// The sheets as they are, or of before while they are made.
    pub fn composed(&mut self, desk: &Desk, settings: &Settings) -> Option<Arc<Composed>> {
        self.composing.of(desk, settings)
    }

    /// The number of the sheet that is looked at, from 0.
    pub fn looked_at(&self, composed: &Composed) -> usize {
        self.current(&stack::places(&composed.packet.sheets))
    }

    /// Shows the first sheet whole, from the next frame on.
    pub fn fit(&mut self) {
        self.fitted = false;
    }

    /// Shows the sheet larger or smaller about the middle.
    pub fn zoom(&mut self, by: f64) {
        if let Some(area) = self.area {
            self.camera.zoom(area, area.center(), by);
        }
    }

    /// Screen points for one mm of the sheet.
    pub fn scale(&self) -> f64 {
        self.camera.scale
    }

    /// The place on the screen of a point of the first sheet, once it has been seen.
    pub fn screen(&self, at: Point) -> Option<egui::Pos2> {
        self.area.map(|area| self.camera.screen(area, at))
    }

    /// Shows the sheet.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk, settings: &mut Settings) {
        desk.refresh();
        let composed = self.composed(desk, settings);
        let dark = ui.visuals().dark_mode;
        ui.spacing_mut().item_spacing.y = 0.0;
        egui::Frame::new()
            .fill(ui.visuals().panel_fill)
            .inner_margin(6)
            .show(ui, |ui| {
                ui.set_min_width(ui.available_width());
                match bar::ui(ui, desk, settings, composed.as_deref(), self.camera.scale) {
                    Some(Asked::ActualSize) => self.camera.scale = settings.points_per_mm,
                    None => {}
                }
            });
        // Where there is one sheet only, or little room, the sheets are not shown in small.
        let has_thumbs = composed
            .as_ref()
            .is_some_and(|composed| composed.packet.sheets.len() > 1)
            && ui.available_width() > LEAST_WIDTH;
        let mut wanted = None;
        if let (Some(composed), true) = (&composed, has_thumbs) {
            let current = self.current(&stack::places(&composed.packet.sheets));
            egui::Panel::left("sheet thumbnails")
                .exact_size(thumbs::WIDTH)
                .resizable(false)
                .show(ui, |ui| wanted = self.thumbs.ui(ui, composed, current));
        }
        let size = ui.available_size().max(vec2(40.0, 40.0));
        let (id, area) = ui.allocate_space(size);
        let response = ui.interact(area, id, Sense::click_and_drag());
        response.widget_info(|| {
            let words = "Sheet. The title block is filled in on the right; arrow keys move the sheet";
            WidgetInfo::labeled(egui::Role::Canvas, true, words)
        });
        let painter = ui.painter_at(area);
        painter.rect_filled(area, 0.0, look::desk(dark));
        let Some(composed) = composed else {
            let font = egui::TextStyle::Body.resolve(ui.style());
            let color = ui.visuals().text_color();
            painter.text(
                area.center(),
                egui::Align2::CENTER_CENTER,
                "Preparing the sheets…",
                font,
                color,
            );
            return;
        };
        let places = stack::places(&composed.packet.sheets);
        if self
            .area
            .is_none_or(|before| (before.size() - area.size()).length() > 120.0)
        {
            self.fitted = false;
        }
        self.area = Some(area);
        if let Some(place) = wanted.and_then(|number| places.get(number)) {
            self.camera.fit(area, Some(*place));
        }
        if !std::mem::replace(&mut self.fitted, true) {
            self.camera.fit(area, places.first().copied());
            // In a high window the first sheet lies at the top, and the next is seen below it.
            if let (Some(first), true) = (places.first(), places.len() > 1) {
                let room = f64::from(area.height()) / 2.0 / self.camera.scale - first.height() / 2.0;
                self.camera.middle.y += (room - 24.0 / self.camera.scale).max(0.0);
            }
        }
        self.look_around(ui, area, &response, &places);
        let (view, scale) = (self.camera.seen(area), self.camera.scale);
        for (number, (place, sheet)) in places.iter().zip(&composed.packet.sheets).enumerate() {
            if let Some(seen) = stack::seen(*place, view) {
                let glass = Glass {
                    origin: self.camera.screen(area, place.min),
                    scale,
                    pixels: ui.pixels_per_point(),
                };
                self.triangles.paint(&painter, number, composed.of, sheet, glass, seen);
                if number == 0 {
                    let selection = desk.editor().selection();
                    self.chosen.paint(&painter, composed.of, sheet, selection, glass, seen);
                }
            }
        }
        for (number, (fields, place)) in composed.fields.iter().zip(&places).enumerate() {
            for placed in fields {
                let cell = self.on_screen(area, *place, placed.cell);
                if cell.intersects(area) {
                    fields::show(ui, &painter, placed, number, cell.intersect(area), desk);
                }
            }
        }
        if response.clicked() {
            response.request_focus();
            if let Some(at) = response.interact_pointer_pos() {
                self.click(self.camera.paper(area, at), &composed, &places, desk);
            }
        }
        look::dim(ui, area, self.dim);
        if response.has_focus() {
            let pen = Stroke::new(2.0, look::CHOSEN);
            painter.rect_stroke(area.shrink(1.0), 0.0, pen, StrokeKind::Inside);
        }
    }

    /// The sheet that is looked at: the one nearest to the middle of the view.
    fn current(&self, places: &[Rect]) -> usize {
        let middle = self.camera.middle;
        let away = |place: &Rect| (place.min.y - middle.y).max(middle.y - place.max.y).max(0.0);
        let nearest = places.iter().enumerate();
        let nearest = nearest.min_by(|(_, a), (_, b)| away(a).total_cmp(&away(b)));
        nearest.map_or(0, |(number, _)| number)
    }

    /// Wheel and pinch zoom at the pointer, a drag moves the desk, arrows and page keys too.
    fn look_around(&mut self, ui: &Ui, area: egui::Rect, response: &egui::Response, places: &[Rect]) {
        if [PointerButton::Primary, PointerButton::Middle, PointerButton::Secondary]
            .iter()
            .any(|button| response.dragged_by(*button))
        {
            self.camera.pan(response.drag_delta());
        }
        if response.has_focus() {
            for (key, by) in [
                (Key::ArrowLeft, vec2(60.0, 0.0)),
                (Key::ArrowRight, vec2(-60.0, 0.0)),
                (Key::ArrowUp, vec2(0.0, 60.0)),
                (Key::ArrowDown, vec2(0.0, -60.0)),
            ] {
                if ui.input(|input| input.key_pressed(key)) {
                    self.camera.pan(by);
                }
            }
            for (key, on) in [(Key::PageUp, -1), (Key::PageDown, 1)] {
                if ui.input(|input| input.key_pressed(key)) {
                    self.turn(area, places, on);
                }
            }
            // The arrows are for the sheet as long as it has the keyboard.
            let filter = egui::EventFilter {
                horizontal_arrows: true,
                vertical_arrows: true,
                ..egui::EventFilter::default()
            };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
        }
        if response.contains_pointer() {
            self.camera.follow_wheel(ui, area, NOTCH);
        }
        // The sheets are never lost from sight.
        if let Some(all) = places.iter().copied().reduce(Rect::union) {
            let middle = &mut self.camera.middle;
            *middle = Point::new(
                middle.x.clamp(all.min.x, all.max.x),
                middle.y.clamp(all.min.y, all.max.y),
            );
        }
    }

    /// The next sheet, or the one before, where a whole one is seen; else a page of the screen on.
    fn turn(&mut self, area: egui::Rect, places: &[Rect], on: isize) {
        let now = self.current(places);
        let next = places.get(now.saturating_add_signed(on));
        let Some((now, next)) = places.get(now).zip(next) else {
            return;
        };
        let high = |place: &Rect| self.camera.screen(area, place.max).y - self.camera.screen(area, place.min).y;
        match high(now) <= area.height() + 1.0 {
            true => self.camera.middle.y = next.center().y,
            false => self.camera.pan(vec2(0.0, -0.8 * on.signum() as f32 * area.height())),
        }
    }

    /// A box of a sheet on the screen.
    fn on_screen(&self, area: egui::Rect, place: Rect, on_sheet: Rect) -> egui::Rect {
        let away = place.min - Point::default();
        egui::Rect::from_min_max(
            self.camera.screen(area, on_sheet.min + away),
            self.camera.screen(area, on_sheet.max + away),
        )
    }

    /// Chooses what was clicked.
    fn click(&self, at: Point, composed: &Composed, places: &[Rect], desk: &mut Desk) {
        let found = places
            .iter()
            .zip(&composed.packet.sheets)
            .find(|(place, _)| place.contains(at));
        let Some((place, sheet)) = found else { return };
        let tags = hit(sheet.root(), stack::within(*place, at), REACH / self.camera.scale);
        let parts = tags.into_iter().map(|tag| parts(tag, composed));
        let parts: Vec<Part> = parts
            .map(|parts| {
                parts
                    .into_iter()
                    .filter(|part| part.is_in(desk.job()))
                    .collect::<Vec<Part>>()
            })
            .find(|parts| !parts.is_empty())
            .unwrap_or_default();
        match parts[..] {
            [] => desk.editor_mut().select(Selection::none()),
            [first] => desk.seek(first),
            [first, ..] => {
                desk.seek(first);
                desk.editor_mut().select(parts.into_iter().collect());
            }
        }
    }
}

//! The very sheet that will be handed over: looked at, its title block filled in where it stands, its parts chosen.
//!
//! What is painted is what the exports write. While a large job is composed anew, the sheets of before stay and are said
//! to be of before.

mod chosen;
mod composed;
mod stack;
mod thumbs;
mod title;

pub use composed::{Composed, Composing, Of};

use super::canvas::Camera;
use super::desk::Desk;
use super::ink::Glass;
use super::settings::{Contents, POINTS_PER_MM, Settings};
use super::{issued, look};
use crate::drawing::tags::{Subject, passage};
use crate::editor::{CommandId, Part, Selection};
use crate::job::{JointId, RunId};
use crate::scene::{Point, Rect, Role, Tag, hit};
use crate::sheet::tags::{self, Schedule};
use crate::sheet::{Field, Orientation, Paper};
use crate::study::Place;
use egui::containers::menu::{MenuButton, MenuConfig};
use egui::{
    ComboBox, Id, Key, Label, PointerButton, PopupCloseBehavior, RichText, Sense, Stroke, StrokeKind, Ui, WidgetInfo,
    vec2,
};
use std::sync::Arc;
use title::{Open, Outcome, Way};

/// What lies within so many screen points of a click is meant by it.
const REACH: f64 = 6.0;

/// The height of a line of choices, so that words stand at the height of buttons, points.
pub const ROW: f32 = 25.0;

/// Below this width of the view the sheets are not shown in small, points.
const LEAST_WIDTH: f32 = 640.0;

/// The length of the ruler by which a screen is measured, mm.
const RULER_MM: f64 = 100.0;

/// How many times larger a notch of the wheel shows the sheet.
const NOTCH: f64 = 1.2;

/// What a click on the sheet does, for the status line.
pub const WHAT_A_CLICK_DOES: &str =
    "Click a field of the title block to fill it in, or a part or a row to select it; F8 goes back to the paper";

/// The sheet, and how it is looked at.
#[derive(Default)]
pub struct SheetView {
    composing: Composing,
    camera: Camera,
    area: Option<egui::Rect>,
    fitted: bool,
    triangles: stack::Triangles,
    thumbs: thumbs::Thumbs,
    chosen: chosen::Chosen,
    open: Option<Open>,
    has_focus: bool,
    /// The field that had the keyboard last.
    at_field: Option<(usize, u32)>,
}

impl SheetView {
    /// The sheets as they are, or of before while they are made.
    pub fn composed(&mut self, desk: &Desk, settings: &Settings) -> Option<Arc<Composed>> {
        self.composing.of(desk, settings)
    }

    /// Opens a field of the title block, from the next frame on.
    pub fn open_field(&mut self, field: Field, desk: &Desk) {
        self.open = Some(Open::new(field, 0, desk));
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

    /// Whether the sheet has the keyboard.
    pub fn has_focus(&self) -> bool {
        self.has_focus
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
                self.bar(ui, desk, settings, composed.as_deref());
            });
        // Where there is one sheet only, or little room, the sheets are not shown in small.
        let has_thumbs = composed
            .as_ref()
            .is_some_and(|composed| composed.packet.sheets.len() > 1)
            && ui.available_width() > LEAST_WIDTH;
        let mut wanted = None;
        if let (Some(composed), true) = (&composed, has_thumbs) {
            let current = self.current(&stack::places(&composed.packet.sheets));
            egui::Panel::left("sheets in small")
                .exact_size(thumbs::WIDTH)
                .resizable(false)
                .show(ui, |ui| wanted = self.thumbs.ui(ui, composed, current));
        }
        let size = ui.available_size().max(vec2(40.0, 40.0));
        let (id, area) = ui.allocate_space(size);
        let response = ui.interact(area, id, Sense::click_and_drag());
        response.widget_info(|| {
            let words = "Sheet. Tab goes through the fields of the title block, Enter fills one in";
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
        self.fields(ui, area, &composed, &places, desk);
        if response.clicked() {
            response.request_focus();
            if let Some(at) = response.interact_pointer_pos() {
                self.click(self.camera.paper(area, at), &composed, &places, desk);
            }
        }
        self.has_focus = response.has_focus() || self.at_field.is_some();
        if response.has_focus() {
            let pen = Stroke::new(2.0, look::CHOSEN);
            painter.rect_stroke(area.shrink(1.0), 0.0, pen, StrokeKind::Inside);
        }
        self.fill_in(ui, area, &composed, &places, desk);
    }

    /// The sheet that is looked at: the one nearest to the middle of the view.
    fn current(&self, places: &[Rect]) -> usize {
        let middle = self.camera.middle;
        let away = |place: &Rect| (place.min.y - middle.y).max(middle.y - place.max.y).max(0.0);
        let nearest = places.iter().enumerate();
        let nearest = nearest.min_by(|(_, a), (_, b)| away(a).total_cmp(&away(b)));
        nearest.map_or(0, |(number, _)| number)
    }

    /// Shows the sheet as large as it will be printed.
    fn print_size(&mut self, settings: &Settings) {
        self.camera.scale = settings.points_per_mm;
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
            let page = vec2(0.0, area.height() * 0.8);
            for (key, by) in [
                (Key::ArrowLeft, vec2(60.0, 0.0)),
                (Key::ArrowRight, vec2(-60.0, 0.0)),
                (Key::ArrowUp, vec2(0.0, 60.0)),
                (Key::ArrowDown, vec2(0.0, -60.0)),
                (Key::PageUp, page),
                (Key::PageDown, -page),
            ] {
                if ui.input(|input| input.key_pressed(key)) {
                    self.camera.pan(by);
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

    /// The fields of the title block: named, reached by Tab, opened by a click or Enter.
    fn fields(&mut self, ui: &Ui, area: egui::Rect, composed: &Composed, places: &[Rect], desk: &mut Desk) {
        let mut at_field = None;
        for (number, (fields, place)) in composed.fields.iter().zip(places).enumerate() {
            for placed in fields {
                let field = placed.field;
                let cell = self.on_screen(area, *place, placed.cell);
                // The title block of the first sheet is the one for the keyboard; on later ones it is there in view.
                if number > 0 && !cell.intersects(area) {
                    continue;
                }
                let id = Id::unique(("field", number, field.key()));
                let response = ui.interact(cell, id, Sense::click());
                response.widget_info(|| {
                    let words = match placed.value.as_str() {
                        "" => format!("{}: empty", field.caption()),
                        value => format!("{}: {value}", field.caption()),
                    };
                    WidgetInfo::labeled(egui::Role::Button, title::way(field) != Way::Follows, words)
                });
                let painter = ui.painter_at(area);
                if response.has_focus() {
                    at_field = Some((number, field.key()));
                    if self.at_field != at_field {
                        self.camera
                            .bring(area, place.min + (placed.cell.center() - Point::default()));
                        ui.ctx().request_repaint();
                    }
                }
                if response.has_focus() || response.hovered() && title::way(field) != Way::Follows {
                    let pen = Stroke::new(1.5, look::CHOSEN);
                    painter.rect_filled(cell, 0.0, look::CHOSEN.gamma_multiply(0.12));
                    painter.rect_stroke(cell, 0.0, pen, StrokeKind::Inside);
                }
                let leads = title::leads_to(field, desk);
                if response.hovered() && (title::way(field) != Way::Follows || leads.is_some()) {
                    ui.ctx().set_cursor_icon(match title::way(field) {
                        Way::Typed => egui::CursorIcon::Text,
                        Way::Chosen | Way::Follows => egui::CursorIcon::PointingHand,
                    });
                }
                let response = response.on_hover_text(title::tip(field));
                if response.clicked() {
                    match (title::way(field), leads) {
                        (Way::Typed | Way::Chosen, _) => self.open = Some(Open::new(field, number, desk)),
                        (Way::Follows, Some(part)) => desk.seek(part),
                        (Way::Follows, None) => {}
                    }
                }
            }
        }
        self.at_field = at_field;
    }

    /// A box of a sheet on the screen.
    fn on_screen(&self, area: egui::Rect, place: Rect, on_sheet: Rect) -> egui::Rect {
        let away = place.min - Point::default();
        egui::Rect::from_min_max(
            self.camera.screen(area, on_sheet.min + away),
            self.camera.screen(area, on_sheet.max + away),
        )
    }

    /// Shows the field that is open.
    fn fill_in(&mut self, ui: &Ui, area: egui::Rect, composed: &Composed, places: &[Rect], desk: &mut Desk) {
        let Some(mut open) = self.open.take() else { return };
        let placed = composed.fields.get(open.sheet).zip(places.get(open.sheet));
        let placed = placed.and_then(|(fields, place)| {
            let placed = fields.iter().find(|placed| placed.field == open.field)?;
            Some(self.on_screen(area, *place, placed.cell))
        });
        // The sheet on which it was opened may be gone: then it opens at the corner, so that nothing typed is lost.
        let cell = placed.unwrap_or(egui::Rect::from_min_size(area.min, vec2(220.0, 20.0)));
        let at = cell.min.clamp(area.min, area.max - vec2(60.0, 60.0));
        match open.ui(ui.ctx(), at, cell.width(), desk) {
            Outcome::Stays => self.open = Some(open),
            Outcome::Closed => {
                // The keyboard goes back to where it was, unless somebody has clicked elsewhere.
                if ui.memory(|memory| memory.focused()).is_none() {
                    let id = Id::unique(("field", open.sheet, open.field.key()));
                    ui.memory_mut(|memory| memory.request_focus(id));
                }
            }
        }
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

impl SheetView {
    /// The choices above the sheet, and what is to be said of it.
    fn bar(&mut self, ui: &mut Ui, desk: &mut Desk, settings: &mut Settings, composed: Option<&Composed>) {
        let warning = look::warning(ui.visuals().dark_mode);
        ui.spacing_mut().item_spacing.y = 5.0;
        ui.spacing_mut().interact_size.y = ROW;
        ui.horizontal_wrapped(|ui| {
            paper(ui, settings);
            let sheets = composed.map_or(0, |composed| composed.packet.sheets.len());
            match sheets {
                0 => {}
                1 => drop(ui.label("1 sheet")),
                sheets => drop(ui.label(format!("{sheets} sheets"))),
            }
            let button = ui.button("Export…");
            if button
                .on_hover_text("Save the sheets as PDF, SVG, PNG or DXF")
                .clicked()
            {
                desk.run(CommandId::ExportSheet);
            }
            let button = ui.button("Actual size");
            if button.on_hover_text("Show the sheet in its printed size").clicked() {
                self.print_size(settings);
            }
            let stays = MenuConfig::new().close_behavior(PopupCloseBehavior::CloseOnClickOutside);
            let (button, _) = MenuButton::new("Ruler").config(stays).ui(ui, |ui| ruler(ui, settings));
            button.on_hover_text("Tell how long a line is on this screen, so that actual size is true");
            let size = self.camera.scale / settings.points_per_mm * 100.0;
            ui.add(Label::new(format!("{size:.0} % of actual size")).extend());
            if let Some(composed) = composed
                && !is_current(composed, desk, settings)
            {
                ui.label(look::strong("Updating…").color(warning));
            }
        });
        for remark in composed.iter().flat_map(|composed| &composed.packet.remarks) {
            ui.label(RichText::new(remark).color(warning));
        }
    }
}

/// A line that is to be 100 mm long, and how long it is: screens do not say how large their points are.
fn ruler(ui: &mut Ui, settings: &mut Settings) {
    let length = (RULER_MM * settings.points_per_mm) as f32;
    ui.set_min_width(length + 16.0);
    ui.label("This line should be 100 mm long. Measure it:");
    let (room, _) = ui.allocate_exact_size(vec2(length, 14.0), Sense::hover());
    let pen = Stroke::new(1.0, ui.visuals().text_color());
    ui.painter()
        .line_segment([room.left_center(), room.right_center()], pen);
    for x in [room.left(), room.right()] {
        ui.painter().vline(x, room.y_range(), pen);
    }
    let mut measured = RULER_MM;
    let label = ui.label("Measured, in mm");
    let field = egui::DragValue::new(&mut measured)
        .range(20.0..=400.0)
        .update_while_editing(false);
    if ui.add(field).labelled_by(label.id).changed() {
        settings.points_per_mm = (settings.points_per_mm * RULER_MM / measured).clamp(0.5, 40.0);
    }
    if ui.button("As the system says").clicked() {
        settings.points_per_mm = POINTS_PER_MM;
    }
}

/// Whether sheets are of the job and the paper as they are.
pub fn is_current(composed: &Composed, desk: &Desk, settings: &Settings) -> bool {
    composed.of == Of::now(desk, settings)
}

/// The choice of sheets and paper.
pub fn paper(ui: &mut Ui, settings: &mut Settings) {
    let label = ui.label("Paper");
    let size = |paper: Paper| match paper {
        Paper::AnsiA => "ANSI A, 8.5 × 11 in",
        Paper::AnsiB => "ANSI B, 11 × 17 in",
        Paper::A4 => "A4, 210 × 297 mm",
        Paper::A3 => "A3, 297 × 420 mm",
    };
    ComboBox::from_id_salt("paper")
        .selected_text(size(settings.paper))
        .width(170.0)
        .show_ui(ui, |ui| {
            for paper in Paper::ALL {
                ui.selectable_value(&mut settings.paper, paper, size(paper));
            }
        })
        .response
        .labelled_by(label.id);
    for (orientation, words) in [
        (Orientation::Landscape, "Landscape"),
        (Orientation::Portrait, "Portrait"),
    ] {
        ui.selectable_value(&mut settings.orientation, orientation, words);
    }
    ui.separator();
    for (contents, words, tip) in [
        (
            Contents::Permit,
            "Permit sheets",
            "The permit drawing and its schedules",
        ),
        (
            Contents::Whole,
            "All sheets",
            "The permit sheets and the work sheets: pieces to cut, work steps, pressure test, take-off",
        ),
        (
            Contents::Listed,
            "With permit checklist",
            "All sheets, and what permit offices ask for, checked against the job",
        ),
    ] {
        ui.selectable_value(&mut settings.contents, contents, words)
            .on_hover_text(tip);
    }
}

/// The parts of the job that a tag of the sheet stands for, as the job was when the sheet was made.
fn parts(tag: Tag, composed: &Composed) -> Vec<Part> {
    let (job, study) = (&composed.job, &composed.checked.study);
    let joint = |at: usize| job.joints.iter().nth(at).map(|joint| Part::Joint(joint.id));
    let run = |at: usize| job.runs.iter().nth(at).map(|run| Part::Run(run.id));
    let section = |at: usize| {
        let runs = study.sections.get(at).map_or(&[][..], |section| &section.runs);
        runs.iter().filter_map(|at| run(*at)).collect::<Vec<Part>>()
    };
    match tag.role {
        Role::Line | Role::Plane => vec![Part::Run(RunId(tag.key))],
        Role::Symbol => vec![Part::Joint(JointId(tag.key))],
        Role::Label | Role::Leader => match Subject::of(tag) {
            Some(Subject::Run(at)) => run(at).into_iter().collect(),
            Some(Subject::Joint(at) | Subject::Level(at)) => joint(at).into_iter().collect(),
            Some(Subject::Section(at)) => section(at),
            Some(Subject::Note(at)) => vec![Part::Note(at)],
            Some(Subject::Passage(at)) => {
                let found = passage(job, at).and_then(|(at, number)| Some((job.runs.iter().nth(at)?.id, number)));
                found
                    .map(|(run, number)| Part::Penetration(run, number))
                    .into_iter()
                    .collect()
            }
            Some(Subject::Change(cloud)) => {
                let changes = composed.changes.iter().flat_map(|changes| &changes.list);
                let clouded = changes.zip(&composed.packet.clouded);
                let here = clouded.filter(|(_, clouds)| clouds.contains(&cloud));
                here.filter_map(|(change, _)| issued::part(change)).collect()
            }
            Some(Subject::Sheet) | None => Vec::new(),
        },
        Role::Table => match tags::part(tag) {
            Some(tags::Part::Row(Schedule::Appliances, at)) => {
                let joint = study.outlets.get(at).and_then(|outlet| joint(outlet.joint));
                joint.into_iter().collect()
            }
            Some(tags::Part::Row(Schedule::Sections, at)) => section(at),
            Some(tags::Part::Row(Schedule::Changes, at)) => {
                let change = composed.changes.as_ref().and_then(|changes| changes.list.get(at));
                change.and_then(issued::part).into_iter().collect()
            }
            Some(tags::Part::Row(Schedule::Findings, at)) => {
                match composed.checked.findings.get(at).map(|found| found.place) {
                    Some(Place::Joint(id)) => vec![Part::Joint(id)],
                    Some(Place::Run(id)) => vec![Part::Run(id)],
                    Some(Place::Section(number)) => section(number.saturating_sub(1)),
                    Some(Place::Job) | None => Vec::new(),
                }
            }
            Some(tags::Part::Row(..) | tags::Part::Schedule(_) | tags::Part::Field(_)) | None => Vec::new(),
        },
        Role::Frame | Role::Mark => Vec::new(),
    }
}

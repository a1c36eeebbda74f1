//! The paper that is drawn on: what a hand does over it goes to the editor, what follows comes back as a picture.
//!
//! The picture is the one of the sheet, carried to the screen by the camera alone; its triangles are kept until picture
//! or scale change.

mod camera;
mod foretold;
mod lattice;
mod marks;
mod names;
mod numbered;
mod verdict;

pub use camera::Camera;
pub use marks::places;
pub use names::name;

use crate::desk::{Desk, Face, VIEW};
use crate::drawing::layers;
use crate::drawing::strokes::Across;
use crate::editor::tool::{Draw, Tool};
use crate::editor::{CommandId, Held, Input, Part, Pointer};
use crate::job::{Job, State};
use crate::look;
use crate::scene::{Layer, Point, Rect};
use crate::view::ink::{Glass, Kept, Shown, tessellated};
use egui::{Event, Mesh, PointerButton, Pos2, Sense, Shape, Ui, vec2};
use foretold::Foretold;
use std::sync::Arc;

/// What lies within so many screen points of the pointer is meant by it.
const REACH: f64 = 7.0;

/// How many times larger a notch of the wheel shows the paper.
const NOTCH: f64 = 1.12;

/// Screen points for one mm of the axes in the corner.
const AXES: f64 = 3.6;

/// What stands already is drawn softer than what is new, on the screen only.
const EXISTING: [Layer; 2] = [layers::pipe(State::Existing), layers::symbols(State::Existing)];

/// On a smaller canvas the axes would lie over the drawing.
const ROOM_FOR_AXES: egui::Vec2 = vec2(430.0, 280.0);

/// The paper, and how it is looked at.
#[derive(Default)]
pub struct Canvas {
    /// Where the paper lies under the window.
    pub camera: Camera,
    /// Whether it is dimmed, as in the dark.
    pub dim: bool,
    /// Where on the screen it is, and its id for the focus.
    area: Option<egui::Rect>,
    id: Option<egui::Id>,
    triangles: Kept<(u64, Face)>,
    /// Where the pointer was when the editor last heard of it, with the revision and camera of then.
    heard: Option<(Pos2, (u64, Face), Camera)>,
    held: Held,
    /// Whether the main button went down here and is still down.
    gripped: bool,
    /// Whether the pointer is over the paper and nothing that lies on it.
    inside: bool,
    /// A part that somebody was led to.
    found: Option<Part>,
    /// Whether the whole drawing is to be shown in the next frame.
    fit_next: bool,
    /// A place that is to be shown.
    sought: Option<Point>,
    foretold: Foretold,
    corner: Option<Corner>,
    /// Where the editor pointed and what was chosen in the last frame.
    led: (Option<Point>, Option<Vec<Point>>),
}

/// What is marked over the drawing because a list tells of it.
#[derive(Clone, Debug, Default)]
pub struct Over {
    /// Strokes across pipe.
    pub strokes: Vec<Across>,
    /// The way of pipe that could be laid.
    pub way: Vec<Point>,
}

/// The axes in their corner, for as long as they serve.
struct Corner {
    revision: u64,
    place: Pos2,
    pixels: f32,
    mesh: Arc<Mesh>,
}

impl Canvas {
    /// Shows all of the drawing from the next frame on.
    pub fn fit(&mut self) {
        (self.fit_next, self.sought) = (true, None);
    }

    /// Shows the place of a part from the next frame on, and marks it.
    pub fn show_part(&mut self, part: Part, job: &Job) {
        self.found = Some(part);
        if let Some(at) = Rect::around(marks::places(job, part)) {
            self.sought = Some(at.center());
        }
    }

    /// Shows a place of paper from the next frame on.
    pub fn show_place(&mut self, at: Point) {
        self.sought = Some(at);
    }

    /// Shows the drawing larger or smaller about the middle.
    pub fn zoom(&mut self, by: f64) {
        if let Some(area) = self.area {
            self.camera.zoom(area, area.center(), by);
        }
    }

    /// The place on the screen of a point of paper, once the canvas has been seen.
    pub fn screen(&self, at: Point) -> Option<Pos2> {
        self.area.map(|area| self.camera.screen(area, at))
    }

    /// Where on the screen the paper is, once it has been seen.
    pub fn area(&self) -> Option<egui::Rect> {
        self.area
    }

    /// The id under which it has the focus, once it has been seen.
    pub fn id(&self) -> Option<egui::Id> {
        self.id
    }

    /// Shows the paper and takes what is done over it.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk, over: &Over) {
        let (area, response) = {
            let size = ui.available_size().max(vec2(40.0, 40.0));
            let (id, area) = ui.allocate_space(size);
            (area, ui.interact(area, id, Sense::click_and_drag()))
        };
        response.widget_info(|| {
            let words = "Isometric paper. F1 explains it; the status line says what Enter will do";
            egui::WidgetInfo::labeled(egui::Role::Canvas, true, words)
        });
        if self.area.is_none() {
            self.fit_next = true;
        }
        (self.area, self.id) = (Some(area), Some(response.id));
        if std::mem::take(&mut self.fit_next) {
            self.camera.fit(area, drawn_bounds(desk));
            // The status line above has said the scale of before.
            ui.ctx().request_repaint();
        }
        if let Some(at) = self.sought.take() {
            self.camera.bring(area, at);
        }
        self.wheel(ui, area, &response);
        self.hand(ui, area, &response, desk);
        self.mean(area, &response, desk);
        context_menu(&response, desk);
        desk.refresh();
        self.follow(ui, area, &response, desk);
        self.paint(ui, area, &response, desk, over);
        look::dim(ui, area, self.dim);
    }

    /// Wheel and pinch zoom at the pointer; a drag with another button and two fingers move the paper.
    fn wheel(&mut self, ui: &Ui, area: egui::Rect, response: &egui::Response) {
        let over = response.contains_pointer();
        for button in [PointerButton::Middle, PointerButton::Secondary] {
            if response.dragged_by(button) {
                self.camera.pan(response.drag_delta());
            }
        }
        if over {
            self.camera.follow_wheel(ui, area, NOTCH);
        }
    }

    /// Hands pointer and held keys to the editor, event by event, so that nothing quick is lost.
    fn hand(&mut self, ui: &Ui, area: egui::Rect, response: &egui::Response, desk: &mut Desk) {
        let (events, modifiers, hover) =
            ui.input(|input| (input.events.clone(), input.modifiers, input.pointer.hover_pos()));
        let held = Held {
            add: modifiers.command,
            skew: modifiers.shift,
        };
        if held != self.held {
            self.held = held;
            desk.editor_mut().handle(Input::Held(held));
        }
        let is_ours =
            |at: Pos2| area.contains(at) && ui.ctx().layer_id_at(at).is_none_or(|layer| layer == ui.layer_id());
        for event in events {
            match event {
                Event::PointerMoved(at) => {
                    let comes_in = is_ours(at) && !std::mem::replace(&mut self.inside, is_ours(at));
                    // Whoever comes back with a line in hand goes on drawing: what is typed is its length.
                    if comes_in && is_line_in_hand(desk) && !egui::Popup::is_any_open(ui.ctx()) {
                        response.request_focus();
                    }
                    self.inside = is_ours(at);
                    if self.gripped || self.inside {
                        self.point(at, area, desk);
                    }
                }
                Event::PointerGone => self.inside = false,
                Event::PointerButton {
                    pos,
                    button: PointerButton::Primary,
                    pressed,
                    ..
                } => match (pressed, self.gripped) {
                    (true, _) if is_ours(pos) && !egui::Popup::is_any_open(ui.ctx()) => {
                        self.gripped = true;
                        self.found = None;
                        response.request_focus();
                        self.point(pos, area, desk);
                        desk.editor_mut().handle(Input::Press);
                        desk.refresh();
                    }
                    (false, true) => {
                        self.gripped = false;
                        self.point(pos, area, desk);
                        desk.editor_mut().handle(Input::Release);
                        desk.refresh();
                    }
                    _ => {}
                },
                _ => {}
            }
        }
        // The paper may have moved under a resting pointer, or the drawing changed.
        if let Some(at) = hover.filter(|at| response.contains_pointer() || self.gripped && area.contains(*at)) {
            let now = (at, drawn(desk), self.camera);
            if self.heard.is_some_and(|heard| heard != now && heard.0 == at) {
                self.point(at, area, desk);
            }
        }
    }

    /// Keeps the arrows while it has the focus, and brings into view what the keys have led to.
    fn follow(&mut self, ui: &Ui, area: egui::Rect, response: &egui::Response, desk: &Desk) {
        if response.has_focus() {
            let keys = egui::EventFilter {
                tab: false,
                horizontal_arrows: true,
                vertical_arrows: true,
                escape: true,
            };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, keys));
        }
        let place = desk.editor().hint().ghost.place.map(|(place, _)| VIEW.point(place));
        let chosen = desk
            .editor()
            .selection()
            .single()
            .map(|part| marks::places(desk.job(), part));
        let led = (place, chosen);
        let by_keys = ui.input(|input| {
            let pointer = |event: &Event| matches!(event, Event::PointerMoved(_) | Event::PointerButton { .. });
            !input.events.iter().any(pointer)
        });
        if led != self.led && by_keys && !self.gripped {
            let chosen = led.1.as_ref().and_then(|places| Rect::around(places.iter().copied()));
            if let Some(at) = led.0.or(chosen.map(Rect::center)) {
                self.camera.bring(area, at);
            }
        }
        self.led = led;
    }

    /// A click with the other button chooses what lies under it, unless that is chosen already.
    fn mean(&self, area: egui::Rect, response: &egui::Response, desk: &mut Desk) {
        let at = response.interact_pointer_pos().filter(|_| response.secondary_clicked());
        let (Some(at), Tool::Choose(_)) = (at, desk.editor().tool()) else {
            return;
        };
        let hits = desk
            .seen()
            .parts_at(self.camera.paper(area, at), REACH / self.camera.scale);
        let is_chosen = |part: &Part| desk.editor().selection().contains(*part);
        if let Some(part) = hits.first().filter(|_| !hits.iter().any(is_chosen)) {
            desk.editor_mut().select([*part].into_iter().collect());
        }
    }

    fn point(&mut self, at: Pos2, area: egui::Rect, desk: &mut Desk) {
        self.heard = Some((at, drawn(desk), self.camera));
        let paper = self.camera.paper(area, at);
        let tool = desk.editor().tool();
        let hits = desk.seen().meant_at(paper, REACH / self.camera.scale, tool);
        let words = desk.seen().words_at(paper);
        let pointer = Pointer { at: paper, hits, words };
        desk.editor_mut().handle(Input::Pointer(pointer));
    }

    fn paint(&mut self, ui: &Ui, area: egui::Rect, response: &egui::Response, desk: &Desk, over: &Over) {
        let painter = ui.painter_at(area);
        let glass = Glass {
            origin: self.camera.screen(area, Point::default()),
            scale: self.camera.scale,
            pixels: ui.pixels_per_point(),
        };
        let seen = self.camera.seen(area);
        painter.rect_filled(area, 0.0, look::PAPER);
        lattice::rule(&painter, glass, seen);
        let (editor, job) = (desk.editor(), desk.job());
        let hint = editor.hint();
        // What follows the pointer is gone with it.
        let is_away = match editor.tool() {
            Tool::Place(placing) => placing.follows_pointer() && !self.inside,
            Tool::Choose(_) | Tool::Draw(_) | Tool::Put(_) | Tool::Preview(_) => false,
        };
        let place = hint.ghost.place.filter(|_| !is_away);
        if let (Tool::Draw(_) | Tool::Place(_) | Tool::Put(_), Some((place, _))) = (editor.tool(), place) {
            lattice::tint(&painter, glass, editor.plane(), place);
        }
        let shown = desk.seen();
        if over.strokes.is_empty() {
            verdict::paint(&painter, glass, shown);
        }
        let mesh = self.triangles.mesh(
            (shown.drawn, shown.face),
            &shown.picture.group,
            glass,
            seen,
            Shown::Edited(&EXISTING),
        );
        painter.add(Shape::Mesh(mesh));
        marks::across(&painter, glass, &over.strokes);
        marks::way(&painter, glass, &over.way);
        if let Some(mesh) = self.axes(desk, area, glass.pixels) {
            // Their words are read over whatever is drawn there.
            painter.rect_filled(mesh.calc_bounds().expand(4.0), 2.0, look::PAPER.gamma_multiply(0.65));
            painter.add(Shape::Mesh(mesh));
        }
        let above = numbered::list(ui, area, &shown.picture.numbered);
        if over.strokes.is_empty() {
            verdict::legend(&painter, area.left_bottom() + vec2(14.0, -16.0 - above), shown);
        }
        if matches!(editor.tool(), Tool::Choose(_)) && response.hovered() {
            let pointed = self.heard.map(|(at, ..)| self.camera.paper(area, at));
            let hits = pointed.map(|at| desk.seen().parts_at(at, REACH / self.camera.scale));
            if let Some(part) = hits.and_then(|hits| hits.into_iter().find(|part| part.is_in(job))) {
                marks::pointed(&painter, glass, job, part);
            }
        }
        for part in editor.selection().iter() {
            marks::chosen(&painter, glass, job, part);
        }
        if let Some(part) = self.found.filter(|part| editor.selection().contains(*part)) {
            marks::found(&painter, glass, job, part);
        }
        if let (Tool::Place(placing), Some((place, _))) = (editor.tool(), place) {
            marks::preview(&painter, glass, placing.item, place, hint.ghost.refused);
        }
        let card = self.foretold.card(desk);
        if !is_away {
            marks::ghost(&painter, glass, job, &hint.ghost, card);
        }
        if response.has_focus() {
            let pen = egui::Stroke::new(2.0, look::CHOSEN);
            painter.rect_stroke(area.shrink(1.0), 0.0, pen, egui::StrokeKind::Inside);
        }
        names::tell(ui, area, glass, desk);
        let cursor = match editor.tool() {
            Tool::Choose(_) => egui::CursorIcon::Default,
            Tool::Draw(_) | Tool::Place(_) | Tool::Put(_) => egui::CursorIcon::Crosshair,
            Tool::Preview(_) => egui::CursorIcon::PointingHand,
        };
        if response.hovered() {
            ui.ctx().set_cursor_icon(cursor);
        }
    }

    /// The axes in the upper right corner, at one size whatever the scale.
    fn axes(&mut self, desk: &Desk, area: egui::Rect, pixels: f32) -> Option<Arc<Mesh>> {
        if area.width() < ROOM_FOR_AXES.x || area.height() < ROOM_FOR_AXES.y {
            return None;
        }
        let (revision, place) = (desk.seen().drawn, area.right_top());
        let serves = |kept: &Corner| kept.revision == revision && kept.place == place && kept.pixels == pixels;
        if let Some(kept) = self.corner.as_ref().filter(|kept| serves(kept)) {
            return Some(Arc::clone(&kept.mesh));
        }
        let axes = desk.seen().picture.compass.as_ref()?;
        let bounds = axes.bounds()?;
        let at = place
            + vec2(
                -12.0 - (bounds.max.x * AXES) as f32,
                10.0 - (bounds.min.y * AXES) as f32,
            );
        let glass = Glass {
            origin: at,
            scale: AXES,
            pixels,
        };
        let mesh = Arc::new(tessellated(axes, glass, bounds));
        self.corner = Some(Corner {
            revision,
            place,
            pixels,
            mesh: Arc::clone(&mesh),
        });
        Some(mesh)
    }
}

/// Whether pipe is drawn on from a point.
fn is_line_in_hand(desk: &Desk) -> bool {
    matches!(desk.editor().tool(), Tool::Draw(Draw::Drawing(_)))
}

/// Which drawing lies on the canvas.
fn drawn(desk: &Desk) -> (u64, Face) {
    (desk.seen().drawn, desk.seen().face)
}

/// The box around everything drawn.
fn drawn_bounds(desk: &Desk) -> Option<Rect> {
    if desk.job().joints.is_empty() {
        return None;
    }
    let places = Rect::around(desk.job().joints.iter().map(|joint| VIEW.point(joint.at)));
    match (desk.seen().picture.bounds, places) {
        (Some(bounds), Some(places)) if desk.is_current() => Some(bounds.union(places)),
        (_, places) => places,
    }
}

/// What can be done with what is chosen, at a click with the other button.
fn context_menu(response: &egui::Response, desk: &mut Desk) {
    const OFFERED: [CommandId; 10] = [
        CommandId::DrawPipe,
        CommandId::ChooseDownstream,
        CommandId::Cut,
        CommandId::Copy,
        CommandId::Paste,
        CommandId::Delete,
        CommandId::DeleteAndClose,
        CommandId::Split,
        CommandId::Join,
        CommandId::Reverse,
    ];
    response.context_menu(|ui| {
        for id in OFFERED {
            crate::view::menu::entry(ui, desk, id);
        }
    });
}

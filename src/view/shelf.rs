//! The shelf beside the paper: the two hands, and what is placed, each with its symbol as it will be drawn; walls and
//! floors, which are all drawn alike, with pictures of their own.

mod passage;

use crate::desk::Desk;
use crate::drawing::{SAMPLE_WIDTH, Symbol, legend_sample};
use crate::editor::tool::Tool;
use crate::editor::{CommandId, Group, Item, PALETTE};
use crate::job::Barrier;
use crate::look;
use crate::scene::{Point, Rect};
use crate::view::ink::{Glass, tessellated};
use crate::view::menu;
use egui::{Pos2, Sense, Shape, Ui, WidgetInfo, vec2};

/// Points for one mm of a symbol.
const SCALE: f64 = 1.7;
/// Height of the name of a group, points.
const HEAD: f32 = 19.0;
/// A row is no lower.
const LEAST: f32 = 19.0;
/// A row is no higher.
const MOST: f32 = 25.0;

/// Shows the shelf.
pub fn ui(ui: &mut Ui, desk: &mut Desk) {
    egui::ScrollArea::vertical().show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let tool = desk.editor().tool();
        let (choosing, drawing) = (matches!(tool, Tool::Choose(_)), matches!(tool, Tool::Draw(_)));
        let placing = match tool {
            Tool::Place(place) => Some(place.item),
            Tool::Choose(_) | Tool::Draw(_) | Tool::Put(_) | Tool::Preview(_) => None,
        };
        let room = ui.clip_rect().height() - HEAD * Group::ALL.len() as f32 - 8.0;
        let tall = (room / (PALETTE.len() + 2) as f32).floor().clamp(LEAST, MOST);
        row(ui, desk, CommandId::DrawPipe, Some(Symbol::NewPipe), drawing, tall);
        row(ui, desk, CommandId::Choose, None, choosing, tall);
        for group in Group::ALL {
            let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HEAD), Sense::hover());
            let font = egui::FontId::new(12.0, look::bold());
            let color = ui.visuals().weak_text_color();
            let at = rect.left_bottom() + vec2(8.0, -1.0);
            ui.painter()
                .text(at, egui::Align2::LEFT_BOTTOM, group.name(), font, color);
            for item in PALETTE.iter().map(|row| row.item).filter(|item| item.group() == group) {
                let in_hand = placing == Some(item);
                row(ui, desk, CommandId::Place(item), symbol(item), in_hand, tall);
            }
        }
    });
}

/// One thing on the shelf.
fn row(ui: &mut Ui, desk: &mut Desk, id: CommandId, symbol: Option<Symbol>, in_hand: bool, tall: f32) {
    let Some(command) = id.row() else { return };
    let size = vec2(ui.available_width(), tall);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| WidgetInfo::selected(egui::Role::Button, true, in_hand, command.label));
    let visuals = ui.style().interact_selectable(&response, in_hand);
    let painter = ui.painter_at(rect);
    if in_hand || response.hovered() || response.has_focus() {
        painter.rect(
            rect,
            3.0,
            visuals.weak_bg_fill,
            visuals.bg_stroke,
            egui::StrokeKind::Inside,
        );
    }
    if in_hand {
        let bar = egui::Rect::from_min_size(rect.min, vec2(3.0, rect.height()));
        painter.rect_filled(bar, 0.0, look::CHOSEN);
    }
    let window = egui::Rect::from_center_size(rect.left_center() + vec2(18.0, 0.0), vec2(26.0, tall - 4.0));
    painter.rect_filled(window, 2.0, look::PAPER);
    let barrier = match id {
        CommandId::Place(Item::Passage(barrier)) => Some(barrier),
        _ => None,
    };
    match (symbol, barrier) {
        (Some(Symbol::Barrier), Some(barrier)) => passage::paint(&painter.with_clip_rect(window), window, barrier),
        (Some(symbol), _) => {
            let glass = Glass {
                origin: Pos2::new(window.min.x + 1.0, window.center().y),
                scale: SCALE,
                pixels: ui.pixels_per_point(),
            };
            // The sample without its words, which begin where the sample's width ends.
            let seen = Rect::new(Point::new(-2.0, -20.0), Point::new(SAMPLE_WIDTH - 0.5, 20.0));
            let mesh = tessellated(&legend_sample(symbol, Point::default()), glass, seen);
            painter.with_clip_rect(window).add(Shape::mesh(mesh));
        }
        (None, _) if id == CommandId::Choose => arrow(&painter, window),
        (None, _) => lines_of_words(&painter, window),
    }
    look::dim(ui, window, ui.visuals().dark_mode);
    let text = Pos2::new(window.max.x + 6.0, rect.center().y);
    let font = egui::FontId::proportional(13.5);
    if let Some(keys) = command.keys.first() {
        let at = Pos2::new(rect.max.x - 4.0, rect.center().y);
        let (small, color) = (egui::FontId::proportional(12.0), ui.visuals().weak_text_color());
        painter.text(at, egui::Align2::RIGHT_CENTER, keys.to_string(), small, color);
    }
    painter.text(
        text,
        egui::Align2::LEFT_CENTER,
        command.label,
        font,
        visuals.text_color(),
    );
    if response.clone().on_hover_text(menu::tip(command)).clicked() {
        desk.run(id);
        // What was taken is used over the paper: Enter and the arrows belong there from now on.
        response.surrender_focus();
    }
}

/// The pointing hand of the choosing tool: a plain arrow.
fn arrow(painter: &egui::Painter, window: egui::Rect) {
    let at = |x: f32, y: f32| window.center() + vec2(x, y);
    let body = vec![at(-4.0, -7.0), at(5.0, 1.0), at(0.5, 1.5), at(-2.5, 6.0)];
    painter.add(Shape::convex_polygon(
        body,
        egui::Color32::from_gray(0x22),
        egui::Stroke::NONE,
    ));
}

/// A note: some lines of words and what they point with.
fn lines_of_words(painter: &egui::Painter, window: egui::Rect) {
    let pen = egui::Stroke::new(1.5, egui::Color32::from_gray(0x22));
    let at = |x: f32, y: f32| window.center() + vec2(x, y);
    for (y, right) in [(-5.0, 13.0), (-1.0, 10.0), (3.0, 12.0)] {
        painter.line_segment([at(-2.0, y), at(right, y)], pen);
    }
    painter.line_segment([at(-3.0, -1.0), at(-13.0, 6.0)], egui::Stroke::new(1.0, pen.color));
}

/// The symbol under which a thing is drawn.
pub fn symbol(item: Item) -> Option<Symbol> {
    match item {
        Item::Device(_) | Item::Appliance(_) => item.device().map(|device| Symbol::of(&device)),
        Item::Passage(Barrier::Ground) => Some(Symbol::Ground),
        Item::Passage(_) => Some(Symbol::Barrier),
        Item::Note => None,
    }
}

//! The strip under the menus: the three sides of the work, the last step back and forth, and the way to a file.

use crate::desk::Desk;
use crate::desk::settings::Side;
use crate::editor::{Command, CommandId};
use crate::look;
use crate::view::menu;
use egui::{Align, Button, Layout, Response, Ui, WidgetInfo, vec2};

/// The sides in their order, each with the command that turns to it.
const SIDES: [(Side, CommandId); 3] = [
    (Side::Draw, CommandId::ShowDraw),
    (Side::Check, CommandId::ShowCheck),
    (Side::Sheet, CommandId::ShowSheet),
];

/// Height of its buttons, points.
const HEIGHT: f32 = 27.0;
/// Width of the button of a side, points.
const WIDTH: f32 = 86.0;

/// Shows the strip of a window that shows this side.
pub fn ui(ui: &mut Ui, desk: &mut Desk, now: Side) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        for (side, id) in SIDES {
            let Some(command) = id.row() else { continue };
            if turn(ui, command, side == now).clicked() {
                desk.run(id);
            }
        }
        ui.add_space(14.0);
        for id in [CommandId::Undo, CommandId::Redo, CommandId::ZoomFit] {
            let Some(command) = id.row() else { continue };
            let button = Button::new(command.label).min_size(vec2(0.0, HEIGHT));
            let response = ui
                .add_enabled(desk.editor().can(id), button)
                .on_hover_text(menu::tip(command))
                .on_disabled_hover_text(command.when.instead());
            if response.clicked() {
                desk.run(id);
                // What comes next is done over the paper.
                response.surrender_focus();
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let Some(command) = CommandId::ExportSheet.row() else {
                return;
            };
            let button = Button::new(look::strong("Export…").color(look::ON_ACCENT))
                .fill(look::ACCENT)
                .min_size(vec2(92.0, HEIGHT));
            let response = ui.add(button).on_hover_text(menu::tip(command));
            if response.clicked() {
                desk.run(CommandId::ExportSheet);
            }
        });
    });
}

/// The button of a side; the one that is looked at has a bar beneath.
fn turn(ui: &mut Ui, command: &Command, is_on: bool) -> Response {
    let words = match is_on {
        true => look::strong(command.label),
        false => command.label.into(),
    };
    let response = ui.add(Button::new(words).selected(is_on).min_size(vec2(WIDTH, HEIGHT)));
    response.widget_info(|| WidgetInfo::selected(egui::Role::RadioButton, true, is_on, command.label));
    if is_on {
        let rect = response.rect;
        let bar = egui::Rect::from_min_max(rect.left_bottom() - vec2(0.0, 3.0), rect.right_bottom());
        ui.painter().rect_filled(bar, 0.0, look::ACCENT);
    }
    response.on_hover_text(menu::tip(command))
}

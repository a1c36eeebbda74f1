//! Fields of the title block where they stand on the sheet: what each holds, where one that is not typed comes from, and
//! the way to the form in which it is filled in.

use super::composed::Placed;
use crate::desk::Desk;
use crate::desk::request::Request;
use crate::editor::Part;
use crate::job::JointId;
use crate::look;
use crate::sheet::Field;
use egui::{CursorIcon, Id, Painter, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo};

/// What a click on a field does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Its words are typed in the form.
    Typed,
    /// It is one of a few, chosen in the form.
    Chosen,
    /// It follows from something else.
    Follows,
}

/// What a click on a field does.
pub const fn way(field: Field) -> Way {
    match field {
        Field::Status | Field::Code => Way::Chosen,
        field if field.is_typed() => Way::Typed,
        _ => Way::Follows,
    }
}

/// What is said of a field under the pointer.
fn tip(field: Field) -> String {
    let words = match field {
        Field::Title => "The title says what the sheet is for",
        Field::Scale => "An isometric is not to scale: true lengths are written at the pipe",
        Field::Gas => "Set by the gas of the job",
        Field::Delivery => "Set at the point of delivery; a click leads to it",
        Field::Load => "The inputs of all connected appliances",
        Field::Revision => "The mark of the last line under Revisions",
        Field::Sheet => "Set by how many sheets the job needs",
        _ => return format!("{}: a click fills it in on the right", field.caption()),
    };
    words.to_owned()
}

/// A field at its place of the screen, on the sheet of this number.
pub fn show(ui: &Ui, painter: &Painter, placed: &Placed, number: usize, cell: Rect, desk: &mut Desk) {
    let (field, way, leads) = (placed.field, way(placed.field), leads_to(placed.field, desk));
    let id = Id::unique(("field", number, field.key()));
    // The form beside the sheet has the keyboard.
    let response = ui.interact(cell, id, Sense::CLICK);
    response.widget_info(|| {
        let words = match placed.value.as_str() {
            "" => format!("{}: empty", field.caption()),
            value => format!("{}: {value}", field.caption()),
        };
        WidgetInfo::labeled(egui::Role::Button, way != Way::Follows, words)
    });
    if response.hovered() && way != Way::Follows {
        let pen = Stroke::new(1.5, look::CHOSEN);
        painter.rect_filled(cell, 0.0, look::CHOSEN.gamma_multiply(0.12));
        painter.rect_stroke(cell, 0.0, pen, StrokeKind::Inside);
    }
    if response.hovered() && (way != Way::Follows || leads.is_some()) {
        ui.ctx().set_cursor_icon(CursorIcon::PointingHand);
    }
    if response.on_hover_text(tip(field)).clicked() {
        match (way, leads) {
            (Way::Typed | Way::Chosen, _) => desk.ask(Request::FillIn(field)),
            (Way::Follows, Some(part)) => desk.ask(Request::GoToPart(part)),
            (Way::Follows, None) => {}
        }
    }
}

/// The part to which a field leads that follows from it.
fn leads_to(field: Field, desk: &Desk) -> Option<Part> {
    let shown = desk.shown();
    let supply = shown
        .checked
        .study
        .network
        .supply
        .filter(|_| field == Field::Delivery)?;
    let joint: JointId = shown.job.joints.iter().nth(supply)?.id;
    Some(Part::Joint(joint))
}

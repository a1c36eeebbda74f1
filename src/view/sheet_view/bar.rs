//! The choices above the sheet: paper, which sheets, how large they are shown; and what is to be said of them.

use super::composed::{Composed, Of};
use crate::desk::Desk;
use crate::desk::settings::{Contents, POINTS_PER_MM, Settings};
use crate::look;
use crate::sheet::{Orientation, Paper};
use egui::containers::menu::{MenuButton, MenuConfig};
use egui::{ComboBox, Label, PopupCloseBehavior, RichText, Sense, Stroke, Ui, vec2};

/// The height of a line of choices, so that words stand at the height of buttons, points.
pub const ROW: f32 = 25.0;

/// The length of the ruler by which a screen is measured, mm.
const RULER_MM: f64 = 100.0;

/// What is asked of the view.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// The sheet as large as it will be printed.
    ActualSize,
}

/// Shows the choices; `scale` is screen points for one mm of the sheet.
pub fn ui(ui: &mut Ui, desk: &Desk, settings: &mut Settings, composed: Option<&Composed>, scale: f64) -> Option<Asked> {
    let warning = look::warning(ui.visuals().dark_mode);
    let mut asked = None;
    ui.spacing_mut().item_spacing.y = 5.0;
    ui.spacing_mut().interact_size.y = ROW;
    ui.horizontal_wrapped(|ui| {
        paper(ui, settings);
        let sheets = composed.map_or(0, |composed| composed.packet.sheets.len());
        let sheets = match sheets {
            0 => None,
            1 => Some("1 sheet".to_owned()),
            sheets => Some(format!("{sheets} sheets")),
        };
        if let Some(words) = sheets {
            ui.add(Label::new(words).extend());
        }
        let button = ui.button("Actual size");
        if button.on_hover_text("Show the sheet at its printed size").clicked() {
            asked = Some(Asked::ActualSize);
        }
        let stays = MenuConfig::new().close_behavior(PopupCloseBehavior::CloseOnClickOutside);
        let (button, _) = MenuButton::new("Measure…")
            .config(stays)
            .ui(ui, |ui| ruler(ui, settings));
        button.on_hover_text("Enter how long a line is on this screen, so that actual size is true");
        let size = scale / settings.points_per_mm * 100.0;
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
    asked
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
        .width(150.0)
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
        (
            Contents::Worksheet,
            "Worksheet and key",
            "For a class: the drawing with sizes and findings blank, then its key with the working. Exercise, not for permit",
        ),
        (
            Contents::SizingSteps,
            "Sizing step by step",
            "For a class: a sheet for each step, with the pipe and the row of the table it reads. Page Up and Page Down turn them",
        ),
        (
            Contents::Variants,
            "Variants compared",
            "The variants of the job side by side, and where their take-offs differ. A study, not for permit",
        ),
    ] {
        ui.selectable_value(&mut settings.contents, contents, words)
            .on_hover_text(tip);
    }
}

//! What the pencil in the hand is like, at the top of the paper while pipe is drawn: new, existing or to be removed, where
//! it lies, of what, and its size. Whatever is chosen here, the keys go back to the paper.

use crate::desk::Desk;
use crate::details::names::{self, STATES, SURROUNDINGS};
use crate::details::sizes;
use crate::editor::edit::Pen;
use crate::editor::{CommandId, tool::Tool};
use crate::job::{Detail, Material, State, Surroundings};
use crate::look;
use crate::units::NominalSize;
use egui::{Area, ComboBox, Context, Frame, Id, Label, Margin, Order, Rect, Response, Stroke, Ui, vec2};

/// How far it lies inside the paper's corner, points.
const INSIDE: f32 = 12.0;
/// On narrower paper only what the pencil is like is said, points.
const LEAST: f32 = 560.0;
/// Room at the right that is left to the axes, points.
const AXES: f32 = 90.0;

/// Shows the strip over the paper, which lies at `paper`, while pipe is drawn.
pub fn ui(ctx: &Context, paper: Rect, desk: &mut Desk) {
    if !matches!(desk.editor().tool(), Tool::Draw(_)) {
        return;
    }
    let area = Area::new(Id::unique("pencil"))
        .order(Order::Middle)
        .fixed_pos(paper.min + vec2(INSIDE, INSIDE))
        .constrain_to(paper);
    area.show(ctx, |ui| {
        let frame = Frame::new()
            .fill(ui.visuals().window_fill)
            .stroke(Stroke::new(1.0, look::GHOST))
            .corner_radius(6)
            .inner_margin(Margin::symmetric(10, 5));
        frame.show(ui, |ui| {
            if paper.width() < LEAST {
                // The menu and the keys choose; what is drawn on is not covered.
                ui.set_max_width(paper.width() - 4.0 * INSIDE);
                ui.add(Label::new(words(desk)).truncate());
                return;
            }
            ui.set_max_width((paper.width() - 2.0 * INSIDE - AXES).max(160.0));
            // Words stand in line with the buttons beside them.
            ui.spacing_mut().interact_size.y = ROW;
            ui.horizontal_wrapped(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                choices(ui, desk);
            });
        });
    });
}

/// Height of the strip's row.
const ROW: f32 = 26.0;

/// What the pencil is like in a few words, for the card at the ghost: what differs from the usual, and its state always.
pub fn words(desk: &Desk) -> String {
    let pen = desk.editor().pen();
    let material = pen.material.unwrap_or(desk.job().settings.material);
    let mut words = vec![pen.state.planned().to_owned(), pen.surroundings.name().to_owned()];
    if pen.material.is_some() {
        words.push(material.name().to_owned());
    }
    if let Some(size) = pen.size {
        words.push(shown(desk, material, size));
    }
    words.join(", ")
}

/// A size as it is spoken of in its material.
fn shown(desk: &Desk, material: Material, size: NominalSize) -> String {
    desk.shown().checked.study.names.show(material, size)
}

fn choices(ui: &mut Ui, desk: &mut Desk) {
    let pen = desk.editor().pen().clone();
    ui.label(look::strong("Pencil"));
    for (state, words) in STATES {
        let response = ui.selectable_label(pen.state == *state, *words);
        if done(tip(response, CommandId::State(*state))) {
            set(desk, |pen| pen.turn(*state));
        }
    }
    ui.separator();
    if let Some(surroundings) = list(ui, Detail::Location, pen.surroundings.name(), |ui| {
        pick(
            ui,
            SURROUNDINGS.iter().map(|(one, words)| (*one, (*words).to_owned())),
            pen.surroundings,
        )
    }) {
        set(desk, |pen| pen.surroundings = surroundings);
    }
    let of_job = desk.job().settings.material;
    let material = pen.material.unwrap_or(of_job);
    if let Some(material) = list(ui, Detail::Material, material.name(), |ui| {
        pick(ui, names::materials(of_job).into_iter(), pen.material)
    }) {
        // A size of one material is none of another.
        set(desk, |pen| (pen.material, pen.size) = (material, None));
    }
    // Existing pipe is not sized: its size is read on it.
    let open = match pen.state {
        State::New => Detail::Size.empty(),
        State::Existing | State::Removed => "not entered",
    };
    let size = pen
        .size
        .map_or_else(|| format!("size: {open}"), |size| shown(desk, material, size));
    let sizes = sizes(desk, material);
    let offered = std::iter::once((None, open.to_owned()));
    let offered = offered.chain(sizes.into_iter().map(|size| (Some(size), shown(desk, material, size))));
    if let Some(size) = list(ui, Detail::Size, &size, |ui| pick(ui, offered, pen.size)) {
        set(desk, |pen| pen.size = size);
    }
    let weathers = matches!(pen.surroundings, Surroundings::Outdoors | Surroundings::Underground);
    if weathers && material.rusts() {
        let mut coated = pen.coated;
        if done(ui.checkbox(&mut coated, "coated").on_hover_text(Detail::Coated.label())) {
            set(desk, |pen| pen.coated = coated);
        }
    }
}

/// A list of choices under what holds now; its name is read aloud.
fn list<T>(ui: &mut Ui, name: Detail, now: &str, offer: impl FnOnce(&mut Ui) -> Option<T>) -> Option<T> {
    let combo = ComboBox::from_id_salt(("pencil", name)).selected_text(now).width(0.0);
    let shown = combo.show_ui(ui, offer);
    shown.response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::Role::ComboBox, true, format!("Pencil: {}", name.label()));
        info.current_text_value = Some(now.to_owned());
        info
    });
    shown
        .response
        .on_hover_text(format!("{} of the pipe that you draw next", name.label()));
    shown.inner.flatten()
}

fn pick<T: PartialEq>(ui: &mut Ui, offered: impl Iterator<Item = (T, String)>, now: T) -> Option<T> {
    let mut chosen = None;
    for (one, words) in offered {
        if done(ui.selectable_label(one == now, words)) {
            chosen = Some(one);
            // With a key too, not by the mouse alone.
            ui.close();
        }
    }
    chosen
}

/// Whether something was clicked; the keys then go back to the paper.
fn done(response: Response) -> bool {
    let clicked = response.clicked();
    if clicked {
        response.surrender_focus();
    }
    clicked
}

fn tip(response: Response, id: CommandId) -> Response {
    match id.row() {
        Some(command) => response.on_hover_text(crate::view::menu::tip(command)),
        None => response,
    }
}

fn set(desk: &mut Desk, change: impl FnOnce(&mut Pen)) {
    let mut pen = desk.editor().pen().clone();
    change(&mut pen);
    desk.editor_mut().set_pen(pen);
}

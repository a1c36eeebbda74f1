//! The menus, made from the command table.

use crate::desk::Desk;
use crate::editor::{COMMANDS, Command, CommandId, Facing, Menu};
use crate::job::{Axis, State, Surroundings};
use egui::text::{LayoutJob, TextFormat};
use egui::{Button, Color32, Key, MenuBar, Modifiers, Popup, Stroke, TextStyle, Ui};

/// The menus in their order.
pub const MENUS: [Menu; 7] = [
    Menu::Job,
    Menu::Edit,
    Menu::Draw,
    Menu::Place,
    Menu::Change,
    Menu::View,
    Menu::Help,
];

/// What a menu is called.
pub const fn name(menu: Menu) -> &'static str {
    match menu {
        Menu::Job => "Job",
        Menu::Edit => "Edit",
        Menu::Draw => "Draw",
        Menu::Place => "Place",
        Menu::Change => "Change",
        Menu::View => "View",
        Menu::Help => "Help",
    }
}

/// Shows the menu bar; `more` adds to a menu what no command does.
pub fn ui(ui: &mut Ui, desk: &mut Desk, mut more: impl FnMut(&mut Ui, &mut Desk, Menu)) {
    MenuBar::new().ui(ui, |ui| {
        for menu in MENUS {
            let button = ui.menu_button(title(ui, menu), |ui| {
                ui.set_min_width(230.0);
                // The longest stands whole on a small screen.
                ui.spacing_mut().item_spacing.y = 0.0;
                for command in COMMANDS.iter().filter(|command| command.menu == menu) {
                    if command.id == CommandId::Quit {
                        more(ui, desk, menu);
                    }
                    if begins_a_group(command.id) {
                        ui.separator();
                    }
                    entry(ui, desk, command.id);
                }
                if menu != Menu::Job {
                    more(ui, desk, menu);
                }
            });
            if ui.input_mut(|input| input.consume_key(Modifiers::ALT, letter(menu))) {
                button.response.request_focus();
                Popup::open_id(ui.ctx(), Popup::default_response_id(&button.response));
            }
        }
    });
}

/// The letter that opens a menu while Alt is held: its first, and none twice.
const fn letter(menu: Menu) -> Key {
    match menu {
        Menu::Job => Key::J,
        Menu::Edit => Key::E,
        Menu::Draw => Key::D,
        Menu::Place => Key::P,
        Menu::Change => Key::C,
        Menu::View => Key::V,
        Menu::Help => Key::H,
    }
}

/// What is written on a menu; its letter is underlined while Alt is held.
fn title(ui: &Ui, menu: Menu) -> LayoutJob {
    let (first, rest) = name(menu).split_at(1);
    let format = TextFormat {
        font_id: TextStyle::Button.resolve(ui.style()),
        color: Color32::PLACEHOLDER,
        ..TextFormat::default()
    };
    let is_held = ui.input(|input| input.modifiers.alt);
    let under = TextFormat {
        underline: match is_held {
            true => Stroke::new(1.0, ui.visuals().text_color()),
            false => Stroke::NONE,
        },
        ..format.clone()
    };
    let mut job = LayoutJob::default();
    job.append(first, 0.0, under);
    job.append(rest, 0.0, format);
    job
}

/// Shows one command of the table as a line of a menu.
pub fn entry(ui: &mut Ui, desk: &mut Desk, id: CommandId) {
    let Some(command) = id.row() else { return };
    let mut button = Button::new(label(desk, command)).selected(is_on(desk, id));
    if let Some(keys) = command.keys.first() {
        button = button.shortcut_text(keys.to_string());
    }
    let response = ui
        .add_enabled(desk.can(id), button)
        .on_hover_text(command.tip)
        .on_disabled_hover_text(format!("{}: {}", command.tip, desk.instead(id)));
    if response.clicked() {
        ui.close();
        desk.run(id);
    }
}

/// Whether a command of a menu begins what belongs together.
fn begins_a_group(id: CommandId) -> bool {
    matches!(
        id,
        CommandId::ExportSheet
            | CommandId::Compare
            | CommandId::OwnFiles
            | CommandId::Quit
            | CommandId::Cut
            | CommandId::ChooseAll
            | CommandId::NextPart
            | CommandId::Plane(Facing::Level)
            | CommandId::State(State::New)
            | CommandId::Lies(Surroundings::Indoors)
            | CommandId::Mirror(Axis::East)
            | CommandId::FreeWords
            | CommandId::ShowDraw
            | CommandId::ShowDetails
            | CommandId::About
    )
}

/// Whether what a command sets is so now: the plane, and of the pencil its state and where it lies.
fn is_on(desk: &Desk, id: CommandId) -> bool {
    let editor = desk.editor();
    let sets_the_pen = editor.sets_the_pen();
    match id {
        CommandId::Plane(facing) => editor.plane().facing == facing,
        CommandId::State(state) => sets_the_pen && editor.pen().state == state,
        CommandId::Lies(surroundings) => sets_the_pen && editor.pen().surroundings == surroundings,
        _ => false,
    }
}

/// The command's name, and for undo and redo the step that is meant.
fn label(desk: &Desk, command: &Command) -> String {
    let step = match command.id {
        CommandId::Undo => desk.editor().undo_name(),
        CommandId::Redo => desk.editor().redo_name(),
        _ => None,
    };
    match step {
        Some(step) => format!("{}: {step}", command.label),
        None => command.label.to_owned(),
    }
}

/// The tip of a command with its keys, for a button.
pub fn tip(command: &Command) -> String {
    match command.keys.first() {
        Some(keys) => format!("{} ({keys})", command.tip),
        None => command.tip.to_owned(),
    }
}

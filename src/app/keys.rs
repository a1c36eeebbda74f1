//! From the keyboard to commands and to the pencil, by the editor's own tables.
//!
//! A text field keeps its keys. Whatever else has the focus keeps Enter, Space and the arrows; all other keys, and all
//! keys when nothing has the focus, are for the canvas.

use super::desk::Desk;
use super::files::Files;
use crate::editor::{Cap, CommandId, Input, Key as Action, PENCIL_KEYS, Shortcut};
use egui::{Context, Event, Key, Modifiers};

/// Who has the keyboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Keeper {
    /// A field in which text is typed.
    Text,
    /// A button or the like.
    Widget,
    /// The drawing.
    Canvas,
}

/// Gives every key of this frame to whom it belongs.
pub fn hear(ctx: &Context, canvas: Option<egui::Id>, desk: &mut Desk) {
    // A question that lies over everything has all keys.
    if ctx.memory(|memory| memory.top_modal_layer().is_some()) {
        return;
    }
    let (focus, escaped) = (
        ctx.memory(|memory| memory.focused()),
        ctx.input(|input| input.key_pressed(Key::Escape)),
    );
    let before = ctx.data_mut(|data| data.get_temp::<Keeper>(egui::Id::NULL));
    // A menu or list that hangs open is closed by Esc; it has the arrows too.
    let hangs = egui::Popup::is_any_open(ctx);
    let keeper = match focus {
        _ if ctx.text_edit_focused() => Keeper::Text,
        _ if hangs => Keeper::Widget,
        Some(id) if Some(id) != canvas => Keeper::Widget,
        // Esc has taken the focus from a field already; it was still meant for that field.
        None if escaped && before == Some(Keeper::Text) => Keeper::Text,
        _ => Keeper::Canvas,
    };
    ctx.data_mut(|data| data.insert_temp(egui::Id::NULL, keeper));
    let events = ctx.input(|input| input.events.clone());
    for event in events {
        match event {
            Event::Key { key: Key::Escape, .. } if hangs => {}
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => {
                if let Some(shortcut) = shortcut(key, modifiers) {
                    press(shortcut, keeper, desk);
                }
            }
            Event::Text(text) if keeper == Keeper::Canvas => {
                // The space bar that lengthens a leg has been heard as a key.
                for letter in text.chars() {
                    if letter != ' ' || is_typing(desk) {
                        desk.editor_mut().handle(Input::Text(letter));
                    }
                }
            }
            Event::Copy if keeper != Keeper::Text => {
                desk.run(CommandId::Copy);
                // The system's clipboard must not be empty, or it never says that somebody pastes.
                let count = desk.editor().selection().len();
                ctx.copy_text(format!("{count} parts of a gas piping drawing"));
            }
            Event::Cut if keeper != Keeper::Text => {
                let count = desk.editor().selection().len();
                desk.run(CommandId::Cut);
                ctx.copy_text(format!("{count} parts of a gas piping drawing"));
            }
            Event::Paste(_) if keeper != Keeper::Text => desk.run(CommandId::Paste),
            _ => {}
        }
    }
}

fn is_typing(desk: &Desk) -> bool {
    !desk.editor().tool().typed().is_empty()
}

fn press(shortcut: Shortcut, keeper: Keeper, desk: &mut Desk) {
    let is_function = matches!(shortcut.cap, Cap::F(_));
    match keeper {
        // What a text field needs for itself stays there.
        Keeper::Text if !(is_function || shortcut.ctrl && is_of_the_window(shortcut)) => return,
        Keeper::Widget if !shortcut.ctrl && !shortcut.alt && belongs_to_widgets(shortcut.cap) => return,
        Keeper::Text | Keeper::Widget | Keeper::Canvas => {}
    }
    // Shift may be held for directions off the axes while a function key chooses the plane.
    let let_go = Shortcut {
        shift: shortcut.shift && !is_function,
        ..shortcut
    };
    if let Some(id) = CommandId::of(shortcut).or_else(|| CommandId::of(let_go)) {
        desk.run(id);
        return;
    }
    if keeper == Keeper::Text {
        return;
    }
    // With Shift held a way is still that way: Shift asks for directions off the axes.
    let plain = Shortcut {
        shift: false,
        ..shortcut
    };
    let exact = PENCIL_KEYS.iter().find(|row| row.keys == shortcut);
    let row = exact.or_else(|| {
        let row = PENCIL_KEYS.iter().find(|row| row.keys == plain)?;
        matches!(row.key, Action::Way(_) | Action::Clockwise | Action::Counterclockwise).then_some(row)
    });
    match row.map(|row| row.key) {
        Some(Action::Longer) if is_typing(desk) => {}
        Some(action) => {
            desk.editor_mut().handle(Input::Key(action));
            desk.refresh();
        }
        None => {}
    }
}

/// Keys that a button, a tab or a list uses while it has the focus.
fn belongs_to_widgets(cap: Cap) -> bool {
    matches!(
        cap,
        Cap::Enter | Cap::Space | Cap::Up | Cap::Down | Cap::Left | Cap::Right
    )
}

/// Commands of files, views and help work even while text is typed; undo and the like belong to the text.
fn is_of_the_window(shortcut: Shortcut) -> bool {
    CommandId::of(shortcut).is_some_and(|id| {
        let is_of_the_view = matches!(id, CommandId::ZoomIn | CommandId::ZoomOut | CommandId::ZoomFit);
        is_of_the_view || Files::is_one(id)
    })
}

/// A key as the command table writes it; `None` for keys that no table uses.
fn shortcut(key: Key, modifiers: Modifiers) -> Option<Shortcut> {
    let cap = match key {
        Key::ArrowUp => Cap::Up,
        Key::ArrowDown => Cap::Down,
        Key::ArrowLeft => Cap::Left,
        Key::ArrowRight => Cap::Right,
        Key::Escape => Cap::Escape,
        Key::Backspace => Cap::Backspace,
        Key::Enter => Cap::Enter,
        Key::Space => Cap::Space,
        Key::Delete => Cap::Delete,
        Key::Home => Cap::Home,
        Key::End => Cap::End,
        Key::PageUp => Cap::PageUp,
        Key::PageDown => Cap::PageDown,
        Key::Plus | Key::Equals => Cap::Plus,
        Key::Minus => Cap::Minus,
        key => named(key.name())?,
    };
    // On most keyboards plus is reached with Shift.
    let shift = modifiers.shift && key != Key::Plus;
    Some(Shortcut {
        ctrl: modifiers.command,
        shift,
        alt: modifiers.alt,
        cap,
    })
}

/// Letters, digits and function keys by their names.
fn named(name: &str) -> Option<Cap> {
    let mut letters = name.chars();
    match (letters.next()?, letters.as_str()) {
        (letter @ 'A'..='Z', "") => Some(Cap::Letter(letter)),
        (digit @ '0'..='9', "") => Some(Cap::Digit(digit as u8 - b'0')),
        ('F', number) => number.parse().ok().map(Cap::F),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::COMMANDS;

    #[test]
    fn every_shortcut_of_the_tables_can_be_pressed() {
        let keys: Vec<Option<Shortcut>> = Key::ALL
            .iter()
            .flat_map(|key| {
                let held = [
                    Modifiers::NONE,
                    Modifiers::COMMAND,
                    Modifiers::SHIFT,
                    Modifiers::ALT,
                    Modifiers::COMMAND | Modifiers::SHIFT,
                ];
                held.map(|modifiers| shortcut(*key, modifiers))
            })
            .collect();
        let all = COMMANDS
            .iter()
            .flat_map(|command| command.keys)
            .chain(PENCIL_KEYS.iter().map(|row| &row.keys));
        for wanted in all {
            assert!(keys.contains(&Some(*wanted)), "{wanted}");
        }
    }
}

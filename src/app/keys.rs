//! From the keyboard to commands and to the pencil, by the editor's own tables.
//!
//! A text field keeps its keys. Whatever else has the focus keeps Enter, Space and the arrows; all other keys, and all
//! keys when nothing has the focus, are for the canvas.

use crate::desk::Desk;
use crate::desk::request::Request;
use crate::details;
use crate::editor::tool::Tool;
use crate::editor::{Cap, CommandId, Input, Item, Key as Action, Menu, PENCIL_KEYS, Shortcut};
use crate::filing::Files;
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
    /// Something that draws nothing: only commands are heard.
    Nobody,
}

/// Gives every key of this frame to whom it belongs; `canvas` is the paper, where it is to be seen.
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
        Some(id) if canvas.is_some_and(|canvas| canvas != id) => Keeper::Widget,
        // Esc has taken the focus from a field or a button already; it was still meant for that.
        None if escaped && matches!(before, Some(Keeper::Text | Keeper::Widget)) => Keeper::Text,
        // Nothing can be drawn where no paper is to be seen.
        _ if canvas.is_none() => Keeper::Nobody,
        _ => Keeper::Canvas,
    };
    ctx.data_mut(|data| data.insert_temp(egui::Id::NULL, keeper));
    let (events, held) = ctx.input(|input| (input.events.clone(), input.modifiers));
    let is_command = held.alt && !held.ctrl;
    // The key that has just been heard as a command is not typed as well.
    let mut took = None;
    // Alt may be up again by the end of a slow frame: what a key was pressed with is told by the key.
    let mut with_alt = is_command;
    for event in events {
        match event {
            Event::Key { key: Key::Escape, .. } if hangs => {}
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } => {
                with_alt = modifiers.alt && !modifiers.ctrl;
                if let Some(shortcut) = shortcut(key, modifiers)
                    && press(shortcut, keeper, hangs, desk)
                {
                    took = Some(shortcut.cap);
                }
            }
            // With Alt held a figure is the key of a command.
            Event::Text(text) if keeper == Keeper::Canvas && !is_command && !with_alt => {
                // A figure that nothing in hand takes is for the field that the selected part lacks.
                if text.starts_with(|letter: char| letter.is_ascii_digit())
                    && !desk.editor().takes_text()
                    && let Some(field) = details::needed(desk)
                {
                    desk.ask(Request::TypeInto(field, text));
                    continue;
                }
                // The space bar that lengthens a leg has been heard as a key, and so has a letter that takes a tool.
                for letter in text.chars() {
                    let cap = Cap::Letter(letter.to_ascii_uppercase());
                    if took.take_if(|took| *took == cap).is_some() {
                        continue;
                    }
                    if is_typing(desk) || !(letter == ' ' || takes_a_tool(letter, desk)) {
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
    if is_command && took.is_some() {
        // What is a command is not typed as well.
        ctx.input_mut(|input| input.events.retain(|event| !matches!(event, Event::Text(_))));
    }
    if took == Some(Cap::Enter) {
        // Nor does it press the button that has the focus.
        ctx.input_mut(|input| {
            input
                .events
                .retain(|event| !matches!(event, Event::Key { key: Key::Enter, .. }))
        });
    }
}

/// Whether a letter is the key of a tool, and not one of a text that is being typed: a length begins with a figure.
fn takes_a_tool(letter: char, desk: &Desk) -> bool {
    let cap = Cap::Letter(letter.to_ascii_uppercase());
    letter.is_ascii_alphabetic() && !takes_words(desk) && CommandId::of(Shortcut::plain(cap)).is_some()
}

/// Whether what is in hand takes words from their first letter on.
fn takes_words(desk: &Desk) -> bool {
    matches!(desk.editor().tool(), Tool::Place(place) if place.item == Item::Note)
}

fn is_typing(desk: &Desk) -> bool {
    !desk.editor().tool().typed().is_empty()
}

/// Does what a key is for; says whether it was that of a command.
fn press(shortcut: Shortcut, keeper: Keeper, hangs: bool, desk: &mut Desk) -> bool {
    let is_function = matches!(shortcut.cap, Cap::F(_));
    match keeper {
        // What a text field needs for itself stays there.
        Keeper::Text if !(is_function || (shortcut.ctrl || shortcut.alt) && is_of_the_window(shortcut)) => {
            return false;
        }
        Keeper::Widget | Keeper::Nobody if !shortcut.ctrl && !shortcut.alt && belongs_to_widgets(shortcut.cap) => {
            return false;
        }
        // Where no paper is to be seen a letter is meant for a field that has not the caret yet.
        Keeper::Nobody if is_bare_letter(shortcut) => return false,
        // A letter that is typed, or that an open list uses, takes no tool.
        Keeper::Widget | Keeper::Canvas
            if is_bare_letter(shortcut) && (hangs || is_typing(desk) || takes_words(desk)) =>
        {
            return false;
        }
        Keeper::Text | Keeper::Widget | Keeper::Canvas | Keeper::Nobody => {}
    }
    // Shift may be held for directions off the axes while a figure chooses the plane.
    let is_figure = shortcut.ctrl && matches!(shortcut.cap, Cap::Digit(_));
    let let_go = Shortcut {
        shift: shortcut.shift && !(is_function || is_figure),
        ..shortcut
    };
    if let Some(id) = CommandId::of(shortcut).or_else(|| CommandId::of(let_go)) {
        desk.run(id);
        return true;
    }
    if matches!(keeper, Keeper::Text | Keeper::Nobody) {
        return false;
    }
    // With Shift held a way is still that way: Shift asks for directions off the axes.
    let plain = Shortcut {
        shift: false,
        ..shortcut
    };
    let exact = PENCIL_KEYS.iter().find(|row| row.keys == shortcut);
    let row = exact.or_else(|| {
        let row = PENCIL_KEYS.iter().find(|row| row.keys == plain)?;
        matches!(row.key, Action::Way(_) | Action::Arrow(_)).then_some(row)
    });
    match row.map(|row| row.key) {
        Some(Action::Longer) if is_typing(desk) => {}
        Some(action) => {
            desk.editor_mut().handle(Input::Key(action));
            desk.refresh();
        }
        None => {}
    }
    false
}

fn is_bare_letter(shortcut: Shortcut) -> bool {
    !shortcut.ctrl && !shortcut.alt && matches!(shortcut.cap, Cap::Letter(_))
}

/// Keys that a button, a tab or a list uses while it has the focus.
fn belongs_to_widgets(cap: Cap) -> bool {
    matches!(
        cap,
        Cap::Enter | Cap::Space | Cap::Up | Cap::Down | Cap::Left | Cap::Right
    )
}

/// Commands of files and views work even while text is typed; undo and the like belong to the text.
fn is_of_the_window(shortcut: Shortcut) -> bool {
    CommandId::of(shortcut)
        .is_some_and(|id| Files::is_one(id) || id.row().is_some_and(|command| command.menu == Menu::View))
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

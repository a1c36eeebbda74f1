//! One change of the caret a frame.
//!
//! egui gives all events of a frame to the field that has the caret when the frame is made. On a slow machine a click or a
//! Tab and what is typed after it come in one frame: the text would go into the field before, or be taken for keys of tools.
//! So what comes after a change of the caret waits for the next frame.

use egui::{Event, Key};

/// What waits.
#[derive(Debug, Default)]
pub struct Beat {
    waiting: Vec<Event>,
}

impl Beat {
    /// Leaves in `events` those of this frame, after those that waited; says whether others wait for the next.
    pub fn cut(&mut self, events: &mut Vec<Event>) -> bool {
        let mut all = std::mem::take(&mut self.waiting);
        all.append(events);
        let mut typed = false;
        let mut end = all.len();
        for (at, event) in all.iter().enumerate() {
            if moves_the_caret(event) {
                // What was typed before is for the field before.
                end = if typed { at } else { at + 1 };
                break;
            }
            typed |= is_typed(event);
        }
        // Nothing waits that is not typed: the pointer is where it is.
        if all[end..].iter().any(|event| is_typed(event) || moves_the_caret(event)) {
            self.waiting = all.split_off(end);
        }
        *events = all;
        !self.waiting.is_empty()
    }
}

/// Whether another field, or none, may have the caret after an event.
fn moves_the_caret(event: &Event) -> bool {
    match event {
        Event::PointerButton { pressed, .. } => !pressed,
        Event::Key { key, pressed, .. } => *pressed && matches!(key, Key::Tab | Key::Enter | Key::Escape),
        _ => false,
    }
}

fn is_typed(event: &Event) -> bool {
    matches!(
        event,
        Event::Text(_) | Event::Ime(_) | Event::Paste(_) | Event::Key { pressed: true, .. }
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::{Modifiers, PointerButton, Pos2};

    fn key(key: Key) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers::NONE,
        }
    }

    fn button(pressed: bool) -> Event {
        Event::PointerButton {
            pos: Pos2::ZERO,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        }
    }

    fn frames(events: Vec<Event>) -> Vec<Vec<Event>> {
        let mut beat = Beat::default();
        let mut frames = Vec::new();
        let mut now = events;
        loop {
            let more = beat.cut(&mut now);
            frames.push(std::mem::take(&mut now));
            if !more {
                return frames;
            }
        }
    }

    #[test]
    fn what_is_typed_after_a_click_or_a_tab_waits_for_the_caret() {
        let text = |text: &str| Event::Text(text.to_owned());
        let all = vec![
            button(true),
            button(false),
            text("Joe"),
            key(Key::Tab),
            text("Sam"),
            key(Key::Tab),
            text("9"),
        ];
        let cut = frames(all.clone());
        assert_eq!(
            cut,
            [
                vec![button(true), button(false)],
                vec![text("Joe")],
                vec![key(Key::Tab)],
                vec![text("Sam")],
                vec![key(Key::Tab)],
                vec![text("9")],
            ]
        );
        assert_eq!(cut.concat(), all, "nothing is lost, and nothing comes before its turn");
    }

    #[test]
    fn one_thing_at_a_time_is_one_frame() {
        for events in [
            vec![],
            vec![key(Key::Tab)],
            vec![
                Event::PointerMoved(Pos2::ZERO),
                button(true),
                button(false),
                Event::PointerGone,
            ],
            vec![key(Key::A), Event::Text("a".to_owned())],
        ] {
            assert_eq!(frames(events.clone()), [events]);
        }
    }
}

//! The user guide in the window: chapters on the left, one of them on the right. It opens at what is selected or in hand.

use super::keys;
use crate::filing::question;
use crate::job::listed;
use crate::look;
use egui::{Align, Key, Label, Layout, Modifiers, ScrollArea, Ui, vec2};

/// The guide as it is written: `# id | heading`, then paragraphs.
const TEXT: &str = include_str!("../../../assets/guide.txt");

listed! {
    /// A chapter, by the id that it has in the text.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Chapter {
        /// The sides of the work.
        Start,
        /// The point of delivery.
        Delivery,
        /// Drawing pipe.
        Draw,
        /// Typed and drawn lengths.
        Length,
        /// Appliances.
        Appliance,
        /// Devices in pipe.
        Device,
        /// What pipe goes through.
        Building,
        /// What stands already.
        Existing,
        /// How sizes are found.
        Sizes,
        /// The lists.
        Check,
        /// The sheets.
        Sheet,
        /// Job files and others.
        Files,
        /// Every key.
        Keys,
    }
}

impl Chapter {
    const fn id(self) -> &'static str {
        match self {
            Chapter::Start => "start",
            Chapter::Delivery => "delivery",
            Chapter::Draw => "draw",
            Chapter::Length => "length",
            Chapter::Appliance => "appliance",
            Chapter::Device => "device",
            Chapter::Building => "building",
            Chapter::Existing => "existing",
            Chapter::Sizes => "sizes",
            Chapter::Check => "check",
            Chapter::Sheet => "sheet",
            Chapter::Files => "files",
            Chapter::Keys => "keys",
        }
    }

    /// Its heading and its paragraphs.
    fn text(self) -> Option<(&'static str, impl Iterator<Item = &'static str>)> {
        let chapters = TEXT.split("# ").skip(1);
        let mut found = chapters
            .filter_map(|chapter| chapter.split_once('\n'))
            .filter_map(|(head, body)| {
                let (id, heading) = head.split_once(" | ")?;
                (id == self.id()).then_some((heading, body))
            });
        let (heading, body) = found.next()?;
        let paragraphs = body.split("\n\n").map(str::trim);
        Some((heading, paragraphs.filter(|words| !words.is_empty())))
    }

    fn heading(self) -> &'static str {
        self.text().map_or("", |text| text.0)
    }
}

/// Shows the guide at a chapter, which a click on another or an arrow key changes; says whether it is to be closed.
pub fn ui(ui: &Ui, chapter: &mut Chapter) -> bool {
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let all = Chapter::ALL.iter().position(|one| one == chapter);
    let before = *chapter;
    if let (Some(at), true) = (all, pressed(Key::ArrowDown)) {
        *chapter = *Chapter::ALL.get(at + 1).unwrap_or(chapter);
    }
    if let (Some(at), true) = (all, pressed(Key::ArrowUp)) {
        *chapter = Chapter::ALL[at.saturating_sub(1)];
    }
    let moved = before != *chapter;
    let window = question::window(ui.ctx(), "guide", 940.0, "User guide", |ui| {
        let height = ui.ctx().content_rect().height() - 190.0;
        let (whole, beside) = (vec2(ui.available_width(), height), Layout::left_to_right(Align::Min));
        ui.allocate_ui_with_layout(whole, beside, |ui| {
            // Bound, or the line between would make the window taller with every frame.
            ui.set_height(height);
            let width = (ui.available_width() * 0.3).clamp(120.0, 250.0);
            let down = Layout::top_down(Align::Min);
            ui.allocate_ui_with_layout(vec2(width, height), down, |ui| {
                ScrollArea::vertical()
                    .id_salt("chapters")
                    .max_height(height)
                    .show(ui, |ui| {
                        ui.set_width(width);
                        for one in Chapter::ALL {
                            let row = ui.selectable_value(chapter, one, one.heading());
                            if *chapter == one && moved {
                                row.scroll_to_me(None);
                            }
                        }
                    });
            });
            ui.separator();
            ui.vertical(|ui| {
                let text = ScrollArea::vertical().id_salt(chapter.id()).max_height(height);
                text.auto_shrink(false).show(ui, |ui| {
                    // What is longer than its box is paged by keys too.
                    let page = ui.clip_rect().height() * 0.9;
                    for (key, by) in [(Key::PageDown, -page), (Key::PageUp, page)] {
                        if pressed(key) {
                            ui.scroll_with_delta(vec2(0.0, by));
                        }
                    }
                    read(ui, *chapter);
                });
            });
        });
        question::answers(ui, ["Close"]).is_some()
    });
    window.inner || question::is_left(&window)
}

fn read(ui: &mut Ui, chapter: Chapter) {
    let Some((heading, paragraphs)) = chapter.text() else {
        return;
    };
    ui.label(look::strong(heading).size(16.0));
    ui.add_space(4.0);
    for words in paragraphs {
        ui.add(Label::new(words).wrap());
        ui.add_space(6.0);
    }
    if chapter == Chapter::Keys {
        keys::ui(ui);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_chapter_is_written_and_nothing_is_written_that_is_no_chapter() {
        for chapter in Chapter::ALL {
            let (heading, paragraphs) = chapter.text().unwrap_or_else(|| panic!("{chapter:?}"));
            assert!(!heading.is_empty());
            assert!(chapter == Chapter::Keys || paragraphs.count() >= 2, "{chapter:?}");
        }
        assert_eq!(TEXT.matches("# ").count(), Chapter::ALL.len());
    }
}

//! The user guide in the window: chapters on the left, one of them on the right. It opens at what is selected or in hand.

use super::keys;
use crate::disk;
use crate::export::pdf::{self, PdfInfo};
use crate::filing::{outside, question};
use crate::job::listed;
use crate::look;
use crate::scene::{Group, Point, Rect};
use crate::sheet::guide;
use crate::view::ink::{Glass, tessellated};
use egui::{Align, Id, Key, Label, Layout, Modifiers, Role, ScrollArea, Sense, Shape, Ui, WidgetInfo, vec2};
use std::sync::Arc;

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

    /// What is written of it.
    fn text(self) -> Option<guide::Chapter> {
        guide::chapters().find(|chapter| chapter.id == self.id())
    }

    fn heading(self) -> &'static str {
        self.text().map_or("", |text| text.heading)
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
        let fault = Id::unique("guide as PDF");
        let words = ui.data(|data| data.get_temp::<String>(fault)).unwrap_or_default();
        if !words.is_empty() {
            ui.label(words);
        }
        match question::answers(ui, ["Close", "Open as PDF"]) {
            Some(1) => {
                let words = open_pdf().err().unwrap_or_default();
                ui.data_mut(|data| data.insert_temp(fault, words));
                false
            }
            answer => answer.is_some(),
        }
    });
    window.inner || question::is_left(&window)
}

/// Makes the PDF of the guide among the system's temporary files and opens it.
fn open_pdf() -> Result<(), String> {
    let path = std::env::temp_dir().join("stubout-guide.pdf");
    let info = PdfInfo {
        title: "Stubout user guide".to_owned(),
        ..PdfInfo::default()
    };
    let bytes = pdf::write(&guide::pages(), &info).map_err(|error| error.to_string())?;
    disk::write(&path, &bytes).map_err(|error| format!("{}: {error}", path.display()))?;
    outside::open(&path)
}

fn read(ui: &mut Ui, chapter: Chapter) {
    let Some(text) = chapter.text() else {
        return;
    };
    ui.label(look::strong(text.heading).size(16.0));
    ui.add_space(4.0);
    for words in text.paragraphs() {
        ui.add(Label::new(words).wrap());
        ui.add_space(6.0);
    }
    if chapter == Chapter::Keys {
        keys::ui(ui);
    }
    drawing(ui, text);
}

/// The drawing of a chapter on paper, as wide as the words.
fn drawing(ui: &mut Ui, text: guide::Chapter) {
    let size = Rect::sized(Point::default(), WIDTH, guide::DRAWING);
    let kept = ui.data(|data| data.get_temp::<Drawn>(Id::unique(text.id)));
    let drawn = kept.unwrap_or_else(|| text.drawing(size).map(Arc::new));
    ui.data_mut(|data| data.insert_temp::<Drawn>(Id::unique(text.id), drawn.clone()));
    let Some(drawn) = drawn else { return };
    let scale = f64::from(ui.available_width()) / size.width();
    let (room, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), (size.height() * scale) as f32),
        Sense::hover(),
    );
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("Drawing: {}", text.heading)));
    let painter = ui.painter_at(room);
    painter.rect_filled(room, 0.0, look::PAPER);
    let glass = Glass {
        origin: room.min,
        scale,
        pixels: ui.pixels_per_point(),
    };
    painter.add(Shape::mesh(tessellated(&drawn, glass, size)));
}

/// The drawing of a chapter, which is made once.
type Drawn = Option<Arc<Group>>;

/// Width of the paper of a drawing in the window, mm.
const WIDTH: f64 = 175.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_chapter_is_written_and_nothing_is_written_that_is_no_chapter() {
        for chapter in Chapter::ALL {
            let text = chapter.text().unwrap_or_else(|| panic!("{chapter:?}"));
            assert!(!text.heading.is_empty());
            assert!(
                chapter == Chapter::Keys || text.paragraphs().count() >= 2,
                "{chapter:?}"
            );
        }
        assert_eq!(guide::chapters().count(), Chapter::ALL.len());
    }
}

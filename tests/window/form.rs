//! Filling in what stands in the panels, with the mouse or with keys alone.

use crate::hand::{Hand, Widget};
use egui::{Key, Modifiers, Order, Rect, Role, pos2};

/// How the window is driven.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    Mouse,
    Keys,
}

/// What goes into a field.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    Text(String),
    Choice(&'static str),
    Check,
}

/// Tab is pressed so often at most to find something.
const TABS: usize = 200;

impl Hand {
    /// The panel of the details, as it is to be seen.
    fn panel(&self) -> Rect {
        let size = self.size();
        let left = self
            .widgets("Resize panel")
            .into_iter()
            .map(|edge| edge.rect.center().x);
        let left = left.fold(0.0, f32::max);
        Rect::from_min_max(pos2(left, 66.0), pos2(size.x, size.y - 58.0))
    }

    /// The field of the details under this name; the topmost where there are several.
    #[track_caller]
    pub fn field(&self, label: &str) -> Widget {
        let panel = self.panel();
        let named = |widget: &Widget| widget.role != Role::Label && panel.x_range().contains(widget.rect.center().x);
        let mut fields: Vec<Widget> = self.widgets(label).into_iter().filter(named).collect();
        fields.sort_by(|a, b| a.rect.min.y.total_cmp(&b.rect.min.y));
        assert!(
            !fields.is_empty(),
            "{label} is not in the details: {:?}",
            self.all_words()
        );
        fields.remove(0)
    }

    /// Turns the wheel over the panel until a field is to be seen, and gives its middle.
    #[track_caller]
    fn reveal(&mut self, label: &str) -> egui::Pos2 {
        for _ in 0..60 {
            let (panel, at) = (self.panel().shrink(14.0), self.field(label).rect.center());
            if panel.y_range().contains(at.y) {
                return at;
            }
            self.move_to(panel.center());
            self.wheel(if at.y > panel.max.y { -3.0 } else { 3.0 });
            self.rest();
        }
        panic!("{label} cannot be brought into view");
    }

    /// Presses Tab until something has the keyboard.
    #[track_caller]
    pub fn tab_to(&mut self, what: &str, is_it: impl Fn(&Hand, &Widget) -> bool) {
        for _ in 0..TABS {
            self.key(Key::Tab);
            if self.focused().is_some_and(|focused| is_it(self, &focused)) {
                return;
            }
        }
        panic!("Tab does not lead to {what}; there is {:?}", self.all_words());
    }

    #[track_caller]
    fn tab_to_field(&mut self, label: &str) {
        if self
            .focused()
            .is_none_or(|focused| focused.rect != self.field(label).rect)
        {
            self.tab_to(label, |hand, focused| {
                focused.words == label && focused.rect == hand.field(label).rect
            });
        }
    }

    /// Fills in a field of the details.
    #[track_caller]
    pub fn fill(&mut self, label: &str, entry: &Entry, by: By) {
        match by {
            By::Mouse => {
                let at = self.reveal(label);
                self.click_screen(at);
            }
            By::Keys => self.tab_to_field(label),
        }
        match entry {
            Entry::Text(text) => {
                match by {
                    // Two more clicks take the whole line.
                    By::Mouse => {
                        self.click();
                        self.click();
                    }
                    By::Keys => self.chord(Modifiers::COMMAND, Key::A),
                }
                self.type_text(text);
                if by == By::Keys {
                    self.key(Key::Tab);
                }
            }
            Entry::Check if by == By::Keys => self.key(Key::Space),
            Entry::Check => {}
            Entry::Choice(words) => {
                if by == By::Keys {
                    self.key(Key::Space);
                }
                self.rest();
                self.choose_entry(words, by);
            }
        }
        self.frame();
    }

    /// Takes an entry of the list that is open.
    #[track_caller]
    fn choose_entry(&mut self, words: &str, by: By) {
        if by == By::Keys {
            self.tab_to(words, |_, focused| focused.words == words);
            self.key(Key::Space);
            self.rest();
            return;
        }
        for _ in 0..60 {
            let list = self.list().unwrap_or_else(|| panic!("no list is open for {words}"));
            let inside = |widget: &Widget| list.x_range().contains(widget.rect.center().x);
            let entry = self.widgets(words).into_iter().rfind(inside);
            let entry = entry.unwrap_or_else(|| panic!("{words} is not offered: {:?}", self.all_words()));
            let at = entry.rect.center();
            if list.shrink(10.0).y_range().contains(at.y) {
                self.click_screen(at);
                self.rest();
                return;
            }
            self.move_to(list.center());
            self.wheel(if at.y > list.center().y { -1.0 } else { 1.0 });
            self.rest();
        }
        self.look("not_in_view");
        panic!(
            "{words} cannot be brought into view: {:?} {:?}",
            self.list(),
            self.widgets(words)
        );
    }

    /// Where a list lies open.
    fn list(&self) -> Option<Rect> {
        self.context().memory(|memory| {
            let layers = memory.areas().visible_layer_ids();
            let mut open = layers.into_iter().filter(|layer| layer.order == Order::Foreground);
            open.find_map(|layer| memory.area_rect(layer.id))
        })
    }
}

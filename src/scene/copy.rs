//! Copies of a sheet with answers: with a ruled line for each, and with the answers on their lines.
//!
//! A sheet is laid out once, so that all stands in the same place on both. On the blank copy nothing marked is left, neither
//! as ink nor as a label in words.

use super::affine::Affine;
use super::answer::{Kind, ROOM, told};
use super::font::Face;
use super::geometry::{Point, Vector};
use super::item::{Group, Item, PathItem};
use super::outline::Outline;
use super::style::{Pen, Stroke};
use super::text::{Anchor, TextItem};
use super::{Scene, measure};

/// From the base line of words to the ruled line under them, in heights of a capital.
const UNDER: f64 = 0.24;

/// Which copy of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Copy {
    /// With a ruled line where each answer belongs.
    Blank,
    /// With the answers on their lines.
    Answered,
}

impl Scene {
    /// A copy of the sheet on which nothing is marked any more.
    pub fn copy(&self, copy: Copy) -> Scene {
        Scene {
            width: self.width,
            height: self.height,
            title: copy.words(&self.title),
            root: copy.group(&self.root),
        }
    }
}

impl Copy {
    fn group(self, group: &Group) -> Group {
        let mut made = Group::new();
        made.layer = group.layer;
        made.tag = group.tag;
        made.label = group.label.as_deref().map(|words| self.words(words));
        for item in group.items() {
            match item {
                Item::Path(path) => made.push(path.clone()),
                Item::Group(group) => made.push(self.group(group)),
                Item::Text(text) if text.words().chars().all(|letter| told(letter).0 == Kind::Plain) => {
                    made.push(text.clone());
                }
                Item::Text(text) => self.text(text, &mut made),
            }
        }
        made
    }

    /// Words for those who do not see the sheet.
    fn words(self, words: &str) -> String {
        let mut said = String::with_capacity(words.len());
        let mut before = Kind::Plain;
        for (kind, letter) in words.chars().map(told) {
            match (kind, self) {
                (Kind::Plain, _) => said.push(letter),
                (Kind::Answer | Kind::Written, Copy::Answered) if letter != ROOM => said.push(letter),
                (Kind::Answer, Copy::Blank) if before != Kind::Answer => said.push_str("____"),
                (Kind::Answer | Kind::Written, _) => {}
            }
            before = kind;
        }
        said
    }

    /// A line of lettering in pieces of one kind.
    fn text(self, text: &TextItem, into: &mut Group) {
        let letters: Vec<(Kind, char)> = text.words().chars().map(told).collect();
        let place = |at: usize| text.glyphs().get(at).map_or(text.advance(), |glyph| glyph.x);
        let mut from = 0;
        for piece in letters.chunk_by(|a, b| a.0 == b.0) {
            let (start, end) = (place(from), place(from + piece.len()));
            let write = |skip: usize, letters: &[(Kind, char)], face: Face| {
                let words: String = letters.iter().map(|(_, letter)| letter).collect();
                let at = Affine::shift(Vector::new(place(from + skip), 0.0)).then(text.transform());
                TextItem::new(&words, text.height(), face)
                    .ink(text.inked())
                    .place(at, Anchor::Start)
            };
            match (piece[0].0, self) {
                (Kind::Plain, _) => into.push(write(0, piece, text.face())),
                (Kind::Written, Copy::Answered) => into.push(write(0, piece, Face::Strong)),
                (Kind::Written, Copy::Blank) => {}
                (Kind::Answer, _) => {
                    let under = UNDER * text.height();
                    let line = Outline::line(Point::new(start, under), Point::new(end, under));
                    let pen = Stroke::new(Pen::Thin);
                    into.push(PathItem::stroked(line.map(text.transform()), pen));
                    let is_ink = |letter: &(Kind, char)| letter.1 != ROOM;
                    let first = piece.iter().position(is_ink);
                    let last = piece.iter().rposition(is_ink);
                    if let (Copy::Answered, Some((first, last))) = (self, first.zip(last)) {
                        let ink = &piece[first..=last];
                        let words: String = ink.iter().map(|(_, letter)| letter).collect();
                        let room = end - place(from + first);
                        // Strong, where its room allows that.
                        let strong = measure(&words, text.height(), Face::Strong) <= room + 0.4;
                        into.push(write(first, ink, if strong { Face::Strong } else { text.face() }));
                    }
                }
            }
            from += piece.len();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::answer::{answer, answer_room, answered_only};
    use super::*;

    fn sheet(words: &str) -> Scene {
        let mut sheet = Scene::new(100.0, 50.0, "a sheet");
        let text = TextItem::new(words, 2.5, Face::Regular).at(Point::new(50.0, 20.0), Anchor::End);
        sheet.push(Group::new().label(words).with(text));
        sheet
    }

    fn found(group: &Group, words: &mut Vec<(String, f64)>, lines: &mut Vec<f64>) {
        for item in group.items() {
            match item {
                Item::Text(text) => words.push((text.words().to_owned(), text.transform().dx)),
                Item::Path(path) => lines.extend(path.outline.bounds().map(|bounds| bounds.width())),
                Item::Group(group) => found(group, words, lines),
            }
        }
    }

    #[test]
    fn an_answer_is_a_line_of_its_width_on_one_copy_and_stands_on_it_on_the_other() {
        let words = format!(
            "size {}{} at 12'{}",
            answer("1-1/4\""),
            answer_room(1),
            answered_only(" KEY")
        );
        let made = sheet(&words);
        let plain = measure("size ", 2.5, Face::Regular);
        let wide = measure("1-1/4\"0", 2.5, Face::Regular);
        for (copy, wanted, label) in [
            (Copy::Blank, vec!["size ", " at 12'"], "size ____ at 12'"),
            (
                Copy::Answered,
                vec!["size ", "1-1/4\"", " at 12'", " KEY"],
                "size 1-1/4\" at 12' KEY",
            ),
        ] {
            let copied = made.copy(copy);
            let (mut said, mut lines) = (Vec::new(), Vec::new());
            found(copied.root(), &mut said, &mut lines);
            assert_eq!(said.iter().map(|said| said.0.as_str()).collect::<Vec<_>>(), wanted);
            assert_eq!(lines.len(), 1);
            assert!((lines[0] - wide).abs() < 1e-9, "{lines:?} {wide}");
            assert!((said[1].1 - said[0].1 - plain) * f64::from(copy == Copy::Answered) < 1e-9);
            let Item::Group(group) = &copied.root().items()[0] else {
                panic!("no group")
            };
            assert_eq!(group.label.as_deref(), Some(label));
        }
    }

    #[test]
    fn a_sheet_without_answers_is_copied_as_it_is() {
        let made = sheet("3/4\" × 12'-6\"");
        assert_eq!(made.copy(Copy::Blank), made);
        assert_eq!(made.copy(Copy::Answered), made);
    }
}

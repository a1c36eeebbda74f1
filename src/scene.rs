//! What a sheet looks like: one display list in paper millimetres, y down, styles resolved.
//!
//! Three kinds of item (path, text, group); painters and exports walk them with one exhaustive match and decide nothing.
//! Every coordinate in a scene is finite and within a kilometre: [`Group::push`] is the one door. The scene knows no
//! pipes, no job and no study; a [`Tag`] carries a role and a number whose meaning its maker keeps.

mod affine;
mod answer;
mod copy;
mod font;
mod geometry;
mod grid;
mod hit;
mod item;
mod number;
mod outline;
mod quad;
mod segment;
mod style;
mod text;

pub use affine::Affine;
pub use answer::{answer, answer_room, answered_only};
pub use copy::Copy;
pub use font::{Face, Font, GlyphId};
pub use geometry::{FARTHEST, Point, Rect, Vector};
pub use grid::Grid;
pub use hit::hit;
pub use item::{Group, Item, Layer, PathItem, Role, Tag};
pub use number::push_number;
pub use outline::{Outline, Step};
pub use quad::{Quad, Tested};
pub use segment::Segment;
pub use style::{Cap, Dash, Ink, Join, Pen, Stroke};
pub use text::{Anchor, Glyph, TextItem, measure};

/// A finished sheet: its size, its name, and everything on it from the lowest to the uppermost.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    width: f64,
    height: f64,
    title: String,
    root: Group,
}

impl Scene {
    /// An empty sheet of `width` × `height` mm, each kept between 1 mm and 10 m; a size that is not a number is 1 mm.
    pub fn new(width: f64, height: f64, title: impl Into<String>) -> Self {
        let size = |mm: f64| if mm.is_nan() { 1.0 } else { mm.clamp(1.0, 10_000.0) };
        Self {
            width: size(width),
            height: size(height),
            title: title.into(),
            root: Group::new(),
        }
    }

    /// Adds an item on top. One that cannot be drawn is refused.
    pub fn push(&mut self, item: impl Into<Item>) {
        self.root.push(item);
    }

    /// The width in mm.
    pub fn width(&self) -> f64 {
        self.width
    }

    /// The height in mm.
    pub fn height(&self) -> f64 {
        self.height
    }

    /// The sheet's name.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// Everything on the sheet, lowest first.
    pub fn items(&self) -> &[Item] {
        self.root.items()
    }

    /// The group that holds everything; it has neither tag nor words.
    pub fn root(&self) -> &Group {
        &self.root
    }

    /// The box around all ink; `None` for an empty sheet.
    pub fn bounds(&self) -> Option<Rect> {
        self.root.bounds()
    }

    /// Calls back with every item in painting order, a group before what it holds, and the tags around it, the
    /// outermost first; a group's own tag is not around itself.
    pub fn walk<'a>(&'a self, mut each: impl FnMut(&[Tag], &'a Item)) {
        walk(&self.root, &mut Vec::new(), &mut each);
    }

    /// The words of every line of text, in painting order.
    pub fn words(&self) -> Vec<&str> {
        let mut words = Vec::new();
        self.walk(|_, item| {
            if let Item::Text(text) = item {
                words.push(text.words());
            }
        });
        words
    }
}

fn walk<'a>(group: &'a Group, tags: &mut Vec<Tag>, each: &mut impl FnMut(&[Tag], &'a Item)) {
    for item in group.items() {
        each(tags, item);
        if let Item::Group(inner) = item {
            tags.extend(inner.tag);
            walk(inner, tags, each);
            tags.truncate(tags.len() - usize::from(inner.tag.is_some()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_walk_meets_every_item_with_the_tags_around_it() {
        let word = |words: &str| TextItem::new(words, 2.5, Face::Regular);
        let label = Group::tagged(Role::Label, 3).with(word("inner"));
        let line = Group::tagged(Role::Line, 3)
            .with(Group::new().with(label))
            .with(word("outer"));
        let mut scene = Scene::new(100.0, 50.0, "walk");
        scene.push(line);
        scene.push(word("free"));
        let mut found = Vec::new();
        scene.walk(|tags, item| {
            if let Item::Text(text) = item {
                found.push((text.words(), tags.iter().map(|t| t.role).collect::<Vec<_>>()));
            }
        });
        let expected = [
            ("inner", vec![Role::Line, Role::Label]),
            ("outer", vec![Role::Line]),
            ("free", vec![]),
        ];
        assert_eq!(found, expected);
        assert_eq!(scene.words(), ["inner", "outer", "free"]);
    }

    #[test]
    fn a_sheet_has_a_size_whatever_is_asked() {
        let size = |width, height| {
            let scene = Scene::new(width, height, "");
            (scene.width(), scene.height())
        };
        assert_eq!(size(279.4, 215.9), (279.4, 215.9));
        assert_eq!(size(f64::NAN, -5.0), (1.0, 1.0));
        assert_eq!(size(f64::INFINITY, 0.5), (10_000.0, 1.0));
    }
}

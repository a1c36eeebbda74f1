//! The three kinds of item and nothing else: a path, a line of text, a group of items.
//!
//! Styles are resolved: whoever paints decides nothing. An item that cannot be drawn (a coordinate that is not a number
//! or lies beyond a kilometre) is refused at the one door, [`Group::push`], whole: half a shape would mislead.

use super::affine::Affine;
use super::geometry::Rect;
use super::outline::Outline;
use super::style::{Ink, Stroke};
use super::text::TextItem;

/// What a scene is made of.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A shape, drawn or filled or both.
    Path(PathItem),
    /// A line of lettering.
    Text(TextItem),
    /// Items that belong together.
    Group(Group),
}

/// A shape with its inking: filled first, then drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct PathItem {
    /// The shape.
    pub outline: Outline,
    /// The line along the shape.
    pub stroke: Option<Stroke>,
    /// The ink inside the shape, by the non-zero winding rule.
    pub fill: Option<Ink>,
}

/// What a tagged group stands for. The scene knows no more of it than this.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// A line of the drawing.
    Line,
    /// A symbol on or beside a line.
    Symbol,
    /// Words that belong to something drawn.
    Label,
    /// The thin line from a label to its place.
    Leader,
    /// A helper plane or a patch of a surface.
    Plane,
    /// The sheet's frame and fields.
    Frame,
    /// A table of the sheet.
    Table,
    /// A sign of editing, never printed.
    Mark,
}

/// What was drawn: a role and the key that its maker knows it by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Tag {
    /// What it is.
    pub role: Role,
    /// Which one; the maker of the scene gives the number its meaning.
    pub key: u32,
}

/// What is shown and hidden together in programs that draw in layers. The maker of the scene gives the name its meaning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Layer(&'static str);

impl Layer {
    /// A layer by its name: small letters of the alphabet, joined by hyphens.
    pub const fn new(name: &'static str) -> Self {
        Self(name)
    }

    /// The name.
    pub const fn name(self) -> &'static str {
        self.0
    }
}

/// Items that belong together, painted in order: later ones lie over earlier ones.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// The layer of what lies in it; `None`: the layer of the group around it.
    pub layer: Option<Layer>,
    /// What the group stands for, if a click on it means something.
    pub tag: Option<Tag>,
    /// The group in words, for those who do not see it.
    pub label: Option<String>,
    items: Vec<Item>,
    /// The box around all ink, kept with the items: who looks for something passes a group by that lies elsewhere.
    bounds: Option<Rect>,
}

impl PathItem {
    /// A shape drawn as a line.
    pub fn stroked(outline: Outline, stroke: Stroke) -> Self {
        Self {
            outline,
            stroke: Some(stroke),
            fill: None,
        }
    }

    /// A shape filled with ink.
    pub fn filled(outline: Outline, ink: Ink) -> Self {
        Self {
            outline,
            stroke: None,
            fill: Some(ink),
        }
    }

    /// The same shape filled with ink as well.
    pub fn fill(self, ink: Ink) -> Self {
        Self {
            fill: Some(ink),
            ..self
        }
    }

    /// Half the width of the line in mm; nothing for a shape that is only filled.
    pub fn reach(&self) -> f64 {
        self.stroke.map_or(0.0, |s| s.width.mm() / 2.0)
    }

    /// The box around the ink; sharp corners may reach beyond it by a little. `None` for an empty shape.
    pub fn bounds(&self) -> Option<Rect> {
        Some(self.outline.bounds()?.grown(self.reach()))
    }
}

impl Group {
    /// A group without tag, words or items.
    pub const fn new() -> Self {
        Self {
            layer: None,
            tag: None,
            label: None,
            items: Vec::new(),
            bounds: None,
        }
    }

    /// A group that stands for something.
    pub const fn tagged(role: Role, key: u32) -> Self {
        Self {
            layer: None,
            tag: Some(Tag { role, key }),
            label: None,
            items: Vec::new(),
            bounds: None,
        }
    }

    /// The same group on a layer.
    pub fn on(self, layer: Layer) -> Self {
        Self {
            layer: Some(layer),
            ..self
        }
    }

    /// The same group with its words.
    pub fn label(self, words: impl Into<String>) -> Self {
        Self {
            label: Some(words.into()),
            ..self
        }
    }

    /// The same group with one more item.
    pub fn with(mut self, item: impl Into<Item>) -> Self {
        self.push(item);
        self
    }

    /// Adds an item on top. One that cannot be drawn is refused.
    pub fn push(&mut self, item: impl Into<Item>) {
        let item = item.into();
        let is_drawable = match &item {
            Item::Path(path) => path.outline.is_drawable(),
            Item::Text(text) => text.is_drawable(),
            Item::Group(_) => true,
        };
        if is_drawable {
            self.bounds = match (self.bounds, item.bounds()) {
                (Some(bounds), Some(more)) => Some(bounds.union(more)),
                (bounds, more) => bounds.or(more),
            };
            self.items.push(item);
        }
    }

    /// The items, lowest first.
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// Whether nothing is in it.
    pub fn is_empty(&self) -> bool {
        self.items.is_empty()
    }

    /// The group carried by a transform. Line widths stay as they are: they belong to the pen.
    pub fn map(self, by: Affine) -> Self {
        let mut moved = Self {
            layer: self.layer,
            tag: self.tag,
            label: self.label,
            items: Vec::with_capacity(self.items.len()),
            bounds: None,
        };
        for item in self.items {
            match item {
                Item::Path(path) => moved.push(PathItem {
                    outline: path.outline.map(by),
                    ..path
                }),
                Item::Text(text) => moved.push(text.map(by)),
                Item::Group(group) => moved.push(group.map(by)),
            }
        }
        moved
    }

    /// The box around all ink; `None` where there is none.
    pub const fn bounds(&self) -> Option<Rect> {
        self.bounds
    }
}

impl Item {
    /// The box around the ink; `None` where there is none.
    pub fn bounds(&self) -> Option<Rect> {
        match self {
            Item::Path(path) => path.bounds(),
            Item::Text(text) => Some(text.quad().bounds()),
            Item::Group(group) => group.bounds(),
        }
    }
}

impl From<PathItem> for Item {
    fn from(path: PathItem) -> Self {
        Item::Path(path)
    }
}

impl From<TextItem> for Item {
    fn from(text: TextItem) -> Self {
        Item::Text(text)
    }
}

impl From<Group> for Item {
    fn from(group: Group) -> Self {
        Item::Group(group)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Face, Pen, Point};

    fn line(to: f64) -> PathItem {
        PathItem::stroked(
            Outline::line(Point::default(), Point::new(to, 0.0)),
            Stroke::new(Pen::Heavy),
        )
    }

    #[test]
    fn what_cannot_be_drawn_does_not_come_in() {
        let mut group = Group::new().with(line(f64::NAN)).with(line(1e300));
        group.push(TextItem::new("A", 2.5, Face::Regular).map(Affine::scale(f64::INFINITY)));
        assert!(group.is_empty());
        let moved = Group::new()
            .with(Group::new().with(line(5.0)))
            .map(Affine::to(Point::new(f64::NAN, 0.0)));
        assert_eq!(moved.bounds(), None);
    }

    #[test]
    fn bounds_count_the_width_of_the_pen() {
        let group = Group::new().with(line(10.0)).with(Group::new());
        assert_eq!(
            group.bounds(),
            Some(Rect::new(Point::new(-0.35, -0.35), Point::new(10.35, 0.35)))
        );
    }
}

//! SVG in true size: one user unit is one mm, written as a tree of elements by the package `svg`.
//!
//! Lettering is drawn as outlines, the same in every program, with the words as the accessible name of their group; or,
//! on wish, as live text that can be edited but looks as intended only where the font is installed. The tree takes the
//! better part of the time of a drawing with very many words; a glyph is drawn once and used by its name.

use crate::scene::{
    Affine, Cap, Face, GlyphId, Group, Ink, Item, Join, Outline, PathItem, Point, Rect, Scene, Step, Stroke, TextItem,
    push_number,
};
use ::svg::node::element::{Definitions, Element, Path, Title, Use};
use ::svg::node::{Blob, Text};
use ::svg::{Document, Node};
use std::collections::BTreeSet;

/// How lettering is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextStyle {
    /// Glyph outlines under the name of the words: the same picture everywhere.
    Outlines,
    /// Text that other programs can edit; stretched to its true length where the font is missing.
    Live,
}

/// Fonts for live text, the bundled one first, then condensed ones that are widely installed.
const FAMILIES: &str = "'IBM Plex Sans Condensed','Liberation Sans Narrow','Arial Narrow',sans-serif";

/// Writes a scene as one SVG document.
pub fn write(scene: &Scene, style: TextStyle) -> String {
    write_with(scene, style, None)
}

/// The same with something that is not seen: an element of XML, well formed, that goes into the file as it is.
pub fn write_with(scene: &Scene, style: TextStyle, metadata: Option<&str>) -> String {
    let mut body = Body {
        style,
        glyphs: BTreeSet::new(),
    };
    let drawn = body.elements(scene.root());

    let mut document = sheet(scene, style);
    if let Some(element) = metadata {
        let mut holder = Element::new("metadata");
        holder.append(Blob::new(element));
        document.append(holder);
    }
    let paper = Outline::rect(Rect::sized(Point::default(), scene.width(), scene.height()));
    document.append(shape(&paper).set("fill", color(Ink::White)));
    if !body.glyphs.is_empty() {
        document.append(glyph_shapes(&body.glyphs));
    }
    for element in drawn {
        document.append(element);
    }
    document.to_string() + "\n"
}

/// The document with its size and its name, and what holds for all that is drawn unless it says otherwise.
fn sheet(scene: &Scene, style: TextStyle) -> Document {
    let (width, height) = (number(scene.width()), number(scene.height()));
    let document = Document::new()
        .set("xmlns:xlink", "http://www.w3.org/1999/xlink")
        .set("viewBox", format!("0 0 {width} {height}"))
        .set("width", width + "mm")
        .set("height", height + "mm")
        .set("fill", "none")
        .set("stroke-linecap", "round")
        .set("stroke-linejoin", "round")
        .set("stroke-miterlimit", 4)
        .add(Title::new(legible(scene.title())));
    match style {
        TextStyle::Outlines => document,
        TextStyle::Live => document.set("font-family", FAMILIES).set("font-kerning", "none"),
    }
}

/// The outlines of the glyphs in use, once each, one unit to the height of a capital.
fn glyph_shapes(glyphs: &BTreeSet<(Face, GlyphId)>) -> Definitions {
    let shapes = glyphs.iter().map(|&(face, glyph)| {
        let outline = face.font().outline(glyph);
        shape(outline).set("id", glyph_name(face, glyph))
    });
    shapes.fold(Definitions::new(), Definitions::add)
}

struct Body {
    style: TextStyle,
    /// The glyphs that the outlines use.
    glyphs: BTreeSet<(Face, GlyphId)>,
}

impl Body {
    fn elements(&mut self, group: &Group) -> Vec<Element> {
        let items = group.items().iter();
        items.filter_map(|item| self.element(item)).collect()
    }

    /// The element of an item, if there is anything to see of it.
    fn element(&mut self, item: &Item) -> Option<Element> {
        match item {
            Item::Path(path) => drawn(path),
            Item::Text(text) if text.glyphs().is_empty() => None,
            Item::Text(text) => Some(match self.style {
                TextStyle::Outlines => self.outlined(text),
                TextStyle::Live => live(text),
            }),
            Item::Group(group) => self.group(group),
        }
    }

    fn group(&mut self, group: &Group) -> Option<Element> {
        if group.is_empty() {
            return None;
        }
        let mut element = Element::new("g");
        if let Some(layer) = group.layer {
            element.assign("class", legible(layer.name()));
        }
        if let Some(label) = &group.label {
            element.assign("role", "group");
            element.assign("aria-label", legible(label));
            element.append(Title::new(legible(label)));
        }
        for child in self.elements(group) {
            element.append(child);
        }
        Some(element)
    }

    fn outlined(&mut self, text: &TextItem) -> Element {
        let mut element = Element::new("g");
        element.assign("role", "img");
        element.assign("aria-label", legible(text.words()));
        element.assign("fill", color(text.inked()));
        let at = Affine::scale(text.height()).then(text.transform());
        element.assign("transform", matrix(at));
        let font = text.face().font();
        for glyph in text.glyphs() {
            if font.outline(glyph.id).is_empty() {
                continue;
            }
            self.glyphs.insert((text.face(), glyph.id));
            let mut used = Use::new().set("xlink:href", format!("#{}", glyph_name(text.face(), glyph.id)));
            if glyph.x != 0.0 {
                used.assign("x", number(glyph.x / text.height()));
            }
            element.append(used);
        }
        element
    }
}

fn live(text: &TextItem) -> Element {
    // An element of no named kind: the library sets the words of its own kind on lines of their own, and here spaces count.
    let mut element = Element::new("text");
    element.assign("xml:space", "preserve");
    element.assign("transform", matrix(text.transform()));
    element.assign("font-size", number(text.em()));
    element.assign("font-weight", text.face().weight());
    element.assign("textLength", number(text.advance()));
    element.assign("lengthAdjust", "spacingAndGlyphs");
    element.assign("fill", color(text.inked()));
    element.append(Text::new(legible(text.words())));
    element
}

fn drawn(path: &PathItem) -> Option<Element> {
    if path.outline.is_empty() || (path.stroke.is_none() && path.fill.is_none()) {
        return None;
    }
    let mut element = Element::from(shape(&path.outline));
    if let Some(ink) = path.fill {
        element.assign("fill", color(ink));
    }
    if let Some(stroke) = path.stroke {
        assign_stroke(&mut element, stroke);
    }
    Some(element)
}

fn assign_stroke(element: &mut Element, stroke: Stroke) {
    element.assign("stroke", color(stroke.ink));
    element.assign("stroke-width", number(stroke.width.mm()));
    let dashes: Vec<String> = stroke.dash.pattern().iter().copied().map(number).collect();
    if !dashes.is_empty() {
        element.assign("stroke-dasharray", dashes);
    }
    // Round ends and corners are the document's default.
    match stroke.cap {
        Cap::Butt => element.assign("stroke-linecap", "butt"),
        Cap::Round => {}
    }
    match stroke.join {
        Join::Miter => element.assign("stroke-linejoin", "miter"),
        Join::Round => {}
    }
}

/// A path of an outline. Its data are our own text: the library's hold `f32` and round nothing.
fn shape(outline: &Outline) -> Path {
    let mut data = String::new();
    for step in outline.steps() {
        match *step {
            Step::Move(p) => push_points(&mut data, 'M', [p]),
            Step::Line(p) => push_points(&mut data, 'L', [p]),
            Step::Quad(c, p) => push_points(&mut data, 'Q', [c, p]),
            Step::Cubic(c, d, p) => push_points(&mut data, 'C', [c, d, p]),
            Step::Close => data.push('Z'),
        }
    }
    Path::new().set("d", data)
}

fn push_points<const N: usize>(data: &mut String, letter: char, points: [Point; N]) {
    data.push(letter);
    for (place, p) in points.into_iter().enumerate() {
        if place > 0 {
            data.push(' ');
        }
        push_number(data, p.x);
        data.push(' ');
        push_number(data, p.y);
    }
}

fn glyph_name(face: Face, glyph: GlyphId) -> String {
    match face {
        Face::Regular => format!("r{}", glyph.0),
        Face::Strong => format!("s{}", glyph.0),
    }
}

fn matrix(at: Affine) -> String {
    let parts = [at.xx, at.yx, at.xy, at.yy, at.dx, at.dy].map(number);
    format!("matrix({})", parts.join(" "))
}

fn color(ink: Ink) -> String {
    let [red, green, blue] = ink.rgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}

fn number(number: f64) -> String {
    let mut text = String::new();
    push_number(&mut text, number);
    text
}

/// Words as XML may hold them: without control characters.
fn legible(words: &str) -> String {
    let stays = |c: &char| !c.is_control() && !matches!(c, '\u{FFFE}' | '\u{FFFF}');
    words.chars().filter(stays).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Anchor, Dash, Layer, Pen};

    #[track_caller]
    fn check(item: impl Into<Item>, style: TextStyle, expected: &str) {
        let mut scene = Scene::new(10.0, 5.5, "A & B");
        scene.push(item);
        let written = write(&scene, style);
        assert!(written.contains(expected), "{written}");
    }

    #[test]
    fn the_sheet_has_its_true_size_and_its_name() {
        check(
            Group::new(),
            TextStyle::Outlines,
            " viewBox=\"0 0 10 5.5\" width=\"10mm\"",
        );
        check(Group::new(), TextStyle::Outlines, "<title>A &amp; B</title>");
    }

    #[test]
    fn a_line_says_only_what_differs_from_the_default() {
        let line = Outline::line(Point::new(-0.0001, 1.0), Point::new(2.0, 3.25));
        check(
            PathItem::stroked(line.clone(), Stroke::new(Pen::Heavy)),
            TextStyle::Outlines,
            "<path d=\"M0 1L2 3.25\" stroke=\"#111111\" stroke-width=\"0.7\"/>",
        );
        check(
            PathItem::stroked(line, Stroke::new(Pen::Thin).dash(Dash::Dashed).join(Join::Miter)).fill(Ink::White),
            TextStyle::Outlines,
            " fill=\"#ffffff\" stroke=\"#111111\" stroke-dasharray=\"2.5 1\" stroke-linecap=\"butt\" \
             stroke-linejoin=\"miter\" stroke-width=\"0.25\"/>",
        );
    }

    #[test]
    fn words_stay_words_in_both_styles() {
        let text = TextItem::new("<3/4\"> & up", 2.5, Face::Strong).at(Point::new(5.0, 4.0), Anchor::Start);
        check(
            text.clone(),
            TextStyle::Outlines,
            "aria-label=\"&lt;3/4&quot;&gt; &amp; up\"",
        );
        check(
            text.clone(),
            TextStyle::Outlines,
            "transform=\"matrix(2.5 0 0 2.5 5 4)\"",
        );
        check(text, TextStyle::Live, ">&lt;3/4\"&gt; &amp; up</text>");
    }

    #[test]
    fn a_labelled_group_is_named_for_those_who_do_not_see_it() {
        let line = PathItem::stroked(
            Outline::line(Point::default(), Point::new(1.0, 1.0)),
            Stroke::new(Pen::Thin),
        );
        let group = Group::new().label("A\u{7} to B").with(line);
        check(
            group.clone(),
            TextStyle::Live,
            "<g aria-label=\"A to B\" role=\"group\">\n<title>A to B</title>",
        );
        let group = group.on(Layer::new("pipe"));
        check(group, TextStyle::Live, " class=\"pipe\" role=\"group\">");
    }

    #[test]
    fn a_glyph_used_twice_is_drawn_once() {
        let mut scene = Scene::new(10.0, 10.0, "");
        scene.push(TextItem::new("11 1", 2.5, Face::Regular));
        let written = write(&scene, TextStyle::Outlines);
        assert_eq!(written.matches(" id=").count(), 1);
        assert_eq!(written.matches("<use ").count(), 3, "a space is no glyph to draw");
    }
}

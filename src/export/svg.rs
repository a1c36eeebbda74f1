//! SVG in true size: one user unit is one mm.
//!
//! Written by hand, straight into one string: a tree of elements took 200 to 340 ms for 10,000 lines with their words.
//! Lettering is drawn as outlines, the same in every program, with the words as the accessible name of their group; or,
//! on wish, as live text that can be edited but looks as intended only where the font is installed.

use std::collections::BTreeSet;

use crate::scene::{
    Affine, Cap, Face, GlyphId, Group, Ink, Item, Join, Outline, PathItem, Point, Rect, Scene, Step, Stroke, TextItem,
    push_number,
};

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
    let mut body = Writer {
        out: String::new(),
        style,
        glyphs: BTreeSet::new(),
    };
    body.group_items(scene.root());

    let mut head = Writer {
        out: String::with_capacity(body.out.len() + 4096),
        style,
        glyphs: BTreeSet::new(),
    };
    head.head(scene, metadata);
    head.glyph_shapes(&body.glyphs);
    head.out.push_str(&body.out);
    head.out.push_str("</svg>\n");
    head.out
}

struct Writer {
    out: String,
    style: TextStyle,
    /// The glyphs that the outlines use.
    glyphs: BTreeSet<(Face, GlyphId)>,
}

impl Writer {
    fn head(&mut self, scene: &Scene, metadata: Option<&str>) {
        let (width, height) = (scene.width(), scene.height());
        self.out
            .push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"");
        self.number(" width=\"", width);
        self.number("mm\" height=\"", height);
        self.number("mm\" viewBox=\"0 0 ", width);
        self.number(" ", height);
        self.out
            .push_str("\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\" stroke-miterlimit=\"4\"");
        match self.style {
            TextStyle::Outlines => {}
            TextStyle::Live => {
                self.out.push_str(" font-family=\"");
                self.out.push_str(FAMILIES);
                self.out.push_str("\" font-kerning=\"none\"");
            }
        }
        self.out.push_str(">\n<title>");
        self.escaped(scene.title());
        self.out.push_str("</title>\n");
        if let Some(element) = metadata {
            self.out.push_str("<metadata>");
            self.out.push_str(element);
            self.out.push_str("</metadata>\n");
        }
        self.out.push_str("<path d=\"");
        self.outline(&Outline::rect(Rect::sized(Point::default(), width, height)));
        self.out.push('"');
        self.ink(" fill=\"", Ink::White);
        self.out.push_str("/>\n");
    }

    /// The outlines of the glyphs in use, once each, one unit to the height of a capital.
    fn glyph_shapes(&mut self, glyphs: &BTreeSet<(Face, GlyphId)>) {
        if glyphs.is_empty() {
            return;
        }
        self.out.push_str("<defs>\n");
        for (face, glyph) in glyphs {
            self.out.push_str("<path id=\"");
            self.glyph_name(*face, *glyph);
            self.out.push_str("\" d=\"");
            self.outline(face.font().outline(*glyph));
            self.out.push_str("\"/>\n");
        }
        self.out.push_str("</defs>\n");
    }

    fn group_items(&mut self, group: &Group) {
        for item in group.items() {
            match item {
                Item::Path(path) => self.path(path),
                Item::Text(text) => match self.style {
                    TextStyle::Outlines => self.text_outlines(text),
                    TextStyle::Live => self.text_live(text),
                },
                Item::Group(group) => self.group(group),
            }
        }
    }

    fn group(&mut self, group: &Group) {
        if group.is_empty() {
            return;
        }
        self.out.push_str("<g");
        if let Some(layer) = group.layer {
            self.out.push_str(" class=\"");
            self.escaped(layer.name());
            self.out.push('"');
        }
        match &group.label {
            Some(label) => {
                self.out.push_str(" role=\"group\" aria-label=\"");
                self.escaped(label);
                self.out.push_str("\"><title>");
                self.escaped(label);
                self.out.push_str("</title>\n");
            }
            None => self.out.push_str(">\n"),
        }
        self.group_items(group);
        self.out.push_str("</g>\n");
    }

    fn path(&mut self, path: &PathItem) {
        if path.outline.is_empty() || (path.stroke.is_none() && path.fill.is_none()) {
            return;
        }
        self.out.push_str("<path d=\"");
        self.outline(&path.outline);
        self.out.push('"');
        if let Some(ink) = path.fill {
            self.ink(" fill=\"", ink);
        }
        if let Some(stroke) = path.stroke {
            self.stroke(stroke);
        }
        self.out.push_str("/>\n");
    }

    fn stroke(&mut self, stroke: Stroke) {
        self.ink(" stroke=\"", stroke.ink);
        self.number(" stroke-width=\"", stroke.width.mm());
        self.out.push('"');
        if let Some((first, rest)) = stroke.dash.pattern().split_first() {
            self.number(" stroke-dasharray=\"", *first);
            for length in rest {
                self.number(" ", *length);
            }
            self.out.push('"');
        }
        // Round ends and corners are the document's default.
        match stroke.cap {
            Cap::Butt => self.out.push_str(" stroke-linecap=\"butt\""),
            Cap::Round => {}
        }
        match stroke.join {
            Join::Miter => self.out.push_str(" stroke-linejoin=\"miter\""),
            Join::Round => {}
        }
    }

    fn text_outlines(&mut self, text: &TextItem) {
        if text.glyphs().is_empty() {
            return;
        }
        self.out.push_str("<g role=\"img\" aria-label=\"");
        self.escaped(text.words());
        self.out.push('"');
        self.ink(" fill=\"", text.inked());
        self.matrix(Affine::scale(text.height()).then(text.transform()));
        self.out.push('>');
        let font = text.face().font();
        for glyph in text.glyphs() {
            if font.outline(glyph.id).is_empty() {
                continue;
            }
            self.glyphs.insert((text.face(), glyph.id));
            self.out.push_str("<use xlink:href=\"#");
            self.glyph_name(text.face(), glyph.id);
            if glyph.x != 0.0 {
                self.number("\" x=\"", glyph.x / text.height());
            }
            self.out.push_str("\"/>");
        }
        self.out.push_str("</g>\n");
    }

    fn text_live(&mut self, text: &TextItem) {
        if text.glyphs().is_empty() {
            return;
        }
        self.out.push_str("<text xml:space=\"preserve\"");
        self.matrix(text.transform());
        self.number(" font-size=\"", text.em());
        self.number("\" font-weight=\"", f64::from(text.face().weight()));
        self.number("\" textLength=\"", text.advance());
        self.out.push_str("\" lengthAdjust=\"spacingAndGlyphs\"");
        self.ink(" fill=\"", text.inked());
        self.out.push('>');
        self.escaped(text.words());
        self.out.push_str("</text>\n");
    }

    fn matrix(&mut self, at: Affine) {
        self.number(" transform=\"matrix(", at.xx);
        for part in [at.yx, at.xy, at.yy, at.dx, at.dy] {
            self.number(" ", part);
        }
        self.out.push_str(")\"");
    }

    fn outline(&mut self, outline: &Outline) {
        for step in outline.steps() {
            match *step {
                Step::Move(p) => self.points('M', [p]),
                Step::Line(p) => self.points('L', [p]),
                Step::Quad(c, p) => self.points('Q', [c, p]),
                Step::Cubic(c, d, p) => self.points('C', [c, d, p]),
                Step::Close => self.out.push('Z'),
            }
        }
    }

    fn points<const N: usize>(&mut self, letter: char, points: [Point; N]) {
        self.out.push(letter);
        for (place, p) in points.into_iter().enumerate() {
            self.number(if place == 0 { "" } else { " " }, p.x);
            self.number(" ", p.y);
        }
    }

    fn glyph_name(&mut self, face: Face, glyph: GlyphId) {
        self.out.push(match face {
            Face::Regular => 'r',
            Face::Strong => 's',
        });
        push_number(&mut self.out, f64::from(glyph.0));
    }

    fn ink(&mut self, before: &str, ink: Ink) {
        self.out.push_str(before);
        self.out.push('#');
        for part in ink.rgb() {
            for digit in [part >> 4, part & 15] {
                self.out.push(char::from(b"0123456789abcdef"[usize::from(digit)]));
            }
        }
        self.out.push('"');
    }

    fn number(&mut self, before: &str, number: f64) {
        self.out.push_str(before);
        push_number(&mut self.out, number);
    }

    /// Words as XML may hold them, within text and within an attribute; control characters are left out.
    fn escaped(&mut self, words: &str) {
        for c in words.chars() {
            match c {
                '&' => self.out.push_str("&amp;"),
                '<' => self.out.push_str("&lt;"),
                '>' => self.out.push_str("&gt;"),
                '"' => self.out.push_str("&quot;"),
                '\u{FFFE}' | '\u{FFFF}' => {}
                c if c.is_control() => {}
                c => self.out.push(c),
            }
        }
    }
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
            " width=\"10mm\" height=\"5.5mm\" viewBox=\"0 0 10 5.5\"",
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
            " fill=\"#ffffff\" stroke=\"#111111\" stroke-width=\"0.25\" stroke-dasharray=\"2.5 1\" \
             stroke-linecap=\"butt\" stroke-linejoin=\"miter\"/>",
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
        check(text, TextStyle::Live, ">&lt;3/4&quot;&gt; &amp; up</text>");
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
            "<g role=\"group\" aria-label=\"A to B\"><title>A to B</title>",
        );
        let group = group.on(Layer::new("pipe"));
        check(group, TextStyle::Live, "<g class=\"pipe\" role=\"group\"");
    }

    #[test]
    fn a_glyph_used_twice_is_drawn_once() {
        let mut scene = Scene::new(10.0, 10.0, "");
        scene.push(TextItem::new("11 1", 2.5, Face::Regular));
        let written = write(&scene, TextStyle::Outlines);
        assert_eq!(written.matches("<path id=").count(), 1);
        assert_eq!(written.matches("<use ").count(), 3, "a space is no glyph to draw");
    }
}

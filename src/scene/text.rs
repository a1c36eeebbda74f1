//! A line of lettering, laid out once: every painter draws these glyphs at these places.

use super::affine::Affine;
use super::font::{Face, GlyphId};
use super::geometry::{Point, Rect, Vector};
use super::outline::Outline;
use super::quad::Quad;
use super::style::Ink;

/// Which place of the line of lettering stands at the wanted point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// The beginning of the base line.
    Start,
    /// The middle of the base line.
    Middle,
    /// The end of the base line.
    End,
}

/// A glyph and the place of its origin along the base line, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glyph {
    /// Which glyph of the font.
    pub id: GlyphId,
    /// From the beginning of the line to the glyph's origin, mm.
    pub x: f64,
}

/// One line of lettering. Text space has its origin at the beginning of the base line, x along it, y down, in mm; the
/// transform `at` carries it to paper, so lettering may lie in an isometric plane.
#[derive(Clone, Debug, PartialEq)]
pub struct TextItem {
    words: String,
    height: f64,
    face: Face,
    ink: Ink,
    at: Affine,
    glyphs: Vec<Glyph>,
    advance: f64,
    extent: Rect,
}

impl TextItem {
    /// Lays out words with capitals `height` mm high (0.1 to 1000), in black, upright, beginning at the origin.
    ///
    /// Breaks and tabs become spaces, other control characters and non-characters are dropped. No kerning: drafting
    /// lettering needs none, and widths simply add up.
    pub fn new(words: &str, height: f64, face: Face) -> Self {
        let height = if height.is_nan() {
            2.5
        } else {
            height.clamp(0.1, 1000.0)
        };
        let words: String = words.chars().filter_map(writable).collect();
        let font = face.font();
        let (mut x, mut extent) = (0.0, None::<Rect>);
        let mut glyphs = Vec::with_capacity(words.len());
        for c in words.chars() {
            let id = font.glyph(c);
            if let Some(ink) = font.ink(id) {
                let ink = Affine::scale(height)
                    .then(Affine::shift(Vector::new(x, 0.0)))
                    .bounds(ink);
                extent = Some(extent.map_or(ink, |e| e.union(ink)));
            }
            glyphs.push(Glyph { id, x });
            x += font.advance(id) * height;
        }
        let extent = extent.unwrap_or(Rect {
            min: Point::default(),
            max: Point::default(),
        });
        Self {
            words,
            height,
            face,
            ink: Ink::Black,
            at: Affine::IDENTITY,
            glyphs,
            advance: x,
            extent,
        }
    }

    /// The same lettering in another ink.
    pub fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same lettering carried by `at`, so that the anchor stands at the origin of `at`.
    pub fn place(self, at: Affine, anchor: Anchor) -> Self {
        let back = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -self.advance / 2.0,
            Anchor::End => -self.advance,
        };
        let at = Affine::shift(Vector::new(back, 0.0)).then(at);
        Self { at, ..self }
    }

    /// The same lettering upright on paper with its anchor at a point.
    pub fn at(self, point: Point, anchor: Anchor) -> Self {
        self.place(Affine::to(point), anchor)
    }

    /// The same lettering carried farther by a transform.
    pub fn map(self, by: Affine) -> Self {
        let at = self.at.then(by);
        Self { at, ..self }
    }

    /// The words.
    pub fn words(&self) -> &str {
        &self.words
    }

    /// The height of a capital in mm, before `transform`.
    pub fn height(&self) -> f64 {
        self.height
    }

    /// The font size in mm, before `transform`.
    pub fn em(&self) -> f64 {
        self.height * self.face.font().em()
    }

    /// The weight of the font.
    pub fn face(&self) -> Face {
        self.face
    }

    /// The ink.
    pub fn inked(&self) -> Ink {
        self.ink
    }

    /// From text space to paper.
    pub fn transform(&self) -> Affine {
        self.at
    }

    /// The glyphs in order, one for each character of the words.
    pub fn glyphs(&self) -> &[Glyph] {
        &self.glyphs
    }

    /// The length of the line in mm, in text space.
    pub fn advance(&self) -> f64 {
        self.advance
    }

    /// The box around the ink in text space; without width and height where there is none.
    pub fn extent(&self) -> Rect {
        self.extent
    }

    /// The box around the ink as it lies on paper.
    pub fn quad(&self) -> Quad {
        Quad::of(self.extent, self.at)
    }

    /// All glyph outlines on paper, as one shape.
    pub fn outline(&self) -> Outline {
        let font = self.face.font();
        let mut all = Outline::new();
        for glyph in &self.glyphs {
            let at = Affine::scale(self.height)
                .then(Affine::shift(Vector::new(glyph.x, 0.0)))
                .then(self.at);
            all.extend(&font.outline(glyph.id).map(at));
        }
        all
    }

    /// Whether every part of it is drawable.
    pub fn is_drawable(&self) -> bool {
        self.at.is_drawable() && self.quad().0.iter().all(|p| p.is_drawable())
    }
}

/// The length of words in mm with capitals `height` mm high.
pub fn measure(words: &str, height: f64, face: Face) -> f64 {
    let font = face.font();
    words
        .chars()
        .filter_map(writable)
        .map(|c| font.advance(font.glyph(c)))
        .sum::<f64>()
        * height
}

/// The character as it can be written on paper; `None` for one that no XML and no page can hold.
fn writable(c: char) -> Option<char> {
    match c {
        '\t' | '\n' | '\r' | '\u{2028}' | '\u{2029}' => Some(' '),
        '\u{FFFE}' | '\u{FFFF}' => None,
        c if c.is_control() => None,
        c => Some(c),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn anchors_share_the_length_of_the_line() {
        let at = |anchor| TextItem::new("3/4\" × 12'-6\"", 2.5, Face::Regular).at(Point::new(50.0, 10.0), anchor);
        let length = at(Anchor::Start).advance();
        assert!(length > 10.0);
        assert!((at(Anchor::Middle).transform().dx - (50.0 - length / 2.0)).abs() < 1e-9);
        assert!((at(Anchor::End).transform().dx - (50.0 - length)).abs() < 1e-9);
        assert!((measure("3/4\" × 12'-6\"", 2.5, Face::Regular) - length).abs() < 1e-9);
    }

    #[test]
    fn length_grows_with_height_and_words() {
        let length = |words: &str, height| measure(words, height, Face::Regular);
        assert!((length("RISER", 5.0) - 2.0 * length("RISER", 2.5)).abs() < 1e-9);
        assert!((length("AB", 3.5) - length("A", 3.5) - length("B", 3.5)).abs() < 1e-9);
    }

    #[test]
    fn the_extent_holds_the_ink_and_no_more() {
        let text = TextItem::new("Øgp", 3.5, Face::Strong).place(
            Affine::frame(Point::new(9.0, 9.0), Vector::new(0.866, -0.5), Vector::new(0.0, 1.0)),
            Anchor::Start,
        );
        let ink = text.outline();
        let extent = text.quad().bounds();
        let found = ink.bounds().unwrap();
        assert!(extent.grown(0.01).encloses(found), "{extent:?} {found:?}");
        assert!(text.extent().max.y > 0.5, "the descender counts");
        let blank = TextItem::new("  ", 3.5, Face::Regular);
        assert!(blank.extent().width() == 0.0 && blank.advance() > 1.0);
    }

    #[test]
    fn what_no_page_can_hold_is_left_out() {
        let text = TextItem::new("a\tb\r\u{0}\u{7f}c\u{FFFF}", f64::NAN, Face::Regular);
        assert_eq!(text.words(), "a b c");
        assert_eq!(text.glyphs().len(), 5);
        assert_eq!(text.height(), 2.5);
    }
}

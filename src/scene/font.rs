//! The drawing font: the only measure of text on paper.
//!
//! IBM Plex Sans Condensed (SIL Open Font License, `assets/fonts/OFL.txt`) in two weights, compiled in, so that words
//! take the same room on every machine. Lengths leave this file in *caps*: one cap is the height of a capital letter,
//! which is how drafting counts lettering (ISO 3098-1).

use std::sync::OnceLock;

use super::answer::plain;
use super::geometry::{Point, Rect};
use super::outline::{Outline, Step};

/// A weight of the drawing font.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// All ordinary lettering.
    Regular,
    /// Titles and headings.
    Strong,
}

impl Face {
    /// Both weights.
    pub const ALL: [Face; 2] = [Face::Regular, Face::Strong];

    /// The name of the font family, the same for both weights.
    pub const FAMILY: &'static str = "IBM Plex Sans Condensed";

    /// The weight on the CSS scale.
    pub const fn weight(self) -> u16 {
        match self {
            Face::Regular => 400,
            Face::Strong => 600,
        }
    }

    /// The TrueType file.
    pub const fn file(self) -> &'static [u8] {
        match self {
            Face::Regular => include_bytes!("../../assets/fonts/IBMPlexSansCondensed-Regular.ttf"),
            Face::Strong => include_bytes!("../../assets/fonts/IBMPlexSansCondensed-SemiBold.ttf"),
        }
    }

    /// The font of this weight, read at the first call.
    pub fn font(self) -> &'static Font {
        static REGULAR: OnceLock<Font> = OnceLock::new();
        static STRONG: OnceLock<Font> = OnceLock::new();
        match self {
            Face::Regular => REGULAR.get_or_init(|| Font::read(self.file())),
            Face::Strong => STRONG.get_or_init(|| Font::read(self.file())),
        }
    }
}

/// The number of a glyph in its font file; 0 is the box that stands for a missing character.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct GlyphId(pub u16);

/// One weight of the font, measured. A glyph is read from the file when it is first asked for.
pub struct Font {
    face: Option<ttf_parser::Face<'static>>,
    caps_per_unit: f64,
    em: f64,
    /// The glyphs of the first characters, which nearly all words are made of.
    latin: Vec<Option<GlyphId>>,
    shapes: Vec<OnceLock<Shape>>,
}

/// A glyph in caps: starts at the origin, stands on y = 0, y down.
struct Shape {
    advance: f64,
    ink: Option<Rect>,
    outline: Outline,
}

impl Font {
    fn read(file: &'static [u8]) -> Self {
        // The file is compiled in and a test reads it; should it ever be broken, every character is a missing one.
        let face = ttf_parser::Face::parse(file, 0).ok();
        let units = face.as_ref().map_or(1000.0, |f| f64::from(f.units_per_em()));
        let cap = face
            .as_ref()
            .and_then(|f| f.capital_height())
            .map_or(700.0, |h| f64::from(h.max(1)));
        let count = face.as_ref().map_or(0, |f| f.number_of_glyphs());
        let shapes = (0..count).map(|_| OnceLock::new()).collect();
        let mut font = Self {
            face,
            caps_per_unit: 1.0 / cap,
            em: units / cap,
            latin: Vec::new(),
            shapes,
        };
        font.latin = ('\0'..'\u{180}').map(|c| font.find(c)).collect();
        font
    }

    /// The font size (em) of lettering one cap high, in caps.
    pub fn em(&self) -> f64 {
        self.em
    }

    /// Whether the font has no glyph for a character.
    pub fn lacks(&self, c: char) -> bool {
        self.find(c).is_none()
    }

    /// The glyph of a character, or of the missing-character box; of an answer's letter that of the letter.
    pub fn glyph(&self, c: char) -> GlyphId {
        let c = plain(c);
        let known = self.latin.get(c as usize).copied();
        known.unwrap_or_else(|| self.find(c)).unwrap_or(GlyphId(0))
    }

    /// The room that a glyph takes along the line, in caps.
    pub fn advance(&self, glyph: GlyphId) -> f64 {
        self.shape(glyph).advance
    }

    /// The outline of a glyph in caps: starts at the origin, stands on y = 0, y down.
    pub fn outline(&self, glyph: GlyphId) -> &Outline {
        &self.shape(glyph).outline
    }

    /// The box around the ink of a glyph in caps, y down; `None` for a blank one.
    pub fn ink(&self, glyph: GlyphId) -> Option<Rect> {
        self.shape(glyph).ink
    }

    fn find(&self, c: char) -> Option<GlyphId> {
        let glyph = self.face.as_ref()?.glyph_index(c)?;
        (glyph.0 != 0).then_some(GlyphId(glyph.0))
    }

    fn shape(&self, glyph: GlyphId) -> &Shape {
        static NOTHING: Shape = Shape {
            advance: 0.0,
            ink: None,
            outline: Outline::new(),
        };
        let (Some(cell), Some(face)) = (self.shapes.get(usize::from(glyph.0)), &self.face) else {
            return &NOTHING;
        };
        cell.get_or_init(|| {
            let id = ttf_parser::GlyphId(glyph.0);
            let mut pen = Pen {
                outline: Outline::new(),
                caps_per_unit: self.caps_per_unit,
            };
            let ink = face.outline_glyph(id, &mut pen);
            let advance = f64::from(face.glyph_hor_advance(id).unwrap_or(0)) * self.caps_per_unit;
            let corner = |x: i16, y: i16| pen.at(f32::from(x), f32::from(y));
            let ink = ink.map(|b| Rect::new(corner(b.x_min, b.y_min), corner(b.x_max, b.y_max)));
            Shape {
                advance,
                ink,
                outline: pen.outline,
            }
        })
    }
}

struct Pen {
    outline: Outline,
    caps_per_unit: f64,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> Point {
        Point::new(f64::from(x) * self.caps_per_unit, -f64::from(y) * self.caps_per_unit)
    }
}

impl ttf_parser::OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        self.outline.push(Step::Move(to));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        let to = self.at(x, y);
        self.outline.push(Step::Line(to));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (control, to) = (self.at(x1, y1), self.at(x, y));
        self.outline.push(Step::Quad(control, to));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (first, second, to) = (self.at(x1, y1), self.at(x2, y2), self.at(x, y));
        self.outline.push(Step::Cubic(first, second, to));
    }
    fn close(&mut self) {
        self.outline.push(Step::Close);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_weights_have_every_character_of_the_trade() {
        for face in Face::ALL {
            for c in "½¼¾⅛⅜⅝⅞″′°±×–Ø³·≥≤→ABCXYZabcxyz0123456789 .,:;/()\"'#%&+-=".chars() {
                assert!(!face.font().lacks(c), "{face:?} lacks {c}");
            }
        }
    }

    #[test]
    fn a_missing_character_is_a_visible_box() {
        let font = Face::Regular.font();
        assert!(font.lacks('漢') && font.lacks('\u{10FFFF}'));
        assert!(!font.outline(font.glyph('漢')).is_empty());
        assert!(font.advance(font.glyph('漢')) > 0.0);
    }

    #[test]
    fn a_capital_is_one_cap_high() {
        for face in Face::ALL {
            let font = face.font();
            let bounds = font.outline(font.glyph('H')).bounds().unwrap();
            assert!((bounds.height() - 1.0).abs() < 0.01, "{face:?}: {bounds:?}");
            assert!(bounds.max.y.abs() < 0.01, "stands on the line");
            assert_eq!(font.ink(font.glyph('H')), Some(bounds));
            assert!(font.ink(font.glyph(' ')).is_none());
        }
    }

    #[test]
    fn figures_share_one_width_so_that_columns_stand() {
        let font = Face::Regular.font();
        let widths: Vec<f64> = ('0'..='9').map(|c| font.advance(font.glyph(c))).collect();
        assert!(widths.iter().all(|w| (w - widths[0]).abs() < 1e-9), "{widths:?}");
    }
}

//! PDF in true size, one page for each scene, with the drawing font embedded and the words searchable.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Transform};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke as PdfStroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

use super::ExportError;
use crate::scene::{Affine, Cap, Face, Group, Ink, Item, Join, Outline, PathItem, Scene, Step, Stroke, TextItem};

/// Points of PDF in one mm (72 to the inch).
const POINTS: f64 = 72.0 / 25.4;

/// The widest and highest page in mm: 14,400 points (ISO 32000-1 annex C).
const WIDEST: f64 = 5080.0;

/// What the file says about itself. Empty fields are left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PdfInfo {
    /// The name of the document.
    pub title: String,
    /// Who made it.
    pub author: String,
    /// What it is about.
    pub subject: String,
    /// Words to find it by.
    pub keywords: Vec<String>,
}

/// Writes scenes as the pages of one PDF. No date goes in, so equal scenes give equal bytes.
pub fn write(scenes: &[Scene], info: &PdfInfo) -> Result<Vec<u8>, ExportError> {
    if scenes.is_empty() {
        return Err(ExportError::NoSheet);
    }
    let fonts = Fonts {
        regular: font(Face::Regular)?,
        strong: font(Face::Strong)?,
    };
    let mut document = krilla::Document::new();
    for scene in scenes {
        let (width, height) = (scene.width(), scene.height());
        let settings = PageSettings::from_wh((width * POINTS) as f32, (height * POINTS) as f32)
            .filter(|_| width <= WIDEST && height <= WIDEST)
            .ok_or(ExportError::SheetTooLarge { width, height })?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        surface.push_transform(&transform(Affine::scale(POINTS)));
        group(&mut surface, &fonts, scene.root());
        surface.pop();
        surface.finish();
        page.finish();
    }
    document.set_metadata(metadata(info));
    document.finish().map_err(|error| ExportError::Refused {
        format: "PDF",
        reason: error.to_string(),
    })
}

struct Fonts {
    regular: Font,
    strong: Font,
}

fn font(face: Face) -> Result<Font, ExportError> {
    let unreadable = || ExportError::Refused {
        format: "PDF",
        reason: "the drawing font is unreadable".to_string(),
    };
    Font::new(face.file().into(), 0).ok_or_else(unreadable)
}

fn metadata(info: &PdfInfo) -> Metadata {
    let mut metadata = Metadata::new()
        .creator("Stubout".to_string())
        .language("en".to_string());
    if !info.title.is_empty() {
        metadata = metadata.title(info.title.clone());
    }
    if !info.author.is_empty() {
        metadata = metadata.authors(vec![info.author.clone()]);
    }
    if !info.subject.is_empty() {
        metadata = metadata.description(info.subject.clone());
    }
    if !info.keywords.is_empty() {
        metadata = metadata.keywords(info.keywords.clone());
    }
    metadata
}

fn group(surface: &mut Surface, fonts: &Fonts, group: &Group) {
    for item in group.items() {
        match item {
            Item::Path(path) => self::path(surface, path),
            Item::Text(text) => self::text(surface, fonts, text),
            Item::Group(inner) => self::group(surface, fonts, inner),
        }
    }
}

fn path(surface: &mut Surface, path: &PathItem) {
    if path.stroke.is_none() && path.fill.is_none() {
        return;
    }
    if let Some(shape) = shape(&path.outline) {
        surface.set_fill(path.fill.map(fill));
        surface.set_stroke(path.stroke.map(stroke));
        surface.draw_path(&shape);
    }
}

fn text(surface: &mut Surface, fonts: &Fonts, text: &TextItem) {
    // Flattened lettering has nothing to show, and a page cannot hold its transform.
    if text.glyphs().is_empty() || text.transform().inverse().is_none() {
        return;
    }
    let (font, em) = match text.face() {
        Face::Regular => (&fonts.regular, text.em()),
        Face::Strong => (&fonts.strong, text.em()),
    };
    let measure = text.face().font();
    let glyphs: Vec<KrillaGlyph> = text
        .glyphs()
        .iter()
        .zip(text.words().char_indices())
        .map(|(glyph, (at, c))| {
            let advance = (measure.advance(glyph.id) / measure.em()) as f32;
            let id = GlyphId::new(u32::from(glyph.id.0));
            KrillaGlyph::new(id, advance, 0.0, 0.0, 0.0, at..at + c.len_utf8(), None)
        })
        .collect();
    surface.set_stroke(None);
    surface.set_fill(Some(fill(text.inked())));
    surface.push_transform(&transform(text.transform()));
    surface.draw_glyphs(
        krilla::geom::Point::from_xy(0.0, 0.0),
        &glyphs,
        font.clone(),
        text.words(),
        em as f32,
        false,
    );
    surface.pop();
}

fn shape(outline: &Outline) -> Option<Path> {
    let mut path = PathBuilder::new();
    for step in outline.steps() {
        match *step {
            Step::Move(p) => path.move_to(p.x as f32, p.y as f32),
            Step::Line(p) => path.line_to(p.x as f32, p.y as f32),
            Step::Quad(c, p) => path.quad_to(c.x as f32, c.y as f32, p.x as f32, p.y as f32),
            Step::Cubic(c, d, p) => {
                path.cubic_to(c.x as f32, c.y as f32, d.x as f32, d.y as f32, p.x as f32, p.y as f32);
            }
            Step::Close => path.close(),
        }
    }
    path.finish()
}

fn color(ink: Ink) -> rgb::Color {
    let [red, green, blue] = ink.rgb();
    rgb::Color::new(red, green, blue)
}

fn fill(ink: Ink) -> Fill {
    Fill {
        paint: color(ink).into(),
        rule: FillRule::NonZero,
        ..Fill::default()
    }
}

fn stroke(stroke: Stroke) -> PdfStroke {
    let pattern: Vec<f32> = stroke.dash.pattern().iter().map(|length| *length as f32).collect();
    PdfStroke {
        paint: color(stroke.ink).into(),
        width: stroke.width.mm() as f32,
        miter_limit: 4.0,
        line_cap: match stroke.cap {
            Cap::Butt => LineCap::Butt,
            Cap::Round => LineCap::Round,
        },
        line_join: match stroke.join {
            Join::Miter => LineJoin::Miter,
            Join::Round => LineJoin::Round,
        },
        dash: (!pattern.is_empty()).then_some(StrokeDash {
            array: pattern,
            offset: 0.0,
        }),
        ..PdfStroke::default()
    }
}

fn transform(at: Affine) -> Transform {
    let Affine { xx, yx, xy, yy, dx, dy } = at;
    Transform::from_row(xx as f32, yx as f32, xy as f32, yy as f32, dx as f32, dy as f32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_pdf_can_hold_is_said_plainly() {
        assert_eq!(write(&[], &PdfInfo::default()), Err(ExportError::NoSheet));
        let roll = Scene::new(6000.0, 100.0, "roll");
        let error = write(&[roll], &PdfInfo::default());
        assert_eq!(
            error,
            Err(ExportError::SheetTooLarge {
                width: 6000.0,
                height: 100.0
            })
        );
    }

    #[test]
    fn flattened_lettering_and_empty_shapes_are_passed_over() {
        let mut scene = Scene::new(100.0, 100.0, "");
        scene.push(TextItem::new("gone", 2.5, Face::Regular).map(Affine::scale(0.0)));
        scene.push(PathItem::filled(Outline::new(), Ink::Black));
        assert!(write(&[scene], &PdfInfo::default()).is_ok());
    }
}

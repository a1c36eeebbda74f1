//! A scene as triangles: the very paths and letters of the sheet, smoothed for the screen.
//!
//! Fills are tessellated by lyon and get a thin fringe that fades out; lines are laid by egui's own feathering. A letter
//! is tessellated once for each size. Letters too small to be read are bars: they say that there are words. Where a drawing
//! is edited its words are never small: of a label that would be, the first line is shown larger and the rest left out.

mod fill;
mod kept;
mod letters;
mod line;

pub use kept::{Kept, Shown};

use crate::scene::{Affine, Group, Ink, Item, Layer, Outline, PathItem, Point, Rect, Step, TextItem, Vector};
use egui::epaint::{TessellationOptions, Tessellator};
use egui::{Color32, Mesh, Pos2, pos2};
use letters::Letters;
use lyon::path::Path;

/// Capitals lower than so many pixels are drawn as bars.
const READABLE: f64 = 3.2;

/// Where a drawing is edited no words are smaller, points for an em.
const LEAST: f64 = 10.0;
/// A line is shown so much larger at most, or it would lie over its neighbors.
const LARGER: f64 = 1.7;

/// From paper to screen: `at` carries mm to points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glass {
    /// The place on the screen of the paper's zero.
    pub origin: Pos2,
    /// Points for one mm.
    pub scale: f64,
    /// Pixels for one point.
    pub pixels: f32,
}

impl Glass {
    /// The place on the screen of a point of paper.
    pub fn point(&self, at: Point) -> Pos2 {
        pos2(
            (f64::from(self.origin.x) + at.x * self.scale) as f32,
            (f64::from(self.origin.y) + at.y * self.scale) as f32,
        )
    }

    /// Half the width of the fringe that fades out, in points.
    fn fringe(&self) -> f32 {
        0.5 / self.pixels
    }
}

/// The triangles of everything in a group that touches `seen`, in points of the screen.
pub fn tessellated(group: &Group, glass: Glass, seen: Rect) -> Mesh {
    Tracing::new(glass, seen).all(group)
}

/// The same for editing: what lies on some layers in softer ink, and no words too small.
fn edited(group: &Group, glass: Glass, seen: Rect, soft: &'static [Layer]) -> Mesh {
    let mut tracing = Tracing::new(glass, seen);
    (tracing.soft, tracing.least) = (soft, LEAST);
    tracing.all(group)
}

/// The colour of an ink.
pub fn color(ink: Ink) -> Color32 {
    let [red, green, blue] = ink.rgb();
    Color32::from_rgb(red, green, blue)
}

/// Ink that lies behind the rest: still 4.5:1 on paper.
const fn softer(ink: Color32) -> Color32 {
    const fn part(value: u8) -> u8 {
        value + ((255 - value) as u16 * 2 / 5) as u8
    }
    Color32::from_rgb(part(ink.r()), part(ink.g()), part(ink.b()))
}

struct Tracing {
    glass: Glass,
    seen: Rect,
    mesh: Mesh,
    lines: Tessellator,
    letters: Letters,
    /// The layers in softer ink, and whether one of them is being traced.
    soft: &'static [Layer],
    is_soft: bool,
    /// Words are not smaller, points for an em.
    least: f64,
}

impl Tracing {
    fn new(glass: Glass, seen: Rect) -> Tracing {
        let options = TessellationOptions {
            feathering: true,
            coarse_tessellation_culling: false,
            round_line_segments_to_pixels: false,
            prerasterized_discs: false,
            ..TessellationOptions::default()
        };
        Tracing {
            glass,
            seen,
            mesh: Mesh::default(),
            lines: Tessellator::new(glass.pixels, options, [1, 1], Vec::new()),
            letters: Letters::default(),
            soft: &[],
            is_soft: false,
            least: 0.0,
        }
    }

    fn all(mut self, group: &Group) -> Mesh {
        self.group(group);
        self.mesh
    }

    fn group(&mut self, group: &Group) {
        let around = self.is_soft;
        if let Some(layer) = group.layer {
            self.is_soft = self.soft.contains(&layer);
        }
        let lines = self.first_line(group);
        for item in group.items() {
            match (item, lines) {
                (Item::Path(path), _) => self.path(path),
                (Item::Text(text), None) => self.text(text, None),
                (Item::Text(text), Some(line)) if line.holds(text) => self.text(text, Some(line)),
                (Item::Text(_), Some(_)) => {}
                (Item::Group(inner), _) => self.group(inner),
            }
        }
        self.is_soft = around;
    }

    /// The line that is shown of the words of a group, and how: `None` where all can be read as they are, or none.
    fn first_line(&self, group: &Group) -> Option<FirstLine> {
        let texts = || {
            group.items().iter().filter_map(|item| match item {
                Item::Text(text) => Some(text),
                Item::Path(_) | Item::Group(_) => None,
            })
        };
        let smallest = texts().map(TextItem::em).reduce(f64::min)?;
        let first = texts().next()?;
        let larger = self.least / (first.em() * self.glass.scale);
        if smallest * self.glass.scale >= self.least || larger > LARGER {
            return None;
        }
        let mut line = FirstLine {
            base: first.transform(),
            middle: Point::default(),
            larger: larger.max(1.0),
        };
        let rooms = texts().filter(|text| line.holds(text)).map(|text| text.quad().bounds());
        line.middle = rooms.reduce(Rect::union)?.center();
        Some(line)
    }

    fn color(&self, ink: Ink) -> Color32 {
        match self.is_soft && ink == Ink::Black {
            true => softer(color(ink)),
            false => color(ink),
        }
    }

    fn path(&mut self, path: &PathItem) {
        if !path.bounds().is_some_and(|bounds| bounds.overlaps(self.seen)) {
            return;
        }
        let chains = chains(&path.outline, Affine::IDENTITY, self.glass);
        if let Some(ink) = path.fill {
            let ink = self.color(ink);
            fill::Filled::of(&chains, self.glass.fringe()).put(Pos2::ZERO, ink, &mut self.mesh);
        }
        if let Some(stroke) = path.stroke {
            let ink = self.color(stroke.ink);
            for chain in &chains {
                line::lay(chain, (stroke, ink), self.glass, &mut self.lines, &mut self.mesh);
            }
        }
    }

    fn text(&mut self, text: &TextItem, line: Option<FirstLine>) {
        let quad = text.quad();
        if text.glyphs().is_empty() || !quad.bounds().overlaps(self.seen) {
            return;
        }
        let ink = self.color(text.inked());
        if text.height() * self.glass.scale * f64::from(self.glass.pixels) < READABLE {
            let corners = quad.0.map(|corner| self.glass.point(corner));
            let pale = ink.gamma_multiply(0.45);
            let first = self.mesh.vertices.len() as u32;
            for corner in corners {
                self.mesh.colored_vertex(corner, pale);
            }
            self.mesh.add_triangle(first, first + 1, first + 2);
            self.mesh.add_triangle(first, first + 2, first + 3);
            return;
        }
        let at = line.map_or(text.transform(), |line| line.larger(text.transform()));
        self.letters.write((text, at), self.glass, ink, &mut self.mesh);
    }
}

/// The first line of a label, shown larger about its middle.
#[derive(Clone, Copy)]
struct FirstLine {
    /// Where its first words begin, and which way they run.
    base: Affine,
    middle: Point,
    larger: f64,
}

impl FirstLine {
    /// Whether words stand on it.
    fn holds(&self, text: &TextItem) -> bool {
        let along = self.base.vector(Vector::new(1.0, 0.0));
        let away = text.transform().point(Point::default()) - self.base.point(Point::default());
        (along.cross(away)).abs() < 0.2 * text.height()
    }

    fn larger(&self, at: Affine) -> Affine {
        let (x, y) = (at.vector(Vector::new(1.0, 0.0)), at.vector(Vector::new(0.0, 1.0)));
        let zero = self.middle + (at.point(Point::default()) - self.middle) * self.larger;
        Affine::frame(zero, x * self.larger, y * self.larger)
    }
}

/// One piece of an outline as straight lines on the screen.
struct Chain {
    points: Vec<Pos2>,
    closed: bool,
}

/// An outline as straight lines, curves within a third of a pixel.
fn chains(outline: &Outline, at: Affine, glass: Glass) -> Vec<Chain> {
    let point = |p: Point| {
        let p = glass.point(at.point(p));
        lyon::math::point(p.x, p.y)
    };
    let mut path = Path::builder();
    let mut open = false;
    for step in outline.steps() {
        match *step {
            Step::Move(to) => {
                if open {
                    path.end(false);
                }
                path.begin(point(to));
                open = true;
            }
            // An outline that does not begin with a move has nothing to go on from.
            Step::Line(_) | Step::Quad(..) | Step::Cubic(..) | Step::Close if !open => {}
            Step::Line(to) => {
                path.line_to(point(to));
            }
            Step::Quad(control, to) => {
                path.quadratic_bezier_to(point(control), point(to));
            }
            Step::Cubic(first, second, to) => {
                path.cubic_bezier_to(point(first), point(second), point(to));
            }
            Step::Close => {
                path.end(true);
                open = false;
            }
        }
    }
    if open {
        path.end(false);
    }
    let path = path.build();
    let mut chains: Vec<Chain> = Vec::new();
    use lyon::path::PathEvent;
    use lyon::path::iterator::PathIterator;
    for event in path.iter().flattened(0.3 / glass.pixels) {
        match event {
            PathEvent::Begin { at } => chains.push(Chain {
                points: vec![pos2(at.x, at.y)],
                closed: false,
            }),
            PathEvent::Line { to, .. } => {
                if let Some(chain) = chains.last_mut() {
                    chain.points.push(pos2(to.x, to.y));
                }
            }
            PathEvent::End { close, .. } => {
                if let Some(chain) = chains.last_mut() {
                    chain.closed = close;
                }
            }
            // A flattened path has no curves.
            PathEvent::Quadratic { .. } | PathEvent::Cubic { .. } => {}
        }
    }
    chains
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Anchor, Face, Pen, Stroke};

    const GLASS: Glass = Glass {
        origin: pos2(100.0, 50.0),
        scale: 4.0,
        pixels: 1.0,
    };
    const ALL: Rect = Rect {
        min: Point::new(-1e4, -1e4),
        max: Point::new(1e4, 1e4),
    };

    fn bounds(mesh: &Mesh) -> egui::Rect {
        mesh.calc_bounds()
    }

    #[test]
    fn a_line_is_as_wide_as_its_pen_and_fades_by_half_a_pixel() {
        let line = PathItem::stroked(
            Outline::line(Point::new(0.0, 0.0), Point::new(20.0, 0.0)),
            Stroke::new(Pen::Heavy),
        );
        let mesh = tessellated(&Group::new().with(line), GLASS, ALL);
        let drawn = bounds(&mesh);
        let half = Pen::Heavy.mm() as f32 * 4.0 / 2.0;
        assert!((drawn.min.y - (50.0 - half - 0.5)).abs() < 0.6, "{drawn:?}");
        assert!(
            (drawn.max.x - (180.0 + half)).abs() < 1.1,
            "round ends reach beyond: {drawn:?}"
        );
    }

    #[test]
    fn a_filled_square_covers_its_area() {
        let square = PathItem::filled(Outline::rect(Rect::sized(Point::new(0.0, 0.0), 10.0, 10.0)), Ink::Black);
        let mesh = tessellated(&Group::new().with(square), GLASS, ALL);
        let area: f32 = mesh
            .triangles()
            .map(|[a, b, c]| {
                let [a, b, c] = [a, b, c].map(|corner| mesh.vertices[corner as usize].pos);
                (b - a).rot90().dot(c - a).abs() / 2.0
            })
            .sum();
        assert!((area - 1600.0).abs() < 200.0, "with its fringe: {area}");
    }

    #[test]
    fn while_editing_no_words_are_small_and_a_label_gives_up_its_other_lines_first() {
        let line =
            |words: &str, y: f64| TextItem::new(words, 2.5, Face::Regular).at(Point::new(10.0, y), Anchor::Start);
        let group = Group::new().with(line("1/2", 10.0)).with(line("8 ft", 16.0));
        let first = Group::new().with(line("1/2", 10.0));
        let em = line("1/2", 10.0).em();
        let at = |share: f64| Glass {
            scale: LEAST * share / em,
            ..GLASS
        };
        let height = |group: &Group, glass| bounds(&edited(group, glass, ALL, &[])).height();
        let whole = |group: &Group, glass| bounds(&tessellated(group, glass, ALL)).height();
        assert_eq!(height(&group, at(1.01)), whole(&group, at(1.01)), "all is read");
        let small = at(0.8);
        assert!(whole(&group, small) > 2.0 * height(&group, small), "one line is left");
        let (shown, least) = (height(&group, small), whole(&first, at(1.0)));
        assert!(
            (shown - least).abs() < 0.6,
            "it is as large as what can be read: {shown} {least}"
        );
    }

    #[test]
    fn a_sheet_is_shown_as_it_is_printed_however_small() {
        let line =
            |words: &str, y: f64| TextItem::new(words, 2.5, Face::Regular).at(Point::new(10.0, y), Anchor::Start);
        let group = Group::new().with(line("SHEET", 10.0)).with(line("1 of 2", 16.0));
        let glass = Glass {
            scale: LEAST * 0.7 / line("1", 0.0).em(),
            ..GLASS
        };
        let height = |shown| bounds(&Kept::default().mesh((), &group, glass, ALL, shown)).height();
        let (printed, edited) = (height(Shown::Printed), height(Shown::Edited(&[])));
        let as_it_is = bounds(&tessellated(&group, glass, ALL)).height();
        assert!((printed - as_it_is).abs() < 1e-2, "{printed} {as_it_is}");
        assert!(
            edited < 0.8 * printed,
            "small enough that it matters: {edited} {printed}"
        );
    }

    #[test]
    fn small_words_are_bars_and_unseen_ones_are_nothing() {
        let word = TextItem::new("3/4 in", 2.5, Face::Regular).at(Point::new(10.0, 10.0), Anchor::Start);
        let group = Group::new().with(word);
        let small = Glass { scale: 0.5, ..GLASS };
        assert_eq!(tessellated(&group, small, ALL).vertices.len(), 4);
        assert!(tessellated(&group, GLASS, ALL).vertices.len() > 60);
        let elsewhere = Rect::sized(Point::new(500.0, 500.0), 10.0, 10.0);
        assert!(tessellated(&group, GLASS, elsewhere).vertices.is_empty());
    }
}

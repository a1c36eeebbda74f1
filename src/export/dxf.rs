//! DXF in true size: one drawing unit is one mm, y goes up, layers by the groups of the scene.
//!
//! Written by hand in the version of 2000 (AC1015), which nearly every drawing program reads; what cannot be said in it
//! is not used. Lines stay lines, curves become chains of lines, lettering stays text that can be edited: each is fitted
//! between the ends of its line, so that it takes its room in any font, leaning where it lies in an isometric plane.
//! White covers what lies behind by a shape that is no ink, so that drawings stay readable on a dark screen. What is
//! black, drawn with the usual pen of its layer and unbroken takes its looks from the layer.

mod curve;
mod ground;
mod groups;
mod tables;
mod words;

use crate::scene::{
    Affine, Dash, Face, Group, Ink, Item, Layer, PathItem, Pen, Point, Scene, Stroke, TextItem, Vector,
};
use curve::{Chain, chains};
use ground::Ground;
use groups::{Groups, Handle};
use std::collections::BTreeMap;

/// The layer of what lies on none.
const SHEET: Layer = Layer::new("sheet");

/// What is smaller cannot be seen, mm.
const SMALLEST: f64 = 1e-3;

/// Writes a scene as one DXF.
pub fn write(scene: &Scene) -> Vec<u8> {
    let mut weights = BTreeMap::from([(SHEET, [0; PENS.len()])]);
    count(scene.root(), SHEET, &mut weights);
    let layers = weights
        .into_iter()
        .map(|(layer, counts)| (layer, usual(counts)))
        .collect();
    let mut writer = Writer {
        out: Groups::new(),
        height: scene.height(),
        layers,
        ground: Ground::new(scene.width(), scene.height()),
    };
    writer.group(scene.root(), SHEET);
    let Writer { out, layers, .. } = writer;
    words::encoded(&tables::whole(scene, &layers, out))
}

const PENS: [Pen; 4] = [Pen::Thin, Pen::Medium, Pen::Wide, Pen::Heavy];

/// Counts the pens of each layer.
fn count(group: &Group, layer: Layer, weights: &mut BTreeMap<Layer, [usize; PENS.len()]>) {
    for item in group.items() {
        match item {
            Item::Path(path) => {
                let counts = weights.entry(layer).or_default();
                let used = PENS
                    .iter()
                    .position(|pen| path.stroke.is_some_and(|stroke| stroke.width == *pen));
                if let Some(used) = used {
                    counts[used] += 1;
                }
            }
            Item::Text(_) => {
                weights.entry(layer).or_default();
            }
            Item::Group(inner) => count(inner, inner.layer.unwrap_or(layer), weights),
        }
    }
}

/// The pen that is used most; of equals the heaviest.
fn usual(counts: [usize; PENS.len()]) -> Pen {
    let most = PENS.iter().zip(counts).max_by_key(|(_, count)| *count);
    most.filter(|(_, count)| *count > 0).map_or(Pen::Thin, |(pen, _)| *pen)
}

/// A line width in hundredths of a mm: the format knows all four.
fn weight(pen: Pen) -> i64 {
    (pen.mm() * 100.0).round() as i64
}

struct Writer {
    out: Groups,
    /// Of the sheet, in mm: y is counted from its foot.
    height: f64,
    layers: BTreeMap<Layer, Pen>,
    ground: Ground,
}

impl Writer {
    fn group(&mut self, group: &Group, layer: Layer) {
        for item in group.items() {
            match item {
                Item::Path(path) => self.path(path, layer),
                Item::Text(text) => self.text(text, layer),
                Item::Group(inner) => self.group(inner, inner.layer.unwrap_or(layer)),
            }
        }
    }

    /// A point as DXF counts.
    fn up(&self, point: Point) -> Point {
        Point::new(point.x, self.height - point.y)
    }

    fn path(&mut self, path: &PathItem, layer: Layer) {
        if path.stroke.is_none() && path.fill.is_none() {
            return;
        }
        let mut chains = chains(&path.outline);
        match path.fill {
            Some(Ink::White) => {
                for chain in &chains {
                    self.cover(chain, layer);
                }
            }
            Some(ink) => {
                self.fill(&chains, ink, layer);
                for bounds in chains.iter().filter_map(Chain::bounds) {
                    self.ground.ink_area(bounds);
                }
            }
            None => {}
        }
        if let Some(stroke) = path.stroke {
            self.ground.ink(&chains);
            chains.retain(|chain| chain.points.len() > 1);
            for chain in &chains {
                self.line(chain, stroke, layer);
            }
        }
    }

    /// Begins an entity in the space of the drawing, with its layer and colour.
    fn entity(&mut self, kind: &str, layer: Layer, ink: Ink) {
        self.out.entity(kind, Handle::MODEL);
        self.out.text(100, "AcDbEntity");
        self.out.text(8, &tables::layer_name(layer));
        if let Some(colour) = colour(ink) {
            self.out.int(62, colour);
        }
    }

    fn line(&mut self, chain: &Chain, stroke: Stroke, layer: Layer) {
        let straight = match chain.points[..] {
            [a, b] if !chain.closed => Some((a, b)),
            _ => None,
        };
        let kind = straight.map_or("LWPOLYLINE", |_| "LINE");
        self.entity(kind, layer, stroke.ink);
        if stroke.dash != Dash::Solid {
            self.out.text(6, tables::dash_name(stroke.dash));
        }
        if self.layers.get(&layer) != Some(&stroke.width) {
            self.out.int(370, weight(stroke.width));
        }
        if let Some((a, b)) = straight {
            self.out.text(100, "AcDbLine");
            self.out.point(10, self.up(a));
            self.out.point(11, self.up(b));
            return;
        }
        // A broken pattern runs on around corners.
        let closed = i64::from(chain.closed);
        self.out.text(100, "AcDbPolyline");
        self.out.count(90, chain.points.len());
        self.out.int(
            70,
            if stroke.dash == Dash::Solid {
                closed
            } else {
                closed + 128
            },
        );
        self.corners(chain);
    }

    fn corners(&mut self, chain: &Chain) {
        for point in &chain.points {
            self.out.flat(10, self.up(*point));
        }
    }

    /// All loops of one shape, filled.
    fn fill(&mut self, chains: &[Chain], ink: Ink, layer: Layer) {
        let loops: Vec<&Chain> = chains.iter().filter(|chain| chain.points.len() > 2).collect();
        if loops.is_empty() {
            return;
        }
        self.entity("HATCH", layer, ink);
        self.out.text(100, "AcDbHatch");
        self.out.point(10, Point::default());
        self.out.upward();
        self.out.text(2, "SOLID");
        self.out.int(70, 1);
        self.out.int(71, 0);
        self.out.count(91, loops.len());
        for chain in loops {
            // The loop is a chain of lines and bounds the filling.
            self.out.int(92, 3);
            self.out.int(72, 0);
            self.out.int(73, 1);
            self.out.count(93, chain.points.len());
            self.corners(chain);
            self.out.int(97, 0);
        }
        self.out.int(75, 0);
        self.out.int(76, 1);
        self.out.int(98, 0);
    }

    /// A shape that covers what lies behind.
    fn cover(&mut self, chain: &Chain, layer: Layer) {
        let corners: Vec<Point> = chain.points.iter().map(|point| self.up(*point)).collect();
        let Some(bounds) = chain.bounds() else { return };
        let (foot, width, height) = (
            self.up(Point::new(bounds.min.x, bounds.max.y)),
            bounds.width(),
            bounds.height(),
        );
        if corners.len() < 3 || width < SMALLEST || height < SMALLEST || !self.ground.is_inked(bounds) {
            return;
        }
        self.entity("WIPEOUT", layer, Ink::Black);
        self.out.text(100, "AcDbWipeout");
        self.out.int(90, 0);
        self.out.point(10, foot);
        self.out.point(11, Point::new(width, 0.0));
        self.out.point(12, Point::new(0.0, height));
        self.out.flat(13, Point::new(1.0, 1.0));
        self.out.text(340, "0");
        self.out.int(70, 7);
        self.out.int(280, 1);
        self.out.int(281, 50);
        self.out.int(282, 50);
        self.out.int(283, 0);
        self.out.text(360, "0");
        self.out.int(71, 2);
        self.out.count(91, corners.len() + 1);
        // Its corners are counted in shares of its box, from the middle, and down.
        for point in corners.iter().chain(corners.first()) {
            let share = Point::new((point.x - foot.x) / width - 0.5, 0.5 - (point.y - foot.y) / height);
            self.out.flat(14, share);
        }
    }

    fn text(&mut self, text: &TextItem, layer: Layer) {
        let Some(pose) = Pose::of(text, self.height) else {
            return;
        };
        self.ground.ink_area(text.quad().bounds());
        self.entity("TEXT", layer, text.inked());
        self.out.text(100, "AcDbText");
        self.out.point(10, pose.from);
        self.out.real(40, pose.height);
        self.out.text(1, &words::written(text.words()));
        self.out.angle(50, pose.turn);
        self.out.angle(51, pose.lean);
        self.out.text(
            7,
            match text.face() {
                Face::Regular => tables::REGULAR,
                Face::Strong => tables::STRONG,
            },
        );
        if pose.is_mirrored {
            self.out.int(71, 4);
        }
        // Fitted between two points.
        self.out.int(72, 5);
        self.out.point(11, pose.to);
        self.out.text(100, "AcDbText");
    }
}

/// How a line of lettering stands, y up.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Pose {
    from: Point,
    to: Point,
    /// The height of a capital across the line, mm.
    height: f64,
    /// Degrees against the clock.
    turn: f64,
    /// Degrees by which upright strokes lean forward.
    lean: f64,
    is_mirrored: bool,
}

impl Pose {
    /// How lettering stands on a sheet of this height; `None` where nothing of it would be seen.
    fn of(text: &TextItem, sheet: f64) -> Option<Pose> {
        let at = text.transform();
        let flip = Affine::frame(Point::new(0.0, sheet), Vector::new(1.0, 0.0), Vector::new(0.0, -1.0));
        let (from, to) = (Point::default(), Point::new(text.advance(), 0.0));
        let (from, to) = (at.then(flip).point(from), at.then(flip).point(to));
        let along = at.then(flip).vector(Vector::new(1.0, 0.0)).unit()?;
        let up = at.then(flip).vector(Vector::new(0.0, -text.height()));
        let (height, forward) = (along.cross(up), along.dot(up));
        let is_seen = text.words().chars().any(|letter| !letter.is_whitespace());
        if !is_seen || from.distance(to) < SMALLEST || height.abs() < SMALLEST {
            return None;
        }
        Some(Pose {
            from,
            to,
            height: height.abs(),
            turn: libm::atan2(along.y, along.x).to_degrees(),
            // The format knows no letters that lie down.
            lean: libm::atan2(forward, height.abs()).to_degrees().clamp(-84.0, 84.0),
            is_mirrored: height < 0.0,
        })
    }
}

/// The number of an ink among the colours of the format; `None`: as its layer, black on light and white on dark.
fn colour(ink: Ink) -> Option<i64> {
    match ink {
        Ink::Black => None,
        Ink::Grey => Some(252),
        Ink::Faint => Some(254),
        Ink::White => Some(255),
        Ink::Accent => Some(12),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Anchor, Outline, Rect};

    /// The group codes of the entities of a sheet of 100 × 50 mm with one item.
    #[track_caller]
    fn check(item: impl Into<Item>, expected: &str) {
        let mut scene = Scene::new(100.0, 50.0, "");
        scene.push(item);
        let written = String::from_utf8(write(&scene)).unwrap();
        let lines: Vec<&str> = written.lines().map(str::trim).collect();
        let pairs: Vec<String> = lines.chunks(2).map(|pair| pair.join(" ")).collect();
        let start = pairs.iter().position(|pair| pair == "2 ENTITIES").unwrap() + 1;
        let end = start + pairs[start..].iter().position(|pair| pair == "0 ENDSEC").unwrap();
        assert_eq!(pairs[start..end].join(", "), expected);
    }

    #[test]
    fn a_line_goes_up_and_takes_its_looks_from_its_layer() {
        let line = PathItem::stroked(
            Outline::line(Point::new(1.0, 2.0), Point::new(30.0, 50.0)),
            Stroke::new(Pen::Heavy),
        );
        check(
            Group::new().on(Layer::new("pipe-new")).with(line.clone()),
            "0 LINE, 5 100, 330 1F, 100 AcDbEntity, 8 PIPE-NEW, 100 AcDbLine, \
             10 1.0, 20 48.0, 30 0.0, 11 30.0, 21 0.0, 31 0.0",
        );
        let corner = Outline::polygon([Point::new(0.0, 0.0), Point::new(5.0, 0.0), Point::new(5.0, 5.0)]);
        let two = Group::new().with(line.clone()).with(line);
        let dashed = Stroke::new(Pen::Thin).dash(Dash::Dashed).ink(Ink::Grey);
        let mut scene = Scene::new(100.0, 50.0, "");
        scene.push(two.with(PathItem::stroked(corner, dashed)));
        let written = String::from_utf8(write(&scene)).unwrap().replace('\n', " ");
        let other = "LWPOLYLINE   5 102 330 1F 100 AcDbEntity   8 SHEET  62 252   6 DASHED 370 25 100 AcDbPolyline";
        assert!(written.contains(other), "{written}");
        assert!(written.contains("90 3  70 129  10 0.0  20 50.0"), "{written}");
    }

    #[test]
    fn words_stay_words_fitted_between_the_ends_of_their_line() {
        let text = TextItem::new("H%%d", 2.5, Face::Strong);
        let end = 5.0 + text.advance();
        check(
            text.at(Point::new(5.0, 40.0), Anchor::Start),
            &format!(
                "0 TEXT, 5 100, 330 1F, 100 AcDbEntity, 8 SHEET, 100 AcDbText, 10 5.0, 20 10.0, 30 0.0, 40 2.5, \
                 1 H%%%%%%d, 50 0.0, 51 0.0, 7 STRONG, 72 5, 11 {}, 21 10.0, 31 0.0, 100 AcDbText",
                groups::number(end)
            ),
        );
    }

    #[test]
    fn words_in_an_isometric_plane_turn_and_lean() {
        let pose = |x: Vector, y: Vector| {
            let at = Affine::frame(Point::new(10.0, 20.0), x, y);
            let text = TextItem::new("H", 2.0, Face::Regular).place(at, Anchor::Start);
            Pose::of(&text, 50.0).map(|pose| (pose.height, pose.turn.round(), pose.lean.round(), pose.is_mirrored))
        };
        let (sin, cos) = 30f64.to_radians().sin_cos();
        let down = Vector::new(0.0, 1.0);
        // On the plane that goes up to the right, upright strokes stay upright: they lean back against their line.
        let (height, turn, lean, _) = pose(Vector::new(cos, -sin), down).unwrap();
        assert!((height - 2.0 * cos).abs() < 1e-9);
        assert_eq!((turn, lean), (30.0, 30.0));
        let (_, turn, lean, _) = pose(Vector::new(cos, sin), down).unwrap();
        assert_eq!((turn, lean), (-30.0, -30.0));
        assert_eq!(pose(Vector::new(1.0, 0.0), -down), Some((2.0, 0.0, 0.0, true)));
        assert_eq!(pose(Vector::new(0.0, 1.0), down), None);
    }

    #[test]
    fn white_covers_ink_and_leaves_blank_paper_alone() {
        let patch = Outline::rect(Rect::sized(Point::new(10.0, 10.0), 20.0, 10.0));
        let white = PathItem::filled(patch, Ink::White);
        check(white.clone(), "");
        let line = PathItem::stroked(
            Outline::line(Point::new(0.0, 15.0), Point::new(50.0, 15.0)),
            Stroke::new(Pen::Thin),
        );
        let mut scene = Scene::new(100.0, 50.0, "");
        scene.push(line);
        scene.push(white);
        let written = String::from_utf8(write(&scene)).unwrap().replace('\n', " ");
        let cover = "WIPEOUT   5 101 330 1F 100 AcDbEntity   8 SHEET 100 AcDbWipeout  90 0  10 10.0  20 30.0  30 0.0  \
                     11 20.0  21 0.0  31 0.0  12 0.0  22 10.0  32 0.0";
        assert!(written.contains(cover), "{written}");
        assert!(written.contains("91 5  14 -0.5  24 -0.5  14 0.5  24 -0.5"), "{written}");
    }
}

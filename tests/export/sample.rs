//! A sheet that holds every kind of item, every pen, ink and dash, and every character of the trade.

use stubout::scene::{
    Affine, Anchor, Cap, Dash, Face, Group, Ink, Join, Outline, PathItem, Pen, Point, Rect, Role, Scene, Stroke,
    TextItem, Vector,
};

pub const WIDTH: f64 = 210.0;
pub const HEIGHT: f64 = 148.5;
pub const PENS: [Pen; 4] = [Pen::Thin, Pen::Medium, Pen::Wide, Pen::Heavy];
pub const CHARACTERS: &str = "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ″ ′ ° ± × – Ø ³ · ≥ ≤ →";
/// The middle of the capital H that stands alone and large, so that a test can look for its ink.
pub const LARGE_H: Point = Point::new(180.0, 110.0);

pub fn sheet() -> Scene {
    let mut scene = Scene::new(WIDTH, HEIGHT, "Sample <sheet> & \"all\" it holds");
    let frame = Rect::sized(Point::new(20.0, 10.0), 180.0, 128.5);
    let frame = PathItem::stroked(Outline::rect(frame), Stroke::new(Pen::Heavy).join(Join::Miter));
    scene.push(Group::tagged(Role::Frame, 0).label("frame").with(frame));
    scene.push(pens_and_dashes());
    scene.push(inks());
    scene.push(curves());
    scene.push(lettering());
    for group in planes() {
        scene.push(group);
    }
    scene
}

fn words(words: &str, height: f64, x: f64, y: f64) -> TextItem {
    TextItem::new(words, height, Face::Regular).at(Point::new(x, y), Anchor::Start)
}

fn pens_and_dashes() -> Group {
    let mut table = Group::tagged(Role::Table, 1).label("pens & dashes");
    for (column, pen) in PENS.into_iter().enumerate() {
        let x = 26.0 + 22.0 * column as f64;
        table.push(words(&format!("{} mm", pen.mm()), 2.5, x, 18.0));
        for (row, dash) in Dash::ALL.into_iter().enumerate() {
            let y = 22.0 + 3.5 * row as f64;
            let line = Outline::line(Point::new(x, y), Point::new(x + 19.0, y));
            table.push(PathItem::stroked(line, Stroke::new(pen).dash(dash)));
        }
    }
    table
}

fn inks() -> Group {
    let mut row = Group::new();
    for (place, ink) in Ink::ALL.into_iter().enumerate() {
        let corner = Point::new(120.0 + 12.0 * place as f64, 16.0);
        let patch = Outline::rect(Rect::sized(corner, 9.0, 6.0));
        row.push(PathItem::stroked(patch, Stroke::new(Pen::Thin)).fill(ink));
        row.push(words(&format!("{ink:?}"), 1.8, corner.x, 26.0).ink(if ink == Ink::White { Ink::Black } else { ink }));
    }
    row
}

fn curves() -> Group {
    let center = Point::new(132.0, 42.0);
    let corner = Outline::polyline([
        Point::new(165.0, 46.0),
        Point::new(170.0, 34.0),
        Point::new(175.0, 46.0),
    ]);
    Group::tagged(Role::Symbol, 5)
        .label("ring, arcs and corners")
        .with(PathItem::stroked(Outline::circle(center, 8.0), Stroke::new(Pen::Wide)).fill(Ink::Faint))
        .with(PathItem::stroked(
            Outline::arc(center, 5.0, 180.0, 180.0),
            Stroke::new(Pen::Medium).cap(Cap::Butt),
        ))
        .with(PathItem::filled(Outline::circle(center, 1.0), Ink::Black))
        .with(PathItem::stroked(
            corner.clone(),
            Stroke::new(Pen::Heavy).join(Join::Miter),
        ))
        .with(PathItem::stroked(
            corner.map(Affine::to(Point::new(14.0, 0.0))),
            Stroke::new(Pen::Heavy),
        ))
}

fn lettering() -> Group {
    let centered = |text: &str, face, y| TextItem::new(text, 3.5, face).at(Point::new(160.0, y), Anchor::Middle);
    Group::new()
        .with(words(CHARACTERS, 3.5, 26.0, 52.0))
        .with(words(
            "The quick brown fitter checks 0123456789 joints",
            2.5,
            26.0,
            60.0,
        ))
        .with(TextItem::new("STRONG TITLE", 5.0, Face::Strong).at(Point::new(26.0, 70.0), Anchor::Start))
        .with(words("caption <a> & \"b\" 漢", 1.8, 26.0, 76.0))
        .with(centered("middle of the line", Face::Regular, 60.0))
        .with(TextItem::new("end", 3.5, Face::Strong).at(Point::new(196.0, 70.0), Anchor::End))
        .with(TextItem::new("H", 30.0, Face::Strong).at(LARGE_H + Vector::new(0.0, 15.0), Anchor::Middle))
        .with(
            words("turned", 3.5, 0.0, 0.0)
                .map(Affine::turn(-90.0))
                .map(Affine::to(Point::new(60.0, 130.0))),
        )
}

/// A pipe along each horizontal axis and a riser, with lettering that lies in the plane of its line.
fn planes() -> Vec<Group> {
    let (sin, cos) = (0.5, 0.75f64.sqrt());
    let (right, left, up) = (Vector::new(cos, -sin), Vector::new(cos, sin), Vector::new(0.0, -1.0));
    let lines = [
        ("12'-6\" ¾ in", right, -up),
        ("8'-0\" ½ in", left, -up),
        ("riser 3'-4\"", up, right),
    ];
    let center = Point::new(80.0, 110.0);
    let mut groups = Vec::new();
    for (key, (text, along, down)) in lines.into_iter().enumerate() {
        let line = Outline::line(center, center + along * 30.0);
        groups.push(
            Group::tagged(Role::Line, key as u32)
                .label(format!("line {key}"))
                .with(PathItem::stroked(line, Stroke::new(Pen::Heavy)))
                .with(
                    Group::tagged(Role::Label, key as u32).with(TextItem::new(text, 2.5, Face::Regular).place(
                        Affine::frame(center + along * 15.0 - down * 1.2, along, down),
                        Anchor::Middle,
                    )),
                ),
        );
    }
    groups
}

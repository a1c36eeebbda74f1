//! Where the sheets lie on the desk, one below the other, and their triangles for as long as they serve.

use super::composed::Of;
use crate::look;
use crate::scene::{Point, Rect, Scene, Vector};
use crate::view::ink::{Glass, Kept, Shown};
use egui::{Color32, Painter, Shape, Stroke, StrokeKind, vec2};

/// Between two sheets, mm.
const BETWEEN: f64 = 12.0;

/// The places of sheets, in mm of the desk.
pub fn places(sheets: &[Scene]) -> Vec<Rect> {
    let mut top = 0.0;
    sheets
        .iter()
        .map(|sheet| {
            let place = Rect::sized(Point::new(0.0, top), sheet.width(), sheet.height());
            top += sheet.height() + BETWEEN;
            place
        })
        .collect()
}

/// Triangles of the sheets in view.
#[derive(Default)]
pub struct Triangles(Vec<Kept<Of>>);

impl Triangles {
    /// Paints one sheet on its paper; `of` says what it was made of, `glass` has its origin at the sheet's corner.
    pub fn paint(&mut self, painter: &Painter, number: usize, of: Of, sheet: &Scene, glass: Glass, seen: Rect) {
        let corner = glass.point(Point::new(sheet.width(), sheet.height()));
        let paper = egui::Rect::from_min_max(glass.origin, corner);
        let shadow = paper.translate(vec2(2.0, 3.0));
        painter.rect_filled(shadow, 0.0, Color32::from_black_alpha(60));
        painter.rect(
            paper,
            0.0,
            look::PAPER,
            Stroke::new(1.0, Color32::from_gray(0x80)),
            StrokeKind::Outside,
        );
        if self.0.len() <= number {
            self.0.resize_with(number + 1, Kept::default);
        }
        let mesh = self.0[number].mesh(of, sheet.root(), glass, seen, Shown::Printed);
        painter
            .with_clip_rect(paper.intersect(painter.clip_rect()))
            .add(Shape::Mesh(mesh));
    }
}

/// The part of a sheet that is seen, in its own mm; `None` when it is out of view.
pub fn seen(place: Rect, view: Rect) -> Option<Rect> {
    place.overlaps(view).then(|| {
        let away = place.min - Point::default();
        Rect::new(view.min - away, view.max - away)
    })
}

/// A point of the desk in a sheet's own mm.
pub fn within(place: Rect, at: Point) -> Point {
    at - Vector::new(place.min.x, place.min.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_lie_below_one_another() {
        let sheets = [Scene::new(200.0, 100.0, ""), Scene::new(200.0, 100.0, "")];
        let places = places(&sheets);
        assert!(!places[0].overlaps(places[1]));
        assert_eq!(
            within(places[1], Point::new(5.0, 100.0 + BETWEEN + 7.0)),
            Point::new(5.0, 7.0)
        );
        let view = Rect::new(Point::new(-10.0, 150.0), Point::new(50.0, 180.0));
        assert_eq!(seen(places[0], view), None);
        let seen = seen(places[1], view).unwrap();
        assert!((seen.min.y - 38.0).abs() < 1e-9 && (seen.max.x - 50.0).abs() < 1e-9);
    }
}

//! Where the paper lies under the window: the one transform between sheet and canvas.

use crate::scene::{Point, Rect, Vector};
use egui::{Event, MouseWheelUnit, Pos2, Ui, Vec2};

/// The smallest scale, screen points for one mm of paper.
const SMALLEST: f64 = 0.15;
/// The largest scale.
const LARGEST: f64 = 40.0;
/// The scale of a drawing too small to fill the window.
const USUAL: f64 = 4.6;

/// What is brought into view comes so many points inside the edge.
const MARGIN: f32 = 60.0;

/// A view of paper: which point lies in the middle, and how large.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// The point of paper in the middle of the canvas.
    pub middle: Point,
    /// Screen points for one mm of paper.
    pub scale: f64,
}

impl Default for Camera {
    fn default() -> Camera {
        Camera {
            middle: Point::default(),
            scale: USUAL,
        }
    }
}

impl Camera {
    /// The place on the screen of a point of paper.
    pub fn screen(&self, canvas: egui::Rect, at: Point) -> Pos2 {
        let away = (at - self.middle) * self.scale;
        canvas.center() + Vec2::new(away.x as f32, away.y as f32)
    }

    /// The point of paper under a place on the screen.
    pub fn paper(&self, canvas: egui::Rect, at: Pos2) -> Point {
        let away = at - canvas.center();
        self.middle + Vector::new(f64::from(away.x), f64::from(away.y)) * (1.0 / self.scale)
    }

    /// The paper that is seen.
    pub fn seen(&self, canvas: egui::Rect) -> Rect {
        Rect::new(self.paper(canvas, canvas.min), self.paper(canvas, canvas.max))
    }

    /// Shows the paper larger by a factor; the point under `at` stays where it is.
    pub fn zoom(&mut self, canvas: egui::Rect, at: Pos2, by: f64) {
        let held = self.paper(canvas, at);
        if by.is_finite() && by > 0.0 {
            self.scale = (self.scale * by).clamp(SMALLEST, LARGEST);
        }
        self.middle = self.middle + (held - self.paper(canvas, at));
    }

    /// Follows wheel, pinch and two fingers over the canvas: larger and smaller at the pointer, `notch` times at each notch
    /// of a wheel; two fingers move the paper.
    pub fn follow_wheel(&mut self, ui: &Ui, canvas: egui::Rect, notch: f64) {
        let (events, at, pinch) = ui.input(|input| {
            let at = input.pointer.hover_pos().unwrap_or(canvas.center());
            (input.events.clone(), at, input.zoom_delta())
        });
        let mut pinched = pinch != 1.0;
        for event in events {
            if let Event::MouseWheel {
                unit, delta, modifiers, ..
            } = event
            {
                let notches = match unit {
                    MouseWheelUnit::Line => delta.y,
                    MouseWheelUnit::Page => delta.y * 3.0,
                    MouseWheelUnit::Point if modifiers.command => delta.y / 40.0,
                    MouseWheelUnit::Point => {
                        self.pan(delta);
                        continue;
                    }
                };
                pinched = false;
                self.zoom(canvas, at, libm::pow(notch, f64::from(notches.clamp(-8.0, 8.0))));
            }
        }
        if pinched {
            self.zoom(canvas, at, f64::from(pinch));
        }
    }

    /// Moves the paper with the hand.
    pub fn pan(&mut self, by: Vec2) {
        self.middle = self.middle + Vector::new(f64::from(-by.x), f64::from(-by.y)) * (1.0 / self.scale);
    }

    /// Shows all of a box of paper with a margin, but nothing larger than usual.
    pub fn fit(&mut self, canvas: egui::Rect, bounds: Option<Rect>) {
        let Some(bounds) = bounds else {
            *self = Camera::default();
            return;
        };
        let (width, height) = (f64::from(canvas.width()) - 48.0, f64::from(canvas.height()) - 48.0);
        let scale = (width / bounds.width().max(1.0)).min(height / bounds.height().max(1.0));
        self.scale = scale.clamp(SMALLEST, USUAL * 1.25);
        self.middle = bounds.center();
    }

    /// Moves just so far that a point lies well inside.
    pub fn bring(&mut self, canvas: egui::Rect, at: Point) {
        let margin = MARGIN.min(canvas.width() / 4.0).min(canvas.height() / 4.0);
        let there = self.screen(canvas, at);
        self.pan(canvas.shrink(margin).clamp(there) - there);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    const CANVAS: egui::Rect = egui::Rect {
        min: pos2(100.0, 40.0),
        max: pos2(900.0, 640.0),
    };

    #[test]
    fn zooming_keeps_the_point_under_the_pointer() {
        let mut camera = Camera::default();
        let at = pos2(300.0, 500.0);
        let held = camera.paper(CANVAS, at);
        for by in [1.25, 0.3, 7.0, f64::NAN, -1.0, 1e9] {
            camera.zoom(CANVAS, at, by);
            assert!(camera.screen(CANVAS, held).distance(at) < 0.01, "{by}");
            assert!((SMALLEST..=LARGEST).contains(&camera.scale));
        }
    }

    #[test]
    fn fitting_shows_all_of_a_box() {
        let mut camera = Camera::default();
        let bounds = Rect::new(Point::new(-400.0, 20.0), Point::new(900.0, 300.0));
        camera.fit(CANVAS, Some(bounds));
        for corner in bounds.corners() {
            assert!(CANVAS.contains(camera.screen(CANVAS, corner)));
        }
        camera.fit(CANVAS, Some(Rect::new(Point::new(5.0, 5.0), Point::new(5.0, 5.0))));
        assert!(
            camera.scale <= USUAL * 1.25,
            "a single joint is not shown as large as a house"
        );
    }

    #[test]
    fn what_is_brought_into_view_moves_the_paper_no_more_than_it_must() {
        let mut camera = Camera::default();
        let still = camera;
        camera.bring(CANVAS, camera.paper(CANVAS, pos2(160.0, 580.0)));
        assert_eq!(camera, still);
        let (far, beside) = (camera.paper(CANVAS, pos2(-700.0, 300.0)), camera.middle);
        camera.bring(CANVAS, far);
        assert!(camera.screen(CANVAS, far).distance(pos2(160.0, 300.0)) < 0.01);
        assert!((camera.screen(CANVAS, beside).y - CANVAS.center().y).abs() < 0.01);
    }

    #[test]
    fn panning_goes_with_the_hand() {
        let mut camera = Camera::default();
        let point = Point::new(10.0, -4.0);
        let before = camera.screen(CANVAS, point);
        camera.pan(Vec2::new(30.0, -12.0));
        assert!(camera.screen(CANVAS, point).distance(before + Vec2::new(30.0, -12.0)) < 0.01);
    }
}

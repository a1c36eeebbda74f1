//! The one kind of transform: straight lines stay straight and parallels stay parallel.

use super::geometry::{Point, Rect, Vector};

/// A 2×3 matrix: a point (x, y) goes to (`xx`·x + `xy`·y + `dx`, `yx`·x + `yy`·y + `dy`).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Affine {
    /// Where one mm along x goes: its x part.
    pub xx: f64,
    /// Where one mm along x goes: its y part.
    pub yx: f64,
    /// Where one mm along y goes: its x part.
    pub xy: f64,
    /// Where one mm along y goes: its y part.
    pub yy: f64,
    /// Shift to the right, mm.
    pub dx: f64,
    /// Shift down, mm.
    pub dy: f64,
}

impl Affine {
    /// Leaves everything where it is.
    pub const IDENTITY: Affine = Affine {
        xx: 1.0,
        yx: 0.0,
        xy: 0.0,
        yy: 1.0,
        dx: 0.0,
        dy: 0.0,
    };

    /// Sends the origin to `origin`, one mm along x to `x`, and one mm along y to `y`: an isometric plane is this.
    pub const fn frame(origin: Point, x: Vector, y: Vector) -> Self {
        Self {
            xx: x.x,
            yx: x.y,
            xy: y.x,
            yy: y.y,
            dx: origin.x,
            dy: origin.y,
        }
    }

    /// Shifts by a vector.
    pub const fn shift(by: Vector) -> Self {
        Self {
            dx: by.x,
            dy: by.y,
            ..Self::IDENTITY
        }
    }

    /// Moves the origin to a point.
    pub const fn to(point: Point) -> Self {
        Self {
            dx: point.x,
            dy: point.y,
            ..Self::IDENTITY
        }
    }

    /// Scales about the origin.
    pub const fn scale(by: f64) -> Self {
        Self {
            xx: by,
            yy: by,
            ..Self::IDENTITY
        }
    }

    /// Turns about the origin by an angle in degrees, clockwise as seen on paper.
    pub fn turn(degrees: f64) -> Self {
        let (sin, cos) = libm::sincos(degrees.to_radians());
        Self {
            xx: cos,
            yx: sin,
            xy: -sin,
            yy: cos,
            dx: 0.0,
            dy: 0.0,
        }
    }

    /// This transform first, then `next`.
    pub fn then(self, next: Affine) -> Self {
        let (x, y) = (
            next.vector(Vector::new(self.xx, self.yx)),
            next.vector(Vector::new(self.xy, self.yy)),
        );
        Self::frame(next.point(Point::new(self.dx, self.dy)), x, y)
    }

    /// Where a point goes.
    pub fn point(self, p: Point) -> Point {
        Point::new(
            self.xx * p.x + self.xy * p.y + self.dx,
            self.yx * p.x + self.yy * p.y + self.dy,
        )
    }

    /// Where a displacement goes: the shift does not count.
    pub fn vector(self, v: Vector) -> Vector {
        Vector::new(self.xx * v.x + self.xy * v.y, self.yx * v.x + self.yy * v.y)
    }

    /// The upright box around the image of a box.
    pub fn bounds(self, rect: Rect) -> Rect {
        let [a, b, c, d] = rect.corners().map(|p| self.point(p));
        Rect::new(a, b).with(c).with(d)
    }

    /// The way back; `None` when the transform flattens the plane.
    pub fn inverse(self) -> Option<Self> {
        let det = self.xx * self.yy - self.xy * self.yx;
        if det.abs() < 1e-12 || !det.is_finite() {
            return None;
        }
        let back = Self {
            xx: self.yy / det,
            yx: -self.yx / det,
            xy: -self.xy / det,
            yy: self.xx / det,
            dx: 0.0,
            dy: 0.0,
        };
        let shift = back.vector(Vector::new(-self.dx, -self.dy));
        Some(Self {
            dx: shift.x,
            dy: shift.y,
            ..back
        })
    }

    /// Whether everything near the origin stays drawable: no part is NaN, endless, or beyond a kilometre.
    pub fn is_drawable(self) -> bool {
        Point::new(self.xx, self.yx).is_drawable()
            && Point::new(self.xy, self.yy).is_drawable()
            && Point::new(self.dx, self.dy).is_drawable()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(found: Point, x: f64, y: f64) {
        assert!(found.distance(Point::new(x, y)) < 1e-9, "{found:?} is not ({x}, {y})");
    }

    #[test]
    fn transforms_run_in_reading_order() {
        let turned = Affine::turn(90.0).then(Affine::to(Point::new(10.0, 0.0)));
        check(turned.point(Point::new(2.0, 0.0)), 10.0, 2.0);
        let shifted = Affine::to(Point::new(10.0, 0.0)).then(Affine::turn(90.0));
        check(shifted.point(Point::new(2.0, 0.0)), 0.0, 12.0);
    }

    #[test]
    fn the_inverse_leads_back() {
        let there = Affine::frame(Point::new(7.0, -3.0), Vector::new(0.866, -0.5), Vector::new(0.0, 2.0));
        let back = there.inverse().unwrap();
        check(back.point(there.point(Point::new(4.0, 5.0))), 4.0, 5.0);
        assert_eq!(Affine::scale(0.0).inverse(), None);
    }
}

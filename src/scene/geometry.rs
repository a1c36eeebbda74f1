//! Points, vectors and upright boxes on paper: millimetres, x to the right, y down.
//!
//! Transforms live in `affine`, straight pieces in `segment`, slanted boxes in `quad`. The nonsense operators are left
//! out: two points do not add, their difference is a [`Vector`].

use std::ops::{Add, Mul, Neg, Sub};

/// The farthest coordinate that a scene accepts, in mm: a kilometre of paper. What lies beyond is a mistake upstream.
pub const FARTHEST: f64 = 1.0e6;

/// A place on paper in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// Distance from the left edge, mm.
    pub x: f64,
    /// Distance from the top edge, mm.
    pub y: f64,
}

/// A displacement on paper in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vector {
    /// To the right, mm.
    pub x: f64,
    /// Down, mm.
    pub y: f64,
}

impl Point {
    /// The point at `x`, `y` mm.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Whether the point can be drawn: both coordinates finite and not beyond [`FARTHEST`].
    pub fn is_drawable(self) -> bool {
        self.x.abs() <= FARTHEST && self.y.abs() <= FARTHEST
    }

    /// The distance to another point in mm.
    pub fn distance(self, other: Point) -> f64 {
        (other - self).length()
    }

    /// The point a fraction `t` of the way to `other`.
    pub fn toward(self, other: Point, t: f64) -> Point {
        self + (other - self) * t
    }

    /// The point halfway to `other`.
    pub fn midway(self, other: Point) -> Point {
        self.toward(other, 0.5)
    }
}

impl Vector {
    /// The displacement by `x` to the right and `y` down, mm.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The length in mm.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The scalar product.
    pub fn dot(self, other: Vector) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The signed area spanned with `other`: positive when `other` lies clockwise of `self` as seen on paper.
    pub fn cross(self, other: Vector) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The same direction with a length of 1 mm; `None` for a vector without direction.
    pub fn unit(self) -> Option<Vector> {
        let length = self.length();
        (length > 1e-12 && length.is_finite()).then(|| self * (1.0 / length))
    }

    /// The vector turned a quarter clockwise as seen on paper.
    pub fn turned(self) -> Vector {
        Vector::new(-self.y, self.x)
    }
}

impl Sub for Point {
    type Output = Vector;
    fn sub(self, other: Point) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vector> for Point {
    type Output = Point;
    fn add(self, by: Vector) -> Point {
        Point::new(self.x + by.x, self.y + by.y)
    }
}

impl Sub<Vector> for Point {
    type Output = Point;
    fn sub(self, by: Vector) -> Point {
        Point::new(self.x - by.x, self.y - by.y)
    }
}

impl Add for Vector {
    type Output = Vector;
    fn add(self, other: Vector) -> Vector {
        Vector::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Vector {
    type Output = Vector;
    fn sub(self, other: Vector) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Vector;
    fn mul(self, by: f64) -> Vector {
        Vector::new(self.x * by, self.y * by)
    }
}

impl Neg for Vector {
    type Output = Vector;
    fn neg(self) -> Vector {
        Vector::new(-self.x, -self.y)
    }
}

/// An upright box on paper in mm; `min` is its upper left corner, `max` its lower right one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Upper left corner.
    pub min: Point,
    /// Lower right corner.
    pub max: Point,
}

impl Rect {
    /// The box between two opposite corners, in whatever order.
    pub fn new(a: Point, b: Point) -> Self {
        Self {
            min: Point::new(a.x.min(b.x), a.y.min(b.y)),
            max: Point::new(a.x.max(b.x), a.y.max(b.y)),
        }
    }

    /// The box with this upper left corner, width and height in mm.
    pub fn sized(corner: Point, width: f64, height: f64) -> Self {
        Self::new(corner, corner + Vector::new(width, height))
    }

    /// The smallest box around the points; `None` for no points.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        let mut points = points.into_iter();
        let first = points.next()?;
        Some(points.fold(Self { min: first, max: first }, Self::with))
    }

    /// The smallest box around this one and a point.
    pub fn with(self, point: Point) -> Self {
        Self {
            min: Point::new(self.min.x.min(point.x), self.min.y.min(point.y)),
            max: Point::new(self.max.x.max(point.x), self.max.y.max(point.y)),
        }
    }

    /// The smallest box around both.
    pub fn union(self, other: Rect) -> Self {
        self.with(other.min).with(other.max)
    }

    /// The box grown by `margin` mm on every side.
    pub fn grown(self, margin: f64) -> Self {
        let by = Vector::new(margin, margin);
        Self {
            min: self.min - by,
            max: self.max + by,
        }
    }

    /// The width in mm.
    pub fn width(self) -> f64 {
        self.max.x - self.min.x
    }

    /// The height in mm.
    pub fn height(self) -> f64 {
        self.max.y - self.min.y
    }

    /// The middle of the box.
    pub fn center(self) -> Point {
        self.min.midway(self.max)
    }

    /// The corners clockwise from the upper left.
    pub fn corners(self) -> [Point; 4] {
        [
            self.min,
            Point::new(self.max.x, self.min.y),
            self.max,
            Point::new(self.min.x, self.max.y),
        ]
    }

    /// Whether the point lies inside or on the edge.
    pub fn contains(self, point: Point) -> bool {
        (self.min.x..=self.max.x).contains(&point.x) && (self.min.y..=self.max.y).contains(&point.y)
    }

    /// Whether the other box lies wholly inside or on the edge.
    pub fn encloses(self, other: Rect) -> bool {
        self.contains(other.min) && self.contains(other.max)
    }

    /// Whether the boxes share more than an edge.
    pub fn overlaps(self, other: Rect) -> bool {
        self.min.x < other.max.x && other.min.x < self.max.x && self.min.y < other.max.y && other.min.y < self.max.y
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_is_upright_whatever_the_order_of_its_corners() {
        let a = Rect::new(Point::new(5.0, 1.0), Point::new(2.0, 9.0));
        assert_eq!(a, Rect::sized(Point::new(2.0, 1.0), 3.0, 8.0));
        assert_eq!(a.center(), Point::new(3.5, 5.0));
    }

    #[test]
    fn boxes_that_share_an_edge_do_not_overlap() {
        let a = Rect::sized(Point::default(), 2.0, 2.0);
        assert!(!a.overlaps(Rect::sized(Point::new(2.0, 0.0), 2.0, 2.0)));
        assert!(a.overlaps(Rect::sized(Point::new(1.9, 1.9), 2.0, 2.0)));
        assert!(a.encloses(Rect::sized(Point::new(1.0, 1.0), 1.0, 1.0)));
    }

    #[test]
    fn a_quarter_turn_goes_from_right_to_down() {
        assert_eq!(Vector::new(1.0, 0.0).turned(), Vector::new(0.0, 1.0));
        assert!(Vector::new(1.0, 0.0).cross(Vector::new(0.0, 1.0)) > 0.0);
        assert_eq!(Vector::default().unit(), None);
    }

    #[test]
    fn what_is_not_a_number_or_too_far_is_not_drawable() {
        assert!(Point::new(-3.0, 420.0).is_drawable());
        for x in [f64::NAN, f64::INFINITY, 1.1e6] {
            assert!(!Point::new(x, 0.0).is_drawable());
            assert!(!Point::new(0.0, -x).is_drawable());
        }
    }
}

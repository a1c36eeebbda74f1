//! A straight piece between two points: how far things are from it and where it crosses another.

use super::geometry::{Point, Rect, Vector};

/// The straight piece from `a` to `b`, mm. It may have no length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// One end.
    pub a: Point,
    /// The other end.
    pub b: Point,
}

impl Segment {
    /// The piece from `a` to `b`.
    pub const fn new(a: Point, b: Point) -> Self {
        Self { a, b }
    }

    /// The way from `a` to `b`.
    pub fn vector(self) -> Vector {
        self.b - self.a
    }

    /// The length in mm.
    pub fn length(self) -> f64 {
        self.vector().length()
    }

    /// The upright box around the piece.
    pub fn bounds(self) -> Rect {
        Rect::new(self.a, self.b)
    }

    /// The point a fraction `t` of the way from `a` to `b`.
    pub fn at(self, t: f64) -> Point {
        self.a.toward(self.b, t)
    }

    /// The fraction of the way, 0 to 1, at which the piece comes nearest to a point.
    pub fn nearest(self, point: Point) -> f64 {
        let way = self.vector();
        let square = way.dot(way);
        if square <= 0.0 {
            0.0
        } else {
            ((point - self.a).dot(way) / square).clamp(0.0, 1.0)
        }
    }

    /// The distance to a point in mm.
    pub fn distance(self, point: Point) -> f64 {
        self.at(self.nearest(point)).distance(point)
    }

    /// The distance to another piece in mm; zero where they meet.
    pub fn gap(self, other: Segment) -> f64 {
        if self.crossing(other).is_some() {
            return 0.0;
        }
        let from_other = self.distance(other.a).min(self.distance(other.b));
        from_other.min(other.distance(self.a)).min(other.distance(self.b))
    }

    /// Where two pieces cross, as fractions of the way along each, ends included. Parallel pieces never cross, even
    /// when they lie on one line.
    pub fn crossing(self, other: Segment) -> Option<(f64, f64)> {
        let (u, v) = (self.vector(), other.vector());
        let area = u.cross(v);
        if area.abs() <= 1e-12 * u.length() * v.length() || area == 0.0 {
            return None;
        }
        let from = other.a - self.a;
        let (s, t) = (from.cross(v) / area, from.cross(u) / area);
        ((0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t)).then_some((s, t))
    }

    /// The share of the piece that lies within a box, from and to as fractions of the way; `None` where none does.
    pub fn within(self, area: Rect) -> Option<(f64, f64)> {
        let way = self.vector();
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (start, step, low, high) in [
            (self.a.x, way.x, area.min.x, area.max.x),
            (self.a.y, way.y, area.min.y, area.max.y),
        ] {
            if step == 0.0 {
                if start < low || start > high {
                    return None;
                }
                continue;
            }
            let (enter, leave) = ((low - start) / step, (high - start) / step);
            from = from.max(enter.min(leave));
            to = to.min(enter.max(leave));
        }
        (from <= to).then_some((from, to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(ax: f64, ay: f64, bx: f64, by: f64) -> Segment {
        Segment::new(Point::new(ax, ay), Point::new(bx, by))
    }

    #[test]
    fn distance_counts_from_the_nearest_place() {
        let s = piece(0.0, 0.0, 10.0, 0.0);
        assert_eq!(s.distance(Point::new(4.0, 3.0)), 3.0);
        assert_eq!(s.distance(Point::new(13.0, 4.0)), 5.0);
        assert_eq!(piece(1.0, 1.0, 1.0, 1.0).distance(Point::new(4.0, 5.0)), 5.0);
    }

    #[test]
    fn crossing_gives_the_fraction_along_each() {
        let (s, t) = piece(0.0, 0.0, 10.0, 0.0).crossing(piece(4.0, -1.0, 4.0, 3.0)).unwrap();
        assert!((s - 0.4).abs() < 1e-12 && (t - 0.25).abs() < 1e-12);
        assert_eq!(piece(0.0, 0.0, 1.0, 0.0).crossing(piece(4.0, -1.0, 4.0, 3.0)), None);
        assert_eq!(piece(0.0, 0.0, 9.0, 0.0).crossing(piece(2.0, 0.0, 4.0, 0.0)), None);
    }

    #[test]
    fn pieces_on_one_line_have_no_gap() {
        assert_eq!(piece(0.0, 0.0, 9.0, 0.0).gap(piece(2.0, 0.0, 4.0, 0.0)), 0.0);
        assert_eq!(piece(0.0, 0.0, 9.0, 0.0).gap(piece(12.0, 4.0, 12.0, 9.0)), 5.0);
    }

    #[test]
    fn what_lies_within_a_box_ends_at_its_edges() {
        let area = Rect::new(Point::new(0.0, 0.0), Point::new(10.0, 10.0));
        assert_eq!(piece(-5.0, 5.0, 15.0, 5.0).within(area), Some((0.25, 0.75)));
        assert_eq!(piece(15.0, 5.0, 5.0, 5.0).within(area), Some((0.5, 1.0)));
        assert_eq!(piece(2.0, 2.0, 8.0, 3.0).within(area), Some((0.0, 1.0)));
        assert_eq!(piece(-5.0, 11.0, 15.0, 11.0).within(area), None);
        assert_eq!(piece(-5.0, 0.0, 5.0, 22.0).within(area), None, "past the corner");
        assert_eq!(piece(4.0, 4.0, 4.0, 4.0).within(area), Some((0.0, 1.0)), "a place");
    }
}

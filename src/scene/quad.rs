//! A box that may lie aslant: the room that a word or a symbol takes on paper, and whether two of them touch.
//!
//! Exact for convex corners in order, which every affine image of a rectangle has. Small and without allocation:
//! label placement asks it millions of times.

use super::affine::Affine;
use super::geometry::{Point, Rect, Vector};
use super::segment::Segment;

/// Four corners of a convex shape, in order around it, mm. It may be flat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quad(pub [Point; 4]);

impl Quad {
    /// The image of an upright box.
    pub fn of(rect: Rect, at: Affine) -> Self {
        Self(rect.corners().map(|p| at.point(p)))
    }

    /// The strip along a straight piece, `width` mm wide and cut square at its ends.
    pub fn strip(along: Segment, width: f64) -> Self {
        let side = along.vector().unit().unwrap_or_default().turned() * (width / 2.0);
        Self([along.a - side, along.b - side, along.b + side, along.a + side])
    }

    /// The upright box around it.
    pub fn bounds(&self) -> Rect {
        let [a, b, c, d] = self.0;
        Rect::new(a, b).with(c).with(d)
    }

    /// The middle of the corners.
    pub fn center(&self) -> Point {
        let [a, b, c, d] = self.0;
        a.midway(c).midway(b.midway(d))
    }

    /// The four edges.
    pub fn edges(&self) -> [Segment; 4] {
        let [a, b, c, d] = self.0;
        [
            Segment::new(a, b),
            Segment::new(b, c),
            Segment::new(c, d),
            Segment::new(d, a),
        ]
    }

    /// Whether the two share more than an edge (separating axes).
    pub fn overlaps(&self, other: &Quad) -> bool {
        self.bounds().overlaps(other.bounds()) && !self.parts(&other.0) && !other.parts(&self.0)
    }

    /// Whether a line as thick as `width` mm, with round ends, comes into it.
    pub fn overlaps_segment(&self, line: Segment, width: f64) -> bool {
        let reach = width.max(0.0) / 2.0;
        let (own, its) = (self.bounds().grown(reach), line.bounds());
        let near = own.min.x <= its.max.x && its.min.x <= own.max.x && own.min.y <= its.max.y && its.min.y <= own.max.y;
        near && (self.contains(line.a) || self.edges().iter().any(|edge| edge.gap(line) < reach.max(1e-9)))
    }

    /// Whether the point lies inside or on the edge.
    pub fn contains(&self, point: Point) -> bool {
        let turns = self.edges().map(|edge| edge.vector().cross(point - edge.a));
        (turns.iter().all(|t| *t >= 0.0) || turns.iter().all(|t| *t <= 0.0)) && self.bounds().contains(point)
    }

    /// The distance to a point in mm; zero inside.
    pub fn distance(&self, point: Point) -> f64 {
        if self.contains(point) {
            return 0.0;
        }
        self.edges()
            .iter()
            .map(|edge| edge.distance(point))
            .fold(f64::INFINITY, f64::min)
    }

    /// The clear distance to another in mm; zero when they touch.
    pub fn gap(&self, other: &Quad) -> f64 {
        if self.overlaps(other) {
            return 0.0;
        }
        let to_theirs = other.0.iter().map(|p| self.distance(*p));
        let to_ours = self.0.iter().map(|p| other.distance(*p));
        to_theirs.chain(to_ours).fold(f64::INFINITY, f64::min)
    }

    /// The clear distance to a straight piece in mm; zero when they touch.
    pub fn gap_to_segment(&self, line: Segment) -> f64 {
        if self.contains(line.a) {
            return 0.0;
        }
        self.edges()
            .iter()
            .map(|edge| edge.gap(line))
            .fold(f64::INFINITY, f64::min)
    }

    /// The shape with every edge moved out by `margin` mm; a flat one stays as it is.
    pub fn grown(&self, margin: f64) -> Self {
        let [a, b, c, d] = self.0;
        let out = |before: Point, corner: Point, after: Point| {
            let (Some(u), Some(v)) = ((corner - before).unit(), (corner - after).unit()) else {
                return corner;
            };
            let sine = u.cross(v).abs();
            if sine < 1e-9 {
                corner
            } else {
                corner + (u + v) * (margin / sine)
            }
        };
        Self([out(d, a, b), out(a, b, c), out(b, c, d), out(c, d, a)])
    }

    /// Whether one of this shape's edges has all of `theirs` on its outer side.
    fn parts(&self, theirs: &[Point; 4]) -> bool {
        (0..4).any(|edge| self.side(edge).parts(theirs))
    }

    fn side(&self, edge: usize) -> Side {
        let (from, to) = (self.0[edge], self.0[(edge + 1) % 4]);
        let normal = (to - from).turned();
        let (mut low, mut high) = span(&self.0, from, normal);
        // An edge without length parts nothing.
        if normal == Vector::default() {
            (low, high) = (f64::NEG_INFINITY, f64::INFINITY);
        }
        let slack = 1e-9 * (normal.x.abs() + normal.y.abs());
        Side {
            from,
            normal,
            slack,
            low: low + slack,
            high,
        }
    }

    /// The same shape, to be tested against many others.
    pub fn tested(&self) -> Tested {
        Tested {
            quad: *self,
            bounds: self.bounds(),
            sides: [0, 1, 2, 3].map(|edge| self.side(edge)),
        }
    }
}

/// The way across an edge of a shape, and how far the shape reaches along it.
#[derive(Clone, Copy, Debug)]
struct Side {
    from: Point,
    normal: Vector,
    slack: f64,
    /// The lower end, and the slack above it.
    low: f64,
    high: f64,
}

impl Side {
    fn parts(&self, theirs: &[Point; 4]) -> bool {
        let (low, high) = span(theirs, self.from, self.normal);
        self.high <= low + self.slack || high <= self.low
    }
}

/// A shape that is tested against many others: what all these tests have in common is worked out once.
#[derive(Clone, Copy, Debug)]
pub struct Tested {
    quad: Quad,
    bounds: Rect,
    sides: [Side; 4],
}

impl Tested {
    /// The same as [`Quad::overlaps`].
    pub fn overlaps(&self, other: &Tested) -> bool {
        self.bounds.overlaps(other.bounds) && !self.parts(&other.quad) && !other.parts(&self.quad)
    }

    /// The shape itself.
    pub const fn quad(&self) -> &Quad {
        &self.quad
    }

    /// The upright box around it.
    pub const fn bounds(&self) -> Rect {
        self.bounds
    }

    fn parts(&self, other: &Quad) -> bool {
        self.sides.iter().any(|side| side.parts(&other.0))
    }
}

fn span(points: &[Point; 4], from: Point, along: Vector) -> (f64, f64) {
    let [a, b, c, d] = points.map(|p| (p - from).dot(along));
    (a.min(b).min(c.min(d)), a.max(b).max(c.max(d)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64, degrees: f64) -> Quad {
        let half = side / 2.0;
        let rect = Rect::new(Point::new(-half, -half), Point::new(half, half));
        Quad::of(rect, Affine::turn(degrees).then(Affine::to(Point::new(x, y))))
    }

    #[test]
    fn slanted_boxes_overlap_only_where_they_share_paper() {
        let diamond = square(0.0, 0.0, 2.0, 45.0);
        assert!(
            !diamond.overlaps(&square(1.6, 1.6, 1.0, 0.0)),
            "the upright boxes overlap, the shapes do not"
        );
        assert!(diamond.overlaps(&square(1.0, 1.0, 1.0, 0.0)));
        assert!(!square(0.0, 0.0, 2.0, 30.0).overlaps(&square(9.0, 0.0, 2.0, 0.0)));
        assert!(
            square(0.0, 0.0, 9.0, 30.0).overlaps(&square(0.0, 0.0, 1.0, 10.0)),
            "one inside the other"
        );
    }

    #[test]
    fn a_shape_that_is_tested_against_many_overlaps_the_same() {
        let mut shapes: Vec<Quad> = (0..240)
            .map(|n| {
                let n = f64::from(n);
                square(n * 3.7 % 11.0, n * 5.3 % 7.0, 0.4 + n % 3.0, n * 30.0)
            })
            .collect();
        shapes.push(Quad([Point::new(1.0, 1.0); 4]));
        shapes.push(Quad::strip(
            Segment::new(Point::new(0.0, 3.0), Point::new(9.0, 3.0)),
            0.0,
        ));
        let mut both = 0;
        for one in &shapes {
            let tested = one.tested();
            for other in &shapes {
                assert_eq!(
                    tested.overlaps(&other.tested()),
                    one.overlaps(other),
                    "{one:?} {other:?}"
                );
                both += usize::from(one.overlaps(other));
            }
        }
        assert!(both > 1_000 && both < shapes.len() * shapes.len() / 2, "{both}");
    }

    #[test]
    fn a_shared_edge_is_no_overlap_and_no_gap() {
        let (a, b) = (square(0.0, 0.0, 2.0, 0.0), square(2.0, 0.0, 2.0, 0.0));
        assert!(!a.overlaps(&b));
        assert_eq!(a.gap(&b), 0.0);
        assert!((a.gap(&square(5.0, 6.0, 2.0, 0.0)) - 5.0).abs() < 1e-9);
    }

    #[test]
    fn a_thick_line_reaches_half_its_width() {
        let a = square(0.0, 0.0, 2.0, 0.0);
        let line = Segment::new(Point::new(-9.0, 1.5), Point::new(9.0, 1.5));
        assert!(!a.overlaps_segment(line, 0.9));
        assert!(a.overlaps_segment(line, 1.1));
        let inside = Segment::new(Point::new(0.1, 0.1), Point::new(0.2, 0.2));
        assert!(a.overlaps_segment(inside, 0.1));
        assert!(
            a.overlaps_segment(Segment::new(Point::new(-9.0, 0.0), Point::new(9.0, 0.0)), 0.0),
            "right through"
        );
        let past_the_corner = Segment::new(Point::new(1.5, 1.5), Point::new(3.0, 3.0));
        assert!(
            !a.overlaps_segment(past_the_corner, 1.3),
            "round end, 0.707 from the corner"
        );
        assert!(a.overlaps_segment(past_the_corner, 1.5));
    }

    #[test]
    fn a_grown_box_keeps_its_slant_and_gains_the_margin() {
        let slanted = square(3.0, 4.0, 2.0, 30.0);
        let (grown, wanted) = (slanted.grown(0.5), square(3.0, 4.0, 3.0, 30.0));
        for (found, wanted) in grown.0.iter().zip(wanted.0) {
            assert!(found.distance(wanted) < 1e-9);
        }
    }

    #[test]
    fn a_strip_and_a_mirrored_box_behave_like_any_other() {
        let strip = Quad::strip(Segment::new(Point::new(0.0, 0.0), Point::new(10.0, 0.0)), 2.0);
        assert!(strip.contains(Point::new(5.0, 0.9)) && !strip.contains(Point::new(5.0, 1.1)));
        let mirrored = Quad([strip.0[3], strip.0[2], strip.0[1], strip.0[0]]);
        assert!(mirrored.contains(Point::new(5.0, 0.9)) && mirrored.overlaps(&strip));
    }
}

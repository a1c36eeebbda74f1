//! The shape of a path: moves, lines and curves, in mm. How it is inked lives in `item`.

use super::affine::Affine;
use super::geometry::{Point, Rect, Vector};
use super::segment::Segment;

/// One step of the pen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Lift the pen and set it down here.
    Move(Point),
    /// A straight line to here.
    Line(Point),
    /// A parabola: its control point, its end.
    Quad(Point, Point),
    /// A cubic curve: its two control points, its end.
    Cubic(Point, Point, Point),
    /// Straight back to the last move.
    Close,
}

impl Step {
    /// The place of the pen at a share of a step that begins at `from`; a lifted pen stays, and so does one that closes,
    /// which knows nothing of the last move.
    pub fn at(self, from: Point, share: f64) -> Point {
        match self {
            Step::Move(_) | Step::Close => from,
            Step::Line(to) => from.toward(to, share),
            Step::Quad(control, to) => from.toward(control, share).toward(control.toward(to, share), share),
            Step::Cubic(first, second, to) => {
                let middle = first.toward(second, share);
                let (start, end) = (from.toward(first, share), second.toward(to, share));
                start.toward(middle, share).toward(middle.toward(end, share), share)
            }
        }
    }
}

/// A shape as steps of the pen. Filled by the non-zero winding rule.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outline {
    steps: Vec<Step>,
}

/// Chords that stand for one curve where a curve is measured.
const CHORDS: u32 = 16;

impl Outline {
    /// A shape without steps.
    pub const fn new() -> Self {
        Self { steps: Vec::new() }
    }

    /// A straight line.
    pub fn line(from: Point, to: Point) -> Self {
        Self::polyline([from, to])
    }

    /// An open chain of straight lines.
    pub fn polyline(points: impl IntoIterator<Item = Point>) -> Self {
        let mut points = points.into_iter();
        let steps = points
            .next()
            .map(Step::Move)
            .into_iter()
            .chain(points.map(Step::Line))
            .collect();
        Self { steps }
    }

    /// A closed chain of straight lines.
    pub fn polygon(points: impl IntoIterator<Item = Point>) -> Self {
        Self::polyline(points).close()
    }

    /// The edge of an upright box, clockwise.
    pub fn rect(rect: Rect) -> Self {
        Self::polygon(rect.corners())
    }

    /// A circle of `radius` mm, clockwise, as four curves (within 0.03 % of the radius).
    pub fn circle(center: Point, radius: f64) -> Self {
        Self::arc(center, radius, 0.0, 360.0).close()
    }

    /// A part of a circle of `radius` mm: begins at `start` degrees (0 to the right, 90 down, clockwise as seen on
    /// paper) and goes through `sweep` degrees (negative: counter-clockwise; at most a full turn).
    pub fn arc(center: Point, radius: f64, start: f64, sweep: f64) -> Self {
        let sweep = sweep.clamp(-360.0, 360.0).to_radians();
        let pieces = (sweep.abs() / std::f64::consts::FRAC_PI_2 - 1e-9)
            .ceil()
            .clamp(1.0, 4.0);
        let angle = sweep / pieces;
        let handle = radius * 4.0 / 3.0 * libm::tan(angle / 4.0);
        let on = |a: f64| Vector::new(libm::cos(a), libm::sin(a));
        let mut from = on(start.to_radians());
        let mut outline = Self::new().to(center + from * radius);
        for piece in 1..=pieces as u32 {
            let to = on(start.to_radians() + angle * f64::from(piece));
            let (a, b) = (center + from * radius, center + to * radius);
            outline = outline.cubic(a + from.turned() * handle, b - to.turned() * handle, b);
            from = to;
        }
        outline
    }

    /// Then lift the pen and go to a point.
    pub fn to(mut self, point: Point) -> Self {
        self.push(Step::Move(point));
        self
    }

    /// Then a straight line to a point.
    pub fn line_to(mut self, point: Point) -> Self {
        self.push(Step::Line(point));
        self
    }

    /// Then a cubic curve over two control points.
    pub fn cubic(mut self, first: Point, second: Point, end: Point) -> Self {
        self.push(Step::Cubic(first, second, end));
        self
    }

    /// Then straight back to the last move.
    pub fn close(mut self) -> Self {
        self.push(Step::Close);
        self
    }

    /// Adds a step. A step that has no start begins where it would end, and closing nothing is nothing, so that every
    /// part of an outline begins with a move.
    pub fn push(&mut self, step: Step) {
        let is_down = !matches!(self.steps.last(), None | Some(Step::Close));
        match step {
            Step::Move(_) => self.steps.push(step),
            Step::Line(end) | Step::Quad(_, end) | Step::Cubic(_, _, end) => {
                if !is_down {
                    self.steps.push(Step::Move(end));
                }
                self.steps.push(step);
            }
            Step::Close if is_down => self.steps.push(step),
            Step::Close => {}
        }
    }

    /// Adds another shape after this one, as one path.
    pub fn extend(&mut self, other: &Outline) {
        self.steps.extend_from_slice(&other.steps);
    }

    /// The steps in order; every part begins with a move.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// Whether there is nothing to draw.
    pub fn is_empty(&self) -> bool {
        self.steps.is_empty()
    }

    /// Whether every point is drawable.
    pub fn is_drawable(&self) -> bool {
        let mut is_drawable = true;
        self.points(|p| is_drawable &= p.is_drawable());
        is_drawable
    }

    /// The shape carried by a transform.
    pub fn map(&self, at: Affine) -> Self {
        let steps = self.steps.iter().map(|step| match *step {
            Step::Move(p) => Step::Move(at.point(p)),
            Step::Line(p) => Step::Line(at.point(p)),
            Step::Quad(c, p) => Step::Quad(at.point(c), at.point(p)),
            Step::Cubic(c, d, p) => Step::Cubic(at.point(c), at.point(d), at.point(p)),
            Step::Close => Step::Close,
        });
        Self { steps: steps.collect() }
    }

    /// The box around all points, control points too: never too small; `None` for an empty shape.
    pub fn bounds(&self) -> Option<Rect> {
        let mut bounds: Option<Rect> = None;
        self.points(|p| bounds = Some(bounds.map_or(Rect { min: p, max: p }, |b| b.with(p))));
        bounds
    }

    /// Calls back with every straight piece; a curve comes as 16 chords.
    pub fn flatten(&self, mut each: impl FnMut(Segment)) {
        let (mut start, mut here) = (Point::default(), Point::default());
        for step in &self.steps {
            match *step {
                Step::Move(p) => {
                    start = p;
                    here = p;
                }
                Step::Line(p) => {
                    each(Segment::new(here, p));
                    here = p;
                }
                Step::Quad(..) | Step::Cubic(..) => {
                    let from = here;
                    here = chords(from, |t| step.at(from, t), &mut each);
                }
                Step::Close => {
                    each(Segment::new(here, start));
                    here = start;
                }
            }
        }
    }

    /// The distance from a point to the line itself in mm; `None` for an empty shape.
    pub fn distance(&self, point: Point) -> Option<f64> {
        let mut nearest: Option<f64> = None;
        self.flatten(|piece| {
            let distance = piece.distance(point);
            nearest = Some(nearest.map_or(distance, |n| n.min(distance)));
        });
        nearest
    }

    /// Whether a point lies in the filled shape.
    pub fn contains(&self, point: Point) -> bool {
        let (mut winding, mut start, mut here) = (0i32, None, Point::default());
        let mut count = |piece: Segment| {
            let is_left = piece.vector().cross(point - piece.a) > 0.0;
            if piece.a.y <= point.y && piece.b.y > point.y && is_left {
                winding += 1;
            } else if piece.b.y <= point.y && piece.a.y > point.y && !is_left {
                winding -= 1;
            }
        };
        // A part left open is filled as if it were closed.
        self.flatten(|piece| {
            if start.is_none() || piece.a != here {
                if let Some(start) = start {
                    count(Segment::new(here, start));
                }
                start = Some(piece.a);
            }
            count(piece);
            here = piece.b;
        });
        if let Some(start) = start {
            count(Segment::new(here, start));
        }
        winding != 0
    }

    /// Calls back with every point, control points too.
    fn points(&self, mut each: impl FnMut(Point)) {
        for step in &self.steps {
            match *step {
                Step::Move(p) | Step::Line(p) => each(p),
                Step::Quad(c, p) => [c, p].into_iter().for_each(&mut each),
                Step::Cubic(c, d, p) => [c, d, p].into_iter().for_each(&mut each),
                Step::Close => {}
            }
        }
    }
}

fn chords(from: Point, at: impl Fn(f64) -> Point, each: &mut impl FnMut(Segment)) -> Point {
    let mut here = from;
    for chord in 1..=CHORDS {
        let next = at(f64::from(chord) / f64::from(CHORDS));
        each(Segment::new(here, next));
        here = next;
    }
    here
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_begins_with_a_move() {
        let p = Point::new(1.0, 2.0);
        assert_eq!(Outline::new().line_to(p).steps(), [Step::Move(p), Step::Line(p)]);
        assert!(Outline::new().close().is_empty());
        let twice = Outline::polygon([p, Point::new(3.0, 2.0)]).line_to(p);
        assert_eq!(twice.steps()[3], Step::Move(p));
    }

    #[test]
    fn a_circle_stays_at_its_radius() {
        let center = Point::new(10.0, 20.0);
        let mut chords = 0;
        Outline::circle(center, 5.0).flatten(|piece| {
            chords += 1;
            assert!((piece.a.distance(center) - 5.0).abs() < 0.0015, "0.03 % of the radius");
        });
        assert_eq!(chords, 65, "four curves and the closing step");
        let bounds = Outline::circle(center, 5.0).bounds().unwrap();
        assert!((bounds.width() - 10.0).abs() < 1e-9 && (bounds.min.x - 5.0).abs() < 1e-9);
    }

    #[test]
    fn an_arc_ends_where_its_sweep_says() {
        let arc = Outline::arc(Point::default(), 2.0, 90.0, -90.0);
        let Some(Step::Cubic(_, _, end)) = arc.steps().last() else {
            panic!("an arc is curves")
        };
        assert!(end.distance(Point::new(2.0, 0.0)) < 1e-9);
        assert_eq!(arc.steps().len(), 2);
    }

    #[test]
    fn inside_and_outside_are_told_apart() {
        let ring = {
            let mut ring = Outline::circle(Point::default(), 5.0);
            ring.extend(&Outline::arc(Point::default(), 3.0, 0.0, -360.0));
            ring
        };
        assert!(ring.contains(Point::new(4.0, 0.3)));
        assert!(
            !ring.contains(Point::new(1.0, 0.3)),
            "the hole runs the other way round"
        );
        assert!(!ring.contains(Point::new(6.0, 0.3)));
        let open = Outline::polyline([Point::new(0.0, 0.0), Point::new(4.0, 0.0), Point::new(4.0, 4.0)]);
        assert!(open.contains(Point::new(3.0, 1.0)), "closed for filling");
    }

    #[test]
    fn one_bad_point_makes_the_shape_undrawable() {
        let good = Outline::line(Point::default(), Point::new(1.0, 1.0));
        assert!(good.is_drawable());
        assert!(!good.line_to(Point::new(f64::NAN, 0.0)).is_drawable());
    }
}

//! Helper planes of skew runs (ISO 6412-2): a thin hatched triangle for one deviation, a box of two triangles for a
//! rolling offset. Hatching is upright for a vertical offset and along a horizontal axis for a horizontal one.

use super::layout::{Layout, Leg};
use crate::job::{Direction, LatticePoint};
use crate::scene::{Group, Outline, PathItem, Pen, Point, Quad, Segment, Stroke};

const HATCH: f64 = 2.4;

/// The helper plane of a skew leg and the rooms of its triangles; `None` for a square one.
pub fn helper(layout: &Layout<'_>, leg: &Leg) -> Option<(Group, Vec<Quad>)> {
    let way = leg.way;
    if way.is_zero() || way.axis().is_some() {
        return None;
    }
    let start = layout.job.joints.at(leg.from).at;
    let corner = |east, north, up| layout.projection.point(start + Direction::new(east, north, up));
    let (a, end) = (corner(0, 0, 0), corner(way.east, way.north, way.up));
    let mut group = Group::new();
    let mut rooms = Vec::new();
    let mut triangle = |from: Point, foot: Point, top: Point| {
        let (hatch, legs) = hatch(from, foot, top);
        // Its corner may lie beyond the window of a part though the run does not.
        let is_whole = |(from, to)| {
            let line = Segment::new(from, to);
            layout.seen_of_plane(line) == Some(line)
        };
        let is_cut = leg.is_cut() || ![(from, foot), (foot, top)].into_iter().all(is_whole);
        let [hatch, legs] = [hatch, legs].map(|drawn| if is_cut { seen(layout, &drawn) } else { drawn });
        group.push(inked(hatch, legs));
        // A triangle as a flat-cornered box does not grow evenly: its edges come too.
        rooms.push(Quad([from, foot, top, top]));
        for (a, b) in [(from, foot), (foot, top), (top, from)] {
            rooms.push(Quad::strip(Segment::new(a, b), Pen::Thin.mm()));
        }
    };
    if way.east != 0 && way.north != 0 {
        let (foot, base) = (corner(way.east, 0, 0), corner(way.east, way.north, 0));
        triangle(a, foot, base);
        if way.up != 0 {
            triangle(a, base, end);
        }
    } else {
        triangle(a, corner(way.east, way.north, 0), end);
    }
    Some((group, rooms))
}

/// The corners of the helper plane of a way from a place, its ends left out; of a square way its ends.
pub fn corners(from: LatticePoint, way: Direction) -> [LatticePoint; 2] {
    [
        from + Direction::new(way.east, 0, 0),
        from + Direction::new(way.east, way.north, 0),
    ]
}

/// The angle of a skew way from the horizontal axis that it follows, and of its rise from the horizontal, where each
/// deviates; degrees.
pub fn angles(way: Direction) -> Vec<f64> {
    let (east, north, up) = (f64::from(way.east), f64::from(way.north), f64::from(way.up));
    let mut angles = Vec::new();
    if east != 0.0 && north != 0.0 {
        let (long, short) = (east.abs().max(north.abs()), east.abs().min(north.abs()));
        angles.push(libm::atan2(short, long).to_degrees());
    }
    if up != 0.0 && (east != 0.0 || north != 0.0) {
        angles.push(libm::atan2(up.abs(), libm::hypot(east, north)).to_degrees());
    }
    angles
}

/// A triangle with its right angle at `foot`, hatched along the side from `foot` to `top`.
pub fn hatched(from: Point, foot: Point, top: Point) -> Group {
    let (hatch, legs) = hatch(from, foot, top);
    inked(hatch, legs)
}

/// The hatching of such a triangle, and its legs.
fn hatch(from: Point, foot: Point, top: Point) -> (Outline, Outline) {
    let mut hatch = Outline::new();
    // A length that is a whole number of spacings has that many, whatever its last digit.
    let count = (from.distance(foot) / HATCH + 1e-9).floor().min(500.0);
    for number in 1..count as u32 {
        let t = f64::from(number) / count;
        hatch.extend(&Outline::line(from.toward(foot, t), from.toward(top, t)));
    }
    (hatch, Outline::polyline([from, foot, top]))
}

/// What a part of a drawing shows of lines.
fn seen(layout: &Layout<'_>, lines: &Outline) -> Outline {
    let mut seen = Outline::new();
    lines.flatten(|line| {
        if let Some(line) = layout.seen_of_plane(line) {
            seen.extend(&Outline::line(line.a, line.b));
        }
    });
    seen
}

fn inked(hatch: Outline, legs: Outline) -> Group {
    Group::new()
        .with(PathItem::stroked(hatch, Stroke::new(Pen::Thin)))
        .with(PathItem::stroked(legs, Stroke::new(Pen::Thin)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(way: Direction, expected: &[f64]) {
        let found = angles(way);
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 0.01, "{found} is not {expected}");
        }
    }

    #[test]
    fn a_skew_way_has_one_angle_for_each_deviation() {
        check(Direction::new(3, 3, 0), &[45.0]);
        check(Direction::new(0, -2, 2), &[45.0]);
        check(Direction::new(1, 0, 2), &[63.435]);
        check(Direction::new(3, 4, 5), &[36.870, 45.0]);
        check(Direction::new(0, 4, 0), &[]);
    }
}

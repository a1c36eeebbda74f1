//! From the lattice to paper: the isometric projection, and which of two places is nearer to the viewer.
//!
//! East goes down to the right at 30°, north up to the right at 30°, up straight up, all at one scale (ISO 5456-3). The
//! viewer stands to the south-east and above, so of two places that fall on one point of paper the nearer one lies
//! farther east, farther south or higher.

use crate::job::{Axis, Direction, LatticePoint};
use crate::scene::{Point, Rect, Vector};

/// Cosine and sine of 30°.
const RIGHT: f64 = 0.866_025_403_784_438_6;
const DOWN: f64 = 0.5;

/// One mm along an axis, as it falls on paper.
pub const fn axis(axis: Axis) -> Vector {
    match axis {
        Axis::East => Vector::new(RIGHT, DOWN),
        Axis::North => Vector::new(RIGHT, -DOWN),
        Axis::Up => Vector::new(0.0, -1.0),
    }
}

/// Where the lattice lies on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Projection {
    /// Where the lattice's zero falls.
    pub origin: Point,
    /// Paper mm of one lattice step along any axis.
    pub step: f64,
}

impl Projection {
    /// The place of a lattice point on paper.
    pub fn point(&self, at: LatticePoint) -> Point {
        self.origin + flat(f64::from(at.east), f64::from(at.north), f64::from(at.up)) * self.step
    }

    /// The displacement on paper of a way on the lattice.
    pub fn vector(&self, way: Direction) -> Vector {
        flat(f64::from(way.east), f64::from(way.north), f64::from(way.up)) * self.step
    }

    /// The lattice at one mm for a step, its zero at the paper's: as other scales are told from it.
    pub const UNIT: Projection = Projection {
        origin: Point::new(0.0, 0.0),
        step: 1.0,
    };

    /// Where a place on the unit's paper falls.
    pub fn of_unit(&self, place: Point) -> Point {
        self.origin + (place - Point::default()) * self.step
    }

    /// Where a place on paper falls on the unit's.
    pub fn to_unit(&self, place: Point) -> Point {
        Point::default() + (place - self.origin) * (1.0 / self.step)
    }

    /// The projection that brings all places into `area`, in its middle, one step not larger than `largest` mm.
    pub fn fit(places: impl Iterator<Item = LatticePoint>, area: Rect, largest: f64) -> Projection {
        match Rect::around(places.map(|at| Projection::UNIT.point(at))) {
            Some(bounds) => Projection::fit_bounds(bounds, area, largest),
            None => Projection {
                origin: area.center(),
                step: largest,
            },
        }
    }

    /// The same for a box on the unit's paper.
    pub fn fit_bounds(bounds: Rect, area: Rect, largest: f64) -> Projection {
        let across = area.width().max(1.0) / bounds.width().max(1e-9);
        let along = area.height().max(1.0) / bounds.height().max(1e-9);
        let step = largest.min(across).min(along);
        Projection {
            origin: area.center() - (bounds.center() - Point::default()) * step,
            step,
        }
    }
}

/// How near to the viewer a place is, in lattice steps times √3: the larger the nearer.
pub fn nearness(at: LatticePoint) -> f64 {
    f64::from(at.east) - f64::from(at.north) + f64::from(at.up)
}

fn flat(east: f64, north: f64, up: f64) -> Vector {
    Vector::new((east + north) * RIGHT, (east - north) * DOWN - up)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEN: Projection = Projection {
        origin: Point::new(100.0, 80.0),
        step: 10.0,
    };

    #[test]
    fn the_three_axes_are_equally_long_and_120_degrees_apart() {
        let [east, north, up] = [Axis::East, Axis::North, Axis::Up].map(axis);
        for (a, b) in [(east, -north), (-north, up), (up, east)] {
            assert!((a.length() - 1.0).abs() < 1e-12);
            assert!((a.dot(b) + 0.5).abs() < 1e-12, "cos 120°");
        }
        assert!(east.y > 0.0 && north.y < 0.0 && up.y < 0.0, "paper counts downward");
    }

    #[test]
    fn places_on_one_sight_line_fall_together_and_the_south_eastern_upper_one_is_nearer() {
        let (far, near) = (LatticePoint::new(2, 5, 1), LatticePoint::new(5, 2, 4));
        assert!(TEN.point(far).distance(TEN.point(near)) < 1e-9);
        assert!(nearness(near) > nearness(far));
    }

    #[test]
    fn fitting_keeps_everything_inside_and_never_draws_a_step_too_large() {
        let area = Rect::new(Point::new(10.0, 10.0), Point::new(210.0, 110.0));
        let places = [
            LatticePoint::new(0, 0, 0),
            LatticePoint::new(40, 3, 0),
            LatticePoint::new(0, 25, 9),
        ];
        let fit = Projection::fit(places.into_iter(), area, 12.0);
        assert!(places.iter().all(|at| area.grown(1e-9).contains(fit.point(*at))));
        let small = Projection::fit([LatticePoint::new(7, 7, 7)].into_iter(), area, 12.0);
        assert_eq!(small.step, 12.0);
        assert!(small.point(LatticePoint::new(7, 7, 7)).distance(area.center()) < 1e-9);
        let worst = [
            LatticePoint::new(i32::MAX, i32::MIN, 0),
            LatticePoint::new(i32::MIN, 0, i32::MAX),
        ];
        let fit = Projection::fit(worst.into_iter(), area, 12.0);
        assert!(worst.iter().all(|at| area.grown(1e-3).contains(fit.point(*at))));
    }
}

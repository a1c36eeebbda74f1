//! The integer lattice on which joints stand.

use std::ops::{Add, Neg, Sub};

/// A place on the lattice, in whole steps from the origin.
///
/// On paper `east` goes down to the right at 30°, `north` up to the right at 30°, and `up` straight up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LatticePoint {
    /// Steps along the axis that goes down to the right on paper.
    pub east: i32,
    /// Steps along the axis that goes up to the right on paper.
    pub north: i32,
    /// Steps up.
    pub up: i32,
}

impl LatticePoint {
    /// The place at these steps.
    pub const fn new(east: i32, north: i32, up: i32) -> LatticePoint {
        LatticePoint { east, north, up }
    }
}

impl Sub for LatticePoint {
    type Output = Direction;
    fn sub(self, other: LatticePoint) -> Direction {
        Direction {
            east: self.east.saturating_sub(other.east),
            north: self.north.saturating_sub(other.north),
            up: self.up.saturating_sub(other.up),
        }
    }
}

impl Add<Direction> for LatticePoint {
    type Output = LatticePoint;
    fn add(self, way: Direction) -> LatticePoint {
        LatticePoint {
            east: self.east.saturating_add(way.east),
            north: self.north.saturating_add(way.north),
            up: self.up.saturating_add(way.up),
        }
    }
}

/// One of the three axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Axis {
    /// East and west.
    East,
    /// North and south.
    North,
    /// Up and down.
    Up,
}

/// A way from one place of the lattice to another, in whole steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Direction {
    /// Steps east, negative for west.
    pub east: i32,
    /// Steps north, negative for south.
    pub north: i32,
    /// Steps up, negative for down.
    pub up: i32,
}

impl Direction {
    /// The way of these steps.
    pub const fn new(east: i32, north: i32, up: i32) -> Direction {
        Direction { east, north, up }
    }

    /// Straight distance in steps.
    pub fn steps(self) -> f64 {
        let [east, north, up] = [self.east, self.north, self.up].map(f64::from);
        (east * east + north * north + up * up).sqrt()
    }

    /// The axis along which a square run goes; `None` for a skew run and for no way at all.
    pub fn axis(self) -> Option<Axis> {
        match (self.east != 0, self.north != 0, self.up != 0) {
            (true, false, false) => Some(Axis::East),
            (false, true, false) => Some(Axis::North),
            (false, false, true) => Some(Axis::Up),
            _ => None,
        }
    }

    /// Whether this is no way at all.
    pub fn is_zero(self) -> bool {
        self == Direction::default()
    }

    /// A way square to this one.
    pub fn square(self) -> Direction {
        match (self.east, self.north) {
            (0, 0) => Direction::new(1, 0, 0),
            (east, north) => Direction::new(north.saturating_neg(), east, 0),
        }
    }

    /// Whether it goes the same way as another, or straight back.
    pub fn is_parallel_to(self, other: Direction) -> bool {
        let same = |p: i32, q: i32, r: i32, s: i32| i64::from(p) * i64::from(q) == i64::from(r) * i64::from(s);
        let (a, b) = (self, other);
        same(a.east, b.north, a.north, b.east) && same(a.north, b.up, a.up, b.north) && same(a.up, b.east, a.east, b.up)
    }

    /// The inner product of two ways, as far as 64 bits hold it.
    pub fn dot(self, other: Direction) -> i64 {
        (i64::from(self.east) * i64::from(other.east))
            .saturating_add(i64::from(self.north) * i64::from(other.north))
            .saturating_add(i64::from(self.up) * i64::from(other.up))
    }

    /// The angle between two ways in degrees, 0 to 180; `None` when either is no way at all.
    pub fn angle_to(self, other: Direction) -> Option<f64> {
        let size = self.steps() * other.steps();
        (size > 0.0).then(|| match self.dot(other) {
            // By far the commonest angle, asked at every tee.
            0 => 90.0,
            dot => libm::acos((dot as f64 / size).clamp(-1.0, 1.0)).to_degrees(),
        })
    }
}

impl Neg for Direction {
    type Output = Direction;
    fn neg(self) -> Direction {
        Direction {
            east: self.east.saturating_neg(),
            north: self.north.saturating_neg(),
            up: self.up.saturating_neg(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_run_has_an_axis_and_a_skew_one_has_none() {
        assert_eq!(Direction::new(0, -4, 0).axis(), Some(Axis::North));
        assert_eq!(Direction::new(2, 0, 2).axis(), None);
        assert_eq!(Direction::default().axis(), None);
    }

    #[test]
    fn angles_follow_plain_geometry() {
        let east = Direction::new(3, 0, 0);
        assert_eq!(east.angle_to(Direction::new(0, 0, 5)), Some(90.0));
        assert!((east.angle_to(Direction::new(2, 2, 0)).unwrap() - 45.0).abs() < 1e-9);
        assert_eq!(east.angle_to(-east), Some(180.0));
        assert_eq!(east.angle_to(Direction::default()), None);
        for way in [east, Direction::new(0, 0, -2), Direction::new(2, -1, 3)] {
            assert_eq!(way.angle_to(way.square()), Some(90.0), "{way:?}");
        }
    }
}

//! Offsets: a parallel shift of a line made by two turns, by plain geometry.

use crate::job::{Axis, Direction};
use crate::units::Length;

/// An offset as a pipe fitter reckons it, all lengths centre to centre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offset {
    /// The sloped length from centre to centre.
    pub travel: Length,
    /// The turn of each of its two fittings in degrees, over 0 and under 90.
    pub degrees: f64,
    /// What it uses along the line that it leaves.
    pub along: Length,
    /// How far it goes up or down; of an offset in a plumb line, how far east or west.
    pub rise: Length,
    /// How far it goes aside; of an offset in a plumb line, how far north or south.
    pub roll: Length,
}

impl Offset {
    /// The offset that a sloped length makes in a line along an axis; `None` where it is none: in line, or square to it.
    pub(super) fn of(travel: Length, way: Direction, line: Axis) -> Option<Offset> {
        let steps = way.steps();
        let part = |steps_of: i32| travel.times(f64::from(steps_of) / steps).magnitude();
        let (on, rise, roll) = match line {
            Axis::East => (way.east, way.up, way.north),
            Axis::North => (way.north, way.up, way.east),
            Axis::Up => (way.up, way.east, way.north),
        };
        let sloped = on != 0 && (rise != 0 || roll != 0) && travel > Length::ZERO;
        sloped.then(|| Offset {
            travel,
            degrees: (f64::from(on).abs() / steps).clamp(0.0, 1.0).acos().to_degrees(),
            along: part(on),
            rise: part(rise),
            roll: part(roll),
        })
    }

    /// The true offset: how far apart the two lines are.
    pub fn set(&self) -> Length {
        true_offset(self.rise, self.roll)
    }

    /// Whether it goes aside as well as up or down.
    pub fn is_rolling(&self) -> bool {
        self.rise != Length::ZERO && self.roll != Length::ZERO
    }
}

/// The true offset of a rolling one: the root of rise squared and roll squared.
pub fn true_offset(rise: Length, roll: Length) -> Length {
    Length::from_inches(rise.inches().hypot(roll.inches()))
}

/// The travel of an offset by its set: set over the sine of the turn.
pub fn travel(set: Length, degrees: f64) -> Length {
    Length::from_inches(set.inches() / degrees.to_radians().sin())
}

/// What an offset uses along its line: set over the tangent of the turn.
pub fn setback(set: Length, degrees: f64) -> Length {
    Length::from_inches(set.inches() / degrees.to_radians().tan())
}

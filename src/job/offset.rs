//! Offsets: a parallel shift of a line made by two turns, by plain geometry.

use super::{Axis, Direction};
use crate::units::{Angle, Length, Show, UnitSystem};

/// An offset as a pipe fitter reckons it, all lengths centre to centre, by the fittings that it is made with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offset {
    /// The sloped length from centre to centre.
    pub travel: Length,
    /// The turn of each of its two fittings in degrees, over 0 and up to 90: a stock elbow's, where one is near.
    pub degrees: f64,
    /// How it was found, by drawing or by measure.
    pub found: Found,
    /// What it uses along the line that it leaves: the run, or advance.
    pub along: Length,
    /// How far it goes up or down; of an offset in a plumb line, how far east or west.
    pub rise: Length,
    /// How far it goes aside; of an offset in a plumb line, how far north or south.
    pub roll: Length,
}

/// An offset as it was found, before its fittings were chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// In which way.
    pub by: FoundBy,
    /// Its turn in degrees.
    pub degrees: f64,
    /// Its travel.
    pub travel: Length,
}

/// How an offset was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoundBy {
    /// As the lattice has it.
    Drawing,
    /// As somebody measured it.
    Measure,
}

/// Turns of stock elbows in degrees: ASME B16.3 lists 45° and 90° (from memory).
const STOCK_TURNS: [f64; 2] = [45.0, 90.0];
/// A turn nearer than this to that of a stock elbow is made with it, in degrees; the tool's own choice.
const NEAR: f64 = 0.5;
/// Turns that differ by less are one, in degrees: half of what is printed.
const SAME: f64 = 0.005;

/// The turn of the stock elbow that a line is made with where it turns by so many degrees; `None` where none is near.
pub fn stock_turn(degrees: f64) -> Option<f64> {
    STOCK_TURNS.into_iter().find(|stock| (degrees - stock).abs() < NEAR)
}

/// Whether two turns in degrees are one.
pub fn same_turn(one: f64, other: f64) -> bool {
    (one - other).abs() < SAME
}

impl Offset {
    /// The offset of a rise and a roll that turns so far: the lines lie as far apart as they must, whatever elbow is used.
    pub fn of_set(rise: Length, roll: Length, by: FoundBy, degrees: f64) -> Offset {
        let made = stock_turn(degrees).unwrap_or(degrees);
        let set = true_offset(rise, roll);
        Offset {
            travel: travel(set, made),
            degrees: made,
            found: Found {
                by,
                degrees,
                travel: travel(set, degrees),
            },
            along: setback(set, made),
            rise,
            roll,
        }
    }

    /// The offset that a run makes in a line along an axis; `None` where it is none: in line, or square to it.
    ///
    /// A typed `length` is its travel, and what it is drawn as only tells how; else the drawing is to scale, of this `step`.
    pub fn drawn(way: Direction, line: Axis, step: Length, length: Option<Length>) -> Option<Offset> {
        let [on, rise, roll] = parts(way, line);
        let aside = libm::hypot(f64::from(rise), f64::from(roll));
        let degrees = libm::atan2(aside, f64::from(on).abs()).to_degrees();
        if on == 0 || aside == 0.0 || length.is_some_and(|length| length <= Length::ZERO) {
            return None;
        }
        let part = |steps: i32| match length {
            Some(length) => {
                let set = libm::sin(stock_turn(degrees).unwrap_or(degrees).to_radians());
                length.times(set * f64::from(steps).abs() / aside)
            }
            None => step.times(f64::from(steps).abs()),
        };
        let mut offset = Offset::of_set(part(rise), part(roll), FoundBy::Drawing, degrees);
        if let Some(length) = length {
            (offset.travel, offset.found.travel) = (length, length);
        }
        Some(offset)
    }

    /// The true offset: how far apart the two lines are.
    pub fn set(&self) -> Length {
        true_offset(self.rise, self.roll)
    }

    /// Whether it goes aside as well as up or down.
    pub fn is_rolling(&self) -> bool {
        self.rise != Length::ZERO && self.roll != Length::ZERO
    }

    /// Whether its fittings turn exactly as it is drawn or measured.
    pub fn is_as_found(&self) -> bool {
        same_turn(self.degrees, self.found.degrees)
    }

    /// In words: by what it turns, how it was found where that is otherwise, travel, set, and the run along its line.
    pub fn words(&self, units: UnitSystem) -> String {
        let turn = |degrees: f64| Angle::from_degrees(degrees).show(units);
        let found = match self.found.by {
            FoundBy::Drawing => "drawn",
            FoundBy::Measure => "measured",
        };
        let over = (self.travel - self.found.travel).show_fine(units);
        let differs = match over.trim_start_matches('-') {
            "0\"" | "0 mm" => String::new(),
            less if over.starts_with('-') => format!(", travel {less} shorter than {found}"),
            more => format!(", travel {more} longer than {found}"),
        };
        let otherwise = match self.is_as_found() {
            true => String::new(),
            false => format!(
                " ({found} at {}, made with fittings of {}{differs})",
                turn(self.found.degrees),
                turn(self.degrees)
            ),
        };
        let rolling = match self.is_rolling() {
            true => format!(" (rise {}, roll {})", self.rise.show(units), self.roll.show(units)),
            false => String::new(),
        };
        format!(
            "offset of {}{otherwise}, travel {}, set {}{rolling}, along the line {}",
            turn(self.degrees),
            self.travel.show(units),
            self.set().show(units),
            self.along.show(units)
        )
    }

    /// The way that it truly goes, drawn as `way` in a line along an axis, in steps so small that its angles are exact;
    /// `None` where it is not drawn aslant, or not to the sides to which it goes.
    pub fn way(&self, way: Direction, line: Axis) -> Option<Direction> {
        const FINE: f64 = 1e9;
        let drawn = parts(way, line);
        let made = [self.along, self.rise, self.roll].map(Length::inches);
        let is_drawn = |(steps, length): (i32, f64)| (steps != 0) == (length != 0.0);
        // Two 90s use nothing along the line, however they are drawn.
        if drawn[0] == 0 || !is_drawn((drawn[1], made[1])) || !is_drawn((drawn[2], made[2])) {
            return None;
        }
        let longest = made.into_iter().fold(0.0, f64::max);
        let steps = |at: usize| (made[at] / longest * FINE).round() as i32 * drawn[at].signum();
        Some(joined([0, 1, 2].map(steps), line))
    }
}

/// Steps along a line, up or down from it and aside; of a plumb line east or west, and north or south.
const fn parts(way: Direction, line: Axis) -> [i32; 3] {
    match line {
        Axis::East => [way.east, way.up, way.north],
        Axis::North => [way.north, way.up, way.east],
        Axis::Up => [way.up, way.east, way.north],
    }
}

/// The way of which these are the parts.
const fn joined([on, rise, roll]: [i32; 3], line: Axis) -> Direction {
    match line {
        Axis::East => Direction::new(on, roll, rise),
        Axis::North => Direction::new(roll, on, rise),
        Axis::Up => Direction::new(rise, roll, on),
    }
}

/// The true offset of a rolling one: the root of rise squared and roll squared.
pub fn true_offset(rise: Length, roll: Length) -> Length {
    Length::from_inches(libm::hypot(rise.inches(), roll.inches()))
}

/// The travel of an offset by its set: set over the sine of the turn.
pub fn travel(set: Length, degrees: f64) -> Length {
    Length::from_inches(set.inches() / libm::sin(degrees.to_radians()))
}

/// What an offset uses along its line: set over the tangent of the turn.
pub fn setback(set: Length, degrees: f64) -> Length {
    Length::from_inches(set.inches() / libm::tan(degrees.to_radians()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(length: Length, inches: f64) {
        assert!((length.inches() - inches).abs() < 1e-4, "{} in", length.inches());
    }

    #[test]
    fn a_turn_near_a_stock_one_is_made_with_it_and_still_told() {
        // 15 steps of 1/8 in along for 9 up and 12 aside would be 45° exactly; 11 aside is a little less.
        let step = Length::from_inches(1.0);
        let exact = Offset::drawn(Direction::new(15, 12, 9), Axis::East, step, None).unwrap();
        assert!(exact.is_as_found() && exact.degrees == 45.0);
        near(exact.travel, 15.0 * 2f64.sqrt());
        let way = Direction::new(283, 200, 200);
        let near_it = Offset::drawn(way, Axis::East, step, None).unwrap();
        // atan(282.8427 / 283) is 44.984°; the lines still lie 282.8427 in apart, which √2 times is 400 in.
        assert!(!near_it.is_as_found() && near_it.degrees == 45.0);
        assert!((near_it.found.degrees - 44.984).abs() < 5e-4, "{:?}", near_it.found);
        // √(283² + 2 × 200²) is 400.111 in as drawn, 3 1/2 thirty-seconds more.
        assert_eq!(
            near_it.words(UnitSystem::Us),
            "offset of 45° (drawn at 44.98°, made with fittings of 45°, travel 1/8\" shorter than drawn), travel 33'-4\", set 23'-6 13/16\" (rise 16'-8\", roll 16'-8\"), along the line 23'-6 13/16\""
        );
        near(near_it.travel, 400.0);
        near(near_it.along, 282.8427);
        // A typed length is the travel, whatever is drawn.
        let typed = Offset::drawn(way, Axis::East, step, Some(Length::from_inches(10.0))).unwrap();
        near(typed.travel, 10.0);
        near(typed.found.travel, 10.0);
        near(typed.set(), 7.0711);
        near(typed.rise, 5.0);
    }

    #[test]
    fn the_way_that_it_goes_lies_to_the_sides_to_which_it_is_drawn() {
        let [rise, roll] = [8.0, 12.0].map(Length::from_inches);
        let offset = Offset::of_set(rise, roll, FoundBy::Measure, 45.0);
        for (line, drawn) in [
            (Axis::East, Direction::new(-2, 1, 1)),
            (Axis::North, Direction::new(1, 2, -1)),
            (Axis::Up, Direction::new(-1, -1, -3)),
        ] {
            let way = offset.way(drawn, line).unwrap();
            let signs = |way: Direction| [way.east.signum(), way.north.signum(), way.up.signum()];
            assert_eq!(signs(way), signs(drawn));
            let [on, up, aside] = parts(way, line).map(f64::from);
            // Lengths are held to 1/8 µm, of some 10 in: 1e-6.
            assert!((on.abs() / up.hypot(aside) - 1.0).abs() < 1e-6, "45°: {way:?}");
            assert!((aside.abs() / up.abs() - 1.5).abs() < 1e-6, "12 in for 8 in: {way:?}");
        }
        assert_eq!(offset.way(Direction::new(2, 1, 0), Axis::East), None, "drawn level");
        assert_eq!(
            offset.way(Direction::new(0, 1, 1), Axis::East),
            None,
            "drawn square to the line"
        );
    }
}

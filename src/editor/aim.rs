//! Where the pencil points from its start: a way on the lattice and so many steps.

use super::look::Look;
use super::toward::{plus, times};
use super::{Part, Toward, line};
use crate::job::{Direction, LatticePoint};
use crate::scene::Point;
use crate::units::Length;

/// A way and so many steps along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Aim {
    /// One step of the way.
    pub way: Direction,
    /// How many steps.
    pub steps: i32,
    /// Who says how many.
    pub by: Measure,
}

/// Who says how long the drawn run is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// The pointer: a typed length does not change how it is drawn.
    Pointer,
    /// Direction keys pressed more than once: a typed length does not change how it is drawn either.
    Keys,
    /// Nobody yet, a direction key was pressed once: a typed length is drawn to scale.
    Scale,
}

/// A length longer than so many steps is not drawn to scale by itself: that would lead off the paper.
pub const LONGEST_TO_SCALE: f64 = 30.0;

impl Aim {
    /// The place that is pointed at.
    pub fn end(self, start: LatticePoint) -> LatticePoint {
        start + times(self.way, self.steps)
    }

    /// The same way, as many steps as the length has on paper, from one to [`LONGEST_TO_SCALE`].
    pub fn to_scale(self, length: Length, step: Length) -> Aim {
        let one = step.eighths_of_um() as f64 * self.way.steps();
        let steps = (length.eighths_of_um() as f64 / one)
            .round()
            .clamp(1.0, LONGEST_TO_SCALE);
        let steps = steps as i32;
        Aim { steps, ..self }
    }

    /// After a direction key: along the way one step longer, against it one shorter, else a new way.
    pub fn key(aim: Option<Aim>, toward: Toward) -> Aim {
        let key = toward.way();
        let square = |aim: &Aim| aim.way.axis().is_some();
        match aim.filter(square).map(|aim| (aim.way.dot(key), aim)) {
            Some((1, aim)) => aim.longer(1),
            Some((-1, aim)) if aim.steps > 1 => aim.longer(-1),
            _ => Aim {
                way: key,
                steps: 1,
                by: Measure::Scale,
            },
        }
    }

    /// After a direction key with skew held: the end goes one step that way, whatever the way to it, so that keys lead to
    /// every place. `None` when it comes back to the start.
    pub fn end_key(aim: Option<Aim>, toward: Toward) -> Option<Aim> {
        let end = aim.map_or(Direction::default(), |aim| times(aim.way, aim.steps));
        let way = plus(end, toward.way());
        (!way.is_zero()).then(|| Aim {
            by: Measure::Keys,
            ..straight(way)
        })
    }

    /// So many steps longer, but never shorter than one.
    pub fn longer(self, by: i32) -> Aim {
        let steps = self.steps.saturating_add(by).max(1);
        let by = Measure::Keys;
        Aim { steps, by, ..self }
    }
}

impl Look<'_> {
    /// Where the pointer points from a start: to a joint or run drawn there if the pencil's ways lead to it, else along
    /// the nearest way. `None` when it points at the start itself.
    ///
    /// The ways are the six of the axes. With skew held they are those of the plane, square and at 45 degrees, and any
    /// way to a joint; and when the plane does not pass through the start, any way to a place in it: a rolling offset.
    pub fn aim(&self, start: LatticePoint) -> Option<Aim> {
        let pointer = self.pointer?;
        let away = self.view.point(start).distance(pointer.at);
        let on_start = || match pointer.hits.first() {
            // The symbol that stands there may be larger than half a step.
            Some(Part::Joint(id)) => self.job.joints.get(*id).is_some_and(|joint| joint.at == start),
            _ => false,
        };
        if away < self.view.step * 0.5 || (away < self.view.step && on_start()) {
            return None;
        }
        let at_part = pointer.hits.iter().find_map(|hit| match hit {
            Part::Joint(_) => self.toward_part(start, *hit, pointer.at),
            _ => None,
        });
        let at_run = || {
            pointer
                .hits
                .iter()
                .find_map(|hit| self.toward_part(start, *hit, pointer.at))
        };
        at_part.or_else(at_run).or_else(|| self.nearest_way(start, pointer.at))
    }

    fn toward_part(&self, start: LatticePoint, part: Part, at: Point) -> Option<Aim> {
        match part {
            Part::Joint(id) => {
                let way = self.job.joints.get(id)?.at - start;
                (self.follows(way) || (self.held.skew && !way.is_zero())).then(|| straight(way))
            }
            Part::Run(id) | Part::Penetration(id, _) => {
                let [from, to] = self.ends(self.job.runs.get(id)?)?;
                // Places of the run to both sides of the pointer, as far as it can mean them.
                let pieces = line::pieces(from, to);
                let near = (self.segment(from, to).nearest(at) * pieces as f64).round() as u64;
                let places =
                    (near.saturating_sub(2)..=near.saturating_add(2)).filter(|piece| (1..pieces).contains(piece));
                let ways = places.map(|piece| line::place(from, to, piece) - start);
                let far = |way: &Direction| self.view.point(start + *way).distance(at);
                let best = ways
                    .filter(|way| self.follows(*way) && far(way) < self.view.step)
                    .min_by(|a, b| far(a).total_cmp(&far(b)))?;
                Some(straight(best))
            }
            Part::Note(_) => None,
        }
    }

    /// Whether one of the pencil's ways leads there.
    fn follows(&self, way: Direction) -> bool {
        if way.is_zero() {
            return false;
        }
        way.axis().is_some() || (self.held.skew && self.plane.eight_ways().iter().any(|one| *one == straight(way).way))
    }

    fn nearest_way(&self, start: LatticePoint, at: Point) -> Option<Aim> {
        if self.held.skew && !self.plane.holds(start) {
            let way = self.plane.place(self.view, at) - start;
            return (!way.is_zero()).then(|| straight(way));
        }
        let ways = if self.held.skew {
            self.plane.eight_ways().to_vec()
        } else {
            Toward::ALL.map(Toward::way).to_vec()
        };
        let away = at - self.view.point(start);
        let reach = |way: &Direction| self.view.vector(*way).unit().map_or(0.0, |unit| away.dot(unit));
        let way = ways.into_iter().max_by(|a, b| reach(a).total_cmp(&reach(b)))?;
        let steps = (reach(&way) / self.view.vector(way).length()).round();
        let steps = steps as i32;
        let by = Measure::Pointer;
        (steps > 0).then_some(Aim { way, steps, by })
    }
}

/// A way as its smallest step and their number.
fn straight(way: Direction) -> Aim {
    let start = LatticePoint::default();
    let end = start + way;
    let pieces = line::pieces(start, end);
    let one = line::place(start, end, 1) - start;
    Aim {
        way: one,
        steps: i32::try_from(pieces).unwrap_or(i32::MAX),
        by: Measure::Pointer,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const STEP: Length = Length::from_eighths_of_um(203_200 * 12);

    #[test]
    fn direction_keys_lengthen_shorten_and_turn() {
        let one = Aim::key(None, Toward::East);
        assert_eq!(
            (one.way, one.steps, one.by),
            (Direction::new(1, 0, 0), 1, Measure::Scale)
        );
        let two = Aim::key(Some(one), Toward::East);
        assert_eq!((two.steps, two.by), (2, Measure::Keys));
        assert_eq!(Aim::key(Some(two), Toward::West).steps, 1);
        assert_eq!(Aim::key(Some(one), Toward::West).way, Direction::new(-1, 0, 0));
        assert_eq!(Aim::key(Some(two), Toward::Up).way, Direction::new(0, 0, 1));
    }

    #[test]
    fn with_skew_held_keys_lead_the_end_to_every_place() {
        let ways = [
            Toward::East,
            Toward::East,
            Toward::Up,
            Toward::South,
            Toward::East,
            Toward::Up,
        ];
        let mut aim = Some(Aim::key(None, Toward::East));
        for toward in ways {
            aim = Aim::end_key(aim, toward);
        }
        let start = LatticePoint::new(5, 5, 5);
        let rolling = aim.unwrap();
        assert_eq!(
            (rolling.end(start), rolling.by),
            (LatticePoint::new(9, 4, 7), Measure::Keys)
        );
        assert_eq!((rolling.way, rolling.steps), (Direction::new(4, -1, 2), 1));
        for toward in [
            Toward::West,
            Toward::West,
            Toward::Down,
            Toward::North,
            Toward::West,
            Toward::Down,
        ] {
            aim = Aim::end_key(aim, toward);
        }
        assert_eq!(aim.unwrap().end(start), LatticePoint::new(6, 5, 5));
        assert_eq!(Aim::end_key(aim, Toward::West), None, "back at the start");
        // A plain key leaves the slant.
        assert_eq!(Aim::key(Some(rolling), Toward::East).way, Direction::new(1, 0, 0));
        assert_eq!(rolling.longer(1).end(start), LatticePoint::new(13, 3, 9));
    }

    #[test]
    fn a_typed_length_is_drawn_to_scale_within_reason() {
        let aim = Aim::key(None, Toward::Up);
        for (feet, steps) in [(12.4, 12), (0.2, 1), (150.0, 30)] {
            assert_eq!(aim.to_scale(Length::from_feet(feet), STEP).steps, steps, "{feet} ft");
        }
        let slant = Aim::end_key(Some(aim), Toward::East).unwrap();
        assert_eq!(slant.to_scale(Length::from_feet(14.1), STEP).steps, 10, "10 × √2");
    }

    #[test]
    fn a_way_is_counted_in_its_smallest_steps() {
        let aim = straight(Direction::new(6, 0, -3));
        assert_eq!((aim.way, aim.steps), (Direction::new(2, 0, -1), 3));
        assert_eq!(aim.end(LatticePoint::new(1, 1, 1)), LatticePoint::new(7, 1, -2));
    }
}

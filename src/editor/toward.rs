//! The six ways along the axes, as they lie on isometric paper.

use crate::job::Direction;

/// A way along an axis, in the order in which they follow each other clockwise on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Toward {
    /// Straight up.
    Up,
    /// North: up to the right.
    North,
    /// East: down to the right.
    East,
    /// Straight down.
    Down,
    /// South: down to the left.
    South,
    /// West: up to the left.
    West,
}

impl Toward {
    /// All six, clockwise from straight up.
    pub const ALL: [Toward; 6] = [
        Toward::Up,
        Toward::North,
        Toward::East,
        Toward::Down,
        Toward::South,
        Toward::West,
    ];

    /// One step this way.
    pub const fn way(self) -> Direction {
        match self {
            Toward::Up => Direction::new(0, 0, 1),
            Toward::North => Direction::new(0, 1, 0),
            Toward::East => Direction::new(1, 0, 0),
            Toward::Down => Direction::new(0, 0, -1),
            Toward::South => Direction::new(0, -1, 0),
            Toward::West => Direction::new(-1, 0, 0),
        }
    }

    /// As a fitter calls it: only a riser or a drop goes up or down, though level pipe rises and falls on the paper.
    pub const fn words(self) -> &'static str {
        match self {
            Toward::Up => "up",
            Toward::North => "north",
            Toward::East => "east",
            Toward::Down => "down",
            Toward::South => "south",
            Toward::West => "west",
        }
    }

    /// The way that a direction takes; `None` when it follows no axis.
    pub fn of(way: Direction) -> Option<Toward> {
        way.axis()?;
        let same = |toward: &Toward| toward.way().dot(way) > 0;
        Toward::ALL.into_iter().find(same)
    }
}

/// A way as a fitter calls it: "up", "off the axes (2 up, 3 east)".
pub fn spelled(way: Direction) -> String {
    if let Some(toward) = Toward::of(way) {
        return toward.words().to_owned();
    }
    let steps: Vec<String> = Toward::ALL
        .into_iter()
        .map(|toward| (way.dot(toward.way()), toward.words()))
        .filter(|(steps, _)| *steps > 0)
        .map(|(steps, words)| format!("{steps} {words}"))
        .collect();
    format!("off the axes ({})", steps.join(", "))
}

/// So many steps of a way; what is too far stops at the farthest.
pub fn times(way: Direction, steps: i32) -> Direction {
    Direction {
        east: way.east.saturating_mul(steps),
        north: way.north.saturating_mul(steps),
        up: way.up.saturating_mul(steps),
    }
}

/// Two ways one after the other; what is too far stops at the farthest.
pub fn plus(a: Direction, b: Direction) -> Direction {
    Direction {
        east: a.east.saturating_add(b.east),
        north: a.north.saturating_add(b.north),
        up: a.up.saturating_add(b.up),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Projection;
    use crate::scene::Point;

    #[test]
    fn the_order_is_clockwise_on_paper_and_opposites_lie_three_apart() {
        let view = Projection {
            origin: Point::default(),
            step: 1.0,
        };
        for (at, toward) in Toward::ALL.into_iter().enumerate() {
            let after = |steps: usize| Toward::ALL[(at + steps) % 6].way();
            let (a, b) = (view.vector(toward.way()), view.vector(after(1)));
            assert!(
                (a.dot(b) - 0.5).abs() < 1e-9 && a.cross(b) > 0.0,
                "60° clockwise from {toward:?}"
            );
            assert_eq!(after(3), -toward.way());
            assert_eq!(Toward::of(times(toward.way(), 7)), Some(toward));
        }
        assert_eq!(Toward::of(Direction::new(1, 1, 0)), None);
        assert_eq!(spelled(Direction::new(-3, 0, 0)), "west");
        assert_eq!(spelled(Direction::new(3, 0, -2)), "off the axes (3 east, 2 down)");
    }
}

//! The plane in which a place on paper is looked for: a point of isometric paper has many places in space.

use super::toward::{plus, times};
use super::{Arrow, Toward};
use crate::drawing::Projection;
use crate::job::{Direction, LatticePoint};
use crate::scene::Point;

/// A plane along two axes through a place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Plane {
    /// How it lies.
    pub facing: Facing,
    /// A place in it: where drawing went last.
    pub through: LatticePoint,
}

/// How a plane lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Facing {
    /// Level, like a floor.
    #[default]
    Level,
    /// Upright, along the axis that goes down to the right.
    EastUpright,
    /// Upright, along the axis that goes up to the right.
    NorthUpright,
}

impl Facing {
    /// The two ways that span it.
    pub const fn ways(self) -> [Direction; 2] {
        match self {
            Facing::Level => [Toward::East.way(), Toward::North.way()],
            Facing::EastUpright => [Toward::East.way(), Toward::Up.way()],
            Facing::NorthUpright => [Toward::North.way(), Toward::Up.way()],
        }
    }

    /// The way out of it, toward the viewer.
    pub const fn out(self) -> Direction {
        match self {
            Facing::Level => Toward::Up.way(),
            Facing::EastUpright => Toward::South.way(),
            Facing::NorthUpright => Toward::East.way(),
        }
    }

    /// The way in it that goes as an arrow points on paper, as near as it can.
    pub const fn along(self, arrow: Arrow) -> Toward {
        match (self, arrow) {
            (Facing::Level | Facing::EastUpright, Arrow::Right) => Toward::East,
            (Facing::Level | Facing::EastUpright, Arrow::Left) => Toward::West,
            (Facing::NorthUpright, Arrow::Right) | (Facing::Level, Arrow::Up) => Toward::North,
            (Facing::NorthUpright, Arrow::Left) | (Facing::Level, Arrow::Down) => Toward::South,
            (Facing::EastUpright | Facing::NorthUpright, Arrow::Up) => Toward::Up,
            (Facing::EastUpright | Facing::NorthUpright, Arrow::Down) => Toward::Down,
        }
    }

    /// Its name.
    pub const fn words(self) -> &'static str {
        match self {
            Facing::Level => "level plane",
            Facing::EastUpright => "vertical plane, falling to the right",
            Facing::NorthUpright => "vertical plane, rising to the right",
        }
    }
}

impl Plane {
    /// The place in the plane that falls nearest to a point of paper.
    pub fn place(self, view: &Projection, at: Point) -> LatticePoint {
        let [a, b] = self.facing.ways();
        let (pa, pb) = (view.vector(a), view.vector(b));
        let away = at - view.point(self.through);
        let area = pa.cross(pb);
        // A cast of what is no number is 0; of what is too far, the farthest.
        let [along_a, along_b] = [away.cross(pb) / area, pa.cross(away) / area].map(|steps| steps.round() as i32);
        self.through + plus(times(a, along_a), times(b, along_b))
    }

    /// Whether a place lies in the plane.
    pub fn holds(self, place: LatticePoint) -> bool {
        (place - self.through).dot(self.facing.out()) == 0
    }

    /// The ways of its axes and of the 45-degree lines between them.
    pub fn eight_ways(self) -> [Direction; 8] {
        let [a, b] = self.facing.ways();
        [a, b, -a, -b, plus(a, b), plus(a, -b), plus(-a, b), plus(-a, -b)]
    }

    /// The plane so many steps nearer to the viewer.
    pub fn nearer(self, steps: i32) -> Plane {
        let through = self.through + times(self.facing.out(), steps);
        Plane { through, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Vector;

    const VIEW: Projection = Projection {
        origin: Point::new(40.0, 70.0),
        step: 9.0,
    };

    #[test]
    fn a_point_of_paper_is_another_place_in_every_plane() {
        let through = LatticePoint::new(2, -3, 5);
        for (facing, place) in [
            (Facing::Level, LatticePoint::new(6, -1, 5)),
            (Facing::EastUpright, LatticePoint::new(8, -3, 7)),
            (Facing::NorthUpright, LatticePoint::new(2, 3, 1)),
        ] {
            let plane = Plane { facing, through };
            let shaken = VIEW.point(place) + Vector::new(1.0, -1.5);
            assert_eq!(plane.place(&VIEW, shaken), place, "{facing:?}");
            assert!(plane.holds(place) && !plane.nearer(1).holds(place));
        }
    }

    #[test]
    fn the_way_out_of_a_plane_is_across_it_and_toward_the_viewer() {
        for facing in [Facing::Level, Facing::EastUpright, Facing::NorthUpright] {
            assert!(facing.ways().iter().all(|way| way.dot(facing.out()) == 0));
            let plane = Plane {
                facing,
                through: LatticePoint::default(),
            };
            assert!(crate::drawing::nearness(plane.nearer(2).through) > crate::drawing::nearness(plane.through));
        }
    }

    #[test]
    fn arrows_go_along_their_plane_as_they_point_on_paper() {
        for facing in [Facing::Level, Facing::EastUpright, Facing::NorthUpright] {
            let mut ways = Vec::new();
            for (arrow, points) in [
                (Arrow::Right, Vector::new(1.0, 0.0)),
                (Arrow::Left, Vector::new(-1.0, 0.0)),
                (Arrow::Up, Vector::new(0.0, -1.0)),
                (Arrow::Down, Vector::new(0.0, 1.0)),
            ] {
                let way = facing.along(arrow).way();
                assert_eq!(way.dot(facing.out()), 0, "{facing:?} {arrow:?} stays in the plane");
                assert!(VIEW.vector(way).dot(points) > 0.0, "{facing:?} {arrow:?}");
                assert!(!ways.contains(&way), "{facing:?} {arrow:?}");
                ways.push(way);
            }
        }
    }

    #[test]
    fn a_view_of_no_size_does_no_harm() {
        let view = Projection {
            origin: Point::new(f64::NAN, 0.0),
            step: 0.0,
        };
        assert_eq!(
            Plane::default().place(&view, Point::new(3.0, 4.0)),
            LatticePoint::default()
        );
    }
}

//! Where the words of a label could go: along their run, around their joint, or away from it on a leader.

mod along;
pub mod dimension;
mod led;

use crate::drawing::block::{Block, Flush};
use crate::scene::{Affine, Point, Quad, Rect, Segment, Vector};

pub use led::{Manner, WayOut, beyond, least, meetings, on_ink, reaches, starts, ways_between, ways_out};

/// Words that a person put nearer than this to their home need no leader, mm.
const NEAR: f64 = 3.0;
/// From a symbol to words beside it, mm.
const BESIDE: f64 = 1.2;
/// What it costs words to stand below or above others of their place.
const PARAGRAPH: f64 = 2.0;
/// From the line of a level to the words on it, mm.
const ON_LINE: f64 = 0.75;
/// No place at all.
const FAR_AWAY: Rect = Rect {
    min: Point::new(0.0, 0.0),
    max: Point::new(0.0, 0.0),
};
/// Length of the level piece of a leader before the words, mm.
const STUB: f64 = 2.2;
/// From the end of a leader to the words, mm.
const BEFORE_WORDS: f64 = 0.9;

/// What a label belongs to, on paper.
#[derive(Clone, Debug)]
pub enum Home {
    /// A straight run or several in line.
    Along {
        /// The line on paper.
        line: Segment,
        /// Half the width of the line, mm.
        half: f64,
        /// How far marks reach below it, mm.
        below: f64,
        /// The symbols at its ends.
        ends: Vec<Quad>,
    },
    /// A place with what is drawn there.
    Around {
        /// The middle.
        place: Point,
        /// What is drawn there.
        rooms: Vec<Quad>,
        /// Whether that is pipe and the ticks of a fitting at most, so that a leader begins on the joint itself.
        is_bare: bool,
        /// The directions of the pipe that leaves it, 1 mm long.
        pipe: Vec<Vector>,
    },
    /// Anywhere on pipe of one height.
    Level {
        /// Where, best first.
        places: Vec<LevelPlace>,
    },
}

impl Home {
    /// The line of a run.
    pub fn line(&self) -> Option<Segment> {
        match self {
            Home::Along { line, .. } => Some(*line),
            Home::Around { .. } | Home::Level { .. } => None,
        }
    }
}

/// Where an elevation could be written.
#[derive(Clone, Debug)]
pub struct LevelPlace {
    /// On the pipe.
    pub at: Point,
    /// What is drawn there.
    pub rooms: Vec<Quad>,
    /// Whether that is pipe and ticks at most, so that the level line begins on the pipe itself.
    pub is_bare: bool,
}

/// How the words lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lay {
    /// In one line, carried to paper.
    Line(Affine),
    /// The size and the length of pipe, each in a line of its own, carried to paper one by one.
    Pair([Affine; 2]),
    /// Upright, the upper left corner here.
    Block(Point, Flush),
}

/// One possibility.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// How the words lie.
    pub lay: Lay,
    /// The room that they take; of a size apart from its length that of the size.
    pub room: Quad,
    /// The room of the length, where it is apart.
    pub other: Option<Quad>,
    /// The leader: from its place over a knee to the words.
    pub leader: Option<[Point; 3]>,
    /// How much worse than the best.
    pub cost: f64,
}

impl Spot {
    /// The room of the words: one box, or one for the size and one for the length.
    pub fn rooms(&self) -> impl Iterator<Item = &Quad> {
        std::iter::once(&self.room).chain(&self.other)
    }

    /// The upright box of the words, its middle where a person would say that they stand.
    pub fn words(&self) -> Rect {
        let Some(other) = &self.other else {
            return self.room.bounds();
        };
        let middle = self.room.center().midway(other.center());
        let all = self.room.bounds().union(other.bounds());
        let half = |low: f64, middle: f64, high: f64| (middle - low).max(high - middle);
        let reach = Vector::new(
            half(all.min.x, middle.x, all.max.x),
            half(all.min.y, middle.y, all.max.y),
        );
        Rect::new(middle - reach, middle + reach)
    }

    /// The box around the words and their leader.
    pub fn bounds(&self) -> Rect {
        let leader = self.leader.iter().flatten();
        let words = self.rooms().map(Quad::bounds).fold(self.room.bounds(), Rect::union);
        leader.fold(words, |bounds, point| bounds.with(*point))
    }
}

/// A box around everything that a label could ever take up, beside its home or on a leader.
pub fn reach(block: &Block, home: &Home) -> Rect {
    let bounds = match home {
        Home::Along { line, .. } => line.bounds(),
        Home::Around { place, rooms, .. } => rooms
            .iter()
            .map(Quad::bounds)
            .fold(Rect::sized(*place, 0.0, 0.0), Rect::union),
        Home::Level { places } => Rect::around(places.iter().map(|place| place.at)).unwrap_or(FAR_AWAY),
    };
    bounds.grown(led::FARTHEST + 1.0 + STUB + BEFORE_WORDS + block.width.max(block.height))
}

/// Where words stand whose middle a person put there: along their run as long as they are near it, else upright, and
/// with a leader when they are away from their home.
pub fn put(block: &Block, home: &Home, middle: Point) -> Spot {
    if let (Home::Along { line, .. }, Some(words)) = (home, block.single())
        && let Some(along) = line.vector().unit().filter(|along| along.x.abs() > 0.45)
    {
        let (_, x, down) = along::reading(along);
        let at = Affine::frame(Point::default(), x, down);
        let at = at.then(Affine::shift(middle - Quad::of(words.extent(), at).center()));
        let room = Quad::of(words.extent(), at);
        if room.gap_to_segment(*line) < NEAR {
            return line_at(at, room, 0.0);
        }
    }
    if let (Home::Along { line, half, below, .. }, Some(pair)) = (home, block.pair())
        && let Some(along) = line.vector().unit().filter(|along| along.x.abs() > 0.45)
        && let Some(spot) = along::put(pair, *line, along, half.max(*below), middle)
    {
        return spot;
    }
    let corner = middle - Vector::new(block.width, block.height) * 0.5;
    let room = block.room(corner);
    let quad = Quad(room.corners());
    let (start, gap) = match home {
        Home::Along { line, .. } => (
            line.at(line.nearest(middle).clamp(0.1, 0.9)),
            quad.gap_to_segment(*line),
        ),
        // Nobody puts an elevation anywhere: it stands on its pipe.
        Home::Level { .. } => (middle, 0.0),
        Home::Around {
            place, rooms, is_bare, ..
        } => {
            let gap = rooms
                .iter()
                .map(|drawn| quad.gap(drawn))
                .fold(quad.distance(*place), f64::min);
            (
                led::start(*place, rooms, *is_bare, (middle - *place).unit().unwrap_or_default()),
                gap,
            )
        }
    };
    let to_right = middle.x >= start.x;
    let flush = if to_right { Flush::Left } else { Flush::Right };
    let leader = (gap >= NEAR).then(|| led_to(block, room, start, to_right));
    upright(block, corner, flush, leader, 0.0)
}

/// A leader to words that stand somewhere: to the side of their first line, or straight to their edge where they stand
/// above or below its beginning.
fn led_to(block: &Block, room: Rect, start: Point, to_right: bool) -> [Point; 3] {
    let edge = room.grown(BEFORE_WORDS);
    let first = room.min.y + block.middle_of_first_line();
    let (end, stub) = if to_right {
        (Point::new(edge.min.x, first), -STUB)
    } else {
        (Point::new(edge.max.x, first), STUB)
    };
    let knee = end + Vector::new(stub, 0.0);
    if (knee.x - start.x) * stub < 0.0 {
        return [start, knee, end];
    }
    let nearest = Point::new(
        start.x.clamp(edge.min.x, edge.max.x),
        start.y.clamp(edge.min.y, edge.max.y),
    );
    [start, nearest, nearest]
}

/// Places beside the home itself, best first as a rule; the same number in the same order at every call.
pub fn near(block: &Block, home: &Home, out: &mut Vec<Spot>) {
    out.clear();
    match home {
        Home::Along { line, half, below, .. } => {
            let along = line.vector().unit().unwrap_or(Vector::new(0.0, 1.0));
            let is_steep = along.x.abs() <= 0.45;
            let widest = half.max(*below);
            match (block.single(), block.pair()) {
                (Some(words), _) if !is_steep => along::in_line(words, *line, along, (*half, *below), out),
                (_, Some(pair)) if !is_steep => {
                    along::astride(pair, *line, along, (*half, *below), out);
                    along::beside(block, *line, along, widest, along::UPRIGHT, out);
                }
                (_, pair) => {
                    along::beside(block, *line, along, widest, 0.0, out);
                    if let Some(pair) = pair {
                        along::flanking(pair, *line, widest, out);
                    }
                }
            }
        }
        Home::Level { places } => on_level(block, places, out),
        Home::Around { place, rooms, .. } => {
            let all = rooms.iter().map(Quad::bounds).reduce(Rect::union);
            around(block, all.unwrap_or(Rect::sized(*place, 0.0, 0.0)), out);
        }
    }
}

/// Around a place: to the right and left, above and below, and aslant.
fn around(block: &Block, room: Rect, out: &mut Vec<Spot>) {
    let (w, h) = (block.width, block.height);
    let c = room.center();
    let centred = c.y - h / 2.0;
    let first = c.y - block.middle_of_first_line();
    let (right, left) = (room.max.x + BESIDE, room.min.x - BESIDE - w);
    let (above, under) = (room.min.y - BESIDE - h, room.max.y + BESIDE);
    let near = BESIDE * 0.4;
    let spots = [
        (right, first, Flush::Left, 0.0),
        (right, centred, Flush::Left, 0.1),
        (left, first, Flush::Right, 0.3),
        (left, centred, Flush::Right, 0.4),
        (room.max.x + near, room.min.y - h + near, Flush::Left, 0.6),
        (room.max.x + near, room.max.y - near, Flush::Left, 0.7),
        (room.min.x - near - w, room.min.y - h + near, Flush::Right, 0.8),
        (room.min.x - near - w, room.max.y - near, Flush::Right, 0.9),
        (c.x - w / 2.0, above, Flush::Left, 0.9),
        (c.x - w / 2.0, under, Flush::Left, 0.9),
        (c.x - 1.0, above, Flush::Left, 1.0),
        (c.x - 1.0, under, Flush::Left, 1.0),
        (c.x + 1.0 - w, above, Flush::Right, 1.1),
        (c.x + 1.0 - w, under, Flush::Right, 1.1),
    ];
    for (x, y, flush, cost) in spots {
        out.push(upright(block, Point::new(x, y), flush, None, cost));
    }
}

/// On a level line to the right or left of pipe, the mark on the line.
fn on_level(block: &Block, places: &[LevelPlace], out: &mut Vec<Spot>) {
    const RIGHT: Vector = Vector::new(1.0, 0.0);
    for (number, place) in places.iter().enumerate() {
        for (side, way) in [(0.0, -RIGHT), (0.1, RIGHT)] {
            let start = led::start(place.at, &place.rooms, place.is_bare, way);
            for (step, gap) in [1.6, 3.2, 5.0, 7.5, 10.0].into_iter().enumerate() {
                if gap + block.width > led::FARTHEST {
                    break;
                }
                let near = start + way * gap;
                let left = if way.x > 0.0 { near.x } else { near.x - block.width };
                let corner = Point::new(left, start.y - ON_LINE - block.height);
                let end = near + way * block.width;
                let cost = side + 0.15 * step as f64 + 0.03 * number as f64;
                out.push(upright(block, corner, Flush::Left, Some([start, start, end]), cost));
            }
        }
    }
}

/// Right below and above words that stand upright, flush with them.
pub fn paragraph(block: &Block, other: &Block, spot: &Spot) -> Option<[Spot; 2]> {
    let Lay::Block(corner, flush) = spot.lay else {
        return None;
    };
    let x = match flush {
        Flush::Left => corner.x,
        Flush::Right => corner.x + other.width - block.width,
    };
    let [below, above] = [corner.y + other.height + BESIDE, corner.y - block.height - BESIDE];
    Some([below, above].map(|y| upright(block, Point::new(x, y), flush, None, PARAGRAPH)))
}

/// Words in one line along a run.
fn line_at(at: Affine, room: Quad, cost: f64) -> Spot {
    Spot {
        lay: Lay::Line(at),
        room,
        other: None,
        leader: None,
        cost,
    }
}

fn upright(block: &Block, corner: Point, flush: Flush, leader: Option<[Point; 3]>, cost: f64) -> Spot {
    Spot {
        lay: Lay::Block(corner, flush),
        room: Quad(block.room(corner).corners()),
        other: None,
        leader,
        cost,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::block::Line;

    fn block() -> Block {
        Block::new(vec![Line::plain("3/4\" × 12'-6\"")])
    }

    fn home(a: Point, b: Point) -> Home {
        Home::Along {
            line: Segment::new(a, b),
            half: 0.35,
            below: 0.35,
            ends: Vec::new(),
        }
    }

    #[test]
    fn words_along_a_run_read_to_the_right_and_leave_the_line_free() {
        let (a, b) = (Point::new(50.0, 50.0), Point::new(93.301_270_189, 25.0));
        let mut spots = Vec::new();
        for home in [home(a, b), home(b, a)] {
            near(&block(), &home, &mut spots);
            assert!(spots.len() >= 10);
            for spot in &spots {
                let Lay::Line(at) = spot.lay else { panic!("{spot:?}") };
                assert!(at.xx > 0.0 && at.yy > 0.0, "upright: {at:?}");
                let gap = spot.room.gap_to_segment(Segment::new(a, b));
                assert!(gap > 0.35 + 0.5 && gap < 2.5, "{gap}");
            }
        }
    }

    #[test]
    fn lettering_is_at_least_two_and_a_half_mm_tall_across_its_line() {
        for b in [
            Point::new(93.301_270_189, 25.0),
            Point::new(93.301_270_189, 75.0),
            Point::new(90.0, 60.0),
        ] {
            let mut spots = Vec::new();
            near(&block(), &home(Point::new(50.0, 50.0), b), &mut spots);
            let Lay::Line(at) = spots[0].lay else { panic!() };
            let (x, y) = (Vector::new(at.xx, at.yx), Vector::new(at.xy, at.yy));
            let tall = x.cross(y).abs() / x.length() * block().single().unwrap().height();
            assert!(tall >= 2.5 - 1e-9, "{tall}");
        }
    }

    #[test]
    fn beside_an_upright_run_words_stand_clear() {
        let line = Segment::new(Point::new(50.0, 90.0), Point::new(50.0, 50.0));
        let mut spots = Vec::new();
        near(&block(), &home(line.a, line.b), &mut spots);
        for spot in &spots {
            assert!(spot.room.gap_to_segment(line) > 1.0);
        }
    }

    #[test]
    fn a_leader_starts_outside_what_it_points_at_and_ends_before_its_words() {
        let room = Rect::sized(Point::new(40.0, 40.0), 8.0, 6.0);
        let home = Home::Around {
            place: room.center(),
            rooms: vec![Quad(room.corners())],
            is_bare: false,
            pipe: Vec::new(),
        };
        let mut count = 0;
        for out in
            ways_out(&home, 0, starts(&home)[0], Manner::Any).flat_map(|out| meetings(out, &block(), Manner::Any))
        {
            for (reach, _) in reaches() {
                let spot = beyond(&block(), &out, reach, 0.0);
                let [start, knee, end] = spot.leader.unwrap();
                assert!(!room.grown(0.5).contains(start));
                for piece in [Segment::new(start, knee), Segment::new(knee, end)] {
                    assert!(spot.room.gap_to_segment(piece) > 0.5);
                }
                count += 1;
            }
        }
        assert!(count >= 100);
    }
}

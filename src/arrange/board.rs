//! The paper while drawn lengths are arranged: where everything lies, what that costs, and what a change would cost.

use super::frame::{Frame, Lever, along, count};
use super::ink::{self, Clash, Ink, Meets};
use super::order::{Order, part};
use super::wish::{self, Wish};
use crate::job::{Axis, Direction, Job, LatticePoint};
use crate::projection::Projection;
use crate::scene::{Grid, Point, Rect, Segment, Vector};
use std::ops::Range;

/// Two things that meet, by their numbers.
#[derive(Clone, Copy, Debug)]
pub struct Pair {
    /// One.
    pub one: u32,
    /// The other, of a higher number.
    pub other: u32,
    /// How.
    pub meets: Meets,
}

/// Everything on paper.
pub struct Board<'a> {
    /// What may change.
    pub frame: &'a Frame,
    view: Projection,
    inks: Vec<Ink>,
    wishes: Vec<Option<Wish>>,
    /// For each run its true length, ft.
    feet: Vec<f64>,
    order: Order,
    /// Where the joints are, in the frame's order.
    at: Vec<LatticePoint>,
    lines: Vec<Segment>,
    grid: Grid,
    /// What meets now.
    pairs: Vec<Pair>,
    /// The length of each lever now.
    pub lengths: Vec<i32>,
    /// Whether what lies farther east or north would be drawn so.
    pub keeps_plan: bool,
    /// How much was looked at.
    pub work: usize,
    seen: Vec<u32>,
    stamp: u32,
}

/// By how many steps something is drawn on the wrong side of what it truly lies beyond.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disorder {
    /// Below what it is above.
    pub up: i32,
    /// West or south of what it is east or north of.
    pub plan: i32,
}

/// What moves with a lever: the ways in which joints move, the first of them not at all, and which joint moves in which.
pub struct Move {
    ways: Vec<Direction>,
    /// For each joint its way.
    of_joint: Vec<u8>,
    /// For each ink its way; [`STRETCHED`] where its ends move differently.
    of_ink: Vec<u8>,
    /// The inks of each way, and the box around their lines.
    inks: Vec<Vec<u32>>,
    bounds: Vec<Option<Rect>>,
    /// Those that are stretched.
    stretched: Vec<u32>,
    /// The runs that change their length.
    runs: Vec<u32>,
}

/// Cosine of 30°.
const RIGHT: f64 = 0.866_025_403_784_438_6;

const STRETCHED: u8 = u8::MAX;

/// Side of a cell by which things are found, mm.
const CELL: f64 = 12.0;

impl<'a> Board<'a> {
    /// The paper of a job as it is drawn.
    pub fn new(job: &Job, frame: &'a Frame, step: f64) -> Board<'a> {
        let inks = ink::all(job, frame);
        let mut board = Board {
            view: Projection {
                step,
                ..Projection::UNIT
            },
            wishes: wish::all(job, frame, step),
            feet: job.runs.iter().map(|run| job.true_length(run).feet()).collect(),
            order: Order::of(job, frame),
            at: frame.order.iter().map(|joint| job.joints.at(*joint).at).collect(),
            lines: Vec::new(),
            grid: Grid::new(Rect::sized(Default::default(), 1.0, 1.0), 1.0),
            pairs: Vec::new(),
            lengths: frame.levers.iter().map(|lever| lever.drawn).collect(),
            keeps_plan: true,
            work: 0,
            seen: vec![0; inks.len()],
            stamp: 0,
            frame,
            inks,
        };
        board.settle();
        board
    }

    /// Where a joint is on paper, by its number in the frame.
    pub fn point(&self, joint: u32) -> Point {
        self.view.point(self.at[joint as usize])
    }

    /// How large the part is on paper that hangs behind a root, mm from corner to corner.
    pub fn size_of(&self, joints: Range<usize>) -> f64 {
        let around = Rect::around(self.at[joints].iter().map(|at| self.view.point(*at)));
        around.map_or(0.0, |around| libm::hypot(around.width(), around.height()))
    }

    /// A way on paper, mm, as steps east and north.
    pub fn level_steps(&self, way: Vector) -> [i32; 2] {
        // Both axes go at 30° to the right: their sum tells how far, their difference how far down.
        let (sum, difference) = (way.x / RIGHT / self.view.step, 2.0 * way.y / self.view.step);
        [(sum + difference) / 2.0, (sum - difference) / 2.0].map(|steps| steps.round() as i32)
    }

    /// Where the joints are, by position in the job.
    pub fn places(&self) -> Vec<LatticePoint> {
        let mut places = vec![LatticePoint::default(); self.at.len()];
        for (joint, at) in self.frame.order.iter().zip(&self.at) {
            places[*joint] = *at;
        }
        places
    }

    /// Looks at everything anew after levers grew.
    pub fn settle(&mut self) {
        self.lines = self
            .inks
            .iter()
            .map(|ink| self.line(ink, |joint| self.at[joint as usize]))
            .collect();
        let bounds = Rect::around(self.lines.iter().flat_map(|line| [line.a, line.b]));
        let bounds = bounds.unwrap_or(Rect::sized(Default::default(), 1.0, 1.0));
        let size = (bounds.width() + bounds.height()) / 2.0;
        self.grid = Grid::new(bounds, (size / 60.0).max(CELL));
        for (number, line) in self.lines.iter().enumerate() {
            self.grid.insert_along(number as u32, *line, 0.0);
        }
        let mut pairs = Vec::new();
        for one in 0..self.inks.len() as u32 {
            let line = self.lines[one as usize];
            self.around(
                one,
                line,
                |other| other > one,
                |other, meets| pairs.push(Pair { one, other, meets }),
            );
        }
        self.pairs = pairs;
    }

    fn line(&self, ink: &Ink, at: impl Fn(u32) -> LatticePoint) -> Segment {
        let [a, b] = ink.joints.map(|joint| self.view.point(at(joint)) + ink.beside);
        Segment::new(a.toward(b, ink.shares[0]), a.toward(b, ink.shares[1]))
    }

    /// How one ink, its line moved by so much, meets those that `is_asked` for.
    fn around(&mut self, number: u32, line: Segment, is_asked: impl Fn(u32) -> bool, mut each: impl FnMut(u32, Meets)) {
        self.stamp += 1;
        let ink = &self.inks[number as usize];
        let area = line.bounds().grown(ink.farthest());
        let (inks, lines, seen, stamp) = (&self.inks, &self.lines, &mut self.seen, self.stamp);
        let mut work = 0;
        self.grid.near(area, |other| {
            work += 1;
            if other != number && is_asked(other) && std::mem::replace(&mut seen[other as usize], stamp) != stamp {
                let its = lines[other as usize];
                if its.bounds().overlaps(area)
                    && let Some(meets) = ink::meets(ink, line, &inks[other as usize], its)
                {
                    each(other, meets);
                }
            }
            true
        });
        self.work += 1 + work / 4;
    }

    /// Everything that meets now.
    pub fn pairs(&self) -> &[Pair] {
        &self.pairs
    }

    /// Everything that meets now, as the job names it.
    pub fn clashes(&self, job: &Job) -> Vec<Clash> {
        let party = |number: u32| ink::party(job, self.frame, self.inks[number as usize].kind);
        let clash = |pair: &Pair| Clash {
            one: party(pair.one),
            other: party(pair.other),
            meets: pair.meets,
        };
        self.pairs.iter().map(clash).collect()
    }

    /// The joints with which an ink moves.
    pub fn joints_of(&self, ink: u32) -> [u32; 2] {
        self.inks[ink as usize].joints
    }

    /// What moves with a lever.
    pub fn moves(&self, lever: &Lever) -> Move {
        let mut ways = vec![Direction::default()];
        let mut of_joint = vec![0u8; self.at.len()];
        for shift in &lever.shifts {
            for of in &mut of_joint[shift.from as usize..shift.to as usize] {
                let way = add(ways[*of as usize], shift.by);
                let known = ways.iter().position(|known| *known == way);
                *of = match known {
                    Some(known) => known as u8,
                    // More ways than that move together nowhere but in towers.
                    None if ways.len() >= usize::from(STRETCHED) => *of,
                    None => {
                        ways.push(way);
                        (ways.len() - 1) as u8
                    }
                };
            }
        }
        let mut inks = vec![Vec::new(); ways.len()];
        let mut stretched = Vec::new();
        let mut of_ink = vec![STRETCHED; self.inks.len()];
        for (number, ink) in self.inks.iter().enumerate() {
            let [a, b] = ink.joints.map(|joint| of_joint[joint as usize]);
            if a == b {
                of_ink[number] = a;
                inks[a as usize].push(number as u32);
            } else {
                stretched.push(number as u32);
            }
        }
        let lines = |inks: &Vec<u32>| {
            let lines = inks.iter().map(|ink| self.lines[*ink as usize]);
            Rect::around(lines.flat_map(|line| [line.a, line.b]))
        };
        Move {
            bounds: inks.iter().map(lines).collect(),
            ways,
            of_joint,
            of_ink,
            inks,
            stretched,
            runs: lever.runs.clone(),
        }
    }

    /// What the lengths of its runs cost when a lever grows by so many steps.
    pub fn wishes(&self, mover: &Move, steps: i32) -> f64 {
        mover.runs.iter().map(|&run| self.wish_price(mover, run, steps)).sum()
    }

    /// The true length of what a lever stretches, ft, how long it is drawn, mm, and what a step adds; none of what only
    /// moves.
    pub fn proportion(&self, lever: usize) -> Option<(f64, f64, f64)> {
        let run = *self.frame.levers[lever].runs.first()? as usize;
        let edge = self.frame.edges[run]?;
        let [from, to] = edge.ends.map(|end| self.at[end as usize]);
        let unit = self.view.vector(edge.unit).length();
        (unit > 0.0).then(|| (self.feet[run], unit * f64::from(count(to - from)), unit))
    }

    /// What everything costs now that a lever has a part in.
    pub fn price_now(&self, mover: &Move) -> f64 {
        let wishes = self.wishes(mover, 0);
        let of_ink = |ink: u32| mover.of_ink[ink as usize];
        let moves = |pair: &&Pair| of_ink(pair.one) == STRETCHED || of_ink(pair.one) != of_ink(pair.other);
        wishes
            + self
                .pairs
                .iter()
                .filter(moves)
                .map(|pair| pair.meets.price())
                .sum::<f64>()
    }

    fn by(&self, mover: &Move, way: u8, steps: i32) -> Vector {
        let Direction { east, north, up } = mover.ways[way as usize];
        self.view
            .vector(Direction::new(east * steps, north * steps, up * steps))
    }

    /// Where a joint would be.
    fn moved(&self, mover: &Move, joint: u32, steps: i32) -> LatticePoint {
        let Direction { east, north, up } = mover.ways[mover.of_joint[joint as usize] as usize];
        self.at[joint as usize] + Direction::new(east * steps, north * steps, up * steps)
    }

    /// What everything costs that a lever has a part in, when it grows by so many steps; something over `limit` where it
    /// costs more than that.
    pub fn price(&mut self, mover: &Move, steps: i32, limit: f64) -> f64 {
        let mut price = 0.0;
        for &run in &mover.runs {
            price += self.wish_price(mover, run, steps);
        }
        // What is stretched against all that is moved as a whole, and against each other.
        let stretched: Vec<(u32, Segment)> = mover
            .stretched
            .iter()
            .map(|&number| {
                let ink = self.inks[number as usize];
                (number, self.line(&ink, |joint| self.moved(mover, joint, steps)))
            })
            .collect();
        for (at, &(number, line)) in stretched.iter().enumerate() {
            if price > limit {
                return price;
            }
            for way in 0..mover.ways.len() as u8 {
                let back = self.by(mover, way, steps) * -1.0;
                let line = Segment::new(line.a + back, line.b + back);
                let of_ink = &mover.of_ink;
                self.around(
                    number,
                    line,
                    |other| of_ink[other as usize] == way,
                    |_, meets| price += meets.price(),
                );
            }
            for &(other, its) in &stretched[at + 1..] {
                let (one, other) = (&self.inks[number as usize], &self.inks[other as usize]);
                price += ink::meets(one, line, other, its).map_or(0.0, Meets::price);
            }
        }
        // What moves as a whole against what moves otherwise: of two ways the fewer are looked up among the more.
        for one in 0..mover.ways.len() {
            for other in one + 1..mover.ways.len() {
                let (few, many) = match mover.inks[one].len() <= mover.inks[other].len() {
                    true => (one, other),
                    false => (other, one),
                };
                let by = self.by(mover, few as u8, steps) - self.by(mover, many as u8, steps);
                let Some(bounds) = mover.bounds[many] else { continue };
                for &number in &mover.inks[few] {
                    if price > limit {
                        return price;
                    }
                    let line = self.lines[number as usize];
                    let line = Segment::new(line.a + by, line.b + by);
                    if !line
                        .bounds()
                        .grown(self.inks[number as usize].farthest())
                        .overlaps(bounds)
                    {
                        continue;
                    }
                    let of_ink = &mover.of_ink;
                    self.around(
                        number,
                        line,
                        |other| of_ink[other as usize] == many as u8,
                        |_, meets| price += meets.price(),
                    );
                }
            }
        }
        price
    }

    fn wish_price(&self, mover: &Move, run: u32, steps: i32) -> f64 {
        let (Some(wish), Some(edge)) = (self.wishes[run as usize], self.frame.edges[run as usize]) else {
            return 0.0;
        };
        let [from, to] = edge.ends.map(|end| self.moved(mover, end, steps));
        wish.price(count(to - from))
    }

    /// Grows a lever by so many steps.
    pub fn grow(&mut self, lever: usize, steps: i32) {
        let frame = self.frame;
        self.lengths[lever] += steps;
        for shift in &frame.levers[lever].shifts {
            let Direction { east, north, up } = shift.by;
            let by = Direction::new(east * steps, north * steps, up * steps);
            for at in &mut self.at[shift.from as usize..shift.to as usize] {
                *at = *at + by;
            }
        }
    }

    /// By how many steps anything is drawn below what it is truly above.
    pub fn upside_down(&self) -> i32 {
        let [(up, levels), ..] = &self.order.axes;
        levels.disorder(|joint| along(self.at[joint as usize], *up))
    }

    /// By how many steps in all what lies farther up, and farther east and north, is drawn otherwise when a lever grows by
    /// so many steps, as far as it changes that.
    pub fn disorder(&self, mover: &Move, steps: i32) -> Disorder {
        let of =
            |(axis, levels): &(Axis, super::order::Levels)| match mover.ways.iter().any(|way| part(*way, *axis) != 0) {
                true => levels.disorder(|joint| along(self.moved(mover, joint, steps), *axis)),
                false => 0,
            };
        let [up, east, north] = &self.order.axes;
        Disorder {
            up: of(up),
            plan: if self.keeps_plan { of(east) + of(north) } else { 0 },
        }
    }

    /// Every lever of upright pipe so long that what is higher is drawn higher.
    pub fn set_upright(&mut self) {
        let frame = self.frame;
        let [(axis, levels), ..] = &self.order.axes;
        let asked = |run: usize| {
            let (Some(edge), Some(wish)) = (frame.edges[run], self.wishes[run]) else {
                return 1;
            };
            let [from, to] = edge.ends.map(|end| self.at[end as usize]);
            let steps = if edge.may_change {
                wish.wanted.max(1)
            } else {
                count(to - from)
            };
            steps * part(edge.unit, *axis).abs()
        };
        let places = levels.in_order(frame, asked, |run| self.feet[run], *axis);
        let mut wanted = vec![0; frame.levers.len()];
        for (number, lever) in frame.lever_to.iter().enumerate() {
            if let (Some(lever), Some(above), Some(run)) = (lever, frame.above[number], frame.feed[number])
                && let Some(rise) = frame.edges[run]
                    .map(|edge| part(edge.unit, *axis))
                    .filter(|rise| *rise != 0)
            {
                let way = (places[number] - places[above as usize]).abs();
                let wanted = &mut wanted[*lever as usize];
                *wanted = (way / rise.abs()).max(*wanted);
            }
        }
        for (lever, wanted) in wanted.into_iter().enumerate().filter(|(_, wanted)| *wanted > 0) {
            self.grow(lever, wanted - self.lengths[lever]);
        }
    }

    /// The length that a lever would have by the wishes of its runs: the longest that one of them has.
    pub fn wished(&self, lever: &Lever) -> Option<i32> {
        let wishes = lever.runs.iter().filter_map(|run| self.wishes[*run as usize]);
        wishes.map(|wish| wish.wanted).max()
    }

    /// Width and height of the paper that the drawing takes with so many steps more of a lever, mm.
    pub fn extent(&self, mover: &Move, steps: i32) -> (f64, f64) {
        let by: Vec<Vector> = (0..mover.ways.len() as u8)
            .map(|way| self.by(mover, way, steps))
            .collect();
        let places = self.at.iter().zip(&mover.of_joint);
        let around = Rect::around(places.map(|(at, way)| self.view.point(*at) + by[*way as usize]));
        around.map_or((0.0, 0.0), |around| (around.width(), around.height()))
    }
}

fn add(one: Direction, other: Direction) -> Direction {
    Direction::new(one.east + other.east, one.north + other.north, one.up + other.up)
}

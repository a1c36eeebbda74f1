//! The white of a sheet: where no ink stands, in small squares, and where in it a block finds room.

use crate::scene::{Group, Item, Point, Rect, Segment};
use std::ops::Range;

/// Side of a square, mm.
const SQUARE: f64 = 2.0;
/// Blocks may share an edge, mm.
const TOUCH: f64 = 0.01;
/// Paper that is filled is told by its box where that is no larger than this, mm.
const SMALL: f64 = 40.0;

/// Which squares of a sheet are taken.
#[derive(Clone)]
pub struct White {
    min: Point,
    columns: usize,
    rows: usize,
    taken: Vec<bool>,
    /// For each square how many are taken above and left of it; one column and row more than squares.
    sums: Vec<u32>,
    rooms: Vec<Rect>,
    /// Where blocks stand already.
    blocks: Vec<Rect>,
}

impl White {
    /// The white of some rooms of a sheet.
    pub fn of(rooms: &[Rect]) -> White {
        let all = Rect::around(rooms.iter().flat_map(|room| [room.min, room.max])).unwrap_or(Rect::sized(
            Point::default(),
            SQUARE,
            SQUARE,
        ));
        let squares = |mm: f64| (mm / SQUARE).ceil().max(1.0) as usize;
        let (columns, rows) = (squares(all.width()), squares(all.height()));
        let mut white = White {
            min: all.min,
            columns,
            rows,
            taken: vec![true; columns * rows],
            sums: Vec::new(),
            rooms: rooms.to_vec(),
            blocks: Vec::new(),
        };
        for room in rooms {
            white.open(*room);
        }
        white.sum();
        white
    }

    /// The rooms.
    pub fn rooms(&self) -> &[Rect] {
        &self.rooms
    }

    /// What is drawn takes its squares, with so much around it, mm across and downward.
    pub fn draw(&mut self, ink: &Group, (across, down): (f64, f64)) {
        let mut drawn = vec![false; self.taken.len()];
        self.ink(ink, &mut drawn);
        let (across, down) = ((across / SQUARE).round() as usize, (down / SQUARE).round() as usize);
        // First along the rows, then along the columns.
        let mut wide = vec![false; drawn.len()];
        for row in 0..self.rows {
            let line = &drawn[row * self.columns..(row + 1) * self.columns];
            for at in (0..self.columns).filter(|at| line[*at]) {
                let (from, to) = (at.saturating_sub(across), (at + across + 1).min(self.columns));
                wide[row * self.columns + from..row * self.columns + to].fill(true);
            }
        }
        for row in 0..self.rows {
            for column in (0..self.columns).filter(|column| wide[row * self.columns + column]) {
                for other in row.saturating_sub(down)..(row + down + 1).min(self.rows) {
                    self.taken[other * self.columns + column] = true;
                }
            }
        }
        self.sum();
    }

    /// A block takes its place.
    pub fn take(&mut self, place: Rect) {
        self.blocks.push(place);
    }

    /// For how many steps downward and upward a place is hindered at least; `None` where it is free.
    fn hindered(&self, place: Rect) -> Option<[usize; 2]> {
        if !self.rooms.iter().any(|room| room.grown(1e-6).encloses(place)) {
            return Some([1, 1]);
        }
        let overlaps = |block: &&Rect| block.grown(-TOUCH).overlaps(place.grown(-TOUCH));
        if let Some(block) = self.blocks.iter().find(overlaps) {
            let past = |mm: f64| ((mm - 2.0 * TOUCH) / SQUARE).floor().max(1.0) as usize;
            return Some([past(block.max.y - place.min.y), past(place.max.y - block.min.y)]);
        }
        let (columns, rows) = self.within(place);
        if self.count(&columns, &rows) == 0 {
            return None;
        }
        let is_taken = |row: &usize| self.count(&columns, &(*row..*row + 1)) > 0;
        let (first, last) = (rows.clone().find(is_taken)?, rows.clone().rev().find(is_taken)?);
        // In which row a place begins is a matter of the last figures: one step less is sure.
        Some([(last - rows.start).max(1), (rows.end - 1 - first).max(1)])
    }

    /// The places at this left edge where a block of that size finds room: the uppermost and the lowest of each room.
    pub fn ends(&self, left: f64, width: f64, height: f64) -> Vec<Rect> {
        let mut found = Vec::new();
        for room in &self.rooms {
            let steps = ((room.height() - height) / SQUARE).floor();
            if steps < 0.0 {
                continue;
            }
            let steps = steps as usize;
            let down = |step: usize| Rect::sized(Point::new(left, room.min.y + step as f64 * SQUARE), width, height);
            let up = |step: usize| {
                Rect::sized(
                    Point::new(left, room.max.y - height - step as f64 * SQUARE),
                    width,
                    height,
                )
            };
            let first = |place: &dyn Fn(usize) -> Rect, way: usize| {
                let mut step = 0;
                while step <= steps {
                    match self.hindered(place(step)) {
                        None => return Some(place(step)),
                        Some(further) => step += further[way],
                    }
                }
                None
            };
            found.extend(first(&down, 0));
            found.extend(first(&up, 1));
        }
        found
    }

    fn ink(&self, group: &Group, drawn: &mut [bool]) {
        for item in group.items() {
            match item {
                Item::Group(inner) => self.ink(inner, drawn),
                Item::Text(text) => self.fill(text.quad().bounds(), drawn),
                Item::Path(path) => match item.bounds() {
                    Some(bounds) if path.fill.is_some() && bounds.width().max(bounds.height()) <= SMALL => {
                        self.fill(bounds, drawn);
                    }
                    _ => path.outline.flatten(|line| self.line(line, drawn)),
                },
            }
        }
    }

    fn line(&self, line: Segment, drawn: &mut [bool]) {
        let steps = (line.length() / (SQUARE / 2.0)).ceil().max(1.0);
        for step in 0..=steps as usize {
            if let Some(square) = self.square(line.at(step as f64 / steps)) {
                drawn[square] = true;
            }
        }
    }

    fn fill(&self, area: Rect, drawn: &mut [bool]) {
        let (columns, rows) = self.around(area);
        for row in rows {
            drawn[row * self.columns + columns.start..row * self.columns + columns.end].fill(true);
        }
    }

    fn square(&self, at: Point) -> Option<usize> {
        let (x, y) = ((at.x - self.min.x) / SQUARE, (at.y - self.min.y) / SQUARE);
        let inside = x >= 0.0 && y >= 0.0 && x < self.columns as f64 && y < self.rows as f64;
        inside.then_some(y as usize * self.columns + x as usize)
    }

    /// The squares that an area touches.
    fn around(&self, area: Rect) -> (Range<usize>, Range<usize>) {
        let range = |low: f64, high: f64, from: f64, most: usize| {
            let squares = |mm: f64| ((mm - from) / SQUARE).clamp(0.0, most as f64);
            let (low, high) = (squares(low).floor() as usize, squares(high).ceil() as usize);
            low..high.max(low)
        };
        (
            range(area.min.x, area.max.x, self.min.x, self.columns),
            range(area.min.y, area.max.y, self.min.y, self.rows),
        )
    }

    /// The squares whose middles lie in an area.
    fn within(&self, area: Rect) -> (Range<usize>, Range<usize>) {
        let range = |low: f64, high: f64, from: f64, most: usize| {
            let squares = |mm: f64| ((mm - from) / SQUARE - 0.5).ceil().clamp(0.0, most as f64) as usize;
            let (low, high) = (squares(low), squares(high));
            low..high.max(low)
        };
        (
            range(area.min.x, area.max.x, self.min.x, self.columns),
            range(area.min.y, area.max.y, self.min.y, self.rows),
        )
    }

    fn open(&mut self, room: Rect) {
        let (columns, rows) = self.within(room);
        for row in rows {
            self.taken[row * self.columns + columns.start..row * self.columns + columns.end].fill(false);
        }
    }

    fn sum(&mut self) {
        let wide = self.columns + 1;
        self.sums.clear();
        self.sums.resize(wide * (self.rows + 1), 0);
        for row in 0..self.rows {
            let mut line = 0;
            for column in 0..self.columns {
                line += u32::from(self.taken[row * self.columns + column]);
                self.sums[(row + 1) * wide + column + 1] = self.sums[row * wide + column + 1] + line;
            }
        }
    }

    /// How many of some squares are taken.
    fn count(&self, columns: &Range<usize>, rows: &Range<usize>) -> u32 {
        let wide = self.columns + 1;
        let at = |row: usize, column: usize| self.sums[row * wide + column];
        at(rows.end, columns.end) + at(rows.start, columns.start)
            - at(rows.start, columns.end)
            - at(rows.end, columns.start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Outline, PathItem, Pen, Stroke};

    fn sheet() -> Rect {
        Rect::sized(Point::new(20.0, 10.0), 120.0, 90.0)
    }

    #[test]
    fn a_block_finds_room_above_and_below_a_line_and_never_on_it() {
        let mut white = White::of(&[sheet()]);
        let line = Outline::line(Point::new(20.0, 55.0), Point::new(140.0, 55.0));
        let ink = Group::new().with(PathItem::stroked(line, Stroke::new(Pen::Wide)));
        white.draw(&ink, (3.0, 3.0));
        let ends = white.ends(20.0, 60.0, 38.0);
        assert_eq!(ends.len(), 2);
        assert!(ends[0].max.y <= 52.0 + 1e-9 && ends[1].min.y >= 58.0 - 1e-9, "{ends:?}");
        assert!(white.ends(20.0, 60.0, 46.0).is_empty());
        white.take(ends[0]);
        assert!(white.hindered(ends[0]).is_some() && white.hindered(ends[1]).is_none());
    }

    #[test]
    fn the_ends_are_found_as_by_trying_every_step() {
        let rooms = [sheet(), Rect::sized(Point::new(141.0, 17.0), 60.0, 61.0)];
        let mut white = White::of(&rooms);
        let line = |a: (f64, f64), b: (f64, f64)| {
            let line = Outline::line(Point::new(a.0, a.1), Point::new(b.0, b.1));
            Group::new().with(PathItem::stroked(line, Stroke::new(Pen::Wide)))
        };
        white.draw(&line((25.0, 20.0), (120.0, 70.0)), (3.0, 3.0));
        white.draw(&line((150.0, 90.0), (190.0, 20.0)), (2.0, 2.0));
        white.take(Rect::sized(Point::new(20.0, 60.3), 31.0, 17.1));
        white.take(Rect::sized(Point::new(170.0, 40.0), 30.9, 9.7));
        let mut count = 0;
        for n in 0..400_usize {
            let left = 15.0 + (n * 37 % 190) as f64 + (n % 7) as f64 * 0.3;
            let (width, height) = (4.0 + (n * 13 % 50) as f64, 3.0 + (n * 29 % 60) as f64 * 0.7);
            let tried = rooms.iter().flat_map(|room| {
                let steps = ((room.height() - height) / SQUARE).floor();
                let at = |y: f64| Rect::sized(Point::new(left, y), width, height);
                let step = |step: i32| f64::from(step) * SQUARE;
                let down = (0..=steps as i32).map(|n| at(room.min.y + step(n)));
                let up = (0..=steps as i32).map(|n| at(room.max.y - height - step(n)));
                let free = |place: &Rect| {
                    let (columns, rows) = white.within(*place);
                    let apart = |block: &Rect| !block.grown(-TOUCH).overlaps(place.grown(-TOUCH));
                    rooms.iter().any(|room| room.grown(1e-6).encloses(*place))
                        && white.count(&columns, &rows) == 0
                        && white.blocks.iter().all(apart)
                };
                let ends = if steps < 0.0 {
                    [None, None]
                } else {
                    [down.clone().find(free), up.clone().find(free)]
                };
                ends.into_iter().flatten()
            });
            let tried: Vec<Rect> = tried.collect();
            count += tried.len();
            assert_eq!(white.ends(left, width, height), tried, "{left} {width} {height}");
        }
        assert!(count > 100, "{count}");
    }

    #[test]
    fn nothing_stands_across_two_rooms() {
        let (left, right) = (sheet(), Rect::sized(Point::new(140.0, 10.0), 40.0, 90.0));
        let white = White::of(&[left, right]);
        assert!(
            white
                .hindered(Rect::sized(Point::new(130.0, 20.0), 20.0, 20.0))
                .is_some()
        );
        assert!(
            white
                .hindered(Rect::sized(Point::new(140.0, 20.0), 20.0, 20.0))
                .is_none()
        );
    }
}

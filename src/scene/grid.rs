//! Finds what lies near a place on paper without looking at everything: a grid of square cells that hold numbers.
//!
//! What lies outside the grid is held by its outermost cells, so nothing is ever lost.

use super::{Point, Rect, Segment};

/// Cells along each side at most, so that the grid stays small whatever the paper.
const MOST: usize = 512;

/// Numbers of things by the cells of paper that they touch.
#[derive(Clone, Debug)]
pub struct Grid {
    area: Rect,
    cell: f64,
    columns: usize,
    rows: usize,
    /// For each cell the position of its latest entry, counted from 1; 0 for none. One list for all cells: a grid is made
    /// anew for every drawing, and most of its cells stay empty.
    latest: Vec<u32>,
    entries: Vec<Entry>,
    /// Positions of entries that were taken out, counted from 1.
    spare: Vec<u32>,
}

/// A number in a cell, and the position of the entry before it in the same cell, counted from 1.
#[derive(Clone, Copy, Debug)]
struct Entry {
    number: u32,
    before: u32,
}

impl Grid {
    /// An empty grid over an area, its cells about `cell` mm wide.
    pub fn new(area: Rect, cell: f64) -> Self {
        let cell = cell.max(area.width().max(area.height()) / MOST as f64).max(0.01);
        let count = |mm: f64| ((mm / cell).ceil() as usize).clamp(1, MOST);
        let (columns, rows) = (count(area.width()), count(area.height()));
        Self {
            area,
            cell,
            columns,
            rows,
            latest: vec![0; columns * rows],
            entries: Vec::new(),
            spare: Vec::new(),
        }
    }

    fn column(&self, x: f64) -> usize {
        (((x - self.area.min.x) / self.cell) as usize).min(self.columns - 1)
    }

    fn row(&self, y: f64) -> usize {
        (((y - self.area.min.y) / self.cell) as usize).min(self.rows - 1)
    }

    fn file(&mut self, cell: usize, number: u32) {
        let before = self.latest[cell];
        let entry = Entry { number, before };
        self.latest[cell] = match self.spare.pop() {
            Some(position) => {
                self.entries[position as usize - 1] = entry;
                position
            }
            None => {
                self.entries.push(entry);
                u32::try_from(self.entries.len()).unwrap_or(u32::MAX)
            }
        };
    }

    /// Takes the latest entry of a number out of a cell.
    fn take_out(&mut self, cell: usize, number: u32) {
        let (mut after, mut here) = (None, self.latest[cell]);
        while here != 0 {
            let entry = self.entries[here as usize - 1];
            if entry.number == number {
                match after {
                    None => self.latest[cell] = entry.before,
                    Some(after) => self.entries[after as usize - 1].before = entry.before,
                }
                self.spare.push(here);
                return;
            }
            (after, here) = (Some(here), entry.before);
        }
    }

    /// The numbers of a cell, the latest first.
    pub fn cell(&self, cell: usize) -> impl Iterator<Item = u32> + '_ {
        let entry = |position: u32| self.entries.get((position as usize).checked_sub(1)?);
        std::iter::successors(entry(self.latest[cell]), move |last| entry(last.before)).map(|entry| entry.number)
    }

    /// Files a number under every cell that a box touches.
    pub fn insert(&mut self, number: u32, bounds: Rect) {
        self.each_in(bounds, |grid, cell| grid.file(cell, number));
    }

    /// Takes a number out that was filed under a box.
    pub fn remove(&mut self, number: u32, bounds: Rect) {
        self.each_in(bounds, |grid, cell| grid.take_out(cell, number));
    }

    /// Files a number under every cell that a straight piece comes nearer to than `reach` mm.
    pub fn insert_along(&mut self, number: u32, line: Segment, reach: f64) {
        self.each_along(line, reach, |grid, cell| grid.file(cell, number));
    }

    /// Takes a number out that was filed along a straight piece.
    pub fn remove_along(&mut self, number: u32, line: Segment, reach: f64) {
        self.each_along(line, reach, |grid, cell| grid.take_out(cell, number));
    }

    fn each_in(&mut self, bounds: Rect, each: impl Fn(&mut Grid, usize)) {
        for row in self.row(bounds.min.y)..=self.row(bounds.max.y) {
            for column in self.column(bounds.min.x)..=self.column(bounds.max.x) {
                each(self, row * self.columns + column);
            }
        }
    }

    fn each_along(&mut self, line: Segment, reach: f64, each: impl Fn(&mut Grid, usize)) {
        let (left, right) = if line.a.x <= line.b.x {
            (line.a, line.b)
        } else {
            (line.b, line.a)
        };
        let slope = if right.x - left.x > 1e-9 {
            (right.y - left.y) / (right.x - left.x)
        } else {
            0.0
        };
        let (first, last) = (self.column(left.x - reach), self.column(right.x + reach));
        for column in first..=last {
            let bounds = if first == last || right.x - left.x <= 1e-9 {
                line.bounds()
            } else {
                // The outermost columns also take what lies beyond them.
                let x0 = self.area.min.x + column as f64 * self.cell - reach;
                let from = if column == first {
                    left.x
                } else {
                    x0.clamp(left.x, right.x)
                };
                let to = if column == last {
                    right.x
                } else {
                    (x0 + self.cell + 2.0 * reach).clamp(left.x, right.x)
                };
                let y = |x: f64| left.y + (x - left.x) * slope;
                Segment::new(Point::new(from, y(from)), Point::new(to, y(to))).bounds()
            };
            for row in self.row(bounds.min.y - reach)..=self.row(bounds.max.y + reach) {
                each(self, row * self.columns + column);
            }
        }
    }

    /// Calls back with the numbers of every cell that a box touches, one maybe several times, until told to stop by
    /// `false`. Gives back whether nobody said so.
    pub fn near(&self, bounds: Rect, mut each: impl FnMut(u32) -> bool) -> bool {
        let (first, last) = (self.column(bounds.min.x), self.column(bounds.max.x));
        for row in self.row(bounds.min.y)..=self.row(bounds.max.y) {
            let start = row * self.columns;
            for cell in start + first..=start + last {
                for number in self.cell(cell) {
                    if !each(number) {
                        return false;
                    }
                }
            }
        }
        true
    }

    /// How many cells there are.
    pub fn count(&self) -> usize {
        self.latest.len()
    }

    /// The number of the cell that holds a place.
    pub fn cell_of(&self, place: Point) -> usize {
        self.row(place.y) * self.columns + self.column(place.x)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area() -> Rect {
        Rect::new(Point::new(-10.0, 5.0), Point::new(90.0, 65.0))
    }

    fn found(grid: &Grid, bounds: Rect) -> Vec<u32> {
        let mut all = Vec::new();
        grid.near(bounds, |n| {
            all.push(n);
            true
        });
        all.sort_unstable();
        all.dedup();
        all
    }

    #[test]
    fn every_place_on_a_slanted_piece_finds_it_and_far_places_do_not() {
        for (a, b) in [
            (Point::new(0.0, 10.0), Point::new(80.0, 60.0)),
            (Point::new(80.0, 8.0), Point::new(3.0, 50.0)),
            (Point::new(20.0, 6.0), Point::new(20.0, 64.0)),
            (Point::new(-40.0, 30.0), Point::new(150.0, 31.0)),
        ] {
            let line = Segment::new(a, b);
            let mut grid = Grid::new(area(), 4.0);
            grid.insert_along(7, line, 1.0);
            for t in 0..=200 {
                let p = line.at(f64::from(t) / 200.0);
                let near = Rect::sized(p, 0.0, 0.0).grown(0.9);
                assert_eq!(found(&grid, near), [7], "{line:?} at {p:?}");
            }
        }
        let mut grid = Grid::new(area(), 4.0);
        grid.insert_along(7, Segment::new(Point::new(0.0, 10.0), Point::new(80.0, 60.0)), 1.0);
        assert!(found(&grid, Rect::sized(Point::new(70.0, 8.0), 10.0, 10.0)).is_empty());
    }

    #[test]
    fn what_was_taken_out_is_gone_and_the_rest_stays() {
        let slanted = Segment::new(Point::new(0.0, 10.0), Point::new(80.0, 60.0));
        let room = Rect::sized(Point::new(30.0, 25.0), 20.0, 20.0);
        let mut grid = Grid::new(area(), 4.0);
        grid.insert(1, room);
        grid.insert_along(2, slanted, 1.0);
        grid.insert(3, room);
        grid.remove(1, room);
        assert_eq!(found(&grid, area()), [2, 3]);
        let entries = grid.entries.len();
        grid.insert(4, room);
        assert_eq!(grid.entries.len(), entries, "room of what is gone is used again");
        grid.remove_along(2, slanted, 1.0);
        grid.remove(3, room);
        assert_eq!(found(&grid, area()), [4]);
        for cell in 0..grid.count() {
            assert!(grid.cell(cell).all(|number| number == 4));
        }
    }

    #[test]
    fn what_lies_outside_is_still_found() {
        let mut grid = Grid::new(area(), 4.0);
        let outside = Rect::sized(Point::new(500.0, -80.0), 3.0, 3.0);
        grid.insert(1, outside);
        assert_eq!(found(&grid, outside), [1]);
    }
}

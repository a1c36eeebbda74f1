//! The white of a sheet: where no ink stands, in small squares, and where in it a block finds room.

use crate::scene::{Group, Item, Point, Rect, Segment};

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

    /// Whether a place is white all over.
    pub fn is_free(&self, place: Rect) -> bool {
        let inside = self.rooms.iter().any(|room| room.grown(1e-6).encloses(place));
        let apart = |block: &Rect| !block.grown(-TOUCH).overlaps(place.grown(-TOUCH));
        inside && self.count(place) == 0 && self.blocks.iter().all(apart)
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
            found.extend((0..=steps).map(down).find(|place| self.is_free(*place)));
            found.extend((0..=steps).map(up).find(|place| self.is_free(*place)));
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
    fn around(&self, area: Rect) -> (std::ops::Range<usize>, std::ops::Range<usize>) {
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
    fn within(&self, area: Rect) -> (std::ops::Range<usize>, std::ops::Range<usize>) {
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

    fn count(&self, area: Rect) -> u32 {
        let (columns, rows) = self.within(area);
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
        assert!(!white.is_free(ends[0]) && white.is_free(ends[1]));
    }

    #[test]
    fn nothing_stands_across_two_rooms() {
        let (left, right) = (sheet(), Rect::sized(Point::new(140.0, 10.0), 40.0, 90.0));
        let white = White::of(&[left, right]);
        assert!(!white.is_free(Rect::sized(Point::new(130.0, 20.0), 20.0, 20.0)));
        assert!(white.is_free(Rect::sized(Point::new(140.0, 20.0), 20.0, 20.0)));
    }
}

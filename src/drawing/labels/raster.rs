//! What of the paper is covered, on a square pitch: a quick no before an exact test.
//!
//! Two shapes that cover one and the same place of the pitch overlap for certain, and a point in a cell that a shape
//! covers wholly lies in the shape for certain. The reverse is not so: a shape may lie between the places, and then only
//! an exact test knows. What covers it stays.

use crate::scene::{Point, Quad, Rect};
use std::ops::Range;

/// Places along each side at most.
const MOST: usize = 2048;
/// How far inside a shape a place must lie to be covered for certain, mm.
const INSIDE: f64 = 1e-6;

/// What is counted as covered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The corners of cells.
    Places,
    /// Whole cells.
    Cells,
}

/// Which places or cells are covered.
#[derive(Clone, Debug)]
pub struct Raster {
    by: By,
    corner: Point,
    pitch: f64,
    per_mm: f64,
    columns: usize,
    rows: usize,
    /// For each place whether any shape covers it, 64 to a word; every row begins with a word of its own.
    bits: Vec<u64>,
    words: usize,
}

impl Raster {
    /// An area without anything on it, its places about `pitch` mm apart.
    pub fn new(area: Rect, pitch: f64, by: By) -> Raster {
        let pitch = pitch.max(area.width().max(area.height()) / MOST as f64);
        let count = |mm: f64| ((mm / pitch).ceil() as usize).clamp(1, MOST);
        let (columns, rows) = (count(area.width()), count(area.height()));
        let words = columns.div_ceil(64);
        Raster {
            by,
            corner: area.min,
            pitch,
            per_mm: 1.0 / pitch,
            columns,
            rows,
            bits: vec![0; words * rows],
            words,
        }
    }

    /// Adds a shape.
    pub fn cover(&mut self, shape: &Quad) {
        let rows = self.rows_of(shape);
        let mut here = self.columns_of(shape, rows.start);
        for row in rows {
            let below = self.columns_of(shape, row + 1);
            match self.by {
                By::Places => self.mark(row, here),
                // A cell with all four corners inside lies inside: shapes are convex.
                By::Cells => {
                    let (start, end) = (here.start.max(below.start), here.end.min(below.end));
                    self.mark(row, start..end.saturating_sub(1));
                }
            }
            here = below;
        }
    }

    fn mark(&mut self, row: usize, columns: Range<usize>) {
        let Some((first, last, from, to)) = masks(&columns) else {
            return;
        };
        let words = &mut self.bits[row * self.words + first..=row * self.words + last];
        match words {
            [only] => *only |= from & to,
            [first, middle @ .., last] => {
                *first |= from;
                middle.fill(u64::MAX);
                *last |= to;
            }
            [] => {}
        }
    }

    /// Whether a shape lies on another for certain.
    pub fn is_covered(&self, shape: &Quad) -> bool {
        self.rows_of(shape)
            .any(|row| self.is_any(row, self.columns_of(shape, row)))
    }

    /// Whether an upright box lies on a shape for certain.
    pub fn is_box_covered(&self, room: Rect) -> bool {
        let columns = self.range(room.min.x - self.corner.x, room.max.x - self.corner.x, self.columns);
        self.range(room.min.y - self.corner.y, room.max.y - self.corner.y, self.rows)
            .any(|row| self.is_any(row, columns.clone()))
    }

    /// Whether a point lies in a shape for certain; asked of cells.
    pub fn is_point_covered(&self, point: Point) -> bool {
        let (x, y) = (
            (point.x - self.corner.x) * self.per_mm,
            (point.y - self.corner.y) * self.per_mm,
        );
        let (column, row) = (x as usize, y as usize);
        let is_inside = x >= 0.0 && y >= 0.0 && column < self.columns && row < self.rows;
        is_inside && self.bits[row * self.words + column / 64] & (1 << (column % 64)) != 0
    }

    fn is_any(&self, row: usize, columns: Range<usize>) -> bool {
        let Some((first, last, from, to)) = masks(&columns) else {
            return false;
        };
        let words = &self.bits[row * self.words + first..=row * self.words + last];
        match words {
            [only] => only & from & to != 0,
            [first, middle @ .., last] => first & from != 0 || last & to != 0 || middle.iter().any(|word| *word != 0),
            [] => false,
        }
    }

    fn rows_of(&self, shape: &Quad) -> Range<usize> {
        let [a, b, c, d] = shape.0.map(|corner| corner.y - self.corner.y);
        self.range(a.min(b).min(c.min(d)), a.max(b).max(c.max(d)), self.rows)
    }

    /// The places of a row that lie inside a shape.
    fn columns_of(&self, shape: &Quad, row: usize) -> Range<usize> {
        let y = self.corner.y + self.pitch * row as f64;
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let [a, b, c, d] = shape.0;
        for (a, b) in [(a, b), (b, c), (c, d), (d, a)] {
            if (a.y <= y) != (b.y <= y) {
                let x = a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y));
                (low, high) = (low.min(x), high.max(x));
            }
        }
        self.range(low - self.corner.x, high - self.corner.x, self.columns)
    }

    /// The numbers of the places that lie between two lengths, as far as there are so many.
    fn range(&self, low: f64, high: f64, count: usize) -> Range<usize> {
        // A cast cuts fractions off and keeps what is too large or no number within bounds.
        let (low, high) = (low + INSIDE, high - INSIDE);
        let after = |mm: f64| ((mm * self.per_mm) as usize).min(count) + 1;
        let first = if low > 0.0 { after(low) } else { 0 };
        let end = if high >= 0.0 { after(high) } else { 0 };
        first.min(count)..end.min(count)
    }
}

/// The first and the last word of some columns, and which bits of these two are theirs; `None` where there are no columns.
fn masks(columns: &Range<usize>) -> Option<(usize, usize, u64, u64)> {
    let last = columns.end.checked_sub(1).filter(|last| *last >= columns.start)?;
    let (from, to) = (u64::MAX << (columns.start % 64), u64::MAX >> (63 - last % 64));
    Some((columns.start / 64, last / 64, from, to))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Affine, Segment};

    fn slanted(x: f64, y: f64, width: f64, height: f64, degrees: f64) -> Quad {
        let at = Affine::turn(degrees).then(Affine::to(Point::new(x, y)));
        Quad::of(Rect::sized(Point::default(), width, height), at)
    }

    fn raster(by: By) -> Raster {
        Raster::new(Rect::new(Point::new(-20.0, 10.0), Point::new(180.0, 110.0)), 1.0, by)
    }

    #[test]
    fn what_is_covered_overlaps_for_certain_and_large_overlaps_are_all_seen() {
        let shapes: Vec<Quad> = (0..40)
            .map(|n| {
                let n = f64::from(n);
                let (x, y) = ((n * 37.0) % 150.0, 15.0 + (n * 23.0) % 80.0);
                slanted(x, y, 2.0 + n % 9.0, 1.0 + n % 5.0, n * 31.0)
            })
            .collect();
        let mut seen = 0;
        for one in &shapes {
            let mut raster = raster(By::Places);
            raster.cover(one);
            for other in &shapes {
                if raster.is_covered(other) {
                    seen += 1;
                    assert!(one.overlaps(other), "{one:?} {other:?}");
                }
            }
        }
        assert!(seen > shapes.len(), "{seen}");
        let mut raster = raster(By::Places);
        raster.cover(&slanted(50.0, 50.0, 20.0, 3.0, 30.0));
        assert!(raster.is_covered(&slanted(50.0, 50.0, 20.0, 3.0, 20.0)));
    }

    #[test]
    fn a_point_in_a_covered_cell_lies_in_the_shape() {
        let mut seen = 0;
        for degrees in [0.0, 17.0, 30.0, 45.0, 100.0] {
            let shape = slanted(50.0, 50.0, 24.0, 4.3, degrees);
            let mut raster = raster(By::Cells);
            raster.cover(&shape);
            for n in 0..20_000 {
                let point = Point::new(20.0 + f64::from(n % 200) * 0.37, 20.0 + f64::from(n / 200) * 0.61);
                if raster.is_point_covered(point) {
                    seen += 1;
                    assert!(shape.contains(point), "{point:?} {degrees}");
                }
            }
        }
        assert!(seen > 500, "{seen}");
    }

    #[test]
    fn shapes_off_the_paper_and_flat_ones_cover_nothing() {
        let mut raster = raster(By::Places);
        let flat = Quad::strip(Segment::new(Point::new(0.0, 50.0), Point::new(90.0, 50.0)), 0.0);
        let far = Quad([Point::new(-900.0, -900.0); 4].map(|p| p + crate::scene::Vector::new(5.0, 5.0)));
        let huge = slanted(-1e6, -1e6, 1e6, 10.0, 0.0);
        for shape in [flat, far, huge] {
            raster.cover(&shape);
            assert!(!raster.is_covered(&slanted(0.0, 20.0, 100.0, 80.0, 0.0)));
        }
    }
}

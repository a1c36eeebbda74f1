//! The lines around all paper that is within a distance of something: marching squares over a field of distances.

use crate::scene::{Point, Rect, Segment, Vector};
use std::collections::HashMap;

/// The finest cells, mm.
const FINEST: f64 = 1.25;
/// So many cells at most, and so many along a side.
const MOST: f64 = 200_000.0;
const MOST_ALONG: f64 = 2_000.0;
/// So many times at most the corner of a cell is held against what lies near it, about.
const MOST_LOOKS: f64 = 4_000_000.0;

/// All paper within so many mm of a line.
#[derive(Clone, Copy, Debug)]
pub struct Near {
    /// The line; a place where it has no length.
    pub line: Segment,
    /// How near, mm.
    pub off: f64,
}

/// Distances at the corners of cells.
struct Field {
    min: Point,
    cell: f64,
    across: usize,
    down: usize,
    /// How far each corner is from what is enclosed, mm; less than nothing within.
    at: Vec<f64>,
}

/// The outer lines, each closed and clockwise as seen on paper, in the order of their upper ends.
pub fn around(shapes: &[Near]) -> Vec<Vec<Point>> {
    match Field::of(shapes) {
        Some(field) => field.lines(),
        None => Vec::new(),
    }
}

impl Field {
    fn of(shapes: &[Near]) -> Option<Field> {
        let boxes = || shapes.iter().map(|near| near.line.bounds().grown(near.off));
        let bounds = boxes().reduce(Rect::union)?;
        let looked_at: f64 = boxes().map(|room| room.width() * room.height()).sum();
        let longest = bounds.width().max(bounds.height());
        let cell = (bounds.width() * bounds.height() / MOST)
            .sqrt()
            .max(longest / MOST_ALONG)
            .max((looked_at / MOST_LOOKS).sqrt())
            .max(FINEST);
        let bounds = bounds.grown(2.0 * cell);
        let count = |mm: f64| (mm / cell).ceil() as usize + 2;
        let (across, down) = (count(bounds.width()), count(bounds.height()));
        let mut field = Field {
            min: bounds.min,
            cell,
            across,
            down,
            at: vec![cell; across * down],
        };
        for near in shapes {
            // Where cells are coarse a shape must still reach a corner of one.
            field.put(near.line, near.off.max(cell));
        }
        Some(field)
    }

    fn put(&mut self, line: Segment, off: f64) {
        let reach = line.bounds().grown(off + self.cell);
        let place = |mm: f64, most: usize| ((mm / self.cell).max(0.0) as usize).min(most - 1);
        let (left, right) = (
            place(reach.min.x - self.min.x, self.across),
            place(reach.max.x - self.min.x + self.cell, self.across),
        );
        let (top, foot) = (
            place(reach.min.y - self.min.y, self.down),
            place(reach.max.y - self.min.y + self.cell, self.down),
        );
        for row in top..=foot {
            for column in left..=right {
                let away = line.distance(self.corner(column, row)) - off;
                let here = &mut self.at[row * self.across + column];
                *here = here.min(away);
            }
        }
    }

    fn corner(&self, column: usize, row: usize) -> Point {
        self.min + Vector::new(column as f64, row as f64) * self.cell
    }

    /// Where the line passes between two neighbouring corners.
    fn between(&self, (a, b): Edge) -> Point {
        let [from, to] = [a, b].map(|at| self.corner(at % self.across, at / self.across));
        let (low, high) = (self.at[a], self.at[b]);
        from.toward(to, (low / (low - high)).clamp(0.02, 0.98))
    }

    fn lines(&self) -> Vec<Vec<Point>> {
        let mut order: Vec<Edge> = Vec::new();
        let mut next: HashMap<Edge, Edge> = HashMap::new();
        for row in 0..self.down - 1 {
            for column in 0..self.across - 1 {
                let first = row * self.across + column;
                // Clockwise from the upper left.
                let corners = [first, first + 1, first + 1 + self.across, first + self.across];
                let inside = corners.map(|at| self.at[at] < 0.0);
                // Most cells are all within or all without.
                if inside == [inside[0]; 4] {
                    continue;
                }
                for (from, to) in crossed(inside) {
                    let edge = |side: usize| sorted(corners[side], corners[(side + 1) % 4]);
                    order.push(edge(from));
                    next.insert(edge(from), edge(to));
                }
            }
        }
        let mut lines = Vec::new();
        for start in order {
            let mut line = Vec::new();
            let mut here = start;
            while let Some(to) = next.remove(&here) {
                line.push(self.between(here));
                here = to;
            }
            // Holes go the other way round; they are no clouds.
            if line.len() > 2 && area(&line) > 0.0 {
                lines.push(line);
            }
        }
        lines
    }
}

/// Two neighbouring corners, the smaller first.
type Edge = (usize, usize);

fn sorted(a: usize, b: usize) -> Edge {
    (a.min(b), a.max(b))
}

/// From which side of a cell to which the line goes, what is inside to its right: sides and corners clockwise from the
/// upper left.
fn crossed(inside: [bool; 4]) -> Vec<(usize, usize)> {
    // The line comes in over a side that leads from inside to outside, and goes out over the one before that leads back.
    let leaves = |side: usize| inside[side] && !inside[(side + 1) % 4];
    let enters = |side: usize| !inside[side] && inside[(side + 1) % 4];
    let back = |from: usize| (1..4).map(|by| (from + 4 - by) % 4).find(|side| enters(*side));
    (0..4)
        .filter(|side| leaves(*side))
        .filter_map(|side| Some((side, back(side)?)))
        .collect()
}

/// Twice the area of a closed line; more than nothing where it goes clockwise as seen on paper.
fn area(line: &[Point]) -> f64 {
    let next = line.iter().cycle().skip(1);
    line.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum()
}

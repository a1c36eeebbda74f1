//! Ends of leaders: each goes on from where it was looked for to the ink that it speaks of, unless it comes too near to
//! other leaders or words there.

use super::choices;
use super::spots::Spot;
use crate::scene::{Grid, Quad, Rect, Segment};

/// Nearer than this no leader is drawn on to where another is, or words are, mm.
const APART: f64 = 1.2;
/// Width of the cells by which they are found, mm.
const CELL: f64 = 8.0;
/// What rounding may take, mm.
const SLACK: f64 = 0.01;

/// The leaders and words of all labels, each with its label.
pub struct Ends {
    leaders: Vec<(usize, Segment)>,
    words: Vec<(usize, Quad)>,
    leaders_at: Grid,
    words_at: Grid,
}

impl Ends {
    /// Of labels that have their places.
    pub fn new(area: Rect, chosen: &[Option<Spot>]) -> Ends {
        let mut ends = Ends {
            leaders: Vec::new(),
            words: Vec::new(),
            leaders_at: Grid::new(area, CELL),
            words_at: Grid::new(area, CELL),
        };
        for (label, spot) in chosen.iter().enumerate() {
            let Some(spot) = spot else { continue };
            for piece in spot.leader.into_iter().flat_map(choices::pieces) {
                ends.add(label, piece);
            }
            for room in spot.rooms() {
                ends.words_at.insert(ends.words.len() as u32, room.bounds());
                ends.words.push((label, *room));
            }
        }
        ends
    }

    /// Adds a piece of a leader.
    pub fn add(&mut self, label: usize, piece: Segment) {
        let number = self.leaders.len() as u32;
        self.leaders_at.insert_along(number, piece, SLACK);
        self.leaders.push((label, piece));
    }

    /// Whether the leader of a label may go on over a piece of way.
    pub fn admit(&self, label: usize, more: Segment) -> bool {
        let near = more.bounds().grown(APART + SLACK);
        let is_apart = |at: u32| {
            let (other, piece) = self.leaders[at as usize];
            other == label || piece.gap(more) > APART
        };
        // Its own words may be near, but what goes on to the ink does not cross them either.
        let is_clear = |at: u32| {
            let (other, room) = &self.words[at as usize];
            let least = if *other == label { 0.0 } else { APART };
            room.gap_to_segment(more) > least
        };
        self.leaders_at.near(near, is_apart) && self.words_at.near(near, is_clear)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Point, Vector};

    /// What is found by cells is what looking at everything finds.
    #[test]
    fn nothing_that_is_near_is_overlooked() {
        let area = Rect::sized(Point::default(), 90.0, 60.0);
        let mut ends = Ends::new(area, &[]);
        let place = |n: usize| Point::new((n * 37 % 101) as f64 - 4.0, (n * 53 % 71) as f64 - 4.0);
        let piece = |n: usize| {
            let way = Vector::new((n * 17 % 23) as f64 - 11.0, (n * 29 % 19) as f64 - 9.0);
            Segment::new(place(n), place(n) + way)
        };
        let mut counts = [0; 2];
        for label in 0..400 {
            let more = piece(label + 400);
            let expected = ends.leaders.iter().all(|(_, piece)| piece.gap(more) > APART);
            assert_eq!(ends.admit(label, more), expected, "{label}");
            counts[usize::from(expected)] += 1;
            if label % 10 == 0 {
                ends.add(label, piece(label));
            }
        }
        assert!(counts.iter().all(|count| *count > 20), "{counts:?}");
    }
}

//! What has been inked so far, so that white is written only where it covers something.

use super::curve::Chain;
use crate::scene::Rect;

/// Fields to each side of the sheet.
const FIELDS: usize = 64;

/// A shape over more fields than this is kept apart.
const MANY: usize = 64;

/// Ink that reaches no farther into a box meets its edge only, mm.
const EDGE: f64 = 1e-3;

/// The boxes around straight pieces of ink, by the fields of the sheet that they touch.
#[derive(Debug)]
pub struct Ground {
    width: f64,
    height: f64,
    inked: Vec<Rect>,
    /// For each field the places in `inked`.
    fields: Vec<Vec<u32>>,
    /// Places in `inked` of those over many fields.
    large: Vec<u32>,
}

impl Ground {
    /// A blank sheet.
    pub fn new(width: f64, height: f64) -> Ground {
        Ground {
            width,
            height,
            inked: Vec::new(),
            fields: vec![Vec::new(); FIELDS * FIELDS],
            large: Vec::new(),
        }
    }

    /// Notes lines.
    pub fn ink(&mut self, chains: &[Chain]) {
        for (a, b) in chains.iter().flat_map(Chain::pieces) {
            self.ink_area(Rect::new(a, b));
        }
    }

    /// Notes whatever fills a box.
    pub fn ink_area(&mut self, bounds: Rect) {
        let Ok(place) = u32::try_from(self.inked.len()) else {
            return;
        };
        self.inked.push(bounds);
        let touched: Vec<usize> = self.touched(bounds).take(MANY + 1).collect();
        if touched.len() > MANY {
            self.large.push(place);
        } else {
            for field in touched {
                self.fields[field].push(place);
            }
        }
    }

    /// Whether ink may lie in a box; what only meets its edge does not.
    pub fn is_inked(&self, bounds: Rect) -> bool {
        let meets = |at: &u32| {
            let Rect { min, max } = self.inked[*at as usize];
            let across = min.x < bounds.max.x - EDGE && bounds.min.x + EDGE < max.x;
            across && min.y < bounds.max.y - EDGE && bounds.min.y + EDGE < max.y
        };
        self.large.iter().any(meets) || self.touched(bounds).any(|field| self.fields[field].iter().any(meets))
    }

    /// The fields that a box touches; what lies beyond the sheet counts to its rim.
    fn touched(&self, bounds: Rect) -> impl Iterator<Item = usize> + use<> {
        let field = |mm: f64, whole: f64| ((mm / whole * FIELDS as f64).max(0.0) as usize).min(FIELDS - 1);
        let (left, right) = (field(bounds.min.x, self.width), field(bounds.max.x, self.width));
        let (top, foot) = (field(bounds.min.y, self.height), field(bounds.max.y, self.height));
        (top..=foot).flat_map(move |row| (left..=right).map(move |column| row * FIELDS + column))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::dxf::curve::chains;
    use crate::scene::{Outline, Point};

    #[test]
    fn ink_is_found_wherever_it_lies_and_its_neighbours_are_not() {
        let box_at = |x: f64, y: f64| Rect::sized(Point::new(x, y), 2.0, 2.0);
        for (from, to) in [
            ((5.0, 5.0), (5.0, 45.0)),
            ((-900.0, 45.0), (900.0, 45.0)),
            ((5.0, 5.0), (95.0, 45.0)),
        ] {
            let mut ground = Ground::new(100.0, 50.0);
            assert!(!ground.is_inked(Rect::sized(Point::default(), 100.0, 50.0)));
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            ground.ink(&chains(&Outline::line(from, to)));
            let middle = from.midway(to);
            assert!(ground.is_inked(box_at(middle.x - 1.0, middle.y - 1.0)), "{from:?}");
            assert!(!ground.is_inked(box_at(97.0, 1.0)), "{from:?}");
        }
        let mut ground = Ground::new(100.0, 50.0);
        ground.ink_area(box_at(10.0, 10.0));
        assert!(ground.is_inked(Rect::sized(Point::new(10.5, 10.5), 1.0, 1.0)), "within");
        assert!(!ground.is_inked(box_at(12.0, 10.0)), "side by side");
        ground.ink_area(Rect::sized(Point::new(2_000.0, 0.0), 5.0, 5.0));
        assert!(
            ground.is_inked(Rect::sized(Point::new(2_001.0, 1.0), 1.0, 1.0)),
            "off the sheet"
        );
    }
}

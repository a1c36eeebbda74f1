//! Which schedules stand around the drawing, and where: each whole, in the white that the drawing leaves.
//!
//! All are tried first, the largest before the others; where not all find room, those that matter most beside the drawing
//! come first, or running text goes from edge to edge, so that it takes little of the sheet's height. A block stands at an edge of the sheet or beside or under another one, at the width at which it takes the
//! least room.

use super::block::{Block, Laid};
use super::tags::Schedule;
use super::white::White;
use crate::scene::{Point, Rect};
use std::rc::Rc;

/// Widths at which running text is tried, mm.
const WIDTHS: [f64; 7] = [64.0, 80.0, 96.0, 112.0, 130.0, 152.0, 180.0];
/// Wider than it needs a table is laid by no more, so that it ends where its neighbour does, mm.
const STRETCH: f64 = 24.0;
/// How much more room a block seems to take that is not in line with its neighbours.
const OUT_OF_LINE: f64 = 0.12;
/// Running text is read with pleasure from this width on, mm, and seems to take so much more room where it is narrower.
const WIDE: f64 = 150.0;
const NARROW: f64 = 0.4;
/// Two edges so near to one another are one, mm.
const NEAR: f64 = 2.0;

/// Blocks laid at every width that they may get.
#[derive(Clone)]
pub struct Choice {
    blocks: Vec<Rc<Candidate>>,
}

struct Candidate {
    which: Schedule,
    /// The ways in which it can be laid uncut, the narrowest first.
    laid: Vec<Laid>,
}

/// Where blocks went.
#[derive(Clone, Default)]
pub struct Filled {
    /// Blocks with the places of their upper left corners.
    pub placed: Vec<(Point, Laid)>,
    /// Blocks that found no room, as their places in the list.
    pub rest: Vec<usize>,
}

impl Choice {
    /// Blocks for rooms of a sheet.
    pub fn of(blocks: &[Block], rooms: &[Rect]) -> Choice {
        let blocks = blocks.iter().map(|block| Rc::new(Candidate::of(block, rooms)));
        Choice {
            blocks: blocks.collect(),
        }
    }

    /// The same for blocks some of which are other ones now, as told by `is_new`; the others are laid already.
    pub fn with(&self, blocks: &[Block], rooms: &[Rect], is_new: impl Fn(Schedule) -> bool) -> Choice {
        let known = |block: &Block| self.blocks.iter().find(|known| known.which == block.which).cloned();
        let laid = blocks.iter().map(|block| {
            let known = known(block).filter(|_| !is_new(block.which));
            known.unwrap_or_else(|| Rc::new(Candidate::of(block, rooms)))
        });
        Choice { blocks: laid.collect() }
    }

    /// The room in mm² that a block takes where it takes the least; nothing for one that is too wide for any room.
    pub fn area(&self, block: usize) -> f64 {
        let laid = self.blocks.get(block).map_or(&[][..], |block| &block.laid);
        let areas = laid.iter().map(|laid| laid.width() * laid.height());
        areas.fold(f64::INFINITY, f64::min).min(1e6)
    }

    /// How badly it is missed what found no room: 1 for each block that must stand there, half of it for numbered points,
    /// which can be read beside the sheet; nothing for what may stand anywhere.
    pub fn missed(&self, filled: &Filled) -> f64 {
        let rest = filled.rest.iter().filter_map(|at| self.blocks.get(*at));
        let missed = rest.map(|block| match block.which {
            Schedule::Points => 0.5,
            which if must(which) => 1.0,
            _ => 0.0,
        });
        missed.sum()
    }

    /// Fills the white of a sheet.
    pub fn fill(&self, white: &White) -> Filled {
        let mut order: Vec<usize> = (0..self.blocks.len()).collect();
        order.sort_by(|a, b| {
            let first = |at: usize| !must(self.blocks[at].which);
            first(*a).cmp(&first(*b)).then(self.area(*b).total_cmp(&self.area(*a)))
        });
        let all = self.in_order(&order, white, Text::Any);
        if all.rest.is_empty() {
            return all;
        }
        let is_text = |at: &usize| is_running(self.blocks[*at].which);
        order.sort_by_key(|at| (!must(self.blocks[*at].which), !is_text(at)));
        let wide = self.in_order(&order, white, Text::FromEdgeToEdge);
        if wide.rest.is_empty() {
            return wide;
        }
        order.sort_by_key(|at| std::cmp::Reverse(weight(self.blocks[*at].which)));
        let likely = self.in_order(&order, white, Text::Any);
        let left = |filled: &Filled| {
            let weights = filled.rest.iter().map(|at| weight(self.blocks[*at].which));
            weights.sum::<u32>()
        };
        if left(&likely) <= left(&all) { likely } else { all }
    }

    fn in_order(&self, order: &[usize], white: &White, text: Text) -> Filled {
        let mut white = white.clone();
        let mut filled = Filled::default();
        let mut taken: Vec<Rect> = Vec::new();
        for &at in order {
            match self.blocks[at].best(&white, &taken, text) {
                Some((place, laid)) => {
                    white.take(place);
                    taken.push(place);
                    filled.placed.push((place.min, laid.clone()));
                }
                None => filled.rest.push(at),
            }
        }
        filled.rest.sort_unstable();
        filled
    }
}

impl Candidate {
    fn of(block: &Block, rooms: &[Rect]) -> Candidate {
        let least = block.least_width();
        let natural = block.natural_width();
        let rooms_wide = rooms.iter().map(|room| room.width());
        let mut widths: Vec<f64> = match natural {
            Some(natural) => {
                let natural = natural.max(least);
                let near = WIDTHS.into_iter().chain(rooms_wide.clone());
                let near = near.filter(|width| *width <= natural + STRETCH);
                [least, natural, (least + natural) / 2.0]
                    .into_iter()
                    .chain(near)
                    .collect()
            }
            None => WIDTHS.into_iter().chain(rooms_wide.clone()).collect(),
        };
        let widest = rooms_wide.fold(0.0, f64::max);
        widths.retain(|width| *width >= least && *width <= widest + 1e-9);
        widths.sort_by(f64::total_cmp);
        widths.dedup_by(|a, b| (*a - *b).abs() < 0.5);
        let highest = rooms.iter().map(|room| room.height()).fold(0.0, f64::max);
        let laid = widths.iter().filter(|_| block.least_height() <= highest);
        Candidate {
            which: block.which,
            laid: laid.map(|width| block.lay(*width)).collect(),
        }
    }

    /// The best of all places, and how the block is laid there.
    fn best(&self, white: &White, taken: &[Rect], text: Text) -> Option<(Rect, &Laid)> {
        let mut best: Option<(f64, Rect, &Laid)> = None;
        let laid = match text {
            Text::FromEdgeToEdge if is_running(self.which) => &self.laid[self.laid.len().saturating_sub(1)..],
            Text::FromEdgeToEdge | Text::Any => &self.laid,
        };
        for laid in laid {
            let (width, height) = (laid.width(), laid.height());
            let edges = white.rooms().iter().flat_map(|room| [room.min.x, room.max.x - width]);
            let beside = taken
                .iter()
                .flat_map(|block| [block.min.x, block.max.x, block.min.x - width, block.max.x - width]);
            let mut lefts: Vec<f64> = edges.chain(beside).collect();
            lefts.sort_by(f64::total_cmp);
            lefts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
            for place in lefts.into_iter().flat_map(|left| white.ends(left, width, height)) {
                let cost = self.cost(place, white, taken);
                if best.as_ref().is_none_or(|best| cost < best.0) {
                    best = Some((cost, place, laid));
                }
            }
        }
        best.map(|(_, place, laid)| (place, laid))
    }

    /// What a place costs, in mm²: its room, and that it is where nobody looks for it.
    fn cost(&self, place: Rect, white: &White, taken: &[Rect]) -> f64 {
        let area = place.width() * place.height();
        let near = |a: f64, b: f64| (a - b).abs() < NEAR;
        let in_column = |block: &&Rect| {
            let touches = near(block.max.y, place.min.y) || near(place.max.y, block.min.y);
            touches && near(block.min.x, place.min.x)
        };
        let is_in_line = taken.iter().any(|block| in_column(&block))
            || white
                .rooms()
                .iter()
                .any(|room| near(room.max.x, place.max.x) || near(room.min.x, place.min.x));
        let low = white.rooms().first().map_or(0.0, |room| match self.which {
            Schedule::Notes | Schedule::Elsewhere | Schedule::Revisions | Schedule::Supply => room.max.y - place.max.y,
            _ => place.min.y - room.min.y,
        });
        let right = white.rooms().first().map_or(0.0, |room| room.max.x - place.max.x);
        let out = if is_in_line { 0.0 } else { OUT_OF_LINE };
        let narrow = match self.which {
            which if is_running(which) && place.width() < WIDE => NARROW * (WIDE - place.width()) / WIDE,
            _ => 0.0,
        };
        area * (1.0 + out + narrow) + low.max(0.0) * 2.0 + right.max(0.0)
    }
}

/// How wide running text may be laid.
#[derive(Clone, Copy)]
enum Text {
    /// Anyhow.
    Any,
    /// From edge to edge of the widest room.
    FromEdgeToEdge,
}

/// Whether a block is nothing but running text.
const fn is_running(which: Schedule) -> bool {
    matches!(which, Schedule::Notes | Schedule::Supply)
}

/// What must stand beside the drawing whatever that costs.
const fn must(which: Schedule) -> bool {
    matches!(
        which,
        Schedule::Findings | Schedule::Points | Schedule::Notice | Schedule::Stamp | Schedule::Pieces
    )
}

/// How much it matters that a block stands beside the drawing.
const fn weight(which: Schedule) -> u32 {
    match which {
        Schedule::Findings | Schedule::Notice => 400,
        Schedule::Stamp => 300,
        Schedule::Points => 250,
        Schedule::Study | Schedule::Pieces => 150,
        Schedule::Legend => 60,
        Schedule::Signature => 50,
        Schedule::Elsewhere => 40,
        Schedule::Changes => 30,
        Schedule::Sections => 24,
        Schedule::Appliances => 22,
        Schedule::Cuts => 20,
        Schedule::Fittings => 16,
        Schedule::Existing => 14,
        Schedule::Supply => 12,
        Schedule::Notes => 9,
        Schedule::Revisions => 8,
        Schedule::Stock => 5,
        Schedule::Order | Schedule::Test | Schedule::TakeOff | Schedule::PermitList => 1,
        Schedule::Cautions | Schedule::Working => 1,
        Schedule::StartUp | Schedule::LeakLog | Schedule::Tools | Schedule::Owner => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::super::block::Part;
    use super::super::text::Paragraph;
    use super::*;

    /// A block of so many short lines.
    fn block(which: Schedule, lines: usize) -> Block {
        let said = Paragraph::new("word ".repeat(10).repeat(lines));
        Block::new(which, "Heading", vec![Part::Text(vec![said])])
    }

    fn filled(blocks: &[Block], room: Rect) -> Filled {
        Choice::of(blocks, &[room]).fill(&White::of(&[room]))
    }

    fn room(height: f64) -> Rect {
        Rect::sized(Point::new(20.0, 10.0), 150.0, height)
    }

    #[test]
    fn what_has_room_is_all_placed_apart_and_within() {
        let blocks = [
            block(Schedule::Sections, 6),
            block(Schedule::Appliances, 6),
            block(Schedule::Supply, 9),
            block(Schedule::Notes, 3),
        ];
        let filled = filled(&blocks, room(190.0));
        assert!(filled.rest.is_empty());
        let places: Vec<Rect> = (filled.placed.iter())
            .map(|(at, laid)| Rect::sized(*at, laid.width(), laid.height()))
            .collect();
        for (at, place) in places.iter().enumerate() {
            assert!(room(190.0).grown(1e-6).encloses(*place));
            // Blocks keep a margin within, so that a square's half more or less touches nothing.
            let apart = |other: &Rect| !place.grown(-0.8).overlaps(other.grown(-0.8));
            assert!(places[..at].iter().all(apart), "{places:?}");
        }
    }

    #[test]
    fn what_matters_less_is_left_out_first() {
        let blocks = [block(Schedule::Notes, 14), block(Schedule::Legend, 14)];
        let filled = filled(&blocks, room(60.0));
        assert_eq!(filled.rest, [0]);
        assert_eq!((filled.placed.len(), filled.placed[0].1.which), (1, Schedule::Legend));
    }

    #[test]
    fn without_room_everything_is_left_over() {
        assert_eq!(filled(&[block(Schedule::Notes, 1)], room(1.0)).rest, [0]);
    }
}

//! Which schedules stand beside the drawing: as many as can, those that matter most there first, each whole or not at
//! all.
//!
//! There are few blocks and at most three columns, so every way to place them is tried, the likely ones first.

use super::block::{Block, Laid};
use super::tags::Schedule;
use crate::scene::Rect;
use std::rc::Rc;

/// Blocks laid at every width that they may get.
#[derive(Clone)]
pub struct Choice {
    blocks: Vec<Rc<Candidate>>,
}

struct Candidate {
    which: Schedule,
    /// Its place in the list; `None` for the pointer.
    place: Option<usize>,
    /// Widths, mm, at which it can be laid uncut.
    laid: Vec<(f64, Laid)>,
}

impl Candidate {
    fn of(place: Option<usize>, block: &Block, widths: &[f64], highest: f64) -> Rc<Candidate> {
        let fits = |width: &&f64| block.least_height() <= highest && block.least_width() <= **width;
        let laid = widths.iter().filter(fits).map(|width| (*width, block.lay(*width)));
        Rc::new(Candidate {
            which: block.which,
            place,
            laid: laid.collect(),
        })
    }
}

/// What stands on other sheets whatever finds room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Elsewhere {
    /// Nothing.
    Nothing,
    /// Something.
    Something,
}

/// Where blocks went.
#[derive(Clone, Default)]
pub struct Filled {
    /// For each column its blocks, in reading order.
    pub columns: Vec<Vec<Laid>>,
    /// Blocks that found no room, as their places in the list.
    pub rest: Vec<usize>,
}

impl Choice {
    /// Blocks for columns of these widths, none higher than `highest` mm; `pointer` says where the rest is.
    pub fn of(blocks: &[Block], pointer: &Block, widths: &[f64], highest: f64) -> Choice {
        let listed = blocks.iter().enumerate().map(|(place, block)| (Some(place), block));
        let all = listed.chain([(None, pointer)]);
        let mut blocks: Vec<Rc<Candidate>> = all
            .map(|(place, block)| Candidate::of(place, block, widths, highest))
            .collect();
        blocks.sort_by_key(|block| std::cmp::Reverse(weight(block.which)));
        Choice { blocks }
    }

    /// The same blocks but for one of another content.
    pub fn with(&self, block: &Block, widths: &[f64], highest: f64) -> Choice {
        let swapped = |old: &Rc<Candidate>| match old.which == block.which {
            true => Candidate::of(old.place, block, widths, highest),
            false => Rc::clone(old),
        };
        Choice {
            blocks: self.blocks.iter().map(swapped).collect(),
        }
    }

    /// Fills columns. The pointer finds room where not all blocks do, or where something stands elsewhere anyway.
    pub fn fill(&self, columns: &[Rect], elsewhere: Elsewhere) -> Filled {
        let all: Vec<&Candidate> = self.blocks.iter().map(Rc::as_ref).collect();
        let listed: Vec<&Candidate> = all.iter().copied().filter(|block| block.place.is_some()).collect();
        let filled = best(&listed, columns);
        if filled.rest.is_empty() && elsewhere == Elsewhere::Nothing {
            return filled;
        }
        let mut filled = best(&all, columns);
        filled.rest.sort_unstable();
        filled
    }
}

/// How much it matters that a block stands beside the drawing.
const fn weight(which: Schedule) -> u32 {
    match which {
        Schedule::Findings => 200,
        Schedule::Legend => 100,
        Schedule::Points => 80,
        Schedule::Elsewhere => 60,
        Schedule::Changes => 20,
        Schedule::Signature => 30,
        Schedule::Sections => 12,
        Schedule::Appliances => 11,
        Schedule::Supply => 10,
        Schedule::Study | Schedule::Pieces => 150,
        Schedule::Existing => 7,
        Schedule::Notes => 9,
        Schedule::Revisions => 8,
        Schedule::Cuts => 20,
        Schedule::Stock => 5,
        Schedule::Order | Schedule::Test | Schedule::TakeOff | Schedule::PermitList => 1,
        Schedule::Cautions | Schedule::Stamp => 1,
    }
}

fn best(blocks: &[&Candidate], columns: &[Rect]) -> Filled {
    let heights = blocks.iter().map(|block| {
        let at = |column: &Rect| {
            block
                .laid
                .iter()
                .find(|laid| is_width(laid.0, *column))
                .map(|laid| laid.1.height())
        };
        columns.iter().map(at).collect()
    });
    let mut search = Search {
        weights: blocks.iter().map(|block| weight(block.which)).collect(),
        heights: heights.collect(),
        room: columns.iter().map(|column| column.height()).collect(),
        chosen: Vec::with_capacity(blocks.len()),
        best: None,
        steps: 0,
    };
    search.go(0);
    let chosen = search.best.map_or(vec![None; blocks.len()], |(_, chosen)| chosen);
    let mut filled = Filled {
        columns: columns.iter().map(|_| Vec::new()).collect(),
        rest: Vec::new(),
    };
    for (block, column) in blocks.iter().zip(chosen) {
        match column {
            Some(column) => {
                let laid = block
                    .laid
                    .iter()
                    .filter(|laid| is_width(laid.0, columns[column]))
                    .map(|laid| laid.1.clone());
                filled.columns[column].extend(laid);
            }
            None => filled.rest.extend(block.place),
        }
    }
    for column in &mut filled.columns {
        column.sort_by_key(|laid| laid.which);
    }
    filled
}

/// Whether a column has a width, but for rounding.
fn is_width(width: f64, column: Rect) -> bool {
    (width - column.width()).abs() < 1e-6
}

/// Every way to put blocks into columns, the tightest first.
struct Search {
    weights: Vec<u32>,
    /// For each block its height in each column, mm; `None` where it is too wide.
    heights: Vec<Vec<Option<f64>>>,
    room: Vec<f64>,
    chosen: Vec<Option<usize>>,
    /// The least weight left out so far, and how.
    best: Option<(u32, Vec<Option<usize>>)>,
    steps: usize,
}

/// After so many steps the best way found so far is good enough.
const MOST_STEPS: usize = 20_000;

impl Search {
    /// The weight of blocks still to come that fit no column any more.
    fn hopeless(&self) -> u32 {
        let fits = |heights: &Vec<Option<f64>>| {
            heights
                .iter()
                .zip(&self.room)
                .any(|(height, room)| height.is_some_and(|height| height <= *room))
        };
        let to_come = self.chosen.len()..;
        let blocks = self.heights[to_come.clone()].iter().zip(&self.weights[to_come]);
        blocks
            .filter(|(heights, _)| !fits(heights))
            .map(|(_, weight)| weight)
            .sum()
    }

    fn go(&mut self, left_out: u32) {
        self.steps += 1;
        let is_no_better = self
            .best
            .as_ref()
            .is_some_and(|best| left_out + self.hopeless() >= best.0);
        if is_no_better || self.steps > MOST_STEPS {
            return;
        }
        let block = self.chosen.len();
        let Some(heights) = self.heights.get(block).cloned() else {
            self.best = Some((left_out, self.chosen.clone()));
            return;
        };
        let over = |column: usize| Some((self.room[column] - heights[column]?, column));
        let mut ways: Vec<(f64, usize)> = (0..heights.len()).filter_map(over).filter(|way| way.0 >= 0.0).collect();
        ways.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (over, column) in ways {
            let room = std::mem::replace(&mut self.room[column], over);
            self.chosen.push(Some(column));
            self.go(left_out);
            self.chosen.pop();
            self.room[column] = room;
        }
        self.chosen.push(None);
        self.go(left_out + self.weights[block]);
        self.chosen.pop();
    }
}

#[cfg(test)]
mod tests {
    use super::super::block::Part;
    use super::super::text::Paragraph;
    use super::*;
    use crate::scene::Point;

    /// A block of so many short lines; a line is 4.25 mm, what is around them about 10 mm.
    fn block(which: Schedule, lines: usize) -> Block {
        let said = Paragraph::new("word ".repeat(10).repeat(lines));
        Block::new(which, "Heading", vec![Part::Text(vec![said])])
    }

    fn fill(blocks: &[Block], heights: &[f64]) -> Filled {
        let columns: Vec<Rect> = heights
            .iter()
            .map(|height| Rect::sized(Point::default(), 90.0, *height))
            .collect();
        Choice::of(blocks, &block(Schedule::Elsewhere, 1), &[90.0], 200.0).fill(&columns, Elsewhere::Nothing)
    }

    #[test]
    fn what_can_all_stand_is_all_placed_even_where_the_first_try_fails() {
        let blocks = [
            block(Schedule::Sections, 6),
            block(Schedule::Appliances, 6),
            block(Schedule::Supply, 9),
            block(Schedule::Notes, 3),
        ];
        let height = |at: usize| blocks[at].lay(90.0).height();
        let columns = [height(0) + height(1), height(2) + height(3)];
        assert!(fill(&blocks, &columns).rest.is_empty());
    }

    #[test]
    fn what_matters_less_is_left_out_first_and_the_pointer_says_so() {
        let blocks = [block(Schedule::Notes, 4), block(Schedule::Legend, 4)];
        let filled = fill(&blocks, &[blocks[1].lay(90.0).height() + 20.0]);
        assert_eq!(filled.rest, [0]);
        let placed: Vec<Schedule> = filled.columns[0].iter().map(|laid| laid.which).collect();
        assert_eq!(placed, [Schedule::Legend, Schedule::Elsewhere]);
    }

    #[test]
    fn without_columns_everything_is_left_over() {
        assert_eq!(fill(&[block(Schedule::Notes, 1)], &[]).rest, [0]);
    }
}

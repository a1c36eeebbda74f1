//! Which schedules stand beside the drawing: those that matter most there come first, each whole or not at all.

use super::block::{Block, Laid};
use super::tags::Schedule;
use crate::scene::Rect;

/// Where blocks went.
pub struct Filled {
    /// For each column its blocks, in reading order.
    pub columns: Vec<Vec<Laid>>,
    /// Blocks that found no room, as their places in the list.
    pub rest: Vec<usize>,
}

/// Fills columns with blocks. Where not all find room, `pointer` does, to say where the rest is.
pub fn fill(blocks: &[Block], pointer: &Block, columns: &[Rect]) -> Filled {
    let all: Vec<&Block> = blocks.iter().collect();
    let filled = attempt(&all, columns);
    if filled.rest.is_empty() {
        return filled;
    }
    let all: Vec<&Block> = blocks.iter().chain([pointer]).collect();
    let mut filled = attempt(&all, columns);
    filled.rest.retain(|at| *at < blocks.len());
    filled
}

fn attempt(blocks: &[&Block], columns: &[Rect]) -> Filled {
    let mut order: Vec<usize> = (0..blocks.len()).collect();
    order.sort_by_key(|at| rank(blocks[*at].which));
    let mut room: Vec<f64> = columns.iter().map(|column| column.height()).collect();
    let mut placed: Vec<Vec<Laid>> = columns.iter().map(|_| Vec::new()).collect();
    let mut rest = Vec::new();
    for at in order {
        let block = blocks[at];
        let fits = columns.iter().enumerate().filter_map(|(column, rect)| {
            if block.least_width() > rect.width() {
                return None;
            }
            let laid = block.lay(rect.width());
            let over = room[column] - laid.height();
            (over >= 0.0).then_some((over, column, laid))
        });
        // Of equal columns the first.
        let best = fits.reduce(|best, next| if next.0 > best.0 { next } else { best });
        match best {
            Some((over, column, laid)) => {
                room[column] = over;
                placed[column].push(laid);
            }
            None => rest.push(at),
        }
    }
    for column in &mut placed {
        column.sort_by_key(|laid| laid.which);
    }
    rest.sort_unstable();
    Filled { columns: placed, rest }
}

/// What is placed first.
const fn rank(which: Schedule) -> u8 {
    match which {
        Schedule::Findings => 0,
        Schedule::Elsewhere => 1,
        Schedule::Legend => 2,
        Schedule::Points => 3,
        Schedule::Sections => 4,
        Schedule::Appliances => 5,
        Schedule::Supply => 6,
        Schedule::Notes => 7,
        Schedule::Revisions => 8,
        Schedule::Cautions | Schedule::Stamp => 9,
    }
}

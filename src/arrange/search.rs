//! The search: lengths as wished for, then, of the lengths on the way between two things that meet, the change that helps
//! most, until nothing helps; then shorter where nothing meets for it.

use super::board::{Board, Move};
use std::collections::BTreeMap;

/// So much is looked at at most, for each run of the drawing and in all.
const WORK_PER_RUN: usize = 1_500;
const MOST_WORK: usize = 3_000_000;

/// By how many steps a length is tried longer or shorter.
const TRIES: [i32; 12] = [1, -1, 2, -2, 3, -3, 4, 6, -6, 9, 13, 18];

/// By how many it is tried once nothing is to be parted.
const SHORTER: [i32; 4] = [-1, -2, -4, 1];

/// What a mm of the drawing's width or height costs: little, so that it gets smaller only where all else is equal.
const EXTENT: f64 = 0.05;

/// From which lengths a search begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// As wished for.
    Wished,
    /// As drawn.
    Drawn,
}

/// Arranges what lies on the board.
pub fn search(board: &mut Board<'_>, from: Start) {
    if from == Start::Wished {
        start(board);
    }
    let limit = (board.frame.edges.len() * WORK_PER_RUN).min(MOST_WORK);
    part(board, limit / 4 * 3);
    tighten(board, limit);
    part(board, limit);
}

/// Every length as it is wished for; parts that are not joined come as much nearer to the first as that gets smaller.
fn start(board: &mut Board<'_>) {
    let frame = board.frame;
    let first = 0..frame
        .islands
        .first()
        .map_or(frame.order.len(), |island| island.0 as usize);
    let was = board.size_of(first.clone());
    for (number, lever) in frame.levers.iter().enumerate() {
        if let Some(wanted) = board.wished(lever) {
            let wanted = match frame.wide.contains(&(number as u32)) {
                // Runs of a loop may span several levels: it keeps its proportions, within bounds.
                true => board.lengths[number].clamp(1, wanted.max(1)),
                false => wanted,
            };
            board.grow(number, wanted - board.lengths[number]);
        }
    }
    let smaller = (board.size_of(first) / was.max(1.0)).min(1.0);
    for &(root, levers) in &frame.islands {
        let way = (board.point(0) - board.point(root)) * (1.0 - smaller);
        for (lever, steps) in levers.into_iter().zip(board.level_steps(way)) {
            board.grow(lever, steps);
        }
    }
    board.settle();
}

/// Parts what meets.
fn part(board: &mut Board<'_>, limit: usize) {
    let at_once = (2_000 / board.frame.edges.len().max(1)).clamp(2, 12);
    while board.work < limit {
        let blamed = blamed(board);
        let mut best: Option<(f64, usize, i32)> = None;
        for (tried, &(lever, _)) in blamed.iter().enumerate() {
            if tried >= at_once && best.is_some() || board.work >= limit {
                break;
            }
            if let Some((gain, steps)) = best_steps(board, lever, &TRIES)
                && best.is_none_or(|(known, ..)| gain > known)
            {
                best = Some((gain, lever, steps));
            }
        }
        let Some((_, lever, steps)) = best else { return };
        board.grow(lever, steps);
        board.settle();
    }
}

/// The levers on the way between two things that meet, those that most of what meets could be parted by first.
fn blamed(board: &Board<'_>) -> Vec<(usize, f64)> {
    let frame = board.frame;
    let mut blame: BTreeMap<usize, f64> = BTreeMap::new();
    for pair in board.pairs() {
        let price = pair.meets.price();
        let (mut a, mut b) = (deepest(board, pair.one), deepest(board, pair.other));
        let mut way: Vec<usize> = Vec::new();
        while a != b {
            let deeper = if frame.depth[a as usize] >= frame.depth[b as usize] {
                &mut a
            } else {
                &mut b
            };
            way.extend(frame.lever_to[*deeper as usize].map(|lever| lever as usize));
            match frame.above[*deeper as usize] {
                Some(above) => *deeper = above,
                None => break,
            }
        }
        way.extend(frame.wide.iter().map(|lever| *lever as usize));
        way.sort_unstable();
        way.dedup();
        for lever in way {
            *blame.entry(lever).or_default() += price;
        }
    }
    let mut blamed: Vec<(usize, f64)> = blame.into_iter().collect();
    blamed.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    blamed
}

fn deepest(board: &Board<'_>, ink: u32) -> u32 {
    let [a, b] = board.joints_of(ink);
    match board.frame.depth[a as usize] >= board.frame.depth[b as usize] {
        true => a,
        false => b,
    }
}

/// By how many steps a lever is best changed, and what that gains; `None` where nothing is gained.
fn best_steps(board: &mut Board<'_>, number: usize, tries: &[i32]) -> Option<(f64, i32)> {
    let frame = board.frame;
    let mover = board.moves(&frame.levers[number]);
    let now = board.price_now(&mover) + extent(board, &mover, 0);
    let mut limit = now;
    let mut best: Option<(f64, i32)> = None;
    for &steps in tries {
        if !is_allowed(board, number, steps) {
            continue;
        }
        let gain = now - whole_price(board, &mover, steps, limit);
        if gain > 1e-6 && best.is_none_or(|(known, _)| gain > known + 1e-9) {
            best = Some((gain, steps));
            limit = now - gain;
        }
    }
    best
}

fn whole_price(board: &mut Board<'_>, mover: &Move, steps: i32, limit: f64) -> f64 {
    let extent = extent(board, mover, steps);
    extent + board.price(mover, steps, limit - extent)
}

fn extent(board: &Board<'_>, mover: &Move, steps: i32) -> f64 {
    let (width, height) = board.extent(mover, steps);
    EXTENT * (width + height)
}

/// Directions and the order along lines stay: no length goes below one step. What only moves aside may go either way.
fn is_allowed(board: &Board<'_>, lever: usize, steps: i32) -> bool {
    let length = board.lengths[lever] + steps;
    board.frame.levers[lever].runs.is_empty() && length.abs() < 400 || (1..400).contains(&length)
}

/// Shortens what is longer than it must be.
fn tighten(board: &mut Board<'_>, limit: usize) {
    loop {
        let mut has_changed = false;
        for number in 0..board.frame.levers.len() {
            if board.work >= limit {
                return;
            }
            if let Some((_, steps)) = best_steps(board, number, &SHORTER) {
                board.grow(number, steps);
                board.settle();
                has_changed = true;
            }
        }
        if !has_changed {
            return;
        }
    }
}

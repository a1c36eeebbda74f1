//! The search: lengths as wished for, then, of the lengths on the way between two things that meet, the change that helps
//! most, until nothing helps; then shorter where nothing meets for it.

use super::board::{Board, Disorder, Move};
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

/// What a step costs by which something is drawn on the wrong side of what it truly lies beyond: upright it never gets more.
const UPSIDE_DOWN: f64 = 60.0;
const ASIDE: f64 = 2.0;

/// A run is much longer than another that is longer by this factor.
const MUCH: f64 = 1.5;
/// In drawings with more levers lengths are not weighed against each other, and none grows by more steps for it.
const MOST_BALANCED: usize = 250;
const MOST_LONGER: i32 = 14;

/// From which lengths a search begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// As wished for.
    Wished,
    /// As drawn.
    Drawn,
    /// As wished for, and what lies beside one another in plan may be drawn in any order.
    Loose,
}

/// Arranges what lies on the board.
pub fn search(board: &mut Board<'_>, from: Start) {
    board.keeps_plan = from != Start::Loose;
    match from {
        Start::Wished | Start::Loose => start(board),
        Start::Drawn if board.upside_down() > 0 => {
            board.set_upright();
            board.settle();
        }
        Start::Drawn => (),
    }
    // What others have not parted may be looked at longer.
    let per_run = if from == Start::Loose {
        4 * WORK_PER_RUN
    } else {
        WORK_PER_RUN
    };
    let limit = (board.frame.edges.len() * per_run).min(MOST_WORK);
    part(board, limit / 4 * 3);
    tighten(board, limit);
    part(board, limit);
    balance(board, limit);
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
    board.set_upright();
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
    let order = board.disorder(&mover, 0);
    let now = board.price_now(&mover) + extent(board, &mover, 0) + price_of(order);
    let mut limit = now;
    let mut best: Option<(f64, i32)> = None;
    for &steps in tries {
        if !is_allowed(board, number, steps) {
            continue;
        }
        let then = board.disorder(&mover, steps);
        if then.up > order.up {
            continue;
        }
        let gain = now - whole_price(board, &mover, steps, limit - price_of(then)) - price_of(then);
        if gain > 1e-6 && best.is_none_or(|(known, _)| gain > known + 1e-9) {
            best = Some((gain, steps));
            limit = now - gain;
        }
    }
    best
}

fn price_of(order: Disorder) -> f64 {
    UPSIDE_DOWN * f64::from(order.up) + ASIDE * f64::from(order.plan)
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

/// Draws a run longer that is drawn shorter than one that truly is much shorter, as far as the drawing gets no larger and
/// nothing else worse.
fn balance(board: &mut Board<'_>, limit: usize) {
    let frame = board.frame;
    if frame.levers.len() > MOST_BALANCED {
        return;
    }
    for number in 0..frame.levers.len() {
        if board.work >= limit {
            return;
        }
        let Some((truth, drawn, unit)) = board.proportion(number) else {
            continue;
        };
        let others = (0..frame.levers.len()).filter_map(|other| board.proportion(other));
        let shorter = others
            .filter(|(other, ..)| other * MUCH <= truth)
            .map(|(_, drawn, _)| drawn);
        let longest = shorter.fold(0.0, f64::max);
        let wanted = ((longest - drawn) / unit).ceil() as i32;
        if wanted < 1 {
            continue;
        }
        let mover = board.moves(&frame.levers[number]);
        let (order, now) = (
            board.disorder(&mover, 0),
            board.price_now(&mover) - board.wishes(&mover, 0),
        );
        let (width, height) = board.extent(&mover, 0);
        for steps in (1..=wanted.min(MOST_LONGER)).rev() {
            let then = board.disorder(&mover, steps);
            let (wide, high) = board.extent(&mover, steps);
            if then.up > order.up || then.plan > order.plan || wide > width + 0.1 || high > height + 0.1 {
                continue;
            }
            let price = board.price(&mover, steps, f64::INFINITY) - board.wishes(&mover, steps);
            if price <= now + 1e-6 {
                board.grow(number, steps);
                board.settle();
                break;
            }
        }
    }
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

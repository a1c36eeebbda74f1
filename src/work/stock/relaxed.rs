//! The plan with fractions of sticks, of Gilmore and Gomory (*A Linear Programming Approach to the Cutting-Stock
//! Problem*, 1961): ways to cut a stick are added one by one, each the richest by what a length is worth at the time.
//!
//! Rows count cumulatively: as many slots of a length or longer are wanted as there are pieces. So a slot takes any
//! piece that is no longer, no length is worth less than a shorter one, and few ways are needed.

use super::richest::Richest;
use super::ticks::{Rows, Ticks};

/// What counts as nothing.
const LITTLE: f64 = 1e-9;
/// A way must be worth so much more than a stick to be added.
const GAIN: f64 = 1e-6;

/// How a stick may be cut: lengths of its slots in ticks, long to short.
pub(super) type Way = Vec<usize>;

/// Steps of work that may still be taken.
pub(super) struct Patience(pub(super) usize);

impl Patience {
    /// Takes so many steps, if they are left.
    pub(super) fn spend(&mut self, steps: usize) -> bool {
        let left = self.0.checked_sub(steps);
        self.0 = left.unwrap_or_default();
        left.is_some()
    }
}

/// A relaxed plan: a basis of the simplex method (revised, with the whole inverse).
pub(super) struct Relaxed {
    rows: Rows,
    room: usize,
    /// For each way in use its line of the inverse, and at the end how many sticks are cut so.
    inverse: Vec<Vec<f64>>,
    /// The ways in use; one without slots is a surplus of slots.
    ways: Vec<Way>,
    /// For each row what one more piece costs beyond a shorter one; at the end how many sticks there are in all.
    prices: Vec<f64>,
}

impl Relaxed {
    /// Begins with each stick cut into pieces of one length.
    pub(super) fn of(rows: Rows, ticks: &Ticks) -> Relaxed {
        let count = rows.sizes.len();
        let mut inverse = vec![vec![0.0; count + 1]; count];
        let mut before = 0;
        for (row, line) in inverse.iter_mut().enumerate() {
            let fit = (ticks.room / rows.sizes[row]).max(1) as f64;
            line[row] = 1.0 / fit;
            if row > 0 {
                line[row - 1] = -1.0 / fit;
            }
            line[count] = (rows.counts[row] - before) as f64 / fit;
            before = rows.counts[row];
        }
        let ways = rows.sizes.iter().map(|&size| vec![size; ticks.room / size]);
        Relaxed {
            room: ticks.room,
            ways: ways.collect(),
            prices: (0..=count)
                .map(|at| inverse.iter().map(|line| line[at]).sum())
                .collect(),
            inverse,
            rows,
        }
    }

    /// Betters the plan by `ways` and by new ones, which are added to them, until the number of whole sticks is known,
    /// or it is known not to be below `enough`, or patience ends. Gives a number of sticks below which no plan goes.
    pub(super) fn better(&mut self, ways: &mut Vec<Way>, enough: usize, patience: &mut Patience) -> usize {
        let count = self.rows.sizes.len();
        let mut bound = 0;
        let at_hand = |rows: &Rows, way: &Way| way.iter().filter_map(|&size| rows.of_slot(size)).collect();
        let mut at_hand: Vec<Vec<usize>> = ways.iter().map(|way| at_hand(&self.rows, way)).collect();
        while bound < enough && patience.spend(count * count) {
            if let Some(row) = self.in_surplus() {
                let column = self.inverse.iter().map(|line| -line[row]).collect();
                if !self.take(column, self.prices[row], Way::new()) {
                    break;
                }
                continue;
            }
            let worths = self.worths();
            let worth = |slots: &[usize]| slots.iter().map(|&row| worths[row]).sum::<f64>();
            let best = at_hand.iter().map(|slots| (worth(slots), slots));
            let best = best.max_by(|one, other| one.0.total_cmp(&other.0));
            let slots = match best.filter(|(worth, _)| *worth > 1.0 + GAIN) {
                Some((_, slots)) => slots.clone(),
                None => {
                    let useful = self.prices.iter().filter(|price| **price > LITTLE).count();
                    let searched = patience.spend(self.room.saturating_mul(useful));
                    let richest = Richest::of(&self.rows, self.room, &worths);
                    bound = bound.max(richest.bound);
                    let known = bound as f64 >= self.prices[count] - GAIN;
                    if known || !searched || worth(&richest.slots) <= 1.0 + GAIN {
                        break;
                    }
                    at_hand.push(richest.slots.clone());
                    ways.push(self.lengths(&richest.slots));
                    richest.slots
                }
            };
            let gain = 1.0 - worth(&slots);
            if !self.take(self.column(&slots), gain, self.lengths(&slots)) {
                break;
            }
        }
        bound
    }

    /// How many sticks are cut which way.
    pub(super) fn cut(&self) -> Vec<(f64, &Way)> {
        let count = self.rows.sizes.len();
        let used = self.inverse.iter().map(|line| line[count]).zip(&self.ways);
        used.filter(|(sticks, way)| *sticks > GAIN && !way.is_empty()).collect()
    }

    /// The row of which fewer slots would be cheaper.
    fn in_surplus(&self) -> Option<usize> {
        let rows = 0..self.rows.sizes.len();
        let cheaper = rows.filter(|&row| self.prices[row] < -LITTLE);
        cheaper.min_by(|&one, &other| self.prices[one].total_cmp(&self.prices[other]))
    }

    /// What a piece of each row is worth, in sticks.
    fn worths(&self) -> Vec<f64> {
        let mut worths = vec![0.0; self.rows.sizes.len()];
        let mut sum = 0.0;
        for (worth, price) in worths.iter_mut().zip(&self.prices).rev() {
            sum += price.max(0.0);
            *worth = sum;
        }
        worths
    }

    fn lengths(&self, slots: &[usize]) -> Way {
        slots.iter().map(|&row| self.rows.sizes[row]).collect()
    }

    /// What one stick cut so takes of each way in use.
    fn column(&self, slots: &[usize]) -> Vec<f64> {
        let so_long = |row: usize| slots.iter().filter(|&&slot| slot <= row).count() as f64;
        let counts: Vec<f64> = (0..self.rows.sizes.len()).map(so_long).collect();
        let taken = |line: &Vec<f64>| line.iter().zip(&counts).map(|(of, count)| of * count).sum();
        self.inverse.iter().map(taken).collect()
    }

    /// Takes a way into use in place of the first that it uses up; says whether one is.
    fn take(&mut self, column: Vec<f64>, gain: f64, way: Way) -> bool {
        let count = self.rows.sizes.len();
        let lasts = |at: usize| self.inverse[at][count].max(0.0) / column[at];
        let used_up = (0..count).filter(|&at| column[at] > LITTLE);
        let Some(gone) = used_up.min_by(|&one, &other| lasts(one).total_cmp(&lasts(other))) else {
            return false;
        };
        let mut line = std::mem::take(&mut self.inverse[gone]);
        line.iter_mut().for_each(|of| *of /= column[gone]);
        let less = |from: &mut [f64], times: f64| {
            if times != 0.0 {
                from.iter_mut().zip(&line).for_each(|(of, by)| *of -= times * by);
            }
        };
        for (from, &times) in self.inverse.iter_mut().zip(&column) {
            less(from, times);
        }
        less(&mut self.prices, -gain);
        self.inverse[gone] = line;
        self.ways[gone] = way;
        true
    }
}

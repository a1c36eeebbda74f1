//! The stick of most worth, when each length has its worth: found exactly, tick by tick.

use super::ticks::Rows;

/// A whole stick's worth as an integer.
const WHOLE: f64 = (1u64 << 40) as f64;

/// The stick of most worth.
pub(super) struct Richest {
    /// Its slots, as rows.
    pub(super) slots: Vec<usize>,
    /// No plan does with fewer sticks: what all pieces are worth, by what the richest stick is worth (A. A. Farley,
    /// *A Note on Bounding a Class of Linear Programming Problems*, 1990). It is found in integers, and so it holds
    /// whatever the worths are.
    pub(super) bound: usize,
}

impl Richest {
    /// The richest stick of so many ticks; no row is worth less than a shorter one.
    pub(super) fn of(rows: &Rows, room: usize, worths: &[f64]) -> Richest {
        let worths: Vec<i64> = worths.iter().map(|worth| (worth * WHOLE) as i64).collect();
        // A length that is worth no more than a shorter one is of no use here.
        let shorter = worths.iter().skip(1).chain([&0]);
        let useful = worths.iter().zip(shorter).enumerate();
        let useful = useful.filter(|(_, (worth, shorter))| worth > shorter);
        let useful: Vec<(usize, usize, i64)> = useful.map(|(row, (&worth, _))| (row, rows.sizes[row], worth)).collect();
        let mut most = vec![0i64; room + 1];
        let mut last: Vec<Option<(usize, usize)>> = vec![None; room + 1];
        for ticks in 1..=room {
            most[ticks] = most[ticks - 1];
            let fits = useful.partition_point(|&(_, size, _)| size > ticks);
            for &(row, size, worth) in &useful[fits..] {
                let with = most[ticks - size].saturating_add(worth);
                if with > most[ticks] {
                    (most[ticks], last[ticks]) = (with, Some((row, size)));
                }
            }
        }
        let mut slots = Vec::new();
        let mut left = room;
        while left > 0 {
            match last[left] {
                Some((row, size)) => {
                    slots.push(row);
                    left -= size;
                }
                None => left -= 1,
            }
        }
        slots.sort_unstable();
        let before = [0].iter().chain(&rows.counts);
        let pieces = rows.counts.iter().zip(before).map(|(count, before)| count - before);
        let all: i128 = pieces
            .zip(&worths)
            .map(|(pieces, &worth)| pieces as i128 * i128::from(worth))
            .sum();
        let most = i128::from(most[room]).max(1);
        Richest {
            slots,
            bound: usize::try_from((all + most - 1) / most).unwrap_or_default(),
        }
    }
}

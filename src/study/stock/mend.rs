//! Large plans mended: some sticks are taken together and laid out anew with one stick less, again and again.

use super::search;

/// How often sticks are taken together.
const ROUNDS: usize = 2_000;
/// Fewer rounds for very large plans: rounds times pieces.
const WORK: usize = 2_000_000;
/// As many pieces as are laid out anew at once.
const PIECES: usize = 34;

/// Saves sticks down to `bound`, as far as a few rounds do. The same plan is always mended the same way.
pub(super) fn mend(items: &[i64], room: i64, bound: usize, sticks: &mut Vec<Vec<usize>>) {
    let mut chance: u64 = 0x9e37_79b9_7f4a_7c15;
    let mut next = move |end: usize| {
        chance ^= chance << 13;
        chance ^= chance >> 7;
        chance ^= chance << 17;
        usize::try_from(chance % (end as u64).max(1)).unwrap_or_default()
    };
    let free = |stick: &[usize]| room - stick.iter().map(|&item| items[item]).sum::<i64>();
    for _ in 0..ROUNDS.min(WORK / items.len().max(1)) {
        if sticks.len() <= bound {
            return;
        }
        // Only with a stick's length to spare can one be saved: the emptiest ones first, then any.
        let (mut taken, mut pieces, mut spare): (Vec<Vec<usize>>, usize, i64) = (Vec::new(), 0, 0);
        while !sticks.is_empty() {
            let pick = match spare < room {
                true => (0..sticks.len())
                    .max_by_key(|&at| free(&sticks[at]))
                    .unwrap_or_default(),
                false => next(sticks.len()),
            };
            if pieces + sticks[pick].len() > PIECES {
                break;
            }
            let stick = sticks.swap_remove(pick);
            (pieces, spare) = (pieces + stick.len(), spare.saturating_add(free(&stick)));
            taken.push(stick);
        }
        let mut inside: Vec<usize> = taken.iter().flatten().copied().collect();
        inside.sort_unstable();
        let lengths: Vec<i64> = inside.iter().map(|&item| items[item]).collect();
        let fewer = (spare >= room && taken.len() > 1)
            .then(|| search::quickly(&lengths, room, taken.len() - 1))
            .flatten();
        match fewer {
            Some(fewer) => {
                let named = |stick: Vec<usize>| stick.into_iter().map(|at| inside[at]).collect();
                sticks.extend(fewer.into_iter().map(named));
            }
            None => sticks.extend(taken),
        }
    }
}

//! The fewest sticks: sticks are filled one after another, each beginning with the longest piece left, by every set to
//! which no further piece can be added; a way ends when more is wasted than so many sticks can waste.

use std::collections::HashSet;

/// What a search came to.
pub(super) struct Found {
    /// A packing with fewer sticks than were known, if any was found.
    pub(super) sticks: Option<Vec<Vec<usize>>>,
    /// Whether it is proved that fewer do not do.
    pub(super) proved: bool,
}

/// Steps of a search: a moment of work.
const STEPS: u64 = 3_000_000;
/// States kept as hopeless, so that memory has an end.
const KEPT: usize = 200_000;
/// Sticks times different lengths, as deep as a search may go; 40 pieces stay below it.
const DEEPEST: usize = 2_000;

/// Looks for packings of fewer than `known` sticks, from `bound` up; `items` come longest first.
pub(super) fn fewest(items: &[i64], room: i64, bound: usize, known: usize) -> Found {
    let mut search = Search::of(items, room, STEPS);
    let found = |sticks, proved| Found { sticks, proved };
    // Sticks are filled one inside the other: what would go too deep for the stack is left as it is.
    if known.saturating_mul(search.sizes.len()) > DEEPEST {
        return found(None, false);
    }
    for target in bound..known {
        match search.fill_sticks(items, target) {
            Some(true) => return found(Some(search.told(items)), true),
            Some(false) => {}
            None => return found(None, false),
        }
    }
    found(None, true)
}

struct Search {
    /// Different lengths, long to short.
    sizes: Vec<i64>,
    room: i64,
    /// Steps that are left.
    steps: u64,
    /// What was left, and how many sticks for it, where that did not go.
    hopeless: HashSet<(Vec<u32>, usize)>,
    /// How many of each length are in each stick.
    sticks: Vec<Vec<u32>>,
}

impl Search {
    fn of(items: &[i64], room: i64, steps: u64) -> Search {
        let mut sizes: Vec<i64> = items.to_vec();
        sizes.dedup();
        Search {
            sizes,
            room,
            steps,
            hopeless: HashSet::new(),
            sticks: Vec::new(),
        }
    }

    /// Whether all items go into so many sticks; `None` when the steps ran out.
    fn fill_sticks(&mut self, items: &[i64], target: usize) -> Option<bool> {
        self.hopeless.clear();
        self.sticks.clear();
        let count = |size: &i64| items.iter().filter(|item| *item == size).count() as u32;
        let mut counts: Vec<u32> = self.sizes.iter().map(count).collect();
        let total: i128 = items.iter().map(|&item| i128::from(item)).sum();
        let slack = i128::from(self.room) * target as i128 - total;
        self.fill(&mut counts, target, slack)
    }

    /// Fills so many sticks with all that is left; `None` when the steps ran out.
    fn fill(&mut self, left: &mut Vec<u32>, sticks: usize, slack: i128) -> Option<bool> {
        let Some(longest) = left.iter().position(|&count| count > 0) else {
            return Some(true);
        };
        if sticks == 0 || slack < 0 || self.hopeless.contains(&(left.clone(), sticks)) {
            return Some(false);
        }
        let mut inside = vec![0; left.len()];
        (left[longest], inside[longest]) = (left[longest] - 1, 1);
        let room = self.room - self.sizes[longest];
        let went = self.choose(left, &mut inside, longest, room, sticks, slack);
        if went != Some(true) {
            left[longest] += 1;
        }
        if went == Some(false) && self.hopeless.len() < KEPT {
            self.hopeless.insert((left.clone(), sticks));
        }
        went
    }

    /// Adds lengths from `size` on to the stick in hand, the fullest way first.
    fn choose(
        &mut self,
        left: &mut Vec<u32>,
        inside: &mut Vec<u32>,
        size: usize,
        room: i64,
        sticks: usize,
        slack: i128,
    ) -> Option<bool> {
        self.steps = self.steps.checked_sub(1)?;
        let rest = size..left.len();
        let could = rest
            .clone()
            .map(|at| i128::from(self.sizes[at]) * i128::from(left[at]))
            .sum::<i128>();
        if i128::from(room) - could > slack {
            return Some(false);
        }
        let next = rest.into_iter().find(|&at| left[at] > 0 && self.sizes[at] <= room);
        let Some(next) = next else {
            let open = (0..left.len()).any(|at| left[at] > 0 && self.sizes[at] <= room);
            if open || i128::from(room) > slack {
                return Some(false);
            }
            self.sticks.push(inside.clone());
            let went = self.fill(left, sticks - 1, slack - i128::from(room));
            if went != Some(true) {
                self.sticks.pop();
            }
            return went;
        };
        let length = self.sizes[next];
        let fits = u32::try_from(room / length.max(1)).unwrap_or(u32::MAX);
        let most = left[next].min(fits);
        for taken in (0..=most).rev() {
            let (before_left, before_inside) = (left[next], inside[next]);
            (left[next], inside[next]) = (before_left - taken, before_inside + taken);
            let went = self.choose(left, inside, next + 1, room - length * i64::from(taken), sticks, slack);
            if went == Some(true) {
                return went;
            }
            (left[next], inside[next]) = (before_left, before_inside);
            went?;
        }
        Some(false)
    }

    /// The sticks as positions of items.
    fn told(&self, items: &[i64]) -> Vec<Vec<usize>> {
        let first = |size: &i64| items.iter().position(|item| item == size).unwrap_or_default();
        let mut next: Vec<usize> = self.sizes.iter().map(first).collect();
        let stick = |inside: &Vec<u32>| {
            let mut taken = Vec::new();
            for (size, &count) in inside.iter().enumerate() {
                taken.extend(next[size]..next[size] + count as usize);
                next[size] += count as usize;
            }
            taken
        };
        self.sticks.iter().map(stick).collect()
    }
}

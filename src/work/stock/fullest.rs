//! Sticks as full as can be, one after another: good plans of many pieces, without proof.

/// Steps for one stick.
const STEPS: u32 = 4_000;

/// Each stick begins with the longest piece left and takes those that fill it best; `items` come longest first.
pub(super) fn one_by_one(items: &[i64], room: i64) -> Vec<Vec<usize>> {
    let mut left: Vec<usize> = (0..items.len()).collect();
    let mut sticks = Vec::new();
    while let Some((&longest, others)) = left.split_first() {
        let mut stick = Filling {
            items,
            left: others,
            steps: STEPS,
            inside: vec![longest],
            best: vec![longest],
            best_room: i64::MAX,
        };
        stick.fill(0, room - items[longest]);
        let best = stick.best;
        left.retain(|item| !best.contains(item));
        sticks.push(best);
    }
    sticks
}

struct Filling<'a> {
    items: &'a [i64],
    /// Pieces to choose from, longest first.
    left: &'a [usize],
    steps: u32,
    inside: Vec<usize>,
    best: Vec<usize>,
    best_room: i64,
}

impl Filling<'_> {
    /// Tries what fits, from a place of `left` on.
    fn fill(&mut self, from: usize, room: i64) {
        if room < self.best_room {
            self.best_room = room;
            self.best.clone_from(&self.inside);
        }
        let rest = self.left.get(from..).unwrap_or_default();
        let fits = from + rest.partition_point(|&item| self.items[item] > room);
        let mut before = None;
        for at in fits..self.left.len() {
            if self.steps == 0 || self.best_room == 0 {
                return;
            }
            let item = self.left[at];
            let length = self.items[item];
            // One of a length is as good as another.
            if before.replace(length) == Some(length) {
                continue;
            }
            self.steps -= 1;
            self.inside.push(item);
            self.fill(at + 1, room - length);
            self.inside.pop();
        }
    }
}

//! Lengths as whole ticks of a stick, longest first, as the relaxed plan counts them.

/// As fine as lengths are told apart where they have no coarser measure in common: so many ticks make a stick.
const TICKS: i64 = 4_096;
/// As many lengths as have a row of their own; of more, neighbours share one.
const ROWS: usize = 320;

/// Which way lengths go that are no whole ticks, and lengths that share a row.
#[derive(Clone, Copy)]
pub(super) enum Rounding {
    /// Down: what no plan of the rounded lengths can do, none of the true ones can.
    ForBound,
    /// Up: what is planned for the rounded lengths fits the true ones.
    ForPlan,
}

/// The measure of a plan.
pub(super) struct Ticks {
    tick: i64,
    rounding: Rounding,
    /// How long a stick is.
    pub(super) room: usize,
}

/// The different lengths of some pieces, long to short.
pub(super) struct Rows {
    /// In ticks.
    pub(super) sizes: Vec<usize>,
    /// How many pieces are so long or longer.
    pub(super) counts: Vec<usize>,
}

impl Ticks {
    /// The measure for these pieces.
    pub(super) fn of(items: &[i64], room: i64, rounding: Rounding) -> Ticks {
        let shared = items.iter().fold(room, |shared, &item| common(shared, item)).max(1);
        let tick = shared.max(room / TICKS);
        Ticks {
            tick,
            rounding,
            room: usize::try_from(room / tick).unwrap_or_default(),
        }
    }

    /// A length in ticks, at most a whole stick.
    pub(super) fn whole(&self, length: i64) -> usize {
        let up = i64::from(matches!(self.rounding, Rounding::ForPlan) && length % self.tick > 0);
        let whole = usize::try_from(length / self.tick + up).unwrap_or_default();
        whole.min(self.room)
    }

    /// Ticks as a length.
    pub(super) fn length(&self, ticks: usize) -> i64 {
        self.tick.saturating_mul(i64::try_from(ticks).unwrap_or(i64::MAX))
    }

    /// Rows for pieces, longest first; what is shorter than a tick counts nothing.
    pub(super) fn rows(&self, pieces: impl Iterator<Item = i64>) -> Rows {
        let mut rows: Vec<(usize, usize)> = Vec::new();
        let sizes = pieces.map(|length| self.whole(length)).take_while(|&size| size > 0);
        for (at, size) in sizes.enumerate() {
            match rows.last_mut().filter(|(last, _)| *last == size) {
                Some((_, count)) => *count = at + 1,
                None => rows.push((size, at + 1)),
            }
        }
        let shared = rows.chunks(rows.len().div_ceil(ROWS).max(1));
        let shared = shared.filter_map(|rows| {
            let ((longest, _), (shortest, count)) = (*rows.first()?, *rows.last()?);
            match self.rounding {
                Rounding::ForBound => Some((shortest, count)),
                Rounding::ForPlan => Some((longest, count)),
            }
        });
        let (sizes, counts) = shared.unzip();
        Rows { sizes, counts }
    }
}

impl Rows {
    /// The row of the longest pieces that a slot of this length takes.
    pub(super) fn of_slot(&self, size: usize) -> Option<usize> {
        let row = self.sizes.partition_point(|&of| of > size);
        (row < self.sizes.len()).then_some(row)
    }
}

/// The greatest common divisor (Euclid).
fn common(a: i64, b: i64) -> i64 {
    match b {
        0 => a,
        _ => common(b, a % b),
    }
}

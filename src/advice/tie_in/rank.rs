//! Which place is better than another.

use crate::advice::TieIn;
use crate::units::Length;
use crate::work::Cost;

/// Best first: first the class ([`crate::advice::TieInStanding`]), then fewer
/// that fail, then fewer unknown, then less weight of the branch's pipe where that is known of all, else less length,
/// then more pressure to spare at the appliance with the least; of equals the one first drawn.
pub fn sort(rows: &mut [TieIn]) {
    let sized = |row: &&TieIn| row.pipe.iter().all(|pipe| pipe.size.is_some());
    let by_weight = rows.iter().filter(sized).all(|row| row.weight.is_some());
    rows.sort_by(|a, b| {
        let first = key(a, by_weight).cmp(&key(b, by_weight));
        let margin = |row: &TieIn| row.lowest.as_ref().map_or(f64::INFINITY, |lowest| lowest.margin.pa());
        first
            .then_with(|| margin(b).total_cmp(&margin(a)))
            .then_with(|| a.place.cmp(&b.place))
    });
}

/// Pipe of no known size weighs more than any.
type Key = (crate::advice::TieInStanding, usize, usize, (bool, Cost), Length);

fn key(row: &TieIn, by_weight: bool) -> Key {
    let weight = match by_weight {
        true => (row.weight.is_none(), row.weight.unwrap_or(Cost::ZERO)),
        false => (false, Cost::ZERO),
    };
    (
        row.standing(),
        row.failing + row.failing_already,
        row.unjudged,
        weight,
        row.pipe_length(),
    )
}

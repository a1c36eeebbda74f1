//! How wide each column is: first what its cells need, then what the table gives or takes.

use super::{Hand, Place, Set, Table, Weight};
use crate::drawing::words::pieces;

/// Between two columns, mm.
const GAP: f64 = 2.2;
/// Between a number and its mark, mm.
const CLOSE: f64 = 0.9;
/// Room of a sign beside a box, mm.
const SIGN: f64 = 2.6;
/// The most by which a gap grows where the table has room, mm.
const SPREAD: f64 = 6.0;
/// The narrowest that a column of words becomes, unless its words are narrower, mm.
const NARROW: f64 = 24.0;

/// What a column needs.
struct Need {
    /// With every cell on one line.
    natural: f64,
    /// With words wrapped as far as they go.
    least: f64,
    /// Before it.
    gap: f64,
    wraps: bool,
}

fn needs(table: &Table) -> Vec<Need> {
    let mut needs = Vec::with_capacity(table.columns.len());
    for (at, column) in table.columns.iter().enumerate() {
        let head = column
            .head
            .lines()
            .map(|line| Hand::CAPTION.measure(line))
            .fold(0.0, f64::max);
        let box_width = if column.set == Set::Tick { super::TICK } else { 0.0 };
        let (mut natural, mut word) = (head.max(box_width), 0.0_f64);
        for row in table.rows.iter().filter(|row| row.weight != Weight::Heading) {
            natural = natural.max(match (column.set, row.cell(at)) {
                (Set::Tick, "?") => super::TICK + SIGN,
                (Set::Tick, _) => box_width,
                (_, cell) => row.hand().measure(cell),
            });
            if column.set == Set::Words {
                let words = pieces(row.cell(at));
                word = words.map(|word| row.hand().measure(&word)).fold(word, f64::max);
            }
        }
        let wraps = column.set == Set::Words;
        needs.push(Need {
            natural,
            least: if wraps {
                head.max(word.min(NARROW)).max(NARROW.min(natural))
            } else {
                natural
            },
            gap: match (at, column.set) {
                (0, _) => 0.0,
                (_, Set::Mark) => CLOSE,
                (_, Set::Number | Set::Word | Set::Words | Set::Tick) => GAP,
            },
            wraps,
        });
    }
    needs
}

/// The width in mm below which cells would have to be cut.
pub fn least(table: &Table) -> f64 {
    needs(table).iter().map(|need| need.least + need.gap).sum()
}

/// The width in mm with every cell on one line.
pub fn natural(table: &Table) -> f64 {
    needs(table).iter().map(|need| need.natural + need.gap).sum()
}

/// Where each column stands in a table of this width.
pub fn fit(table: &Table, width: f64) -> Vec<Place> {
    let mut needs = needs(table);
    let gaps: f64 = needs.iter().map(|need| need.gap).sum();
    let room = (width - gaps).max(0.0);
    let natural: f64 = needs.iter().map(|need| need.natural).sum();
    let wide: Vec<f64> = if natural <= room {
        spread(&mut needs, room - natural)
    } else {
        squeeze(&needs, room)
    };
    let mut left = 0.0;
    let mut places = Vec::with_capacity(needs.len());
    for (need, width) in needs.iter().zip(wide) {
        left += need.gap;
        places.push(Place { left, width });
        left += width;
    }
    places
}

/// Room left over: first to the gaps, a little each, then to the columns of words.
fn spread(needs: &mut [Need], over: f64) -> Vec<f64> {
    let open = |need: &Need| need.gap > CLOSE;
    let gaps = needs.iter().filter(|need| open(need)).count();
    let each = if gaps == 0 {
        0.0
    } else {
        (over / gaps as f64).min(SPREAD)
    };
    for need in needs.iter_mut().filter(|need| open(need)) {
        need.gap += each;
    }
    let words = needs.iter().filter(|need| need.wraps).count();
    let rest = over - each * gaps as f64;
    let share = if words == 0 { 0.0 } else { rest / words as f64 };
    needs
        .iter()
        .map(|need| need.natural + if need.wraps { share } else { 0.0 })
        .collect()
}

/// Room short: columns of words give way, the widest first; when that is not enough, all columns in proportion.
fn squeeze(needs: &[Need], room: f64) -> Vec<f64> {
    let least: f64 = needs.iter().map(|need| need.least).sum();
    if least >= room {
        return needs.iter().map(|need| need.least * room / least).collect();
    }
    let at = |limit: f64| needs.iter().map(move |need| need.natural.min(need.least.max(limit)));
    let (mut low, mut high) = (0.0, room);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if at(middle).sum::<f64>() <= room {
            low = middle
        } else {
            high = middle
        }
    }
    at(low).collect()
}

#[cfg(test)]
mod tests {
    use super::super::{Column, Row};
    use super::*;
    use proptest::prelude::*;

    fn table(cells: Vec<Vec<String>>) -> Table {
        let sets = [Set::Number, Set::Words, Set::Word, Set::Number, Set::Mark];
        Table {
            columns: sets.map(|set| Column::new("head", set)).to_vec(),
            rows: cells.into_iter().map(Row::new).collect(),
        }
    }

    proptest! {
        #[test]
        fn columns_stay_apart_and_inside(
            cells in prop::collection::vec(prop::collection::vec("[A-Za-z0-9 ]{0,30}", 5), 0..6),
            width in 60.0..240.0f64,
        ) {
            let table = table(cells);
            let places = fit(&table, width);
            let mut end = f64::NEG_INFINITY;
            for place in &places {
                prop_assert!(place.left > end && place.width >= 0.0);
                end = place.left + place.width;
            }
            prop_assert!(end <= width + 1e-6, "{} > {}", end, width);
        }
    }

    #[test]
    fn room_left_over_goes_to_words_not_to_numbers() {
        let cells = ["1", "furnace", "new", "80", "F"].map(str::to_owned).to_vec();
        let table = table(vec![cells]);
        let (narrow, wide) = (fit(&table, 60.0), fit(&table, 120.0));
        assert!(wide[1].width > narrow[1].width + 40.0);
        assert_eq!(wide[3].width, narrow[3].width);
        assert!((wide[4].left - wide[3].left - wide[3].width - CLOSE).abs() < 1e-9);
    }
}

//! Cells that were computed, and the low-pressure steel tables, against the equation written down again.

use crate::equation::{AS_COMPUTED, AS_READ, Printed, TABLES, cells, figures};
use stubout::codebook::Mark;

/// Cells that agree with the equation, by their mark; cells printed as not available; and how many do not agree.
#[derive(Debug, Default, PartialEq)]
struct Count {
    read: usize,
    computed: usize,
    not_available: usize,
    off: usize,
}

fn count(printed: &Printed) -> Count {
    let mut count = Count::default();
    for (feet, column, size, cell) in cells(printed.table()) {
        let Some(cell) = cell else {
            // Under 10 nothing is printed.
            let gives = printed.gives(feet, column, AS_COMPUTED);
            assert!(gives < 10.0, "402.4({}) {feet} ft {size:?}: {gives}", printed.number);
            count.not_available += 1;
            continue;
        };
        let constants = match cell.mark {
            Mark::Found => AS_READ,
            _ => AS_COMPUTED,
        };
        let same = figures(3, printed.gives(feet, column, constants)) == cell.capacity.amount();
        match (cell.mark, same) {
            (Mark::Found, true) => count.read += 1,
            (Mark::Computed, true) => count.computed += 1,
            (Mark::Found, false) => count.off += 1,
            (mark, _) => panic!("402.4({}) {feet} ft {size:?} {mark}: {cell:?}", printed.number),
        }
    }
    count
}

#[test]
fn every_computed_cell_is_what_the_equation_gives() {
    let counts: Vec<_> = TABLES.iter().map(count).collect();
    let total = |of: fn(&Count) -> usize| counts.iter().map(of).sum::<usize>();
    assert_eq!(total(|count| count.computed), 4954);
    assert_eq!(total(|count| count.read), 2343);
    // Listed one by one in deviations.txt.
    assert_eq!(total(|count| count.off), 108);
}

/// The low-pressure steel tables: read and computed cells that the 2313 form gives, and those that it does not.
#[test]
fn the_low_pressure_steel_tables_follow_the_equation_cell_for_cell() {
    let counts: Vec<_> = TABLES[..4].iter().map(count).collect();
    let of = |read, computed, not_available, off| Count {
        read,
        computed,
        not_available,
        off,
    };
    assert_eq!(
        counts,
        [
            of(0, 351, 9, 0),
            // Ten sizes, 5 in among them; 4 in at 70 ft is printed 8,050.
            of(133, 265, 1, 1),
            of(69, 288, 0, 3),
            of(77, 281, 0, 2)
        ],
    );
    let reproduced: usize = counts.iter().map(|count| count.read + count.computed).sum();
    assert!(reproduced >= 1400, "{reproduced}");
}

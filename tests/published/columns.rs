//! Tables without an equation, against a second transcription that goes down the columns.
//!
//! Corrugated tubing: NFPA 54-2012 tables 6.2(o) to (s), 6.3(j) and 2018 IRC, as named in each table's source; steel:
//! IFGC 2018 page text of 402.4(5), (7) and (28).

use crate::equation::{cells, table};
use std::collections::{BTreeMap, BTreeSet};
use stubout::codebook::{Codebook, Law, Mark, PipeKind};
use stubout::units::{NominalSize, Parse};

/// Columns of one table: a size, and its capacity by length in feet. `?` is a cell that was not read.
type Columns = BTreeMap<NominalSize, Vec<(u32, Option<f64>)>>;

/// The tables of a transcription by number.
fn transcribed(text: &str) -> BTreeMap<u32, Columns> {
    let mut tables = BTreeMap::new();
    for block in text.split("\n\n").skip(1) {
        let mut lines = block.lines();
        let number = lines.next().unwrap().trim_start_matches("402.4(").trim_end_matches(')');
        let feet = lines.next().unwrap().strip_prefix("feet ").unwrap().split(' ');
        let feet: Vec<u32> = feet.map(|feet| feet.parse().unwrap()).collect();
        let columns: Columns = lines
            .map(|line| {
                let (size, figures) = line.split_once(": ").unwrap();
                let figures: Vec<_> = figures.split(' ').map(|figure| figure.parse().ok()).collect();
                assert_eq!(figures.len(), feet.len(), "{line}");
                let column = feet.iter().copied().zip(figures).collect();
                (NominalSize::parse(size).unwrap(), column)
            })
            .collect();
        tables.insert(number.parse().unwrap(), columns);
    }
    tables
}

/// What the codebook holds as printed, in the same form; rows that were computed are left out.
fn held(number: u32) -> Columns {
    let mut columns = Columns::new();
    for (feet, _, size, cell) in cells(table(number)) {
        let cell = cell.unwrap();
        let printed = match (cell.published_as, cell.mark) {
            (Some(printed), _) => Some(printed.amount()),
            (None, Mark::Computed) => None,
            (None, _) => Some(cell.capacity.amount()),
        };
        columns.entry(size).or_default().push((feet as u32, printed));
    }
    columns
}

fn csst() -> BTreeMap<u32, Columns> {
    transcribed(include_str!("csst_columns.txt"))
}

fn steel() -> BTreeMap<u32, Columns> {
    transcribed(include_str!("steel_columns.txt"))
}

#[test]
fn corrugated_tubing_is_as_printed_in_every_cell() {
    let mut count = 0;
    for (number, columns) in csst() {
        count += columns.values().map(Vec::len).sum::<usize>();
        assert_eq!(held(number), columns, "402.4({number})");
    }
    assert_eq!(count, 1495);
    let all = Codebook::published()
        .tables()
        .iter()
        .filter(|table| table.pipe == PipeKind::Csst);
    assert_eq!(all.count(), csst().len());
}

#[test]
fn the_marks_of_corrugated_tubing_say_what_was_read() {
    for number in csst().into_keys() {
        let marks: BTreeSet<Mark> = cells(table(number)).map(|cell| cell.3.unwrap().mark).collect();
        let expected: &[Mark] = match number {
            15 => &[Mark::Found, Mark::Derived, Mark::Memory],
            16 => &[Mark::Derived],
            18 => &[Mark::Found, Mark::Memory],
            _ => &[Mark::Found],
        };
        assert!(marks.iter().eq(expected), "402.4({number}): {marks:?}");
        assert_eq!(table(number).law, Law::NoEquation);
    }
}

#[test]
fn the_odd_steel_tables_are_as_printed_in_every_cell() {
    let steel = steel();
    for number in [5, 7] {
        assert_eq!(held(number), steel[&number], "402.4({number})");
        assert!(cells(table(number)).all(|cell| cell.3.unwrap().mark == Mark::Found));
    }
}

#[test]
fn the_read_rows_of_table_28_are_as_printed() {
    let held = held(28);
    for (size, column) in &steel()[&28] {
        for printed in column {
            assert!(held[size].contains(printed), "{size:?} {printed:?}");
        }
    }
}

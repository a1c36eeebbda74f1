//! The tables against a second reading of print, cell by cell; and how much of each table has no second source.
//!
//! `second_reading.txt` names its sources table by table. It was typed apart from the files of the program. The whole
//! tables of corrugated tubing, and 402.4(5), (7) and (28), were also transcribed twice from one text: `columns.rs`.

use crate::equation::{cell, cells, table};
use std::collections::BTreeMap;
use stubout::codebook::{Codebook, Mark};
use stubout::units::{NominalSize, Parse};

/// A cell that was read again.
struct Again {
    feet: f64,
    size: NominalSize,
    printed: f64,
    /// In how many printed sources it stands.
    sources: u32,
}

/// The second reading by the number of the table.
fn read() -> BTreeMap<u32, Vec<Again>> {
    let blocks = include_str!("second_reading.txt").split("\n\n").skip(1);
    blocks.map(block).collect()
}

fn block(text: &str) -> (u32, Vec<Again>) {
    let mut lines = text.lines();
    let number = lines.next().unwrap().trim_start_matches("402.4(").trim_end_matches(')');
    assert!(lines.next().unwrap().starts_with("read "));
    let feet = lines.next().unwrap().strip_prefix("feet ").unwrap().split(' ');
    let feet: Vec<f64> = feet.map(|feet| feet.parse().unwrap()).collect();
    let columns = lines.flat_map(|line| {
        let (size, figures) = line.split_once(": ").unwrap();
        let size = NominalSize::parse(size).unwrap();
        let figures: Vec<&str> = figures.split(' ').collect();
        assert_eq!(figures.len(), feet.len(), "{line}");
        let read = feet.iter().zip(figures).filter(|(_, figure)| *figure != "-");
        let again = read.map(|(&feet, figure)| {
            let (printed, sources) = figure.split_once('*').unwrap();
            Again {
                feet,
                size,
                printed: printed.parse().unwrap(),
                sources: sources.parse().unwrap(),
            }
        });
        again.collect::<Vec<_>>()
    });
    (number.parse().unwrap(), columns.collect())
}

#[test]
fn every_cell_that_was_read_again_is_held_as_printed() {
    let mut count = 0;
    for (number, again) in read() {
        for again in again {
            let held = cell(table(number), again.feet, again.size);
            let place = format!("402.4({number}) {} ft {:?}", again.feet, again.size);
            match held.published_as {
                // 402.4(28): the equation's smaller figure takes the place of the printed one.
                Some(printed) => {
                    assert_eq!((number, printed.amount()), (28, again.printed), "{place}");
                    assert!(held.capacity < printed);
                }
                None => assert_eq!(
                    (held.capacity.amount(), held.mark),
                    (again.printed, Mark::Found),
                    "{place}"
                ),
            }
            count += 1;
        }
    }
    assert_eq!(count, 627);
}

/// 402.4(2), 4 in at 70 ft: the equation rounds to 8,060, the one reprint that shows the cell has 8,050, and print counts.
#[test]
fn print_goes_before_the_equation() {
    let held = cell(table(2), 70.0, NominalSize::parse("4").unwrap());
    assert_eq!((held.capacity.amount(), held.mark), (8050.0, Mark::Found));
}

/// Of each table: how many figures it has, how many of them were read in print, how many of those in two sources or more.
/// What is left of the first, when the third is taken off, has no second source.
const SECONDED: [(u32, usize, usize, usize); 34] = [
    (1, 351, 0, 0),
    (2, 399, 134, 83),
    (3, 360, 72, 0),
    (4, 360, 79, 0),
    (5, 81, 81, 0),
    (6, 360, 360, 90),
    (7, 81, 81, 0),
    (8, 268, 0, 0),
    (9, 287, 0, 0),
    (10, 306, 0, 0),
    (11, 360, 45, 0),
    (12, 360, 53, 0),
    (13, 360, 358, 27),
    (14, 360, 54, 0),
    (15, 221, 59, 0),
    (16, 143, 0, 0),
    (17, 221, 221, 0),
    (18, 196, 2, 0),
    (19, 196, 196, 0),
    (20, 160, 70, 0),
    (21, 160, 64, 0),
    (22, 160, 64, 0),
    (25, 360, 72, 0),
    (26, 360, 63, 0),
    (27, 360, 360, 72),
    (28, 360, 87, 7),
    (29, 360, 360, 167),
    (30, 314, 35, 4),
    (31, 360, 42, 0),
    (32, 126, 126, 0),
    (33, 196, 196, 0),
    (34, 196, 196, 0),
    (35, 160, 56, 0),
    (36, 160, 56, 0),
];

#[test]
fn it_is_known_of_each_table_how_many_cells_have_no_second_source() {
    let again = read();
    let tables = Codebook::published().tables().iter().map(|held| {
        let number = held
            .id
            .trim_start_matches("402.4(")
            .trim_end_matches(')')
            .parse()
            .unwrap();
        let figures = cells(held).filter(|cell| cell.3.is_some()).count();
        // A printed figure that the equation's smaller one replaces was read too.
        let read = cells(held).filter(|cell| {
            cell.3
                .is_some_and(|cell| cell.mark == Mark::Found || cell.published_as.is_some())
        });
        let twice = again
            .get(&number)
            .into_iter()
            .flatten()
            .filter(|again| again.sources > 1);
        (number, figures, read.count(), twice.count())
    });
    let tables: Vec<(u32, usize, usize, usize)> = tables.collect();
    assert_eq!(tables, SECONDED);
    let without: usize = tables.iter().map(|table| table.1 - table.3).sum();
    let all: usize = tables.iter().map(|table| table.1).sum();
    assert_eq!((all, without), (9062, 8612));
}

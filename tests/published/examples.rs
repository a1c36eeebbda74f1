//! Worked examples of IFGC appendix A: lengths and loads as printed, sizes as printed.

use crate::equation::{cell, table};
use stubout::codebook::Capacity;
use stubout::units::{Length, NominalSize, Parse};

/// The size that a table gives for a load, cfh, over a length, ft.
#[track_caller]
fn check(number: u32, feet: f64, cfh: f64, expected: &str) {
    let table = table(number);
    let row = table.row_for(Length::from_feet(feet)).unwrap();
    let load = Capacity::new(cfh, table.unit);
    let mut sizes = table.along(row).filter_map(|(size, cell)| Some((size, cell?)));
    let (size, cell) = sizes.find(|(_, cell)| cell.capacity >= load).unwrap();
    assert_eq!(
        size,
        NominalSize::parse(expected).unwrap(),
        "{cfh} cfh over {feet} ft: {cell:?}"
    );
}

/// A.6.1 (A.7.1 in 2018), longest length, 60 ft, Schedule 40 steel, 0.5 in w.c.
#[test]
fn example_1_longest_length() {
    check(2, 60.0, 35.0, "1/2");
    check(2, 60.0, 75.0, "3/4");
    check(2, 60.0, 110.0, "3/4");
    check(2, 60.0, 135.0, "3/4");
    check(2, 60.0, 245.0, "1");
}

/// A.6.2 (A.7.2), two pressures, corrugated tubing in EHD 13, 18, 23 and 30. Section A carries 189 cfh, as printed.
#[test]
fn example_2_hybrid_pressure() {
    check(18, 100.0, 110.0, "EHD 18");
    assert_eq!(cell(table(18), 100.0, NominalSize::Ehd(18)).capacity.amount(), 189.0);
    check(16, 15.0, 60.0, "EHD 13");
    check(16, 10.0, 30.0, "EHD 13");
    check(16, 25.0, 20.0, "EHD 13");
}

/// A.6.3 (A.7.3), branch length, semirigid copper, 1.0 in w.c.
#[test]
fn example_3_branch_length() {
    check(10, 50.0, 220.0, "1");
    check(10, 30.0, 75.0, "1/2");
    check(10, 50.0, 30.0, "3/8");
    check(10, 30.0, 35.0, "3/8");
    check(10, 30.0, 80.0, "1/2");
}

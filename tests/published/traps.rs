//! Four tables that mislead whoever trusts the equation, or the table.

use crate::equation::{AS_READ, Behind, Gas, ODD, Printed, TABLES, cell, cells, figures, table};
use std::collections::BTreeMap;
use stubout::codebook::{CapacityUnit, Codebook, Law, Mark, PipeKind};
use stubout::job::Material;
use stubout::units::{GaugePressure, Length, NominalSize};

/// 402.4(5), steel 2 psi / 1 psi, and (7), 5 psi / 3.5 psi: up to 12 % below the equation, so no row may be computed.
#[test]
fn the_odd_steel_tables_run_below_the_equation_and_end_at_90_feet() {
    for printed in &ODD {
        let table = printed.table();
        assert_eq!(table.law, Law::NoEquation);
        assert_eq!(table.last_length(), Length::from_feet(90.0));
        assert_eq!(table.row_for(Length::from_feet(90.01)), None);
        assert!(
            table
                .notes
                .iter()
                .any(|note| note.contains("past {90 ft} were not read"))
        );
        let over = |(feet, column, _, cell): (f64, usize, _, Option<&stubout::codebook::Cell>)| {
            printed.gives(feet, column, AS_READ) / cell.unwrap().capacity.amount() - 1.0
        };
        let most = cells(table).map(over).fold(0.0, f64::max);
        assert!((0.10..0.14).contains(&most), "402.4({}): {most}", printed.number);
    }
}

/// 402.4(28), propane 11 in w.c. / 0.5 in w.c.: the printed rows of 80 to 200 ft hold what the equation gives at a shorter
/// length; the codebook gives the smaller figure and says so. Which length each row holds is read in the reprint of a
/// boiler's installation manual, and of 80 and 100 ft also in the page text of IFGC 2018.
#[test]
fn table_28_gives_the_smaller_of_table_and_equation() {
    let printed = TABLES.iter().find(|printed| printed.number == 28).unwrap();
    let (mut smaller, mut over) = (0, BTreeMap::new());
    for (feet, column, size, cell) in cells(table(28)) {
        let cell = cell.unwrap();
        let gives = printed.gives(feet, column, AS_READ);
        assert!(
            cell.capacity.amount() <= figures(3, gives),
            "{feet} ft {size:?}: {cell:?} over {gives}"
        );
        if let Some(was) = cell.published_as {
            let rows = [
                (80.0, 70.0),
                (100.0, 80.0),
                (125.0, 90.0),
                (150.0, 100.0),
                (175.0, 125.0),
                (200.0, 150.0),
            ];
            let shorter = rows.iter().find(|row| row.0 == feet).unwrap().1;
            let percent = (was.amount() / printed.gives(feet, column, AS_READ) - 1.0) * 100.0;
            over.entry(feet as u32).or_insert_with(Vec::new).push(percent);
            assert_eq!(was.amount(), figures(3, printed.gives(shorter, column, AS_READ)));
            assert!(was > cell.capacity && cell.mark == Mark::Computed);
            assert!(cell.remark.is_some_and(|remark| remark.contains("smaller")));
            smaller += 1;
        }
    }
    // Nine sizes at 80 ft, eight at 100, five each at 125, 150 and 175, one at 200.
    assert_eq!(smaller, 9 + 8 + 5 + 5 + 5 + 1);
    // By how much they are too high: 7, 13, 19, 24, 20 and 17 %; the note gives the least and the greatest.
    for (feet, percent) in [
        (80, 7.0),
        (100, 13.0),
        (125, 19.0),
        (150, 24.0),
        (175, 20.0),
        (200, 17.0),
    ] {
        let mean = over[&feet].iter().sum::<f64>() / over[&feet].len() as f64;
        assert!((mean - percent).abs() < 1.0, "{feet} ft: {mean}");
    }
    assert!(table(28).notes.iter().any(|note| note.contains("7 to 24 %")));
    let cell = cell(table(28), 80.0, NominalSize::Inch(12));
    assert_eq!(
        (cell.published_as.unwrap().amount(), cell.capacity.amount()),
        (212.0, 197.0)
    );
    assert!(table(28).notes.iter().any(|note| note.contains("smaller")));
}

/// 402.4(11), copper 17 in w.c.: under 2 psi, and yet by the high-pressure equation; the low-pressure one is 5 % off.
#[test]
fn table_11_follows_the_high_pressure_equation() {
    assert_eq!(table(11).law, Law::HighPressure(GaugePressure::from_psi(2.0)));
    let printed = TABLES.iter().find(|printed| printed.number == 11).unwrap();
    let low = Printed {
        number: 11,
        bores: printed.bores,
        behind: Behind::Low(17.0),
        gas: Gas::Natural,
    };
    for (feet, column, size, cell) in cells(table(11)) {
        let is = cell.unwrap().capacity.amount();
        assert!(
            (printed.gives(feet, column, AS_READ) / is - 1.0).abs() < 0.05,
            "{feet} ft {size:?}"
        );
        if is > 500.0 {
            let off = low.gives(feet, column, AS_READ) / is - 1.0;
            assert!((-0.062..-0.045).contains(&off), "{feet} ft {size:?}: {off}");
        }
    }
}

/// Corrugated tubing: no equation, no bore, nothing between rows, nothing past the last one.
#[test]
fn corrugated_tubing_is_looked_up_and_never_computed() {
    let book = Codebook::published();
    for table in book.tables().iter().filter(|table| table.pipe == PipeKind::Csst) {
        assert_eq!(table.law, Law::NoEquation, "{}", table.id);
        assert_eq!(table.row_for(table.last_length() + Length::from_mm(1.0)), None);
    }
    let between = table(17).row_for(Length::from_feet(101.0)).unwrap();
    assert_eq!(table(17).length(between), Length::from_feet(150.0));
    assert!(book.sizes(Material::Csst).iter().all(|pipe| pipe.inside.is_none()));
}

/// Copper: one table for types K and L, made for the narrower bore of K.
#[test]
fn copper_tables_are_made_for_the_narrower_tube() {
    let book = Codebook::published();
    assert_eq!(PipeKind::of(Material::CopperL), PipeKind::of(Material::CopperK));
    for size in table(9).sizes() {
        let [k, l] =
            [Material::CopperK, Material::CopperL].map(|tube| book.inside_diameter(tube, *size).unwrap().value);
        assert!(k < l, "{size:?}");
    }
    assert!(table(9).notes.iter().any(|note| note.contains("type K")));
}

/// 402.4(3) and (4) want 8 and 11 in w.c. of supply (IFGC 2018, heads of the tables).
#[test]
fn tables_with_a_large_drop_want_more_supply_pressure() {
    for (number, inches) in [(3, 8.0), (4, 11.0), (16, 8.0), (17, 11.0)] {
        let least = table(number).least_supply.unwrap().value;
        assert_eq!(least, GaugePressure::from_inches_wc(inches), "402.4({number})");
    }
    assert_eq!(table(2).least_supply, None);
}

/// 402.4(13): only up to 150 cfh to a regulator, and 1 in w.c. after it.
#[test]
fn table_13_shows_its_conditions() {
    assert!(
        table(13)
            .notes
            .iter()
            .any(|note| note.contains("150 cfh") && note.contains("1 in w.c."))
    );
    assert_eq!(table(13).unit, CapacityUnit::Cfh);
}

/// What is printed on a sheet beside a table is for the fitter and the office, not for whoever writes the program; and no
/// table of which nothing was read says of a cell that it is as printed.
#[test]
fn notes_of_tables_are_for_those_who_read_the_sheet() {
    for table in Codebook::published().tables() {
        for note in &table.notes {
            for word in ["compute", "look up", "interpolate", "must not", "kept as"] {
                assert!(!note.contains(word), "{}: {note}", table.id);
            }
        }
        let read = cells(table).any(|(.., cell)| cell.is_some_and(|cell| cell.mark == Mark::Found));
        let printed = table.notes.iter().any(|note| note.contains("print"));
        assert!(read || !printed, "{}", table.id);
    }
}

//! A class set: its keys recomputed from the printed rows, no two alike, none near a tie, the same for the same seed.

use crate::job;
use crate::printed::{Printed, Walked, tables};
use std::collections::BTreeSet;
use stubout::codebook::Codebook;
use stubout::job::{Device, Job};
use stubout::lesson::class_set;
use stubout::sizing::{Basis, Section};
use stubout::study::Study;
use stubout::units::Show;

/// Btu per cubic foot of natural gas as the program takes it where none is entered.
const NATURAL: f64 = 1000.0;

/// The sizes of the sections by hand: the load added up, the row found and the columns compared in the text of the table.
/// What fittings add is the study's; it is held by tests of its own.
fn key(job: &Job, study: &Study, tables: &[Printed]) -> Vec<String> {
    let walked = Walked::of(job);
    let pipe = study.sections.iter().filter(|section| section.is_pipe());
    let size = |section: &Section| {
        let (table, row, load) = entry(section, &walked, tables);
        let size = table.size(row, load, NATURAL).unwrap();
        // The size stays the same in the next longer row, at a length 5 % shorter, and with 5 % more or less load.
        let shorter = table.row(section.design.total().feet() * 0.95).unwrap();
        for (row, load) in [(row + 1, load), (shorter, load), (row, load * 1.05), (row, load * 0.95)] {
            if row < table.rows.len() {
                assert_eq!(
                    table.size(row, load, NATURAL),
                    Some(size),
                    "section {} is near a tie",
                    section.number
                );
            }
        }
        size.to_owned()
    };
    pipe.map(size).collect()
}

/// Table, row and load of a section, MBH.
fn entry<'a>(section: &Section, walked: &Walked, tables: &'a [Printed]) -> (&'a Printed, usize, f64) {
    let Basis::Table { table, .. } = &section.sizing.basis else {
        panic!("section {} is sized by no table", section.number);
    };
    let table = tables.iter().find(|printed| printed.id == **table).unwrap();
    let run = *section.runs.last().unwrap();
    let row = table.row(section.design.total().feet()).unwrap();
    (table, row, walked.load(run))
}

fn check(name: &str, count: usize, seed: u64) {
    let (usual, book, tables) = (job(name), Codebook::published(), tables());
    let set = class_set(&usual, book, count, seed).unwrap();
    assert_eq!(set.len(), count);
    assert_eq!(
        set,
        class_set(&usual, book, count, seed).unwrap(),
        "{name}: another set for the same seed"
    );
    let mut givens = BTreeSet::new();
    let mut answers = BTreeSet::new();
    for one in &set {
        let study = Study::of(one, book);
        let found: Vec<String> = (study.sections.iter().filter(|section| section.is_pipe()))
            .map(|section| {
                study
                    .names
                    .show(section.material, section.sizing.needed.unwrap())
                    .replace('"', "")
            })
            .collect();
        assert_eq!(found, key(one, &study, &tables), "{name}: {}", one.title.drawing);
        let walked = Walked::of(one);
        assert!((study.zones[0].longest.feet() - walked.longest()).abs() < 1e-6);
        let inputs: Vec<String> = one.joints.iter().filter_map(|joint| input(joint.device()?)).collect();
        let lengths: Vec<String> = one.runs.iter().map(|run| one.true_length(run).exact()).collect();
        assert!(givens.insert((inputs, lengths)), "{name}: two worksheets are alike");
        answers.insert(found);
        within_bounds(&usual, one);
        assert!(one.title.drawing.ends_with(char::is_numeric));
    }
    // Other answers too, as far as the job has so many.
    assert!(
        answers.len() * 2 > count,
        "{name}: only {} different keys of {count}",
        answers.len()
    );
    let other = class_set(&usual, book, 1, seed + 1).unwrap();
    assert_ne!(other[0].runs, set[0].runs, "{name}: the seed changes nothing");
}

fn input(device: &Device) -> Option<String> {
    match device {
        Device::Appliance(appliance) => appliance.input.map(|input| input.exact()),
        Device::Cap(cap) => cap.future_input.map(|input| input.exact()),
        _ => None,
    }
}

fn within_bounds(usual: &Job, one: &Job) {
    for (was, is) in usual.runs.iter().zip(one.runs.iter()) {
        let (was_feet, feet) = (usual.true_length(was).feet(), one.true_length(is).feet());
        let changes = was.offset.is_none() && was_feet >= 2.0;
        if changes {
            assert!(
                (feet * 2.0).fract() < 1e-6 && feet >= was_feet * 0.7 - 0.25 && feet <= was_feet * 1.4 + 0.25,
                "{feet}"
            );
        } else {
            assert_eq!(was_feet, feet);
        }
    }
    for (was, is) in usual.joints.iter().zip(one.joints.iter()) {
        if let (Some(Device::Appliance(was)), Some(Device::Appliance(is))) = (was.device(), is.device()) {
            let (was, is) = (was.input.unwrap().btuh(), is.input.unwrap().btuh());
            assert!(
                is >= was * 0.6 - 2_500.0 && is <= was * 1.4 + 2_500.0 && is % 1_000.0 == 0.0,
                "{is} of {was}"
            );
        }
    }
}

#[test]
fn thirty_worksheets_of_the_classroom_have_keys_that_the_printed_rows_give() {
    check("examples/classroom.ron", 30, 7);
}

#[test]
fn a_set_of_existing_pipe_over_capacity_keeps_its_findings() {
    let (usual, book) = (job("tests/jobs/overloaded-trunk.ron"), Codebook::published());
    let set = class_set(&usual, book, 6, 3).unwrap();
    for one in &set {
        let _ = key(one, &Study::of(one, book), &tables());
    }
}

#[test]
fn what_no_printed_table_sizes_is_told() {
    let mut usual = job("examples/classroom.ron");
    usual.runs.get_mut(stubout::job::RunId(6)).unwrap().length = Some(stubout::units::Length::from_feet(9000.0));
    let why = class_set(&usual, Codebook::published(), 2, 1).unwrap_err();
    assert!(why.contains("only 0 of 2 worksheets found: section 1"), "{why}");
    assert!(class_set(&usual, Codebook::published(), 0, 1).is_err());
}

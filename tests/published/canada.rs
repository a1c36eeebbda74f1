//! Sizes under CSA B149.1, against the answers of a Canadian gas-technician training text, unit 8, which names the
//! tables of the code that it reads.

use crate::draft::Draft;
use stubout::codebook::Codebook;
use stubout::job::{Fuel, Job, Material, RunId};
use stubout::sizing::Sizing;
use stubout::study::Study;
use stubout::units::{GaugePressure, Length, NominalSize, PressureDrop};

fn study(job: &Job) -> Study {
    Study::of(job, Codebook::published())
}

/// By what a size is named in Canada: copper tube by its outside diameter, in inches; steel by its nominal size.
fn named(material: Material, size: NominalSize) -> f64 {
    let Some(pipe) = Codebook::published().pipe(material, size) else {
        panic!("{size:?} of {material:?}")
    };
    match (material, size) {
        (Material::CopperK | Material::CopperL, _) => pipe.outside.unwrap().value.inches(),
        (_, NominalSize::Inch(sixteenths)) => f64::from(sixteenths) / 16.0,
        (_, other) => panic!("{other:?}"),
    }
}

/// Holds the size of each run, its load in MBH and the row of its table in feet.
#[track_caller]
fn check(job: &Job, expected: &[(u32, f64, f64, f64)]) {
    let study = study(job);
    for &(run, load, row, size) in expected {
        let at = job.runs.position(RunId(run)).unwrap();
        let section = &study.sections[study.runs[at].section.unwrap()];
        assert!((section.load.heat.mbh() - load).abs() < 1e-9, "run {run}");
        assert_eq!(
            section.design.row.map(|row| row.value),
            Some(Length::from_feet(row)),
            "run {run}"
        );
        assert!((section.design.total().feet() - 1.2 * row).abs() < 1e-6, "run {run}");
        let found = named(section.material, section.sizing.size.unwrap());
        assert_eq!(found, size, "run {run}: {:?}", section.sizing);
    }
}

fn read(text: &str) -> Job {
    stubout::file::read(text).unwrap()
}

/// Figure 6-8, table A.1 a: natural gas under 7 in w.c., 0.5 in w.c. lost, 34 ft of steel pipe, read in the row of 40 ft.
#[test]
fn figure_6_8_one_pressure() {
    let job = read(include_str!("../jobs/canada-fig-6-8.ron"));
    check(
        &job,
        &[(1, 185.0, 40.0, 1.0), (2, 120.0, 40.0, 0.75), (3, 65.0, 40.0, 0.5)],
    );
}

/// Figure 6-12: 44 ft at 2 psig, 1 psi lost (table A.3 a, row of 50 ft), then 8 ft at 7 in w.c., 1 in w.c. lost (table A.2 a,
/// row of 10 ft), both 1/2 in steel. The profile allows these drops itself.
#[test]
fn figure_6_12_two_pressures() {
    let mut job = read(include_str!("../jobs/canada-fig-6-12.ron"));
    let expected = [(1, 160.0, 50.0, 0.5), (2, 160.0, 10.0, 0.5)];
    check(&job, &expected);
    job.settings.allowed_drop = None;
    check(&job, &expected);
}

/// Figure 6-15: propane in copper tube, 50 ft at 10 psi, 5 psi lost (table B.9 a), then 30 ft at 11 in w.c., 1 in w.c. lost
/// (table B.6 a). The answers are outside diameters: 7/8, 1/2, 7/8 and 3/8 in. The tables do not part types K and L.
#[test]
fn figure_6_15_propane_in_copper_tube() {
    let mut job = read(include_str!("../jobs/canada-fig-6-15.ron"));
    let expected = [
        (1, 285.0, 50.0, 0.375),
        (2, 285.0, 30.0, 0.875),
        (3, 250.0, 30.0, 0.875),
        (4, 35.0, 30.0, 0.5),
    ];
    for material in [Material::CopperK, Material::CopperL] {
        job.settings.material = material;
        job.settings.allowed_drop = Some(PressureDrop::from_psi(5.0));
        check(&job, &expected);
        job.settings.allowed_drop = None;
        check(&job, &expected);
    }
}

/// A published answer: fuel, tube or pipe, pressure at the start, load in MBH, length in feet, size as it is named.
type Answer = (Fuel, Material, GaugePressure, f64, f64, f64);

fn answers() -> Vec<Answer> {
    let wc = GaugePressure::from_inches_wc;
    let (natural, propane) = (Fuel::Natural, Fuel::Propane);
    let steel = Material::Steel40;
    let mut all = vec![
        (natural, steel, wc(6.9), 120.0, 34.0, 0.75),
        (natural, steel, wc(6.9), 65.0, 34.0, 0.5),
        (natural, steel, wc(6.9), 185.0, 34.0, 1.0),
        (natural, steel, wc(7.0), 160.0, 8.0, 0.5),
        (natural, steel, GaugePressure::from_psi(2.0), 160.0, 44.0, 0.5),
    ];
    for tube in [Material::CopperK, Material::CopperL] {
        all.extend([
            (propane, tube, wc(11.0), 250.0, 30.0, 0.875),
            (propane, tube, wc(11.0), 35.0, 30.0, 0.5),
            (propane, tube, wc(11.0), 285.0, 30.0, 0.875),
            (propane, tube, GaugePressure::from_psi(10.0), 285.0, 50.0, 0.375),
        ]);
    }
    all
}

/// One pipe to one appliance.
fn pipe((fuel, material, pressure, ..): Answer, load: f64, feet: f64) -> Sizing {
    let mut draft = Draft::fed_at(pressure);
    draft.job.settings.profile = "ca-b149".to_owned();
    draft.job.settings.material = material;
    draft.job.gas.fuel = fuel;
    let (from, to) = (draft.at(0, 0, 0), draft.at(9, 0, 0));
    draft.run(from, to, feet);
    draft.burner(to, "Appliance", 1000.0 * load);
    study(&draft.job).sections[0].sizing.clone()
}

/// No load and length that are not less than those of a published answer have a smaller size, and neither more load nor more
/// length ever makes one smaller. Past the last row nothing is sized.
#[test]
fn nothing_is_smaller_than_a_published_answer() {
    let more = [1.0, 1.001, 1.03, 1.1, 1.3, 1.7, 2.5, 6.0];
    for answer in answers() {
        let (_, material, _, load, length, least) = answer;
        let mut before: Vec<f64> = vec![0.0; more.len()];
        for longer in more {
            let mut last = least;
            for (heavier, before) in more.iter().zip(&mut before) {
                let sizing = pipe(answer, load * heavier, length * longer);
                let size = sizing.size.map_or(f64::INFINITY, |size| named(material, size));
                assert!(size >= last, "{answer:?} × {heavier}, {longer}: {size} after {last}");
                assert!(
                    size >= *before,
                    "{answer:?} × {heavier}, {longer}: {size}, was {before}"
                );
                (last, *before) = (size, size);
            }
        }
        assert_eq!(pipe(answer, load, 2000.1).size, None);
    }
}

/// What is shorter, or carries less, is never under the least size either, and copper tube is always one that the tables name.
#[test]
fn no_size_is_one_that_the_tables_lack() {
    for answer in answers() {
        let (_, material, _, load, length, _) = answer;
        for less in [0.001, 0.1, 0.5, 0.9, 1.0, 3.0] {
            let size = pipe(answer, load * less, length * less).size.unwrap();
            match material {
                Material::Steel40 => assert!(named(material, size) >= 0.5, "{answer:?}"),
                _ => assert_ne!(named(material, size), 0.75, "{answer:?}"),
            }
        }
    }
}

/// Just over a row the next one counts, never the one before: at 11 ft half-inch pipe is read in the row of 20 ft.
#[test]
fn a_length_goes_up_to_the_next_row() {
    let answer = (
        Fuel::Natural,
        Material::Steel40,
        GaugePressure::from_inches_wc(6.9),
        0.0,
        0.0,
        0.0,
    );
    for (feet, row) in [
        (0.5, 10.0),
        (10.0, 10.0),
        (10.1, 20.0),
        (33.0, 40.0),
        (40.5, 50.0),
        (150.5, 175.0),
        (176.0, 200.0),
    ] {
        let sizing = pipe(answer, 60.0, feet);
        let at_row = pipe(answer, 60.0, row);
        assert_eq!(sizing.basis, at_row.basis, "{feet} ft");
        assert_eq!(sizing.capacity(), at_row.capacity(), "{feet} ft");
    }
}

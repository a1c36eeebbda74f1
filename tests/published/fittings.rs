//! Equivalent lengths against printed ones.

use stubout::codebook::{Codebook, Fitting, Mark};
use stubout::job::{Material, ValveKind};
use stubout::units::{NominalSize, Parse};

fn feet(fitting: Fitting, nps: &str) -> f64 {
    let book = Codebook::published();
    let bore = book
        .inside_diameter(Material::Steel40, NominalSize::parse(nps).unwrap())
        .unwrap();
    book.equivalent_length(fitting, bore.value).unwrap().value.feet()
}

/// Two decimals, as the training text rounds: 5.245 is printed 5.24, twice the 2.62 of an elbow.
fn hundredths(feet: f64) -> f64 {
    (feet * 100.0 - 0.5 - 1e-6).ceil() / 100.0
}

/// Training text after CSA B149.1 table A.16: two runs of a zone of 175 ft, both proved.
#[test]
fn the_worked_proof_comes_out_as_printed() {
    let valve = Fitting::of_valve(ValveKind::Ball);
    let total = |measured: f64, small_elbows: f64| {
        measured
            + 3.0 * hundredths(feet(Fitting::Elbow90, "1"))
            + hundredths(feet(Fitting::TeeBranch, "1"))
            + small_elbows * hundredths(feet(Fitting::Elbow90, "3/4"))
            + hundredths(feet(valve, "3/4"))
            + feet(Fitting::TeeRun, "1")
    };
    let [a, b] = [total(145.0, 2.0), total(140.0, 1.0)];
    assert!((a - 164.28).abs() < 1e-9, "{a}");
    assert!((b - 157.22).abs() < 1e-9, "{b}");
}

/// IFGC table A.2.2 in feet for Schedule 40, a second transcription: 45°, 90°, return, tee branch, gate, globe, angle,
/// swing check. The rule `n · D / 12` was read; n of elbows and tee branch are confirmed, the others from memory.
#[test]
fn screwed_fittings_are_as_tabulated() {
    let kinds = [
        Fitting::Elbow45,
        Fitting::Elbow90,
        Fitting::Return180,
        Fitting::TeeBranch,
        Fitting::GateValve,
        Fitting::GlobeValve,
        Fitting::AngleValve,
        Fitting::SwingCheck,
    ];
    let table = [
        ("1/2", [0.73, 1.55, 3.47, 3.11, 0.36, 17.26, 8.66, 4.3]),
        ("3/4", [0.96, 2.06, 4.6, 4.12, 0.48, 22.87, 11.47, 5.7]),
        ("1", [1.22, 2.62, 5.86, 5.25, 0.61, 29.11, 14.6, 7.26]),
        ("1-1/4", [1.61, 3.45, 7.7, 6.9, 0.81, 38.29, 19.2, 9.54]),
        ("2", [2.41, 5.17, 11.54, 10.34, 1.21, 57.36, 28.77, 14.3]),
        ("4", [4.7, 10.06, 22.48, 20.13, 2.35, 111.72, 56.03, 27.85]),
    ];
    for (nps, lengths) in table {
        for (kind, length) in kinds.into_iter().zip(lengths) {
            assert!(
                (feet(kind, nps) - length).abs() < 0.0051,
                "{kind:?} {nps}: {}",
                feet(kind, nps)
            );
        }
    }
}

#[test]
fn what_is_from_memory_says_so() {
    let book = Codebook::published();
    let bore = book
        .inside_diameter(Material::Steel40, NominalSize::HALF)
        .unwrap()
        .value;
    let mark = |fitting| book.equivalent_length(fitting, bore).unwrap().mark;
    assert_eq!(mark(Fitting::Elbow90), Mark::Found);
    assert_eq!(mark(Fitting::GlobeValve), Mark::Memory);
}

/// Proofs leave out the run of a tee; pressures do not.
#[test]
fn the_run_of_a_tee_loses_pressure_but_counts_no_length() {
    let book = Codebook::published();
    let bore = book
        .inside_diameter(Material::Steel40, NominalSize::HALF)
        .unwrap()
        .value;
    let counted = book.equivalent_length(Fitting::TeeRun, bore).unwrap();
    let lost = book.loss_length(Fitting::TeeRun, bore).unwrap();
    assert_eq!(counted.value.feet(), 0.0);
    assert!((lost.value.inches() - 20.0 * 0.622).abs() < 1e-4 && lost.mark == Mark::Memory);
}

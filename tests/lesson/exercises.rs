//! Exercises made to order: they can be read, and their traps are there.

use crate::clear_labels::labels_are_clear;
use rayon::prelude::*;
use stubout::codebook::Codebook;
use stubout::job::{Device, Fuel, Material, Method, State};
use stubout::lesson::{Difficulty, Exercise, Wanted, exercise, ties};
use stubout::rules::Checked;
use stubout::sheet::{Orientation, Paper, compose};
use stubout::sizing::Verdict;
use stubout::study::Study;

const USUAL: Wanted = Wanted {
    outlets: 8,
    material: Material::Steel40,
    fuel: Fuel::Natural,
    method: Method::LongestLength,
    difficulty: Difficulty::Medium,
    seed: 1,
};

fn made(wanted: Wanted) -> Exercise {
    exercise(wanted, Codebook::published()).unwrap_or_else(|why| panic!("{wanted:?}: {why}"))
}

/// What was wanted is there, and nothing must be fixed but the trap that was set.
fn check(wanted: Wanted) -> Exercise {
    let (made, book) = (made(wanted), Codebook::published());
    let checked = Checked::of(&made.job, book);
    let study = &checked.study;
    assert_eq!(study.outlets.len(), wanted.outlets, "{wanted:?}");
    assert_eq!(ties(&made.job, book, study), [], "{wanted:?}");
    let is_hard = wanted.difficulty == Difficulty::Hard;
    let over: Vec<usize> = (study.sections.iter())
        .filter(|section| section.sizing.verdict == Verdict::TooSmall)
        .map(|section| section.number)
        .collect();
    assert_eq!(over, if is_hard { vec![1] } else { vec![] }, "{wanted:?}");
    for section in &study.sections {
        assert_eq!(section.state == State::Existing, is_hard && section.number == 1);
    }
    let found: Vec<String> = checked.must_fix().map(|finding| finding.what.clone()).collect();
    assert_eq!(found.len(), usize::from(is_hard), "{wanted:?}: {found:?}");
    let mut other = made.job.clone();
    other.settings.method = Some(match wanted.method {
        Method::LongestLength => Method::BranchLength,
        Method::BranchLength => Method::LongestLength,
    });
    let other = Study::of(&other, book);
    let is_unlike = study
        .sections
        .iter()
        .zip(&other.sections)
        .any(|(a, b)| a.sizing.needed != b.sizing.needed);
    assert!(is_unlike || wanted.difficulty == Difficulty::Easy, "{wanted:?}");
    assert_eq!(
        made.traps
            .iter()
            .any(|trap| trap.starts_with("existing pipe over capacity")),
        is_hard
    );
    made
}

#[test]
fn exercises_of_5_to_25_outlets_are_drawn_so_that_they_can_be_read() {
    (5..=25usize).into_par_iter().for_each(|outlets| {
        let difficulty = [Difficulty::Easy, Difficulty::Medium, Difficulty::Hard][outlets % 3];
        let seed = outlets as u64;
        let made = check(Wanted {
            outlets,
            difficulty,
            seed,
            ..USUAL
        });
        let book = Codebook::published();
        let checked = Checked::of(&made.job, book);
        let packet = compose(&made.job, &checked, book, Paper::AnsiB, Orientation::Landscape);
        for sheet in &packet.sheets {
            labels_are_clear(sheet);
        }
        let left_out: Vec<&String> = packet
            .remarks
            .iter()
            .filter(|remark| remark.contains("did not fit") && !remark.contains("with all of them"))
            .collect();
        assert!(left_out.is_empty(), "{outlets} outlets: {left_out:?}");
    });
}

#[test]
fn every_material_gas_and_method_has_exercises() {
    let materials = [Material::Steel40, Material::CopperL, Material::CopperK, Material::Csst];
    materials.into_par_iter().for_each(|material| {
        for fuel in [Fuel::Natural, Fuel::Propane] {
            for method in [Method::LongestLength, Method::BranchLength] {
                let wanted = Wanted {
                    material,
                    fuel,
                    method,
                    outlets: 12,
                    seed: 4,
                    ..USUAL
                };
                let made = check(wanted);
                assert_eq!(made.job.settings.material, material);
                assert_eq!(made.job.gas.fuel, fuel);
            }
        }
    });
}

#[test]
fn the_same_seed_gives_the_same_exercise_and_another_seed_another() {
    assert_eq!(made(USUAL).job, made(USUAL).job);
    let inputs = |seed| {
        let job = made(Wanted { seed, ..USUAL }).job;
        let inputs = job.joints.iter().filter_map(|joint| match joint.device() {
            Some(Device::Appliance(appliance)) => appliance.input.map(|input| input.btuh() as u64),
            _ => None,
        });
        inputs.collect::<Vec<_>>()
    };
    assert_ne!(inputs(1), inputs(2));
}

#[test]
fn too_few_and_too_many_outlets_are_refused() {
    for outlets in [0, 4, 26] {
        let why = exercise(Wanted { outlets, ..USUAL }, Codebook::published()).unwrap_err();
        assert_eq!(why, format!("an exercise has 5 to 25 outlets, not {outlets}"));
    }
}

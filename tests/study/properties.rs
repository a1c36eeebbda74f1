//! What must hold of any job, tried on jobs by chance. A failure names the seed.

use crate::dice::Dice;
use crate::random_job::random_job;
use crate::wild_job::wild_job;
use stubout::codebook::{Codebook, PipeKind};
use stubout::job::{Device, Job, State};
use stubout::sizing::{Basis, Verdict};
use stubout::study::{Study, explain};

/// A study with everything that can be asked of it.
fn study_whole(job: &Job) -> Study {
    let book = Codebook::published();
    let study = Study::of(job, book);
    for section in 0..study.sections.len().min(40) {
        assert!(!explain(job, book, &study, section).is_empty());
    }
    study.fitting_counts();
    study
}

#[test]
fn nonsense_gives_a_study_with_numbers() {
    for seed in 0..3000 {
        let mut dice = Dice::new(seed);
        let job = wild_job(seed, 1 + dice.below(40));
        let study = study_whole(&job);
        // Ratings and plates may be nonsense themselves; what is computed must not be.
        let figures = format!(
            "{:?} {:?} {:?} {:?} {:?} {:?} {:?}",
            study.gas, study.zones, study.sections, study.runs, study.joints, study.total, study.fittings
        );
        for odd in ["NaN", "inf"] {
            let around = figures.find(odd).map(|at| &figures[at.saturating_sub(400)..at + 3]);
            assert_eq!(around, None, "seed {seed}");
        }
        for outlet in &study.outlets {
            assert!(outlet.pressure.is_none_or(|p| p.pa().is_finite()), "seed {seed}");
            assert!(outlet.margin.is_none_or(|p| p.pa().is_finite()), "seed {seed}");
        }
        assert_eq!(
            (study.runs.len(), study.joints.len()),
            (job.runs.len(), job.joints.len())
        );
    }
}

#[test]
fn every_run_is_in_one_place_of_the_tree_or_said_to_be_out_of_it() {
    for seed in 0..500 {
        let job = wild_job(seed, 60);
        let study = study_whole(&job);
        let network = &study.network;
        let mut seen = vec![0; job.runs.len()];
        for &run in study
            .sections
            .iter()
            .flat_map(|section| &section.runs)
            .chain(&network.loop_runs)
        {
            seen[run] += 1;
        }
        for &run in &network.unreached {
            seen[run] += 1;
        }
        for (at, run) in job.runs.iter().enumerate() {
            assert_eq!(
                seen[at],
                usize::from(run.state != State::Removed),
                "seed {seed}, run {}",
                run.id
            );
            assert_eq!(
                network.ends[at].is_some(),
                study.runs[at].section.is_some(),
                "seed {seed}"
            );
        }
    }
}

#[test]
fn what_comes_in_goes_out() {
    for seed in 0..300 {
        let job = random_job(seed, 80);
        let study = study_whole(&job);
        let inputs: f64 = study
            .outlets
            .iter()
            .filter_map(|outlet| outlet.heat)
            .map(|heat| heat.btuh())
            .sum();
        let counted = study.total.heat.btuh() + study.total.left_out.btuh();
        assert!(
            (inputs - counted).abs() < 1e-6 * inputs.max(1.0),
            "seed {seed}: {inputs} against {counted}"
        );
        for section in &study.sections {
            let served = &study.outlets[section.serves.clone()];
            let own: f64 = served
                .iter()
                .filter_map(|outlet| outlet.heat)
                .map(|heat| heat.btuh())
                .sum();
            let load = section.load.heat.btuh() + section.load.left_out.btuh();
            assert!(
                (own - load).abs() < 1e-6 * own.max(1.0),
                "seed {seed}, section {}",
                section.number
            );
        }
        let tags: Vec<_> = study.outlets.iter().map(|outlet| outlet.joint).collect();
        let mut in_order = study.network.order.iter();
        assert!(
            tags.iter().all(|joint| in_order.any(|other| other == joint)),
            "seed {seed}: letters in flow order"
        );
    }
}

/// A job with all pipe new, and none fixed by hand.
fn all_new(seed: u64, runs: usize, one_material: bool) -> Job {
    let mut job = random_job(seed, runs);
    let ids: Vec<_> = job.runs.iter().map(|run| run.id).collect();
    for id in ids {
        let Some(run) = job.runs.get_mut(id) else { continue };
        (run.state, run.size) = (State::New, None);
        if one_material {
            run.material = None;
        }
    }
    job
}

#[test]
fn pipe_is_never_smaller_than_pipe_of_its_kind_downstream() {
    let profiles = ["us-ifgc", "metric-equation", "ca-b149"];
    let mut compared = 0;
    for seed in 0..600 {
        let mut job = all_new(seed, 10 + (seed as usize * 7) % 120, seed % 2 == 0);
        job.settings.profile = profiles[seed as usize % 3].to_owned();
        let study = study_whole(&job);
        for section in &study.sections {
            let Some(before) = section.fed_by.map(|before| &study.sections[before]) else {
                continue;
            };
            let alike = before.zone == section.zone && before.material == section.material;
            if !alike || section.load.flow.cfh() <= 0.0 {
                continue;
            }
            assert!(
                before.load.flow >= section.load.flow,
                "seed {seed}, section {}",
                section.number
            );
            assert!(
                before.design.total() >= section.design.total(),
                "seed {seed}, section {}",
                section.number
            );
            if let (Some(size), Some(upstream)) = (section.sizing.size, before.sizing.size) {
                compared += 1;
                assert!(
                    upstream >= size,
                    "seed {seed}, section {}: {upstream:?} feeds {size:?}",
                    section.number
                );
            }
        }
    }
    assert!(compared > 5_000, "{compared}");
}

#[test]
fn a_found_size_carries_and_the_next_smaller_does_not() {
    for seed in 0..300 {
        let job = all_new(seed, 40, false);
        for section in study_whole(&job).sections {
            let sizing = &section.sizing;
            let Some(needed) = sizing.needed else { continue };
            for capacity in &sizing.capacities {
                let enough = capacity.flow.cfh() * (1.0 + 1e-9) >= section.load.flow.cfh();
                assert_eq!(enough, capacity.size >= needed, "seed {seed}: {sizing:?}");
            }
            if sizing.size == Some(needed) && section.load.unknown == 0 {
                assert_eq!(sizing.verdict, Verdict::Carries, "seed {seed}");
            }
        }
    }
}

#[test]
fn nobody_computes_corrugated_tubing_or_what_a_table_forbids() {
    for seed in 0..300 {
        let mut job = all_new(seed, 60, false);
        job.settings.profile = ["us-ifgc", "metric-equation", "ca-b149"][seed as usize % 3].to_owned();
        for section in study_whole(&job).sections {
            let equation = matches!(section.sizing.basis, Basis::Equation { .. });
            assert!(
                !equation || PipeKind::of(section.material) != PipeKind::Csst,
                "seed {seed}"
            );
            assert!(
                !equation || job.settings.profile != "us-ifgc",
                "seed {seed}: us-ifgc lets no equation size"
            );
        }
    }
}

#[test]
fn pressure_falls_along_level_pipe() {
    for seed in 0..300 {
        let mut job = all_new(seed, 60, true);
        let ids: Vec<_> = job.joints.iter().map(|joint| joint.id).collect();
        for id in ids {
            // Flattened on paper; lengths typed or drawn stay what they were along the tree.
            if let Some(joint) = job.joints.get_mut(id) {
                joint.at.up = 0;
            }
        }
        let study = study_whole(&job);
        for (run, ends) in study.network.ends.iter().enumerate() {
            let Some((from, to)) = *ends else { continue };
            let (Some(inlet), Some(outlet)) = (study.joints[from].pressure, study.joints[to].pressure) else {
                continue;
            };
            assert!(outlet.pa() <= inlet.pa(), "seed {seed}, run {run}");
            let flowing = study.runs[run].flowing.unwrap();
            assert!(flowing.friction.pa() >= 0.0 && flowing.devices.pa() >= 0.0);
            let regulator = matches!(job.joints.at(to).device(), Some(Device::Regulator(_)));
            let lost = flowing.friction.pa() + flowing.devices.pa() + flowing.elevation.pa();
            assert!(
                regulator || ((inlet - outlet).pa() - lost).abs() < 1e-6,
                "seed {seed}, run {run}"
            );
        }
    }
}

#[test]
fn a_chain_of_ten_thousand_runs_is_walked_without_recursion() {
    let mut draft = crate::draft::Draft::fed_at(stubout::units::GaugePressure::from_inches_wc(7.0));
    for number in 1..=10_000u32 {
        let id = stubout::job::JointId(number + 1);
        let at = stubout::job::LatticePoint::new(number as i32, 0, 0);
        draft.job.joints.insert(stubout::job::Joint {
            id,
            at,
            ..Default::default()
        });
        draft.run(stubout::job::JointId(number), id, 0.1);
    }
    draft.burner(stubout::job::JointId(10_001), "Grill", 40e3);
    let study = study_whole(&draft.job);
    assert_eq!((study.sections.len(), study.sections[0].runs.len()), (1, 10_000));
    assert!((study.zones[0].longest.feet() - 1000.0).abs() < 1e-6);
    assert_eq!(study.network.order.len(), 10_001);
}

/// The piping ends where the hose or connector of an appliance begins (IFGC 402.4 counts to the outlet, which NFPA 54
/// defines as the point where an appliance connects): however long or crooked the hose, pipe is sized alike.
#[test]
fn the_length_of_a_hose_never_changes_a_size() {
    let profiles = ["us-ifgc", "us-ca", "metric-equation", "ca-b149"];
    let (mut hoses, mut pipes) = (0, 0);
    for seed in 0..400 {
        let mut job = random_job(seed, 10 + (seed as usize * 7) % 60);
        job.settings.profile = profiles[seed as usize % profiles.len()].to_owned();
        let before = study_whole(&job);
        let longer: Vec<_> = (0..job.runs.len()).filter(|&run| before.runs[run].is_hose).collect();
        for &run in &longer {
            let id = job.runs.at(run).id;
            let length = before.runs[run].length.times(if run % 2 == 0 { 4.0 } else { 0.25 });
            job.runs.get_mut(id).unwrap().length = Some(length);
        }
        hoses += longer.len();
        let after = study_whole(&job);
        assert_eq!(before.sections.len(), after.sections.len(), "seed {seed}");
        for (one, other) in before.sections.iter().zip(&after.sections) {
            assert_eq!(
                one.sizing_length(),
                other.sizing_length(),
                "seed {seed}, section {}",
                one.number
            );
            let told = |sizing: &stubout::sizing::Sizing| format!("{sizing:?}");
            assert_eq!(
                told(&one.sizing),
                told(&other.sizing),
                "seed {seed}, section {}",
                one.number
            );
            pipes += usize::from(!longer.is_empty() && one.sizing_length().is_some());
        }
        for (one, other) in before.outlets.iter().zip(&after.outlets) {
            assert_eq!(one.distance, other.distance, "seed {seed}, outlet {}", one.tag);
        }
    }
    assert!(
        hoses > 300 && pipes > 300,
        "{hoses} runs of hose beside {pipes} sections of pipe"
    );
}

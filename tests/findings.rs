//! What the rules say about whole jobs, by chance and by malice: every sentence reads, every place is there, nothing
//! panics.

#[path = "support/dice.rs"]
mod dice;
#[path = "support/random_job.rs"]
mod random_job;

use dice::Dice;
use random_job::random_job;
use std::collections::BTreeSet;
use stubout::codebook::Codebook;
use stubout::job::*;
use stubout::rules::{Checked, Finding, Findings};
use stubout::study::Place;
use stubout::units::*;

fn findings(job: &Job) -> Findings {
    Checked::of(job, Codebook::published()).findings
}

#[track_caller]
fn well_told(job: &Job, findings: &[Finding]) {
    assert!(findings.is_sorted_by_key(|finding| finding.severity));
    let mut told = BTreeSet::new();
    for finding in findings {
        let text = format!("{} {}", finding.what, finding.remedy);
        for word in [
            "comply",
            "complies",
            "compliant",
            "code-compliant",
            "is safe",
            "NaN",
            "inf ",
            "  ",
            "Some(",
            "..",
        ] {
            assert!(!text.contains(word), "{}: `{word}` in: {text}", finding.rule);
        }
        assert!(finding.what.ends_with('.') && finding.remedy.ends_with('.'), "{text}");
        for place in std::iter::once(&finding.place).chain(&finding.also) {
            let there = match *place {
                Place::Job => true,
                Place::Joint(id) => job.joints.get(id).is_some(),
                Place::Run(id) => job.runs.get(id).is_some(),
                Place::Section(number) => number > 0,
            };
            assert!(there, "{}: {place:?}", finding.rule);
        }
        assert!(told.insert((finding.rule, &finding.what)), "told twice: {text}");
    }
}

/// Spoils one thing of a job.
fn spoil(job: &mut Job, dice: &mut Dice) {
    let joint = JointId(dice.between(1, job.joints.len() as i32) as u32);
    let run = RunId(dice.between(1, job.runs.len() as i32) as u32);
    let other = JointId(dice.between(1, job.joints.len() as i32) as u32);
    let place = job.joints.get(other).map(|joint| joint.at);
    let thing = job.joints.get(other).and_then(|joint| joint.placed.clone());
    let state = dice.pick(&[State::New, State::Existing, State::Removed]);
    let feet = dice.pick(&[0.0, -1.0, 5000.0, 1e12]);
    let number = dice.pick(&[f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300]);
    let what = dice.below(12);
    let (Some(at_joint), Some(at_run)) = (job.joints.get_mut(joint), job.runs.get_mut(run)) else {
        return;
    };
    match what {
        0 => at_joint.placed = None,
        1 => at_joint.placed = thing,
        2 => at_joint.at = place.unwrap_or_default(),
        3 => at_joint.at = LatticePoint::new(i32::MAX, i32::MIN, 0),
        4 => at_run.state = state,
        5 => at_run.length = Some(Length::from_feet(feet)),
        6 => at_run.to = at_run.from,
        7 => at_run.to = other,
        8 => drop(job.joints.remove(joint)),
        9 => drop(job.runs.remove(run)),
        10 => {
            if let Some(Placed {
                device: Device::Appliance(appliance),
                ..
            }) = &mut at_joint.placed
            {
                appliance.input = Some(HeatRate::from_btuh(number));
                appliance.least_inlet = Some(GaugePressure::from_pa(number));
            }
        }
        _ => {
            job.gas.specific_gravity = Some(number);
            job.settings.allowed_drop = Some(PressureDrop::from_pa(number));
        }
    }
}

#[test]
fn random_jobs_are_told_in_sentences() {
    for seed in 0..150 {
        let job = random_job(seed, 3 + (seed as usize * 7) % 90);
        let told = findings(&job);
        well_told(&job, &told);
        assert_eq!(told, findings(&job));
    }
}

#[test]
fn spoilt_jobs_are_told_in_sentences() {
    for seed in 0..300 {
        let mut job = random_job(seed, 3 + (seed as usize * 5) % 40);
        let mut dice = Dice::new(seed);
        for _ in 0..dice.between(1, 8) {
            if !job.joints.is_empty() && !job.runs.is_empty() {
                spoil(&mut job, &mut dice);
            }
        }
        well_told(&job, &findings(&job));
    }
}

#[test]
fn an_empty_job_lacks_a_start() {
    let told = findings(&Job::default());
    assert_eq!(told[0].rule, "no-supply");
    well_told(&Job::default(), &told);
}

/// So many runs in a chain from a supply, joint by joint at these places.
fn chain(runs: u32, place: impl Fn(u32) -> LatticePoint, device: impl Fn(u32) -> Option<Device>) -> Job {
    let mut job = Job::default();
    for number in 0..=runs {
        job.joints.insert(Joint {
            id: JointId(number + 1),
            at: place(number),
            placed: device(number).map(Placed::new),
            ..Joint::default()
        });
    }
    for number in 1..=runs {
        job.runs.insert(Run {
            id: RunId(number),
            from: JointId(number),
            to: JointId(number + 1),
            length: Some(Length::from_inches(1.0)),
            surroundings: match number % 4 {
                0 => Surroundings::Outdoors,
                1 => Surroundings::Indoors,
                2 => Surroundings::Underground,
                _ => Surroundings::Concealed,
            },
            ..Run::default()
        });
    }
    job
}

fn supply() -> Device {
    Device::Supply(Supply {
        pressure: Some(GaugePressure::from_psi(2.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    })
}

#[test]
fn ten_thousand_runs_on_one_spot_end() {
    // Every joint at one place, then every run on one line, back and forth.
    for step in [0, 1] {
        let job = chain(
            10_000,
            |number| LatticePoint::new((number % 3) as i32 * step, 0, 0),
            |number| (number == 0).then(supply),
        );
        well_told(&job, &findings(&job));
    }
}

#[test]
fn ten_thousand_devices_in_a_row_end() {
    let devices = [
        Device::Union,
        Device::Valve(Valve::default()),
        Device::Connector(Connector::default()),
        Device::QuickCoupling(QuickCoupling::default()),
        Device::SedimentTrap(SedimentTrap::default()),
        Device::TestGauge,
        Device::Regulator(Regulator {
            outlet: Some(GaugePressure::from_inches_wc(7.0)),
            allowed_drop: None,
            rating: Rating::default(),
            vent: Vent::NotSaid,
        }),
    ];
    let job = chain(
        10_000,
        |number| LatticePoint::new(number as i32, 0, 0),
        |number| match number {
            0 => Some(supply()),
            number => devices.get(number as usize % 9).cloned(),
        },
    );
    well_told(&job, &findings(&job));
}

#[test]
fn a_star_of_ten_thousand_arms_ends() {
    let mut job = chain(
        10_000,
        |number| LatticePoint::new(number as i32, (number * number % 1009) as i32, 0),
        |number| match number {
            0 => Some(supply()),
            _ => Some(Device::Appliance(Appliance::default())),
        },
    );
    for number in 1..=10_000 {
        if let Some(run) = job.runs.get_mut(RunId(number)) {
            run.from = JointId(1);
        }
    }
    well_told(&job, &findings(&job));
}

//! What stands on a joint and passes no gas on never takes a fitting out of the count.

use crate::dice::Dice;
use crate::draft::Draft;
use crate::random_job::random_job;
use stubout::codebook::Codebook;
use stubout::fittings::FittingKind;
use stubout::job::*;
use stubout::study::Study;
use stubout::units::{GaugePressure, HeatRate, NominalSize, Parse};

fn study(job: &Job) -> Study {
    Study::of(job, Codebook::published())
}

fn read(text: &str) -> Study {
    study(&stubout::file::read(text).unwrap())
}

/// A gauge for the pressure test stands on one of four elbows. IFGC 2012 table A.2.2 counts 30 bores for an elbow:
/// 25 ft + 4 × 30 × 0.824/12 ft = 33.24 ft. For 90 cfh 1/2 in would do up to 30 ft; table 402.4(2), row 40 ft, wants 3/4 in.
#[test]
fn a_test_gauge_changes_no_figure() {
    let off = read(include_str!("../jobs/gauge-off.ron"));
    let on = read(include_str!("../jobs/gauge-on.ron"));
    for study in [&off, &on] {
        let [section] = study.sections.as_slice() else {
            panic!("{:?}", study.sections)
        };
        let design = section.design.total().feet();
        assert!((design - 33.24).abs() < 1e-9, "{design}");
        assert_eq!(section.sizing.size, NominalSize::parse("3/4").ok());
        let inlet = study.outlets[0].pressure.unwrap().inches_wc();
        assert!((inlet - 6.863).abs() < 5e-4, "{inlet}");
    }
    assert_eq!(off.outlets[0].pressure, on.outlets[0].pressure);
    // It stands in a tee all the same, which must be bought.
    assert!(on.fittings.iter().any(|fitting| fitting.kind == FittingKind::Tee));
}

/// What passes no gas on.
fn dead_ends() -> [Device; 5] {
    let cap = |future_input| {
        Device::Cap(Cap {
            future_input,
            projection: None,
        })
    };
    [
        Device::TestGauge,
        cap(None),
        cap(Some(HeatRate::from_btuh(1.0))),
        Device::Appliance(Appliance::default()),
        Device::Supply(Supply {
            pressure: Some(GaugePressure::from_inches_wc(7.0)),
            meter: None,
            regulator: None,
            ..Supply::default()
        }),
    ]
}

fn put(job: &Job, joint: usize, device: Device) -> Job {
    let mut with = job.clone();
    let id = job.joints.at(joint).id;
    with.joints.get_mut(id).unwrap().placed = Some(Placed::new(device));
    with
}

/// The job with every size that was found fixed, so that only lengths, losses and capacities can change.
fn fixed(job: &Job) -> Job {
    let found = study(job);
    let mut fixed = job.clone();
    for (at, run) in job.runs.iter().enumerate() {
        let section = found.runs[at].section.map(|section| &found.sections[section]);
        let size = section.and_then(|section| section.sizing.size);
        if let (State::New, Some(run)) = (run.state, fixed.runs.get_mut(run.id)) {
            run.size = run.size.or(size);
        }
    }
    fixed
}

/// Holds a study with one device more against the study without, run by run.
fn holds(without: &Study, with: &Study, place: &str) {
    for (run, (before, after)) in without.runs.iter().zip(&with.runs).enumerate() {
        let (Some(before), Some(after)) = (before.section, after.section) else {
            continue;
        };
        let (before, after) = (&without.sections[before], &with.sections[after]);
        if before.load.flow.cfh() <= 0.0 {
            continue;
        }
        let [old, new] = [before, after].map(|section| section.design.total());
        assert!(new >= old, "{place}, run {run}: {} ft, was {}", new.feet(), old.feet());
        for capacity in &before.sizing.capacities {
            let now = after.sizing.capacities.iter().find(|other| other.size == capacity.size);
            assert!(now.is_none_or(|now| now.flow <= capacity.flow), "{place}, run {run}");
        }
        let [old, new] = [before, after].map(|section| section.sizing.needed);
        assert!(new.is_none() || new >= old, "{place}, run {run}: {new:?}, was {old:?}");
    }
    for (joint, (before, after)) in without.joints.iter().zip(&with.joints).enumerate() {
        if let (Some(before), Some(after)) = (before.pressure, after.pressure) {
            assert!(after.pa() <= before.pa() + 1e-6, "{place}, joint {joint}");
        }
    }
}

#[test]
fn no_dead_end_shortens_a_way_or_lessens_a_loss() {
    let (mut lines, mut turns, mut branchings) = (0, 0, 0);
    for seed in 0..400 {
        let mut dice = Dice::new(seed);
        let mut job = random_job(seed, 5 + dice.below(40));
        if dice.percent(40) {
            job.settings.profile = dice.pick(&["ca-b149", "metric-equation"]).to_owned();
        }
        let job = fixed(&job);
        let without = study(&job);
        let bare = |joint: &usize| job.joints.at(*joint).placed.is_none();
        for joint in (0..job.joints.len()).filter(bare) {
            let legs = without
                .network
                .legs(joint)
                .filter(|run| job.runs.at(*run).state != State::Removed);
            match legs.count() {
                2 if without
                    .fittings
                    .iter()
                    .any(|fitting| fitting.joint == joint && fitting.kind == FittingKind::Elbow90) =>
                {
                    turns += 1
                }
                2 => lines += 1,
                3.. => branchings += 1,
                _ => {}
            }
            let device = dice.pick(&dead_ends());
            let place = format!("seed {seed}, {} at J{}", device.name(), joint + 1);
            holds(&without, &study(&put(&job, joint, device)), &place);
        }
    }
    assert!(
        lines > 200 && turns > 200 && branchings > 200,
        "{lines} {turns} {branchings}"
    );
}

/// A tee has its run and its outlet in the places that the pipe leaves: a gauge or a cap on an elbow stands opposite the
/// pipe that brings the gas.
#[test]
fn a_device_on_a_turn_stands_in_the_run_of_the_tee() {
    let sizes = |device: Device| {
        let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
        let (start, corner, end) = (draft.at(0, 0, 0), draft.at(4, 0, 0), draft.at(4, 3, 0));
        for (from, to, size) in [(start, corner, "1"), (corner, end, "1/2")] {
            let run = draft.run(from, to, 5.0);
            draft.run_mut(run).size = NominalSize::parse(size).ok();
        }
        draft.burner(end, "Grill", 40e3);
        draft.put(corner, device).size = NominalSize::parse("3/4").ok();
        let found = study(&draft.job);
        let tee = found
            .fittings
            .iter()
            .find(|fitting| fitting.kind == FittingKind::Tee)
            .unwrap();
        tee.sizes.clone()
    };
    // Larger end of the run, other end of the run, outlet.
    let expected: Vec<_> = ["1", "3/4", "1/2"]
        .iter()
        .map(|size| NominalSize::parse(size).unwrap())
        .collect();
    for device in [
        Device::TestGauge,
        Device::Cap(Cap {
            future_input: None,
            projection: None,
        }),
    ] {
        assert_eq!(sizes(device), expected);
    }
}

/// Pipe of a quarter of a turn with a cap beside it goes through the outlet of a tee: 60 bores where an elbow has 30 (IFGC
/// 2012 table A.2.2).
#[test]
fn a_cap_on_a_turn_counts_as_the_outlet_of_its_tee() {
    let mut job = stubout::file::read(include_str!("../jobs/gauge-off.ron")).unwrap();
    for id in 1..=5 {
        job.runs.get_mut(RunId(id)).unwrap().size = NominalSize::parse("3/4").ok();
    }
    let elbow = study(&job).sections[0].design.total().feet();
    let capped = put(
        &job,
        2,
        Device::Cap(Cap {
            future_input: None,
            projection: None,
        }),
    );
    let tee = study(&capped).sections[0].design.total().feet();
    assert!(
        (tee - elbow - 30.0 * 0.824 / 12.0).abs() < 0.01,
        "{tee} against {elbow}"
    );
}

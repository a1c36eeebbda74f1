//! What stands, before and after the work: a case worked by hand, and what must hold of any job.

use crate::dice::Dice;
use crate::draft::Draft;
use crate::old_house::{house, inch};
use crate::random_job::random_job;
use crate::wild_job::wild_job;
use stubout::advice::{Audit, AuditPart, AuditRow, Held, Standing};
use stubout::codebook::Codebook;
use stubout::job::*;
use stubout::sizing::Origin;
use stubout::study::Study;
use stubout::units::*;
use stubout::work::OrderOfWork;

fn audit(draft: &Draft) -> Audit {
    Audit::of(&draft.job, Codebook::published())
}

/// Whether the work makes a part fail: it fails after, and did not fail before.
pub fn fails_by_the_work(row: &AuditRow) -> bool {
    let fails = |held: &Option<Held>| held.is_some_and(|held| held.standing() == Standing::Fails);
    fails(&row.after) && !fails(&row.before)
}

fn of_run(audit: &Audit, run: usize) -> &AuditRow {
    let has = |row: &&AuditRow| matches!(&row.part, AuditPart::Pipe { runs, .. } if runs.contains(&run));
    audit.rows.iter().find(has).unwrap()
}

/// Before: 155,000 Btu/h is 155 cfh at 1,000 Btu/ft³; the farthest outlet is the furnace, 20 + 10 + 20 = 50 ft, and table
/// 402.4(2) gives 284 cfh for 1 in, 151 for 3/4 in and 72 for 1/2 in in its row of 50 ft. The heater is 45 ft off: the
/// same row.
/// After: 220 cfh; the farthest outlet of the first 20 ft is the grill, 20 + 65 = 85 ft, row 90 ft: 207 cfh for 1 in.
/// Beyond the new tee the way is 50 ft as before.
#[test]
fn a_retrofit_worked_by_hand() {
    let (draft, at) = house();
    let audit = audit(&draft);
    let words = |run: usize| of_run(&audit, run).words(UnitSystem::Us);
    assert_eq!(words(0), "demand before 155 of 284 cfh, after 220 of 207 cfh");
    assert_eq!(words(1), "demand before 155 of 284 cfh, after 120 of 284 cfh");
    assert_eq!(words(2), "demand before 80 of 151 cfh, after 80 of 151 cfh");
    assert_eq!(words(3), "demand before 40 of 72 cfh, after 40 of 72 cfh");
    let start = draft.joint_index(at[0]);
    let is_meter = |row: &&AuditRow| matches!(row.part, AuditPart::Device { joint, part } if joint == start && part.name() == "meter");
    let meter = audit.rows.iter().find(is_meter).unwrap();
    assert_eq!(
        meter.words(UnitSystem::Us),
        "demand before 155 of 200 cfh, after 220 of 200 cfh"
    );
    let failing: Vec<bool> = audit.failing().map(fails_by_the_work).collect();
    assert_eq!(failing, [true, true], "the first 20 ft and the meter");
    // New pipe and the range that goes are no part of it; the grill's inlet was not there before.
    assert_eq!(audit.rows.len(), 4 + 1 + 3);
    let grill = audit.rows.last().unwrap();
    assert!(
        matches!(&grill.part, AuditPart::Inlet { name, .. } if name == "Grill"),
        "{grill:?}"
    );
    assert!(grill.before.is_none() && grill.after.is_some());
}

#[test]
fn inlets_have_less_where_more_is_carried() {
    let (draft, at) = house();
    let audit = audit(&draft);
    let furnace = draft.joint_index(at[3]);
    let row = audit
        .rows
        .iter()
        .find(|row| matches!(row.part, AuditPart::Inlet { joint, .. } if joint == furnace))
        .unwrap();
    let [before, after] = [row.before, row.after].map(|held| match held {
        Some(Held::Pressure { found, standing, .. }) => (found.unwrap(), standing),
        other => panic!("{other:?}"),
    });
    assert!(after.0 < before.0 && before.0.inches_wc() < 7.0, "{before:?} {after:?}");
    assert_eq!((before.1, after.1), (Standing::Holds, Standing::Holds));
    let words = row.words(UnitSystem::Us);
    assert!(
        words.starts_with("pressure before 6.") && words.contains("; after 6."),
        "{words}"
    );
}

#[test]
fn old_pipe_was_fed_even_where_nobody_marked_the_meter_as_old() {
    let (mut draft, at) = house();
    let marked = audit(&draft);
    draft.joint_mut(at[0]).placed.as_mut().unwrap().state = State::New;
    assert_eq!(audit(&draft), marked);
    // A point of delivery that goes was the old one: the new one was not there.
    let other = draft.at(6, 1, 0);
    draft.existing(at[2], other, 1.0, inch("1"));
    draft
        .put(other, draft.job.joints.get(at[0]).unwrap().device().unwrap().clone())
        .state = State::Removed;
    let old = as_it_stood(&draft.job);
    assert!(old.joints.get(at[0]).unwrap().device().is_none());
    assert!(old.joints.get(other).unwrap().device().is_some());
}

/// The heater's and the furnace's 155 cfh came through the meter of 140 that the supplier takes away.
#[test]
fn a_meter_that_the_supplier_changes_is_told_as_it_was() {
    let (mut draft, at) = house();
    let placed = draft.joint_mut(at[0]).placed.as_mut().unwrap();
    let Device::Supply(supply) = &mut placed.device else {
        panic!("no supply")
    };
    supply.before.meter = Some(Rating {
        capacity: Some(Flow::from_cfh(140.0)),
        drop: None,
    });
    let row = |audit: &Audit| {
        let row = audit
            .rows
            .iter()
            .find(|row| matches!(row.part, AuditPart::Device { .. }));
        row.unwrap().words(UnitSystem::Us)
    };
    assert_eq!(
        row(&audit(&draft)),
        "demand before 155 of 140 cfh, after 220 of 200 cfh"
    );
    let order = OrderOfWork::of(
        &draft.job,
        &Study::of(&draft.job, Codebook::published()),
        Codebook::published(),
    );
    let step = order.steps.iter().find(|step| step.id == "supplier").unwrap();
    assert!(step.words.contains("the meter (140 cfh to 200 cfh)"), "{}", step.words);
    let ids: Vec<&str> = order.steps.iter().map(|step| step.id).collect();
    let place = |id: &str| ids.iter().position(|step| *step == id).unwrap();
    assert!(place("supplier") < place("turn-on"), "{ids:?}");
}

#[test]
fn pipe_that_is_cut_off_is_told() {
    let (mut draft, _) = house();
    draft.run_mut(RunId(2)).state = State::Removed;
    let audit = audit(&draft);
    let row = of_run(&audit, 2);
    assert_eq!(row.words(UnitSystem::Us), "demand before 80 of 151 cfh, no gas after");
    assert_eq!(row.after, None);
}

#[test]
fn a_job_without_work_is_the_same_before_and_after() {
    let mut rows = 0;
    for seed in 0..200 {
        let mut job = random_job(seed, 30);
        let ids: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
        for id in ids {
            job.runs.get_mut(id).unwrap().state = State::Existing;
        }
        let ids: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
        for id in ids {
            if let Some(placed) = &mut job.joints.get_mut(id).unwrap().placed {
                placed.state = State::Existing;
            }
        }
        for row in Audit::of(&job, Codebook::published()).rows {
            rows += 1;
            assert_eq!(row.before, row.after, "seed {seed}: {row:?}");
            assert!(!fails_by_the_work(&row));
        }
    }
    assert!(rows > 2_000, "{rows}");
}

#[test]
fn every_old_run_that_is_fed_is_told_once_and_as_the_study_has_it() {
    let book = Codebook::published();
    for seed in 0..600 {
        let mut dice = Dice::new(seed);
        let size = 1 + dice.below(60);
        let job = if seed % 2 == 0 {
            wild_job(seed, size)
        } else {
            random_job(seed, size)
        };
        let study = Study::of(&job, book);
        let audit = Audit::beside(&job, book, &study);
        assert_eq!(audit, Audit::of(&job, book));
        let mut told = vec![0; job.runs.len()];
        for row in &audit.rows {
            row.words(UnitSystem::Metric);
            let AuditPart::Pipe { runs, section, .. } = &row.part else {
                continue;
            };
            for &run in runs {
                told[run] += 1;
                assert_eq!(study.runs[run].section, *section, "seed {seed}");
            }
            assert!(row.before.is_some() || row.after.is_some(), "seed {seed}");
        }
        for (run, drawn) in job.runs.iter().enumerate() {
            let section = study.runs[run].section.map(|section| &study.sections[section]);
            let pipe = section.is_some_and(|section| section.sizing.origin != Origin::Connector);
            let stood = drawn.state == State::Existing || drawn.replaced().is_some();
            let least = usize::from(stood && pipe);
            assert!(
                told[run] <= 1 && (told[run] >= least || touches_connector(&job)),
                "seed {seed}, {}",
                drawn.id
            );
        }
    }
}

/// Pipe that was part of a connector's line before is left to the connector.
fn touches_connector(job: &Job) -> bool {
    let placed = job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    placed
        .map(|placed| &placed.device)
        .any(|device| matches!(device, Device::Connector(_) | Device::QuickCoupling(_)))
}

/// The house of above with 1-1/4 in laid in place of the first 20 ft of 1 in: the row of 90 ft
/// of table 402.4(2) gives 424 cfh.
#[test]
fn pipe_in_place_of_old_pipe_is_told_with_both_sizes() {
    let (mut draft, _) = house();
    let run = draft.run_mut(RunId(1));
    (run.state, run.size, run.replaces) = (State::New, None, Some(inch("1")));
    let audit = audit(&draft);
    let row = of_run(&audit, 0);
    assert_eq!(
        row.words(UnitSystem::Us),
        "demand before 155 of 284 cfh, after 220 of 424 cfh"
    );
    let AuditPart::Pipe { size, by, .. } = row.part else {
        unreachable!()
    };
    assert_eq!((size, by), (Some(inch("1")), Some(inch("1-1/4"))));
    // Said of pipe that stays it counts nothing.
    draft.run_mut(RunId(2)).replaces = Some(inch("2"));
    assert_eq!(self::audit(&draft), audit);
}

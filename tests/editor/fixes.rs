//! Whole ways to fix a system: jobs worked by hand, and every way laid in earnest on houses by chance.

use crate::dice::Dice;
use crate::draft::Draft;
use crate::old_house::inch;
use stubout::advice::{
    Audit, Headroom, Limiting, NewBranch, Outcome, Progress, TieIn, TieInPlace, TieInStanding, TieIns, WhatIf,
};
use stubout::codebook::Codebook;
use stubout::editor::edit::{Fix, Fixes, Remedy};
use stubout::file;
use stubout::job::*;
use stubout::rules::{Checked, Severity};
use stubout::sheet::{Orientation, Paper, compose};
use stubout::study::Study;
use stubout::units::*;

fn read(text: &str) -> Job {
    file::read(text).unwrap()
}

fn fixes(job: &Job) -> Fixes {
    let book = Codebook::published();
    Fixes::of(job, book, &Checked::of(job, book))
}

fn laid(job: &Job, fix: &Fix) -> Job {
    let mut laid = job.clone();
    fix.step.apply(&mut laid).unwrap();
    let mut back = laid.clone();
    fix.step.inverse().apply(&mut back).unwrap();
    assert_eq!(&back, job, "{:?} is taken back in one step", fix.start);
    laid
}

fn rules(job: &Job, book: &Codebook) -> Vec<&'static str> {
    let checked = Checked::of(job, book);
    let must = checked.findings.iter();
    let must = must.filter(|finding| finding.severity == Severity::MustFix);
    must.map(|finding| finding.rule).collect()
}

#[track_caller]
fn way(fixes: &Fixes, start: Remedy) -> &Fix {
    let found = fixes.all().find(|fix| fix.start == start);
    found.unwrap_or_else(|| panic!("{start:?}: {:?}", fixes.not_offered))
}

#[track_caller]
fn why_not(fixes: &Fixes, start: Remedy) -> &str {
    let found = fixes.not_offered.iter().find(|(remedy, _)| *remedy == start);
    &found.unwrap_or_else(|| panic!("{start:?} is offered")).1
}

/// A tank heater makes way for 199,000 Btu/h at the end of 37 ft of 3/4 in: 334 cfh in all, of 151 that the pipe carries
/// (table 402.4(2), row 50 ft), 250 of the meter and 275 of the service regulator.
///
/// Each way ends with nothing left to fix. Their order by what is bought and done, feet of pipe laid and taken out first:
/// - more pressure comes last of all: at 2 psi every old size carries and the branch's own 8 ft 6 in is all that is laid, but the
///   supplier changes its set, four regulators are added and all old pipe is tested again, which no feet of pipe show;
/// - larger pipe lays 37 ft in place of the old and takes these out: 8.5 + 37 + 37 = 82.5 ft;
/// - a start at tee 2 or tee 1, or at the meter, lays a line of 16 ft or more beside what stays, and less of the old trunk goes.
#[test]
fn a_tankless_heater_in_place_of_a_tank() {
    let job = read(include_str!("../jobs/tankless-swap.ron"));
    let found = fixes(&job);
    let whole: Vec<&Fix> = found.ranked.iter().filter(|fix| fix.is_whole()).collect();
    assert!(whole.len() >= 3, "{:?}", found.ranked);
    for fix in &found.ranked {
        let laid = laid(&job, fix);
        assert_eq!(
            rules(&laid, Codebook::published()),
            Vec::<&str>::new(),
            "{:?}: {:?}",
            fix.start,
            fix.does
        );
        assert_eq!(Audit::of(&laid, Codebook::published()).failing().count(), 0);
        // 334 cfh pass the meter and the regulator, whatever the pipe.
        for part in ["Meter at J1", "Service regulator at J1"] {
            let does = fix
                .does
                .iter()
                .any(|does| does.starts_with(part) && does.contains("334 cfh"));
            assert!(does, "{part}: {:?}", fix.does);
        }
    }
    let handled = |fix: &Fix| -> f64 {
        let new: Length = fix.outcome.pipe.iter().map(|pipe| pipe.length).sum();
        (new + fix.outcome.goes).feet()
    };
    assert_eq!(handled(way(&found, Remedy::HigherDelivery)), 8.5);
    assert_eq!(handled(way(&found, Remedy::LeastLength)), 82.5);
    let (last, others) = found.ranked.split_last().unwrap();
    let feet: Vec<f64> = others.iter().map(handled).collect();
    assert!(feet.is_sorted(), "{feet:?}");
    assert_eq!(last.start, Remedy::HigherDelivery);
    let said = found.least();
    assert!(
        said.starts_with(&format!("Least pipe and work: {} (", others[0].start.name())),
        "{said}"
    );
    assert!(!said.contains("delivers"), "{said}");
    // The least weight is the same pipe, and the meter alone is not enough.
    for same in [Remedy::LeastWeight, Remedy::LargerMeter] {
        assert!(why_not(&found, same).contains("is the same as"), "{same:?}");
    }
    // Behind a meter that is over its rating nothing is spare.
    let headroom = Headroom::of(&job, Codebook::published());
    for spare in headroom.joints.iter().flatten() {
        assert_eq!(spare.limit.map(|limit| limit.heat), Some(HeatRate::ZERO), "{spare:?}");
    }
}

/// The trunk of EHD 23 carries 105 of 83 cfh, the next piece 70 of 41 (table 402.4(15), row 40 ft).
#[test]
fn behind_an_overloaded_trunk_nothing_is_spare() {
    let book = Codebook::published();
    let job = read(include_str!("../jobs/overloaded-trunk.ron"));
    let study = Study::of(&job, book);
    let headroom = Headroom::of(&job, book);
    for (joint, spare) in headroom.joints.iter().enumerate().skip(1) {
        let spare = spare.unwrap();
        assert_eq!(spare.limit.map(|limit| limit.heat), Some(HeatRate::ZERO), "{joint}");
        assert_eq!(
            spare.words(&job, &study),
            ["none", "section 1 is already over capacity"]
        );
    }
    let more = WhatIf::of(&job, book, &study, 2, HeatRate::from_btuh(1e3));
    assert_eq!(more.already, [Limiting::Section(0), Limiting::Section(1)]);
    let found = fixes(&job);
    // EHD 30 carries 162; what lacks is a weight of CSST.
    let why = why_not(&found, Remedy::LeastWeight);
    assert!(
        why.contains("no weight is published") && !why.contains("carries the load"),
        "{why}"
    );
    let larger = way(&found, Remedy::LeastLength);
    assert!(larger.carries() && !larger.is_whole());
    // A valve and a bond are no matter of capacity: they are told apart from what it should have fixed.
    let left: Vec<(&str, bool)> = larger
        .left
        .iter()
        .map(|left| (left.finding.rule, left.is_its_own))
        .collect();
    assert_eq!(left, [("shutoff-missing", false), ("csst-unbonded", false)]);
}

/// R6 carries 65 of 50 cfh before any work: no place of the branch is told as if all were well.
/// Tubing that a way lays in place of other is bonded with it, as the code asks of new tubing (IFGC 310.2), and the list of
/// what is done says so; tubing that was drawn without a bond stays the drawing's own matter.
#[test]
fn tubing_that_a_fix_lays_is_bonded() {
    let mut job = read(include_str!("../jobs/overloaded-trunk.ron"));
    job.runs.get_mut(RunId(5)).unwrap().bonded = true;
    let fixes = fixes(&job);
    let larger = way(&fixes, Remedy::LeastLength);
    assert!(
        larger
            .does
            .iter()
            .any(|does| does.starts_with("Bond the new tubing (R")),
        "{:?}",
        larger.does
    );
    for fix in &fixes.ranked {
        assert!(
            !rules(&laid(&job, fix), Codebook::published()).contains(&"csst-unbonded"),
            "{:?}: {:?}",
            fix.start,
            fix.does
        );
    }
    job.runs.get_mut(RunId(5)).unwrap().bonded = false;
    let own = fixes_left(&job);
    assert!(own.contains(&"csst-unbonded"), "{own:?}");
}

fn fixes_left(job: &Job) -> Vec<&'static str> {
    let fixes = fixes(job);
    let left = fixes.ranked.iter().flat_map(|fix| &fix.left);
    left.map(|left| left.finding.rule).collect()
}

#[test]
fn a_run_that_was_over_before_is_named_at_every_place() {
    let job = read(include_str!("../jobs/tie-in-beside-a-failing-run.ron"));
    let branch = NewBranch {
        head: JointId(8),
        ..NewBranch::default()
    };
    let found = TieIns::find(&job, Codebook::published(), &branch, &Progress::default()).unwrap();
    assert!(found.rows.len() > 100);
    for row in &found.rows {
        assert!(
            row.standing() > TieInStanding::Holds && row.over_already >= 1,
            "{row:?}"
        );
        let (verdict, reasons) = (row.verdict(), row.reasons(UnitSystem::Us));
        assert!(verdict.contains("R6") || row.failing > 0, "{verdict}");
        assert!(reasons.iter().any(|reason| reason.starts_with("R6")), "{reasons:?}");
        assert!(
            !reasons.iter().any(|reason| reason.starts_with("Nothing")),
            "{reasons:?}"
        );
    }
    assert_eq!(found.rows[0].verdict(), "over before: R6");
    assert_eq!(
        found.rows[0].reasons(UnitSystem::Us)[0],
        "R6 is over capacity already: 65 of 50 cfh."
    );
    // In R6 itself the branch would be one burden more.
    let within = |row: &&TieIn| matches!(row.place, TieInPlace::Run { run, .. } if run == RunId(6));
    let in_it = found.rows.iter().find(within).unwrap();
    assert!(in_it.verdict().starts_with("over capacity"), "{}", in_it.verdict());
    // A larger R6 is a way; so is more pressure.
    let found = fixes(&job);
    let does = &way(&found, Remedy::LeastLength).does[0];
    assert!(does.contains("(R6): 3/4\" steel replaces 1/2\""), "{does}");
}

/// The regulator is set to 7 in w.c. and fed 7.2 less what 20 ft of 1/2 in lose at 100 cfh; it loses 0.3 · (100/500)² =
/// 0.012 in w.c. itself.
#[test]
fn a_starved_regulator_is_told_and_limits_what_is_spare() {
    let book = Codebook::published();
    let job = read(include_str!("../jobs/regulator-starved.ron"));
    let study = Study::of(&job, book);
    assert!(
        rules(&job, book).contains(&"regulator-starved"),
        "{:?}",
        rules(&job, book)
    );
    let regulator = &study.devices[0];
    assert!(regulator.is_starved());
    let (inlet, outlet) = (regulator.inlet.unwrap(), regulator.outlet.unwrap());
    assert!((inlet.inches_wc() - outlet.inches_wc() - 0.012).abs() < 1e-9);
    assert!(outlet < GaugePressure::from_inches_wc(7.0));
    let headroom = Headroom::of(&job, book);
    assert_eq!(headroom.failing, [Limiting::Setting(1)]);
    assert_eq!(
        headroom.joints[2].unwrap().limit.map(|limit| limit.heat),
        Some(HeatRate::ZERO)
    );
    let found = fixes(&job);
    assert!(Outcome::of(&job, book).is_over());
    let more = way(&found, Remedy::HigherDelivery);
    assert!(more.carries(), "{}", more.verdict());
    assert!(!rules(&laid(&job, more), book).contains(&"regulator-starved"));
}

/// Sizes by physics can be looked at beside a job for a permit: laid, the job is a study, and each of its sheets says so.
#[test]
fn sizes_by_physics_are_never_laid_into_a_permit_job() {
    let book = Codebook::published();
    let job = read(include_str!("../jobs/tankless-swap.ron"));
    assert_eq!(job.title.status, Status::ForPermit);
    let found = fixes(&job);
    assert!(!found.studies.is_empty());
    for study in &found.studies {
        assert!(!study.start.is_for_permit());
        assert!(study.variant().head().contains("NOT FOR PERMIT") && study.variant().said.contains("NOT FOR PERMIT"));
        let laid = laid(&job, study);
        assert_eq!(laid.title.status, Status::Study);
        let packet = compose(
            &laid,
            &Checked::of(&laid, book),
            book,
            Paper::AnsiB,
            Orientation::Landscape,
        );
        for sheet in &packet.sheets {
            let mut all = Vec::new();
            words(sheet.root(), &mut all);
            assert!(all.iter().any(|words| words == "NOT FOR PERMIT"), "{all:?}");
            assert!(!all.iter().any(|words| words == "FOR PERMIT"));
        }
    }
    assert!(found.ranked.iter().all(|fix| fix.start.is_for_permit()));
}

fn words(group: &stubout::scene::Group, all: &mut Vec<String>) {
    for item in group.items() {
        match item {
            stubout::scene::Item::Group(inner) => words(inner, all),
            stubout::scene::Item::Text(text) => all.push(text.words().to_owned()),
            stubout::scene::Item::Path(_) => {}
        }
    }
}

#[test]
fn where_nothing_is_over_nothing_is_to_be_fixed() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (from, to) = (draft.at(0, 0, 0), draft.at(8, 0, 0));
    draft.existing(from, to, 40.0, inch("1"));
    draft.burner(to, "Grill", 60e3);
    let found = fixes(&draft.job);
    assert!(found.ranked.is_empty());
    assert_eq!(found.least(), "Nothing is over its limit.");
}

/// A house of old pipe along a main, with a burner off each of its tees, a meter, and a new appliance with all that it
/// needs at the end of a new line: as a rule too much for pipe or meter.
fn overloaded(seed: u64) -> Job {
    let mut dice = Dice::new(seed);
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.material = dice.pick(&[Material::Steel40, Material::Steel40, Material::CopperL]);
    let sizes = ["1/2", "3/4", "1", "1-1/4"];
    let size = |from: usize, dice: &mut Dice| inch(sizes[from + dice.below(2)]);
    let tees = 2 + dice.below(4);
    let (mut at, mut old) = (draft.at(0, 0, 0), 0.0);
    for tee in 1..=tees {
        let next = draft.at(6 * tee as i32, 0, 0);
        let main = size(1 + usize::from(tee == 1 && dice.percent(50)), &mut dice);
        draft.existing(at, next, 5.0 + dice.below(20) as f64, main);
        let end = draft.at(6 * tee as i32, -6, 0);
        let own = size(0, &mut dice);
        draft.existing(next, end, 4.0 + dice.below(12) as f64, own);
        let btuh = dice.pick(&[30e3, 40e3, 65e3, 80e3]);
        draft.burner(end, "Old", btuh).least_inlet = Some(GaugePressure::from_inches_wc(5.0));
        draft.joint_mut(end).placed.as_mut().unwrap().state = State::Existing;
        (at, old) = (next, old + btuh);
    }
    let head = draft.at(6 * tees as i32, 6, 0);
    draft.run(at, head, 6.0 + dice.below(30) as f64);
    draft.put(head, Device::Valve(Valve::default()));
    let mut end = head;
    for (north, device) in [
        (8, Device::Union),
        (
            10,
            Device::SedimentTrap(SedimentTrap {
                depth: Some(Length::from_inches(3.0)),
            }),
        ),
    ] {
        let next = draft.at(6 * tees as i32, north, 0);
        draft.run(end, next, 1.0);
        draft.put(next, device);
        end = next;
    }
    let top = draft.at(6 * tees as i32, 10, 3);
    draft.run(end, top, 2.0);
    let new = dice.pick(&[100e3, 150e3, 199e3, 250e3]);
    let appliance = draft.burner(top, "New", new);
    appliance.class = Some("instantaneous water heater".to_owned());
    appliance.least_inlet = Some(GaugePressure::from_inches_wc(5.0));
    let placed = draft.joint_mut(JointId(1)).placed.as_mut().unwrap();
    placed.state = State::Existing;
    if let Device::Supply(supply) = &mut placed.device {
        let rated = |share: f64| {
            Some(Rating {
                capacity: Some(Flow::from_cfh((old / 1e3 * share).ceil())),
                drop: None,
            })
        };
        supply.meter = rated(1.2 + dice.fraction());
        supply.regulator = rated(1.2 + 2.0 * dice.fraction());
    }
    draft.job
}

#[test]
fn every_way_that_is_called_whole_is_whole_when_laid() {
    let book = Codebook::published();
    let (mut jobs, mut whole, mut not) = (0, 0, 0);
    let mut left = std::collections::BTreeMap::new();
    for seed in 0..200 {
        let job = overloaded(seed);
        let drawn = Outcome::of(&job, book);
        let found = fixes(&job);
        assert_eq!(found.drawn, drawn);
        jobs += usize::from(drawn.is_over());
        assert!(found.ranked.is_empty() || drawn.is_over(), "seed {seed}");
        assert!(found.ranked.is_sorted_by_key(|fix| (!fix.carries(), fix.left.len())));
        for fix in &found.ranked {
            let laid = laid(&job, fix);
            let failing = Audit::of(&laid, book).failing().count();
            let over = Headroom::of(&laid, book).failing;
            assert_eq!(
                fix.is_whole(),
                rules(&laid, book).is_empty(),
                "seed {seed} {:?}",
                fix.start
            );
            assert!(!fix.does.is_empty());
            match fix.carries() {
                true => {
                    whole += usize::from(fix.is_whole());
                    assert_eq!(
                        (failing, over),
                        (0, Vec::new()),
                        "seed {seed} {:?}: {:?}",
                        fix.start,
                        fix.does
                    );
                }
                false => {
                    not += 1;
                    for own in fix.left.iter().filter(|left| left.is_its_own) {
                        *left.entry((fix.start.name(), own.finding.rule)).or_insert(0) += 1;
                    }
                    assert!(
                        fix.verdict().starts_with("It does not fix: "),
                        "seed {seed}: {}",
                        fix.verdict()
                    );
                }
            }
        }
    }
    println!("{jobs} overloaded houses, {whole} whole ways, {not} that leave something: {left:#?}");
    assert!(jobs > 150 && whole > 3 * jobs, "{jobs} {whole} {not}");
}

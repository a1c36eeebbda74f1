//! The work steps of four small jobs, whole, worked from their drawings by hand; and what holds for the steps of any job.
//!
//! Order and contents: IRC 2018 G2417.3.1–.3, .5.1, .6.1–.2, .7.2.1 (IFGC 2018 406.3, 406.5.1, 406.6.1–.2, 406.7.2.1), read;
//! the rest is common practice, no source.

use crate::random_job::random_job;
use crate::wild_job::wild_job;
use std::collections::BTreeMap;
use stubout::codebook::Codebook;
use stubout::file;
use stubout::fittings::FittingKind;
use stubout::job::*;
use stubout::rules::Checked;
use stubout::study::{Place, Study};
use stubout::units::GaugePressure;
use stubout::work::{CutList, OrderOfWork, PRACTICE, StockPlan, TakeOff};

fn read(text: &str) -> Job {
    file::read(text).unwrap()
}

fn order(job: &Job) -> OrderOfWork {
    let book = Codebook::published();
    OrderOfWork::of(job, &Study::of(job, book), book)
}

/// A step as expected: id, places, a part of its basis, parts of its words.
type Expected<'e> = (&'e str, &'e str, &'e str, &'e [&'e str]);

#[track_caller]
fn check(job: &Job, expected: &[Expected<'_>]) {
    let order = order(job);
    let ids: Vec<&str> = order.steps.iter().map(|step| step.id).collect();
    let wanted: Vec<&str> = expected.iter().map(|step| step.0).collect();
    assert_eq!(ids, wanted);
    for (step, (id, places, basis, words)) in order.steps.iter().zip(expected) {
        let found: Vec<String> = step.places.iter().map(Place::to_string).collect();
        assert_eq!(found.join(" "), *places, "{id}");
        assert!(step.basis().contains(basis), "{id}: {}", step.basis());
        for wanted in *words {
            assert!(step.words.contains(wanted), "{id}: {wanted}\n{}", step.words);
        }
    }
}

/// A tee cut into tubing, steel through the wall, street elbow, valve, reducing coupling, coupling, hose.
///
/// The house valve J2 is the nearest upstream of J8. Behind it stand water heater (A) and dryer (B). New pipe is R11 to R14:
/// 3'-0" + 5'-6" + 4" + 5" = 9'-3"; R15 and R16 are hose. R12 goes through the wall; R13 and R14 lie outdoors.
#[test]
fn steel_from_a_tee_in_tubing() {
    check(
        &read(include_str!("../jobs/everyday-tubing-tee.ron")),
        &[
            (
                "penetrate",
                "R12",
                PRACTICE,
                &[
                    "the exterior wall before running any pipe",
                    "bore a pilot hole",
                    "then bore the full hole",
                    "Install the sleeve that is drawn",
                    "vapor barrier",
                    "cap the end of the pipe",
                ],
            ),
            (
                "run",
                "R11 R12 R13 R14",
                PRACTICE,
                &[
                    "9'-3\" of 1/2\" steel",
                    "First put these on the new pipe: the tee for behind the dryer (J8)",
                ],
            ),
            (
                "fit-outside",
                "J13 J14 J15",
                PRACTICE,
                &[
                    "for Griddle (C): 90° street elbow",
                    "shutoff valve (J14), reducing coupling",
                    "after the test quick-disconnect coupling (J15)",
                ],
            ),
            (
                "connect",
                "J14 J15 J16",
                "NFPA 54-2012 9.6.4",
                &["Leave these off until the test is over: 1 connector, 1 quick-disconnect coupling."],
            ),
            (
                "test",
                "R11 R12 R13 R14",
                "IFGC 2018 406.3",
                &[
                    "every joint exposed",
                    "Appliances disconnected, or isolated",
                    "never oxygen",
                ],
            ),
            (
                "show",
                "R11 R12 R13 R14",
                PRACTICE,
                &["inspector", "before it is connected, concealed or painted"],
            ),
            ("tell", "J7 J11", PRACTICE, &["Water heater (A), Dryer (B)"]),
            (
                "shut",
                "J2",
                PRACTICE,
                &[
                    "Shut off house valve (J2): the nearest existing valve",
                    "Lock or tag it",
                ],
            ),
            (
                "prove",
                "J7 J8",
                PRACTICE,
                &[
                    "before opening any pipe",
                    "at Water heater (A)",
                    "no pressure comes back",
                ],
            ),
            (
                "cut-in",
                "J8",
                PRACTICE,
                &["Only after the new pipe has passed its test", "Cut CSST square"],
            ),
            (
                "join",
                "J8 J15 J16 J17",
                PRACTICE,
                &[
                    "Make up the tubing nuts last",
                    "1 connector, 1 quick-disconnect coupling",
                ],
            ),
            (
                "turn-on",
                "J2 J1",
                "IFGC 2018 406.6.1, 406.6.2",
                &[
                    "check the whole system",
                    "open fittings and ends",
                    "plugged or capped",
                    "lock or tag from house valve (J2)",
                    "The service regulator at meter (J1)",
                ],
            ),
            (
                "leak-check",
                "J8 R11 R12 R13 R14 J15 J16",
                "IFGC 2018 406.5.1",
                &[
                    "At once, with the gas on",
                    "approved gas detector or non-corrosive leak-detection fluid",
                    "watch the smallest dial of the meter: it must not move",
                ],
            ),
            (
                "purge",
                "R11 R12 R13 R14",
                "IFGC 2018 406.7.2.1",
                &[
                    "listed combustible-gas detector",
                    "continuous source of ignition",
                    "Neither smell nor a person watching",
                ],
            ),
            (
                "relight",
                "J7 J11",
                "IFGC 2018 406.6.4",
                &[
                    "Relight: Water heater (A), Dryer (B).",
                    "shuts the gas off: Water heater (A).",
                ],
            ),
            ("first-light", "J17", PRACTICE, &["Start up: Griddle (C)", "lid open"]),
            ("pressures", "J7 J11 J17", PRACTICE, &["With every appliance firing"]),
            ("seal", "R12", "NFPA 54-2012 7.2.1", &["exterior wall"]),
            (
                "paint",
                "R13 R14",
                "NFPA 54-2012 7.2.1",
                &["Do not paint hoses, connectors"],
            ),
            ("tag", "J14", PRACTICE, &["at shutoff valve J14"]),
            (
                "owner",
                "J2 J14",
                PRACTICE,
                &["house valve (J2), shutoff valve J14", "how to disconnect the hose"],
            ),
        ],
    );
}

/// The same with a branch of tubing, R11, made up and bonded; steel is R12 to R14: 5'-6" + 4" + 5" = 6'-3".
#[test]
fn tubing_from_a_tee_in_tubing() {
    let all = "R11 R12 R13 R14";
    check(
        &read(include_str!("../jobs/tubing-branch.ron")),
        &[
            (
                "penetrate",
                "R12",
                PRACTICE,
                &["the exterior wall before running any pipe"],
            ),
            (
                "run",
                all,
                PRACTICE,
                &[
                    "6'-3\" of 1/2\" steel",
                    "3'-0\" of EHD 23 CSST",
                    "the tee for behind the dryer (J8)",
                ],
            ),
            (
                "make-up",
                "R11",
                PRACTICE,
                &["Cut CSST square", "the manufacturer's own fitting"],
            ),
            (
                "bond",
                "R11",
                "IRC 2018 G2411.2",
                &["6 AWG copper", "never on the tubing"],
            ),
            (
                "fit-outside",
                "J13 J14 J15",
                PRACTICE,
                &["for Griddle (C): 90° elbow", "shutoff valve (J14), reducing coupling"],
            ),
            ("connect", "J14 J15 J16", "NFPA 54-2012 9.6.4", &["Leave these off"]),
            ("test", all, "IFGC 2018 406.3", &["every joint exposed"]),
            ("show", all, PRACTICE, &["inspector"]),
            ("tell", "J7 J11", PRACTICE, &["Water heater (A), Dryer (B)"]),
            ("shut", "J2", PRACTICE, &["house valve (J2)"]),
            ("prove", "J7 J8", PRACTICE, &["at Water heater (A)"]),
            ("cut-in", "J8", PRACTICE, &["Only after", "Cut CSST square"]),
            ("join", "J8 J15 J16 J17", PRACTICE, &["Make up the tubing nuts last"]),
            ("turn-on", "J2 J1", "IFGC 2018 406.6.1", &["check the whole system"]),
            (
                "leak-check",
                "J8 R11 R12 R13 R14 J15 J16",
                "IFGC 2018 406.5.1",
                &["At once"],
            ),
            (
                "purge",
                all,
                "IFGC 2018 406.7.2.1",
                &["Neither smell nor a person watching"],
            ),
            (
                "relight",
                "J7 J11",
                "IFGC 2018 406.6.4",
                &["Relight: Water heater (A), Dryer (B)."],
            ),
            ("first-light", "J17", PRACTICE, &["Start up: Griddle (C)"]),
            ("pressures", "J7 J11 J17", PRACTICE, &[]),
            ("seal", "R12", "NFPA 54-2012 7.2.1", &[]),
            ("paint", "R13 R14", "NFPA 54-2012 7.2.1", &[]),
            ("tag", "J14", PRACTICE, &[]),
            ("owner", "J2 J14", PRACTICE, &[]),
        ],
    );
}

/// The same in steel with an elbow that is no street elbow.
#[test]
fn steel_through_the_wall_into_an_elbow() {
    let all = "R11 R12 R13 R14";
    check(
        &read(include_str!("../jobs/street-elbow-through-wall.ron")),
        &[
            ("penetrate", "R12", PRACTICE, &["bore a pilot hole"]),
            ("run", all, PRACTICE, &["9'-3\" of 1/2\" steel"]),
            (
                "fit-outside",
                "J13 J14 J15",
                PRACTICE,
                &["for Griddle (C): 90° elbow", "shutoff valve (J14), reducing coupling"],
            ),
            ("connect", "J14 J15 J16", "NFPA 54-2012 9.6.4", &["Leave these off"]),
            ("test", all, "IFGC 2018 406.3", &["every joint exposed"]),
            ("show", all, PRACTICE, &["inspector"]),
            ("tell", "J7 J11", PRACTICE, &["Water heater (A), Dryer (B)"]),
            ("shut", "J2", PRACTICE, &["house valve (J2)"]),
            ("prove", "J7 J8", PRACTICE, &["at Water heater (A)"]),
            ("cut-in", "J8", PRACTICE, &["Cut CSST square"]),
            ("join", "J8 J15 J16 J17", PRACTICE, &["Make up the tubing nuts last"]),
            (
                "turn-on",
                "J2 J1",
                "IFGC 2018 406.6.1",
                &["The service regulator at meter (J1)"],
            ),
            (
                "leak-check",
                "J8 R11 R12 R13 R14 J15 J16",
                "IFGC 2018 406.5.1",
                &["At once"],
            ),
            (
                "purge",
                all,
                "IFGC 2018 406.7.2.1",
                &["Neither smell nor a person watching"],
            ),
            ("relight", "J7 J11", "IFGC 2018 406.6.4", &["Dryer (B)"]),
            ("first-light", "J17", PRACTICE, &["Start up: Griddle (C)"]),
            ("pressures", "J7 J11 J17", PRACTICE, &[]),
            ("seal", "R12", "NFPA 54-2012 7.2.1", &[]),
            ("paint", "R13 R14", "NFPA 54-2012 7.2.1", &[]),
            ("tag", "J14", PRACTICE, &[]),
            ("owner", "J2 J14", PRACTICE, &[]),
        ],
    );
}

/// No valve is drawn upstream of the tee J4: the supplier shuts at J1, and the dryer (A) alone goes out. New pipe is R7, R8,
/// R9 and R11: 8" + 6'-2" + 2-1/16" + 3" = 87-1/16" = 7'-3 1/16"; R12 and R13 are hose. R8 goes through the rim joist 5'-8"
/// from the union, so that the valve J9 at its end stands outside.
#[test]
fn an_outlet_through_the_rim_joist() {
    let all = "R7 R8 R9 R11";
    check(
        &read(include_str!("../jobs/rim-joist-outlet.ron")),
        &[
            (
                "penetrate",
                "R8",
                PRACTICE,
                &["the exterior wall before running any pipe", "Install the sleeve"],
            ),
            (
                "run",
                all,
                PRACTICE,
                &["7'-3 1/16\" of 1/2\" steel", "the tee for tie-in (J4)"],
            ),
            (
                "fit-outside",
                "J9 J10 J12",
                PRACTICE,
                &[
                    "for Griddle (B): shutoff valve (J9), 90° street elbow",
                    "(J10), reducing coupling",
                    "after the test quick-disconnect coupling (J12)",
                ],
            ),
            (
                "connect",
                "J8 J9 J12 J13",
                "NFPA 54-2012 9.6.4",
                &["Install in the line: 1 union."],
            ),
            ("test", all, "IFGC 2018 406.3", &["every joint exposed"]),
            ("show", all, PRACTICE, &["inspector"]),
            ("tell", "J7", PRACTICE, &["Dryer (A)"]),
            (
                "shut",
                "J1",
                PRACTICE,
                &["point of delivery, meter (J1)", "supplier's valve"],
            ),
            ("prove", "J7 J4", PRACTICE, &["at Dryer (A)"]),
            ("cut-in", "J4", PRACTICE, &["Cut CSST square"]),
            ("join", "J4 J12 J13 J14", PRACTICE, &["Make up the tubing nuts last"]),
            (
                "turn-on",
                "J1",
                "IFGC 2018 406.6.1",
                &[
                    "The supplier says who may open it",
                    "The service regulator at meter (J1)",
                ],
            ),
            (
                "leak-check",
                "J4 R7 R8 R9 R11 J12 J13",
                "IFGC 2018 406.5.1",
                &["At once", "watch the smallest dial of the meter: it must not move"],
            ),
            (
                "purge",
                all,
                "IFGC 2018 406.7.2.1",
                &["Neither smell nor a person watching"],
            ),
            ("relight", "J7", "IFGC 2018 406.6.4", &["Relight: Dryer (A)."]),
            ("first-light", "J14", PRACTICE, &["Start up: Griddle (B)"]),
            ("pressures", "J7 J14", PRACTICE, &[]),
            ("seal", "R8", "NFPA 54-2012 7.2.1", &[]),
            (
                "paint",
                "R9 R11",
                "NFPA 54-2012 7.2.1",
                &["Do not paint hoses, connectors"],
            ),
            ("tag", "J9", PRACTICE, &[]),
            ("owner", "J1 J9", PRACTICE, &["meter (J1), shutoff valve J9"]),
        ],
    );
}

/// The cabin on propane: its regulator is set before anything is lit, leak test, lock-up and flow are asked for, and what
/// only comes out of the ground is not sealed.
#[test]
fn propane_is_tested_three_ways_and_soil_is_not_sealed() {
    let job = read(include_str!("../../examples/propane-cabin.ron"));
    let order = order(&job);
    let words = |id: &str| order.step(id).unwrap().words.clone();
    assert!(words("set-regulator").contains("cabin regulator (J9) to 11 in w.c."));
    assert!(words("set-regulator").contains("locks up"));
    let propane = words("propane-test");
    for wanted in [
        "leak test",
        "lock-up pressure at cabin regulator (J9)",
        "flow pressure",
        "Propane sinks",
    ] {
        assert!(propane.contains(wanted), "{wanted}: {propane}");
    }
    assert!(words("pressures").contains("flow pressure"));
    // Runs R3 and R5 pass the ground line alone; R10 passes the wall.
    assert_eq!(order.step("seal").unwrap().places, [Place::Run(RunId(10))]);
    assert_eq!(order.step("penetrate").unwrap().places, [Place::Run(RunId(10))]);
}

/// Words that a person keeps in a job file go by ids that were given before; all of them are ids still.
#[test]
fn what_is_only_taken_out_is_not_joined_and_no_union_is_made_up() {
    let job = read(include_str!("../jobs/replaced-between-standing-pipe.ron"));
    let order = order(&job);
    let step = |id: &str| order.steps.iter().find(|step| step.id == id).unwrap();
    let joints = |ids: &[u32]| ids.iter().map(|&id| Place::Joint(JointId(id))).collect::<Vec<_>>();
    // Joined are the two ends at standing pipe and the range; valve (J6) and dryer (J7) are gone.
    assert_eq!(step("join").places, joints(&[3, 4, 11]));
    let leaks = &step("leak-check").places;
    assert!(
        joints(&[6, 7]).iter().all(|gone| !leaks.contains(gone)) && leaks.contains(&Place::Joint(JointId(3))),
        "{leaks:?}"
    );
    // The union stands on the range's branch: the 10 ft between two standing lengths has none.
    let words = &step("join").words;
    assert!(
        words.contains("has no union drawn in it") && !words.contains("by its union"),
        "{words}"
    );
}

#[test]
fn what_stayed_off_is_put_in_where_it_stands() {
    let job = read(include_str!("../jobs/everyday-tubing-tee.ron"));
    let order = order(&job);
    let join = order.steps.iter().find(|step| step.id == "join").unwrap();
    for joint in [8, 15, 16, 17] {
        assert!(join.places.contains(&Place::Joint(JointId(joint))), "{:?}", join.places);
    }
}

#[test]
fn ids_of_before_are_ids_still() {
    let mut known: Vec<&str> = Vec::new();
    let mut take = |job: &Job| known.extend(order(job).steps.iter().map(|step| step.id));
    for text in [
        include_str!("../../examples/propane-cabin.ron"),
        include_str!("../../examples/two-pressure-house.ron"),
        include_str!("../../examples/patio-kitchen.ron"),
        include_str!("../jobs/everyday-tubing-tee.ron"),
    ] {
        take(&read(text));
    }
    let mut removed = read(include_str!("../jobs/everyday-tubing-tee.ron"));
    for run in [8, 9, 10] {
        removed.runs.get_mut(RunId(run)).unwrap().state = State::Removed;
    }
    take(&removed);
    for id in [
        "tell",
        "shut",
        "prove",
        "take-out",
        "cut-in",
        "run",
        "penetrate",
        "bury",
        "bond",
        "connect",
        "test",
        "show",
        "join",
        "purge",
        "leak-check",
        "paint",
        "relight",
        "seal",
    ] {
        assert!(known.contains(&id), "{id}");
    }
}

/// A clause of one code is not cited under another.
#[test]
fn the_basis_goes_by_the_code_of_the_profile() {
    let mut job = read(include_str!("../jobs/everyday-tubing-tee.ron"));
    let basis = |job: &Job, id: &str| order(job).step(id).unwrap().basis().to_owned();
    assert!(basis(&job, "purge").starts_with("IFGC 2018 406.7.2.1"));
    // CPC 2013 1210.2 and 1211.5 carry NFPA 54-2012 7.2.1 and 9.6.4.
    for (id, clause) in [("connect", "9.6.4"), ("seal", "7.2.1"), ("paint", "7.2.1")] {
        assert!(basis(&job, id).starts_with(&format!("NFPA 54-2012 {clause}")), "{id}");
    }
    job.settings.profile = "us-ca".to_owned();
    assert!(basis(&job, "purge").starts_with("CPC 2013 table 1213.6.1"));
    job.settings.profile = "ca-b149".to_owned();
    for id in ["purge", "test", "connect", "seal", "paint"] {
        let basis = basis(&job, id);
        let is_said = basis.contains("no clause of CSA B149.1 was read") || basis.contains("(not read)");
        assert!(is_said, "{id}: {basis}");
    }
    assert!(basis(&job, "purge").contains("not read"));
}

/// Nothing that burns, hangs in a hose or lies behind a coupling is pipe, of whatever material the job's pipe is.
#[test]
fn a_hose_is_of_no_material() {
    for material in [Material::Pe, Material::Csst, Material::Steel40] {
        let mut job = read(include_str!("../jobs/everyday-tubing-tee.ron"));
        job.settings.material = material;
        let checked = Checked::of(&job, Codebook::published());
        let hoses = [15, 16].map(|run| Place::Run(RunId(run)));
        for rule in [
            "csst-unbonded",
            "pe-above-ground",
            "material-not-listed",
            "exterior-steel-bare",
        ] {
            for found in checked.findings.iter().filter(|found| found.rule == rule) {
                let mut places = found.also.iter().chain([&found.place]);
                assert!(
                    !places.any(|place| hoses.contains(place)),
                    "{material:?}: {}",
                    found.what
                );
            }
        }
        // The valve at the end of the pipe is 5 in before the coupling; the hose of 12 ft is not counted.
        assert!(checked.findings.iter().all(|found| found.rule != "shutoff-missing"));
    }
}

/// Pairs of which the first, where both are there, stands before the second.
const IN_TURN: [(&str, &str); 24] = [
    ("tell", "shut"),
    ("shut", "prove"),
    ("prove", "take-out"),
    ("prove", "cut-in"),
    ("prove", "cut-tubing"),
    ("penetrate", "run"),
    // Tubing with its fittings on goes through no bored hole.
    ("run", "make-up"),
    ("run", "fit-outside"),
    ("run", "test"),
    ("connect", "test"),
    ("test", "show"),
    ("show", "join"),
    ("test", "cut-tubing"),
    ("cut-in", "join"),
    ("join", "turn-on"),
    ("turn-on", "set-regulator"),
    ("set-regulator", "leak-check"),
    ("turn-on", "leak-check"),
    ("leak-check", "purge"),
    ("purge", "relight"),
    ("purge", "first-light"),
    ("leak-check", "paint"),
    ("first-light", "pressures"),
    ("relight", "pressures"),
];

/// Ends some runs of a job in a coupling, a hose and an appliance, and pierces some by the ground line alone.
fn with_hoses(job: &mut Job, seed: u64) {
    let outlets: Vec<JointId> = job
        .joints
        .iter()
        .filter(|joint| matches!(joint.device(), Some(Device::Appliance(_))))
        .map(|joint| joint.id)
        .collect();
    let mut run = job.runs.iter().map(|run| run.id.0).max().unwrap_or(0);
    let mut joint = job.joints.iter().map(|joint| joint.id.0).max().unwrap_or(0);
    for (at, outlet) in outlets.into_iter().enumerate() {
        if (at as u64 + seed).is_multiple_of(2) {
            continue;
        }
        // The appliance moves to the end of a hose; where it stood is a coupling or a connector.
        let mut placed = job.joints.get(outlet).unwrap().placed.clone();
        if let Some(Device::Appliance(appliance)) = placed.as_mut().map(|placed| &mut placed.device) {
            appliance.class = Some("barbecue".to_owned());
        }
        let old = job.joints.get_mut(outlet).unwrap();
        let device = match at % 2 {
            0 => Device::QuickCoupling(QuickCoupling::default()),
            _ => Device::Connector(Connector::default()),
        };
        old.placed = Some(Placed {
            state: State::New,
            ..Placed::new(device)
        });
        let from = old.at;
        joint += 1;
        run += 1;
        job.joints.insert(Joint {
            id: JointId(joint),
            at: LatticePoint::new(from.east, from.north, from.up - 1),
            placed,
            ..Joint::default()
        });
        job.runs.insert(Run {
            id: RunId(run),
            from: outlet,
            to: JointId(joint),
            state: State::New,
            surroundings: Surroundings::Outdoors,
            penetrations: vec![Penetration {
                barrier: Barrier::Ground,
                ..Penetration::default()
            }],
            ..Run::default()
        });
    }
    let runs: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for id in runs.into_iter().step_by(3) {
        job.runs.get_mut(id).unwrap().penetrations.push(Penetration {
            barrier: Barrier::Ground,
            ..Penetration::default()
        });
    }
    // A new line regulator somewhere, fed at 2 psi.
    if let Some(joint) = job
        .joints
        .iter()
        .find(|joint| joint.placed.is_none())
        .map(|joint| joint.id)
    {
        job.joints.get_mut(joint).unwrap().placed = Some(Placed::new(Device::Regulator(Regulator {
            outlet: Some(GaugePressure::from_inches_wc(7.0)),
            ..Regulator::default()
        })));
    }
}

#[test]
fn steps_of_any_job_hurt_nobody() {
    let mut seen: BTreeMap<&'static str, usize> = BTreeMap::new();
    let mut hoses = 0;
    let random = (0..60).map(|seed| {
        let mut job = random_job(seed, 30);
        with_hoses(&mut job, seed);
        (seed, job)
    });
    let wild = (0..300).map(|seed| (seed, wild_job(seed, 14)));
    for (seed, job) in random.chain(wild) {
        let study = Study::of(&job, Codebook::published());
        hoses += study.runs.iter().filter(|run| run.is_hose).count();
        let order = order(&job);
        let at = |id: &str| order.steps.iter().position(|step| step.id == id);
        for (first, second) in IN_TURN {
            if let (Some(first_at), Some(second_at)) = (at(first), at(second)) {
                assert!(first_at < second_at, "{seed}: {first} before {second}");
            }
        }
        // Whatever is set, is set before the first appliance burns, and a new regulator is set.
        let new = |joint: &Joint| joint.placed.as_ref().is_some_and(|placed| placed.state == State::New);
        let set = (job.joints.iter()).any(|joint| new(joint) && matches!(joint.device(), Some(Device::Regulator(_))));
        assert_eq!(at("set-regulator").is_some(), set, "{seed}");
        for lit in ["relight", "first-light", "pressures"].into_iter().filter_map(at) {
            assert!(at("set-regulator").is_none_or(|set| set < lit), "{seed}");
            assert!(at("leak-check").is_some_and(|leak| leak < lit), "{seed}");
        }
        // New pipe is tested and inspected, wherever it lies.
        let new_pipe = job
            .runs
            .iter()
            .zip(&study.runs)
            .any(|(run, of)| run.state == State::New && !of.is_hose);
        assert_eq!([at("test").is_some(), at("show").is_some()], [new_pipe; 2], "{seed}");
        for step in &order.steps {
            *seen.entry(step.id).or_default() += 1;
            let says_how_sure = ["(F)", "(M)", PRACTICE].iter().any(|mark| step.note.contains(mark));
            assert!(says_how_sure, "{}: {}", step.id, step.note);
            for place in &step.places {
                let Place::Run(id) = place else { continue };
                let run = job.runs.position(*id).unwrap();
                assert!(!study.runs[run].is_hose, "{seed}: {} names the hose {id}", step.id);
                if step.id == "seal" || step.id == "penetrate" {
                    let passages = &job.runs.at(run).penetrations;
                    assert!(
                        passages.iter().any(|passage| passage.barrier != Barrier::Ground),
                        "{seed}: {id}"
                    );
                }
            }
            assert!(
                !step.words.contains("somebody watches") && !step.words.contains("smell,"),
                "{}",
                step.words
            );
        }
    }
    assert!(hoses > 50, "{hoses} hoses");
    for id in [
        "set-regulator",
        "first-light",
        "cut-in",
        "penetrate",
        "seal",
        "purge",
        "bury",
        "make-up",
    ] {
        assert!(
            seen.get(id).is_some_and(|times| *times > 10),
            "{id} is hardly ever there: {seen:?}"
        );
    }
}

/// A job of which one line is told in `steps`, from the text of its joints and runs.
fn small(joints: &str, runs: &str) -> Job {
    let settings = "settings: (profile: \"us-ifgc\", material: steel), gas: (fuel: natural)";
    read(&format!("(version: 1, {settings}, joints: [{joints}], runs: [{runs}])"))
}

const METER: &str = r#"(id: 1, at: (0, 0, 0), label: "meter", device: supply(pressure: "7 in w.c."), state: existing)"#;

/// The dryer and all behind its valve go: the valve stays shut and is plugged, and no gas is let in there.
#[test]
fn a_valve_with_nothing_behind_it_stays_shut() {
    let joints = format!(
        r#"{METER}, (id: 2, at: (4, 0, 0)), (id: 3, at: (8, 0, 0), device: appliance(name: "Boiler", input: "80 MBH"), state: existing),
        (id: 4, at: (4, 4, 0), device: valve(), state: existing),
        (id: 5, at: (4, 8, 0), device: appliance(name: "Old dryer", input: "30 MBH"), state: removed)"#
    );
    let runs = r#"(id: 1, from: 1, to: 2, length: "10'", state: existing, size: "3/4"), (id: 2, from: 2, to: 3, length: "10'", state: existing, size: "1/2"),
        (id: 3, from: 2, to: 4, length: "10'", state: existing, size: "1/2"), (id: 4, from: 4, to: 5, length: "3'", state: removed, size: "1/2")"#;
    let order = order(&small(&joints, runs));
    let ids: Vec<&str> = order.steps.iter().map(|step| step.id).collect();
    assert_eq!(ids, ["tell", "shut", "prove", "take-out", "close-off", "owner"]);
    let words = &order.step("close-off").unwrap().words;
    assert!(
        words.contains("Leave shutoff valve J4 closed") && words.contains("Plug or cap its outlet"),
        "{words}"
    );
}

/// A valve and a union are put into an old drop: the pipe is opened for them, and nobody speaks of new pipe or a test.
#[test]
fn what_is_put_into_old_pipe_needs_it_opened() {
    let joints = format!(
        r#"{METER}, (id: 2, at: (2, 0, 0), device: valve(), state: existing), (id: 3, at: (4, 0, 0), device: valve()),
        (id: 4, at: (6, 0, 0), device: union()), (id: 5, at: (8, 0, 0), device: appliance(name: "Furnace", input: "80 MBH"), state: existing)"#
    );
    let run = |id: u32| {
        format!(
            "(id: {id}, from: {id}, to: {}, length: \"5'\", state: existing, size: \"3/4\")",
            id + 1
        )
    };
    let runs = [1, 2, 3, 4].map(run).join(", ");
    let job = small(&joints, &runs);
    let order = order(&job);
    assert!(
        order
            .step("put-in")
            .unwrap()
            .words
            .contains("shutoff valve J3, union J4")
    );
    assert!(order.step("join").is_none() && order.step("test").is_none());
    let (book, study) = (Codebook::published(), Study::of(&job, Codebook::published()));
    let cuts = CutList::of(&job, &study, book);
    let stock = StockPlan::of(&cuts, &study, book);
    let list = TakeOff::of(&job, &study, book, &cuts, &stock);
    assert!(
        list.lines
            .iter()
            .any(|line| line.what == "nipples" && line.size.contains("to measure"))
    );
}

/// Old pipe on both sides of a standing valve is replaced by a larger size: the valve keeps its own, between two reducers.
#[test]
fn a_standing_valve_keeps_its_size_between_new_pipe() {
    let joints = format!(
        r#"{METER}, (id: 2, at: (4, 0, 0), device: valve(), state: existing),
        (id: 3, at: (8, 0, 0), device: appliance(name: "Boiler", input: "80 MBH"), state: existing)"#
    );
    let runs = r#"(id: 1, from: 1, to: 2, length: "10'", size: "1-1/4", replaces: "1"), (id: 2, from: 2, to: 3, length: "10'", size: "1-1/4", replaces: "1")"#;
    let job = small(&joints, runs);
    let study = Study::of(&job, Codebook::published());
    let reducers = study
        .fittings
        .iter()
        .filter(|fitting| fitting.joint == 1 && fitting.kind == FittingKind::ReducingCoupling);
    assert_eq!(reducers.count(), 2);
    let order = order(&job);
    assert!(
        order
            .step("take-out")
            .unwrap()
            .words
            .contains("20'-0\" of 1\" steel that is replaced")
    );
}

/// A union in line with the tie-in closes the pipe; one behind two turns does not, and the step says so.
#[test]
fn a_union_behind_a_turn_does_not_close_the_tie_in() {
    let joints = |union: u32| {
        let device = |id: u32| if id == union { ", device: union()" } else { "" };
        format!(
            r#"{METER}, (id: 2, at: (4, 0, 0), label: "tie"), (id: 3, at: (8, 0, 0), device: appliance(name: "Boiler", input: "80 MBH"), state: existing),
            (id: 4, at: (4, 4, 0){}), (id: 5, at: (4, 8, 0)), (id: 6, at: (4, 8, 4){}),
            (id: 7, at: (4, 12, 4), device: appliance(name: "Heater", input: "30 MBH"))"#,
            device(4),
            device(6)
        )
    };
    let runs = r#"(id: 1, from: 1, to: 2, length: "10'", state: existing, size: "1"), (id: 2, from: 2, to: 3, length: "10'", state: existing, size: "1"),
        (id: 3, from: 2, to: 4, length: "1'"), (id: 4, from: 4, to: 5, length: "10'"), (id: 5, from: 5, to: 6, length: "5'"), (id: 6, from: 6, to: 7, length: "4'")"#;
    let said = |union: u32| order(&small(&joints(union), runs)).step("join").unwrap().words.clone();
    assert!(
        said(4).contains("Rigid pipe from tie (J2) is made up last, at union J4"),
        "{}",
        said(4)
    );
    assert!(
        said(6).contains("first union beyond a turn, at union J6"),
        "{}",
        said(6)
    );
}

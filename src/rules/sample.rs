//! A small job in good order, and changes to it, for the tests of the rules.
//!
//! A house with a furnace gets a fire pit outdoors:
//!
//! ```text
//!  J1 supply ──R1── J2 ──R3── J4 ──R4── J5       R1 R2 existing, indoors
//!                   │R2       (wall on R4) │R5    R3 new, indoors, R4 … R8 new, outdoors
//!                   J3 furnace             J6 valve
//!                                          │R6
//!                                          J7 union
//!                                          │R7
//!                                          J8 trap ──R8── J9 fire pit
//! ```

use super::{Finding, Found, Rule};
use crate::codebook::{Codebook, Profile};
use crate::job::{
    Appliance, Barrier, Device, Job, Joint, JointId, LatticePoint, Penetration, Placed, Rating, Regulator, Run, RunId,
    Seal, SedimentTrap, State, Supply, Surroundings, Valve, Vent,
};
use crate::rules;
use crate::study::Study;
use crate::units::{Flow, GaugePressure, HeatRate, Length, NominalSize, PressureDrop};

pub const SUPPLY: u32 = 1;
pub const TEE: u32 = 2;
pub const FURNACE: u32 = 3;
pub const BEND: u32 = 4;
pub const VALVE: u32 = 6;
pub const UNION: u32 = 7;
pub const TRAP: u32 = 8;
pub const PIT: u32 = 9;

/// The job of the picture, complete and in good order.
pub fn good() -> Job {
    let mut job = Job::default();
    let places = [
        (0, 0, 6),
        (4, 0, 6),
        (4, 4, 6),
        (8, 0, 6),
        (12, 0, 6),
        (12, 0, 4),
        (12, 0, 3),
        (12, 0, 2),
        (14, 0, 2),
    ];
    for (number, (east, north, up)) in places.into_iter().enumerate() {
        job.joints.insert(Joint {
            id: JointId(number as u32 + 1),
            at: LatticePoint::new(east, north, up),
            ..Joint::default()
        });
    }
    let runs = [
        (1, 2, 10.0),
        (2, 3, 8.0),
        (2, 4, 12.0),
        (4, 5, 6.0),
        (5, 6, 2.0),
        (6, 7, 0.5),
        (7, 8, 0.5),
        (8, 9, 1.5),
    ];
    for (number, (from, to, feet)) in runs.into_iter().enumerate() {
        let number = number as u32 + 1;
        job.runs.insert(Run {
            id: RunId(number),
            from: JointId(from),
            to: JointId(to),
            length: Some(Length::from_feet(feet)),
            size: (number <= 2).then_some(NominalSize::Inch(16)),
            state: if number <= 2 { State::Existing } else { State::New },
            surroundings: if number <= 3 {
                Surroundings::Indoors
            } else {
                Surroundings::Outdoors
            },
            coated: number > 3,
            ..Run::default()
        });
    }
    run(&mut job, 4).penetrations.push(Penetration {
        barrier: Barrier::ExteriorWall,
        at: Some(Length::from_inches(6.0)),
        sleeved: true,
        seal: Seal::BothFaces,
        ..Penetration::default()
    });
    let rated = || Rating {
        capacity: Some(Flow::from_cfh(275.0)),
        drop: Some(PressureDrop::ZERO),
    };
    let supply = Supply {
        pressure: Some(GaugePressure::from_inches_wc(7.0)),
        meter: Some(rated()),
        regulator: Some(rated()),
        ..Supply::default()
    };
    put(&mut job, SUPPLY, Device::Supply(supply)).state = State::Existing;
    let furnace = burner("Furnace", "furnace or boiler, one family", 60_000.0);
    put(&mut job, FURNACE, furnace).state = State::Existing;
    put(&mut job, VALVE, Device::Valve(Valve::default()));
    put(&mut job, UNION, Device::Union);
    let trap = SedimentTrap {
        depth: Some(Length::from_inches(3.0)),
    };
    put(&mut job, TRAP, Device::SedimentTrap(trap));
    put(&mut job, PIT, burner("Fire pit", "fire pit", 65_000.0));
    let title = &mut job.title;
    for field in [
        &mut title.job,
        &mut title.site,
        &mut title.owner,
        &mut title.firm,
        &mut title.licence_holder,
        &mut title.licence,
        &mut title.drawn_by,
        &mut title.drawing,
        &mut title.date,
        &mut title.description,
    ] {
        "invented".clone_into(field);
    }
    job
}

fn burner(name: &str, class: &str, btuh: f64) -> Device {
    Device::Appliance(Appliance {
        name: name.to_owned(),
        class: Some(class.to_owned()),
        input: Some(HeatRate::from_btuh(btuh)),
        least_inlet: Some(GaugePressure::from_inches_wc(5.0)),
        greatest_inlet: Some(GaugePressure::from_inches_wc(14.0)),
        ..Appliance::default()
    })
}

pub fn run(job: &mut Job, number: u32) -> &mut Run {
    job.runs.get_mut(RunId(number)).expect("a run of the sample")
}

pub fn joint(job: &mut Job, number: u32) -> &mut Joint {
    job.joints.get_mut(JointId(number)).expect("a joint of the sample")
}

/// Puts a new device on a joint.
pub fn put(job: &mut Job, number: u32, device: Device) -> &mut Placed {
    joint(job, number).placed.insert(Placed::new(device))
}

/// Leaves a joint bare.
pub fn clear(job: &mut Job, number: u32) {
    joint(job, number).placed = None;
}

pub fn appliance(job: &mut Job, number: u32) -> &mut Appliance {
    match joint(job, number).placed.as_mut().map(|placed| &mut placed.device) {
        Some(Device::Appliance(appliance)) => appliance,
        _ => panic!("no appliance at J{number}"),
    }
}

pub fn supply(job: &mut Job) -> &mut Supply {
    match joint(job, SUPPLY).placed.as_mut().map(|placed| &mut placed.device) {
        Some(Device::Supply(supply)) => supply,
        _ => panic!("no supply"),
    }
}

/// A line regulator set to 7 in w.c., in good order.
pub fn regulator() -> Regulator {
    Regulator {
        outlet: Some(GaugePressure::from_inches_wc(7.0)),
        allowed_drop: None,
        rating: Rating {
            capacity: Some(Flow::from_cfh(250.0)),
            drop: Some(PressureDrop::from_psi(0.5)),
        },
        vent: Vent::Outdoors,
    }
}

/// New pipe from a joint to a new joint so many steps away; gives the number of that joint. It lies where and is made
/// of what the pipe is that meets it first.
pub fn extend(job: &mut Job, from: u32, (east, north, up): (i32, i32, i32)) -> u32 {
    let start = joint(job, from).at;
    let id = job.joints.free_id();
    job.joints.insert(Joint {
        id,
        at: LatticePoint::new(start.east + east, start.north + north, start.up + up),
        ..Joint::default()
    });
    let like = job
        .runs
        .iter()
        .find(|run| run.from == JointId(from) || run.to == JointId(from));
    let like = like.cloned().unwrap_or_default();
    job.runs.insert(Run {
        id: job.runs.free_id(),
        from: JointId(from),
        to: id,
        length: Some(Length::from_feet(4.0)),
        size: None,
        state: State::New,
        penetrations: Vec::new(),
        ..like
    });
    id.0
}

/// What one rule finds in a job under a profile.
pub fn found_under(rule: &'static Rule, job: &Job, profile: &Profile) -> Vec<Finding> {
    let book = Codebook::published();
    let study = Study::under(job, book, profile);
    let walk = rules::Walk::of(job, &study);
    let look = rules::Look {
        job,
        book,
        profile,
        tables: &book.tables_for(profile, &job.settings),
        study: &study,
        walk: &walk,
    };
    let mut list = Vec::new();
    let basis = rule.basis_under(book, profile.family);
    (rule.check)(&look, &mut Found::by(rule, rule.severity, basis, &mut list));
    list
}

/// Changes the good job and expects so many findings of a rule, each worded as all findings must be.
#[track_caller]
pub fn check(rule: &'static Rule, expected: usize, change: impl FnOnce(&mut Job)) -> Vec<Finding> {
    check_under(rule, Codebook::published().default_profile(), expected, change)
}

/// The same under a profile.
#[track_caller]
pub fn check_under(
    rule: &'static Rule,
    profile: &Profile,
    expected: usize,
    change: impl FnOnce(&mut Job),
) -> Vec<Finding> {
    let mut job = good();
    change(&mut job);
    let list = found_under(rule, &job, profile);
    let told: Vec<&str> = list.iter().map(|finding| finding.what.as_str()).collect();
    assert_eq!(list.len(), expected, "{}: {told:#?}", rule.id);
    list.iter().for_each(worded_well);
    list
}

/// Asserts what holds for the words of every finding.
#[track_caller]
pub fn worded_well(finding: &Finding) {
    let text = format!("{} {}", finding.what, finding.remedy);
    for word in ["compl", "safe", "NaN", "inf ", "  ", "None", "Some("] {
        assert!(!text.contains(word), "{}: `{word}` in: {text}", finding.rule);
    }
    for sentence in [&finding.what, &finding.remedy] {
        assert!(sentence.ends_with('.'), "{}: no sentence: {sentence}", finding.rule);
        let first = sentence.chars().next().unwrap_or(' ');
        assert!(first.is_uppercase() || first.is_numeric(), "{sentence}");
    }
}

//! A small house for the tests of this room.
//!
//! ```text
//! J1 supply (0,0,0) ─R1─ J2 (0,0,4) ─R2─ J3 (6,0,4) ─R3─ J4 (6,4,4) ─R4─ J5 cap (9,4,4)
//!                                        └R5─ J6 appliance (6,0,1)
//! ```

use super::{Part, Refusal, Step};
use crate::job::{Appliance, Cap, Device, Job, Joint, JointId, LatticePoint, Placed, Run, RunId, Supply};
use crate::units::GaugePressure;

/// A place.
pub fn at(east: i32, north: i32, up: i32) -> LatticePoint {
    LatticePoint::new(east, north, up)
}

/// A joint as a part.
#[allow(non_snake_case)]
pub fn J(number: u32) -> Part {
    Part::Joint(JointId(number))
}

/// A run as a part.
#[allow(non_snake_case)]
pub fn R(number: u32) -> Part {
    Part::Run(RunId(number))
}

/// A run of a job.
#[track_caller]
pub fn run(job: &Job, number: u32) -> &Run {
    job.runs.get(RunId(number)).unwrap()
}

/// The small house.
pub fn house() -> Job {
    let supply = Device::Supply(Supply {
        pressure: Some(GaugePressure::from_inches_wc(7.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    });
    let joints = [
        (at(0, 0, 0), Some(supply)),
        (at(0, 0, 4), None),
        (at(6, 0, 4), None),
        (at(6, 4, 4), None),
        (at(9, 4, 4), Some(Device::Cap(Cap::default()))),
        (at(6, 0, 1), Some(Device::Appliance(Appliance::default()))),
    ];
    let joints = joints.into_iter().enumerate().map(|(index, (at, device))| Joint {
        id: JointId(index as u32 + 1),
        at,
        placed: device.map(Placed::new),
        ..Joint::default()
    });
    let runs = [(1, 2), (2, 3), (3, 4), (4, 5), (3, 6)];
    let runs = runs.into_iter().enumerate().map(|(index, (from, to))| Run {
        id: RunId(index as u32 + 1),
        from: JointId(from),
        to: JointId(to),
        ..Run::default()
    });
    Job {
        joints: joints.collect(),
        runs: runs.collect(),
        ..Job::default()
    }
}

/// The job after an edit; the way back is tried too.
#[track_caller]
pub fn done(job: &Job, step: Result<Step, Refusal>) -> Job {
    let step = step.unwrap_or_else(|refusal| panic!("refused: {refusal}"));
    let mut after = job.clone();
    step.apply(&mut after).unwrap();
    let mut back = after.clone();
    step.inverse().apply(&mut back).unwrap();
    assert_eq!(back, *job, "{} is not taken back whole", step.name());
    after
}

/// Asserts that an edit is refused in such words.
#[track_caller]
pub fn refused(_job: &Job, step: Result<Step, Refusal>, words: &str) {
    match step {
        Ok(step) => panic!("{} was not refused", step.name()),
        Err(refusal) => assert!(refusal.to_string().contains(words), "{refusal}"),
    }
}

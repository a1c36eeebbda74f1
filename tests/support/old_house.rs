//! A house that stands, to which something is added: worked by hand in `tests/study/audit.rs`. Used as a module beside
//! `draft.rs`.
#![allow(dead_code)]

use crate::draft::Draft;
use stubout::job::*;
use stubout::units::*;

pub fn inch(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

/// A house of three appliances, of which the range goes and a grill comes, at a new tee in the old main:
///
/// ```text
///   J1 meter 200 cfh ──1" 20 ft── J2 ──1" 10 ft── J3 ──3/4" 20 ft── J4 furnace 80,000
///                                 │ new 65 ft      ├──1/2" 15 ft── J5 heater 40,000
///                                 J7 grill 100,000 └──1/2" 10 ft── J6 range 35,000, goes
/// ```
pub fn house() -> (Draft, [JointId; 7]) {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let places = [(0, 0), (4, 0), (6, 0), (10, 0), (6, 3), (6, -2), (4, 9)];
    let at = places.map(|(east, north)| draft.at(east, north, 0));
    for (from, to, feet, size) in [
        (0, 1, 20.0, "1"),
        (1, 2, 10.0, "1"),
        (2, 3, 20.0, "3/4"),
        (2, 4, 15.0, "1/2"),
        (2, 5, 10.0, "1/2"),
    ] {
        draft.existing(at[from], at[to], feet, inch(size));
    }
    draft.run(at[1], at[6], 65.0);
    draft.run_mut(RunId(5)).state = State::Removed;
    for (joint, name, btuh) in [
        (3, "Furnace", 80e3),
        (4, "Heater", 40e3),
        (5, "Range", 35e3),
        (6, "Grill", 100e3),
    ] {
        draft.burner(at[joint], name, btuh).least_inlet = Some(GaugePressure::from_inches_wc(5.0));
    }
    for joint in [3, 4] {
        draft.joint_mut(at[joint]).placed.as_mut().unwrap().state = State::Existing;
    }
    draft.joint_mut(at[5]).placed.as_mut().unwrap().state = State::Removed;
    let supply = draft.joint_mut(at[0]).placed.as_mut().unwrap();
    supply.state = State::Existing;
    if let Device::Supply(supply) = &mut supply.device {
        supply.meter = Some(Rating {
            capacity: Some(Flow::from_cfh(200.0)),
            drop: None,
        });
    }
    (draft, at)
}

//! Excess-flow valves that would shut on the load, or of which too little is entered to be judged.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};

/// A valve that trips at its load leaves appliances without gas, and one of unknown loss leaves every pressure behind it
/// reckoned too high. What it trips at and what it loses is its manufacturer's to say.
pub const RULE: Rule = Rule {
    id: "excess-flow",
    title: "An excess-flow valve trips at its load, or its trip flow or loss is not entered",
    severity: Severity::MustFix,
    basis: "the manufacturer's sheet of the valve; no clause read",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::ExcessFlow) {
        let Some(device @ Device::ExcessFlow { trips, .. }) = look.device(joint) else {
            continue;
        };
        let Some(study) = look.study.devices.iter().find(|study| study.joint == joint) else {
            continue;
        };
        let (place, load) = (look.joint_name(joint), look.show(study.flow));
        let mut missing = Vec::new();
        match study.capacity {
            None => missing.push("trip flow"),
            Some(trip) if !device.nature().limit.allows(study.flow, trip) => found.at(
                look.at(joint),
                format!(
                    "The excess-flow valve at {place} trips at {}, and its load is {load}: it would trip in normal use.",
                    look.show(trips.unwrap_or(trip))
                ),
                "Use one whose trip flow is above the load, by its manufacturer's sheet.",
            ),
            Some(_) => {}
        }
        if study.drop.is_none() {
            missing.push("pressure loss at a stated flow");
        }
        if !missing.is_empty() {
            found.at(
                look.at(joint),
                format!(
                    "No {} is entered for the excess-flow valve at {place}, so it was not counted.",
                    missing.join(" and no ")
                ),
                "Enter the figures from the manufacturer's sheet.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put};
    use super::RULE;
    use crate::job::{Device, Job, Rating};
    use crate::units::{Flow, PressureDrop};

    /// An excess-flow valve before the fire pit, whose load is 65 cfh.
    fn valve(trips: Option<f64>, drop: Option<f64>) -> impl Fn(&mut Job) {
        move |job| {
            let loss = Rating {
                capacity: Some(Flow::from_cfh(100.0)),
                drop: drop.map(PressureDrop::from_inches_wc),
            };
            let trips = trips.map(Flow::from_cfh);
            put(job, BEND, Device::ExcessFlow { trips, loss });
        }
    }

    #[test]
    fn it_trips_above_its_load_or_is_told() {
        for (trips, told) in [(64.0, 1), (65.0, 1), (65.5, 0), (400.0, 0)] {
            check(&RULE, told, valve(Some(trips), Some(0.2)));
        }
    }

    #[test]
    fn what_is_not_entered_is_asked_for_in_one_finding() {
        let found = check(&RULE, 1, valve(None, None));
        assert!(
            found[0].what.contains("trip flow and no pressure loss"),
            "{}",
            found[0].what
        );
        check(&RULE, 1, valve(Some(400.0), None));
        check(&RULE, 1, valve(None, Some(0.2)));
    }
}
